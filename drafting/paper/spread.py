"""The chosen pieces placed on sheets: what is drawn where, with each piece's label."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import inf

from shapely import Polygon

from drafting.paper.about import Heading
from drafting.paper.choice import Choice, chosen
from drafting.paper.label_room import Room, room_for
from drafting.paper.labels import label_texts, title_of_drawn
from drafting.paper.neighbours import edge_words, notch_letters
from drafting.paper.papers import Paper
from drafting.paper.piece_lines import PieceLines, lines_of
from drafting.paper.placing import APART, Layout, Place, Placing, TooLargeForPaper
from drafting.paper.tiles import Grid, kept_tiles
from drafting.pictures import is_one_way
from drafting.polyline import XY, bounds

BLOCK = (196.0, 128.0)
"""Width and length of the title block with its test square, which lies on a large sheet among the pieces, mm."""
WIDEST_SHEET = 1300.0
"""Sheets that are joined from pages are tried up to this width, mm: the middle of a wider one is hard to reach on a table."""

RIM = 3.0
"""On pages that are joined, pieces keep so far from the sheet's own edge, mm: a fold line then lies clear of the frame."""


class DoesNotFit(ValueError):
    """A piece that the paper can't hold; the sentence says what to use instead."""


@dataclass(frozen=True)
class PlacedPiece:
    """One piece on its sheet: its lines and its label, in mm from the sheet's corner."""

    sheet: int
    title: str
    number: str
    lines: PieceLines
    texts: tuple[str, ...]
    room: Room
    one_way: bool


@dataclass(frozen=True)
class Spread:
    """Everything that is drawn: sheets' sizes in mm, pieces, and where the title block lies (large sheets only)."""

    sizes: tuple[tuple[float, float], ...]
    pieces: tuple[PlacedPiece, ...]
    block: XY | None
    grid: Grid | None

    def on(self, sheet: int) -> list[PlacedPiece]:
        return [piece for piece in self.pieces if piece.sheet == sheet]


@dataclass(frozen=True)
class Unplaced:
    """One outline in the draft's own frame, with all that is drawn and said of it."""

    title: str
    number: str
    lines: PieceLines
    texts: tuple[str, ...]
    room: Room
    one_way: bool


def spread_of(
    order_file: Mapping, result: Mapping, paper: Paper, choice: Choice, heading: Heading, fmt: Callable[[float], str]
) -> Spread:
    """Return the pieces placed for that paper. Raises NothingChosen, DoesNotFit."""
    drawn = pieces_to_place(order_file, result, choice, heading, fmt)
    if paper.tiled:
        return _tiled(drawn, paper)
    width, block = _block_ring(paper)
    pieces = [_turned_to_fit(piece, paper) for piece in drawn]
    rings = [piece.lines.outline for piece in pieces]
    try:
        layout = Placing([block, *rings]).on(width=width, length=paper.inner_length, first=0)
    except TooLargeForPaper as large:
        title = pieces[large.piece - 1].title if large.piece else "The title block"
        if not paper.is_roll:
            return _tiled(drawn, paper)
        raise DoesNotFit(
            f"{title} is {large.width:.0f} mm wide and {large.length:.0f} mm long: more than a roll of {paper.width:g} mm"
            " holds between its margins. Use a wider roll, or pages that are joined."
        ) from None
    first, *places = layout.places
    order = [first.sheet, *(n for n in range(len(layout.lengths)) if n != first.sheet)]
    sizes = tuple((width, layout.lengths[n] if paper.is_roll else paper.inner_length) for n in order)
    return Spread(sizes, pieces_placed(pieces, places, order), first.moved((0.0, 0.0)), None)


def _block_ring(paper: Paper) -> tuple[float, list[XY]]:
    wide, high = BLOCK
    return paper.inner_width, [(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)]


def pieces_to_place(order_file: Mapping, result: Mapping, choice: Choice, heading: Heading, fmt) -> list[Unplaced]:
    """Return the chosen outlines with their labels. Raises NothingChosen."""
    said, letters = edge_words(result), notch_letters(result)
    napped = {cloth["name"] for cloth in order_file["cloths"] if cloth.get("one_way")}
    made = []
    for drawn in chosen(result, choice):
        lines = lines_of(drawn, result, letters=letters, said=said, allowances=choice.allowances, opened=choice.opened)
        texts = tuple(label_texts(drawn, choice, fmt, order_file["units"], heading))
        made.append(
            Unplaced(
                title_of_drawn(drawn), str(drawn.piece.get("number") or ""), lines, texts, room_for(lines, texts),
                is_one_way({"cut": drawn.cuts}, napped),
            )
        )  # fmt: skip
    return made


def pieces_placed(pieces: Sequence[Unplaced], places: Sequence[Place], order: list[int]) -> tuple[PlacedPiece, ...]:
    """Return the pieces where they lie; `order` says which sheet of the places comes first, second …"""
    found = []
    for piece, where in zip(pieces, places, strict=True):
        room = piece.room
        turned = Room(where.moved(room.at), room.angle + 180 * where.turned, room.width, room.height, room.writing)
        lines = piece.lines.mapped(where.moved)
        found.append(PlacedPiece(order.index(where.sheet), piece.title, piece.number, lines, piece.texts, turned, piece.one_way))
    return tuple(found)


def _turned_to_fit(piece: Unplaced, paper: Paper) -> Unplaced:
    """Return the piece turned a quarter where only so a large sheet holds it; its grain line turns with it."""
    left, top, right, bottom = bounds(piece.lines.outline)
    wide, long = right - left, bottom - top
    if wide <= paper.inner_width or long > paper.inner_width or wide > paper.inner_length:
        return piece
    side = -1.0 if piece.room.angle else 1.0  # the label's lines then run across the sheet or up it, not head down

    def turned(point: XY) -> XY:
        return (-side * point[1], side * point[0])

    room = replace(piece.room, at=turned(piece.room.at), angle=piece.room.angle + 90 * side)
    return replace(piece, lines=piece.lines.mapped(turned), room=room)


def _tiled(pieces: list[Unplaced], paper: Paper) -> Spread:
    """Place on the sheet that takes the fewest pages, or one more where that makes it shorter and easier to lay out."""
    rings = [piece.lines.outline for piece in pieces]
    widest = max(box[2] - box[0] for box in map(bounds, rings))
    side_by_side = sum(box[2] - box[0] + APART for box in map(bounds, rings))
    widths = [Grid(paper, 0.0, 0.0).width_of(columns) for columns in range(1, 200)]
    least = next(width for width in widths if width >= widest + 2 * RIM)
    most = max(least, min(WIDEST_SHEET, side_by_side + paper.inner_width))
    placing = Placing(rings)
    tried = [_pages(placing, rings, paper, width) for width in widths if least <= width <= most]
    fewest = min(one.count for one in tried)
    best = min((one for one in tried if one.count <= fewest + 1), key=lambda one: one.grid.length)
    return Spread(((best.grid.width, best.grid.length),), pieces_placed(pieces, best.layout.places, [0]), None, best.grid)


@dataclass(frozen=True)
class _Pages:
    """A layout cut into so many pages."""

    count: int
    grid: Grid
    layout: Layout


def _pages(placing: Placing, rings: list, paper: Paper, width: float) -> _Pages:
    layout = placing.on(width=width - 2 * RIM, length=inf)
    layout = replace(layout, places=tuple(replace(where, dx=where.dx + RIM, dy=where.dy + RIM) for where in layout.places))
    moved = [[where.moved(point) for point in ring] for where, ring in zip(layout.places, rings, strict=True)]
    grid = Grid(paper, max(x for ring in moved for x, _ in ring) + RIM, max(y for ring in moved for _, y in ring) + RIM)
    return _Pages(len(kept_tiles(grid, [Polygon(ring) for ring in moved])), grid, layout)
