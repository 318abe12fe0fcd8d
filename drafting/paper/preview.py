"""The pattern as one small picture, PNG: to be looked at or sent along, never to be cut by."""

from __future__ import annotations

import io
from collections.abc import Iterable, Mapping
from pathlib import Path

from django.conf import settings

from drafting.paper.about import About
from drafting.paper.choice import Choice
from drafting.paper.files_for_others import one_sheet
from drafting.paper.piece_lines import Line
from drafting.paper.spread import PlacedPiece
from drafting.paper.svg_file import LAYERS

LONGEST = 1600
"""Pixels of the picture's longer side."""

FINER = 2
"""It is drawn so many times larger, then made smaller: that smooths its lines."""

MARGIN = 12.0
INK, SOFT, PAPER = 0, 150, 255
SOFT_LINES = ("sew", "let-out", "bone", "level", "mark")
LEAST_TYPE = 8
"""Pixels; words smaller than that are left out."""


def as_png(order_file: Mapping, result: Mapping, *, choice: Choice | None = None, about: About | None = None) -> bytes:
    """Return the picture, grey on white, without a measure of its own. Raises NothingChosen."""
    from PIL import Image, ImageDraw

    spread = one_sheet(order_file, result, choice or Choice(), about or About())
    (wide, high), *_ = spread.sizes
    scale = FINER * LONGEST / (max(wide, high) + 2 * MARGIN)
    size = [round((side + 2 * MARGIN) * scale) for side in (wide, high)]
    image = Image.new("L", size, PAPER)
    pen = ImageDraw.Draw(image)
    for piece in spread.pieces:
        for name, (_, lines_of) in LAYERS.items():
            thick = FINER * (2 if name == "cut" else 1)
            _strokes(pen, lines_of(piece.lines), scale, SOFT if name in SOFT_LINES else INK, thick)
        _words(pen, piece, scale)
    image = image.resize([max(side // FINER, 1) for side in size], Image.Resampling.BOX)
    out = io.BytesIO()
    image.save(out, "PNG", optimize=True)
    return out.getvalue()


def _strokes(pen, lines: Iterable[Line], scale: float, ink: int, thick: int) -> None:
    for line in lines:
        pen.line([((x + MARGIN) * scale, (y + MARGIN) * scale) for x, y in line], fill=ink, width=thick, joint="curve")


def _words(pen, piece: PlacedPiece, scale: float) -> None:
    """The piece's first words in its middle, where they can be read."""
    from PIL import ImageFont

    size = piece.room.writing * scale
    if not piece.texts or size < LEAST_TYPE * FINER:
        return
    font = ImageFont.truetype(str(Path(settings.BASE_DIR) / "static" / "fonts" / "NotoSans-Bold.ttf"), round(size))
    at = tuple((side + MARGIN) * scale for side in piece.room.at)
    pen.text(at, piece.texts[0], fill=INK, font=font, anchor="mm")
