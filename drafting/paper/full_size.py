"""The pattern at full size: pieces drawn once on a sheet; a large page as it is, or cut into pages to join."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial

from django.template.loader import render_to_string
from django.utils.safestring import SafeString, mark_safe
from shapely import Polygon

from drafting.linework import as_image, number
from drafting.paper.about import About, Heading, heading
from drafting.paper.choice import Choice
from drafting.paper.cover import cover_of
from drafting.paper.letters import LETTERS
from drafting.paper.papers import MARGIN, Paper
from drafting.paper.qr import qr_image
from drafting.paper.sheet_drawing import SheetDrawing
from drafting.paper.spread import BLOCK, PlacedPiece, Spread, spread_of
from drafting.paper.test_square import TestSquare, test_square
from drafting.paper.tiles import kept_tiles
from drafting.paper.tiling import on_pages, together
from drafting.pdf import press_sized
from workshop.length import print_length

STYLE = "paper.css"


@dataclass(frozen=True, slots=True)
class LabelShown:
    """A label as the template places it: text is plain, positions are written numbers."""

    texts: tuple[str, ...]
    style: SafeString


@dataclass(frozen=True)
class SheetShown:
    """One sheet's page: `edge` is its margin, nought where the sheet is only a form for pages to show."""

    heading: Heading
    drawing: SafeString
    drawing_at: SafeString
    labels: tuple[LabelShown, ...]
    number: int
    of: int
    edge: bool
    block_at: SafeString | None
    block: BlockShown | None
    across: tuple[SafeString, ...]


@dataclass(frozen=True)
class BlockShown:
    heading: Heading
    square: TestSquare
    qr: SafeString
    choice: str


def full_size(
    order_file: Mapping, result: Mapping, *, paper: Paper, choice: Choice | None = None, about: About | None = None
) -> bytes:
    """Return the pattern's PDF on that paper. Raises NothingChosen, DoesNotFit, CannotPrint."""
    choice, about = choice or Choice(), about or About()
    head = heading(order_file, result, about)
    spread = spread_of(order_file, result, paper, choice, head, partial(print_length, unit=order_file["units"]))
    if spread.grid is None:
        return _large_pages(spread, head, choice, about)
    tiles = kept_tiles(spread.grid, [Polygon(piece.lines.outline) for piece in spread.pieces])
    shown = {
        "cover": cover_of(spread, tiles, paper, head, choice, about), "heading": head, "paper": paper, "letters": LETTERS,
        "sheet": _sheet(spread, 0, head, edge=False),
    }  # fmt: skip
    width, length = spread.sizes[0]
    pressed = press_sized(
        render_to_string("paper/pages.html", shown), size=f"{paper.width:g}mm {paper.length:g}mm",
        whole=f"{number(width)}mm {number(length)}mm", style=STYLE,
    )  # fmt: skip
    return on_pages(pressed, tiles, spread.grid)


def _large_pages(spread: Spread, head: Heading, choice: Choice, about: About) -> bytes:
    block = BlockShown(head, test_square(), mark_safe(qr_image(about.address)), choice.words)
    pressed = []
    for sheet, (width, length) in enumerate(spread.sizes):
        shown = _sheet(spread, sheet, head, edge=True, block=block if sheet == 0 else None)
        size = f"{number(width + 2 * MARGIN)}mm {number(length + 2 * MARGIN)}mm"
        pressed.append(press_sized(render_to_string("paper/sheet.html", {"sheet": shown}), size=size, style=STYLE))
    return together(pressed)


def _sheet(spread: Spread, sheet: int, head: Heading, *, edge: bool, block: BlockShown | None = None) -> SheetShown:
    width, length = spread.sizes[sheet]
    margin = MARGIN if edge else 0.0
    drawing = SheetDrawing()
    pieces = spread.on(sheet)
    for piece in pieces:
        drawing.add(piece.lines, one_way=piece.one_way)
    return SheetShown(
        heading=head,
        drawing=mark_safe(as_image(drawing.svg(f"{head.order} {head.garment}, full size"), "") if pieces else ""),
        drawing_at=_at(*((c + margin for c in drawing.corner) if pieces else (0.0, 0.0))),
        labels=tuple(_label(piece, margin) for piece in pieces),
        number=sheet + 1,
        of=len(spread.sizes),
        edge=edge,
        block_at=_at(spread.block[0] + margin, spread.block[1] + margin, *BLOCK) if block else None,
        block=block,
        across=tuple(_at(0, y, width + 2 * margin) for y in range(120, int(length), 700)) if edge else (),
    )


def _at(left: float, top: float, width: float | None = None, height: float | None = None) -> SafeString:
    sized = [("left", left), ("top", top), ("width", width), ("height", height)]
    return mark_safe(";".join(f"{name}:{number(value)}mm" for name, value in sized if value is not None))


def _label(piece: PlacedPiece, margin: float) -> LabelShown:
    room = piece.room
    left, top = room.at[0] - room.width / 2 + margin, room.at[1] - room.height / 2 + margin
    turn = f";transform:rotate({room.angle:g}deg)" if room.angle % 360 else ""
    style = f"{_at(left, top, room.width, room.height)};font-size:{number(room.writing)}mm{turn}"
    return LabelShown(piece.texts, mark_safe(style))
