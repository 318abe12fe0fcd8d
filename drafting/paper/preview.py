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
from drafting.polyline import bounds

LONGEST = 1600
"""Pixels of the picture's longer side."""

FINER = 2
"""It is drawn so many times larger, then made smaller: that smooths its lines."""

MARGIN = 12.0
INK, SOFT, PAPER = 0, 150, 255
SOFT_LINES = ("sew", "let-out", "bone", "level", "mark")
LEAST_TYPE = 15
"""Pixels: the size of the words where those of the pattern would come out smaller."""


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
    """The piece's name in its label's place, one word a row; its number alone where the name is wider than the piece."""
    from PIL import ImageFont

    size = max(piece.room.writing * scale, LEAST_TYPE * FINER)
    font = ImageFont.truetype(str(Path(settings.BASE_DIR) / "static" / "fonts" / "NotoSans-Bold.ttf"), round(size))
    left, _, right, _ = bounds(piece.lines.net)
    said = "\n".join(piece.title.split())
    if pen.multiline_textbbox((0, 0), said, font=font)[2] > 0.9 * (right - left) * scale:
        said = piece.number
    at = tuple((side + MARGIN) * scale for side in piece.room.at)
    pen.multiline_text(at, said, fill=INK, font=font, anchor="mm", align="center", stroke_width=FINER * 2, stroke_fill=PAPER)
