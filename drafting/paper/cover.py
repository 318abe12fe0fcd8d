"""The first page of a pattern that is joined from pages: whose it is, how to join, the map, the test square."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from drafting.linework import PAPER_FONT, as_image, number, safe
from drafting.paper.about import About, Heading
from drafting.paper.choice import Choice
from drafting.paper.papers import Paper
from drafting.paper.qr import qr_image
from drafting.paper.spread import Spread
from drafting.paper.test_square import TestSquare, test_square
from drafting.paper.tiles import Tile, row_name
from drafting.polyline import thinned
from drafting.sheet_figures import key_of_lines

ABOVE_MAP = 165.0
"""Head, square and rule take so much of the first page's length, mm; the map and the list of pieces take the rest."""
MAP_WIDE = 0.7
"""The map takes this share of the page's printed width at most."""
MAP_EDGE = 4.0
"""Beside the map stand the rows' letters and above it the columns' numbers, mm."""


@dataclass(frozen=True)
class Cover:
    heading: Heading
    choice: str
    pages: int
    rows: int
    columns: int
    paper: str
    map: SafeString
    square: TestSquare
    qr: SafeString
    pieces: tuple[str, ...]
    key: tuple[tuple[SafeString, str], ...]


def cover_of(spread: Spread, tiles: list[Tile], paper: Paper, head: Heading, choice: Choice, about: About) -> Cover:
    return Cover(
        heading=head,
        choice=choice.words,
        pages=len(tiles),
        rows=spread.grid.rows,
        columns=spread.grid.columns,
        paper=paper.name,
        map=mark_safe(as_image(page_map(spread, tiles, paper), "The pages laid together, with the pieces in miniature")),
        square=test_square(),
        qr=mark_safe(qr_image(about.address)),
        pieces=tuple(piece.title for piece in spread.pieces),
        key=tuple(sample for sample in key_of_lines() if sample[1] != "dimension"),
    )


def page_map(spread: Spread, tiles: list[Tile], paper: Paper) -> str:
    """Return the sheet in small: pages as one path, rows and columns named at its edges, pieces as one path with their numbers."""
    grid = spread.grid
    wide = grid.columns * grid.step_across + 10
    high = grid.rows * grid.step_down + 10
    scale = min((MAP_WIDE * paper.inner_width - MAP_EDGE) / wide, (paper.inner_length - ABOVE_MAP - MAP_EDGE) / high)
    unit = 1 / scale
    edge = MAP_EDGE * unit
    pages = "".join(
        f"M{number(tile.left)} {number(tile.top)}h{number(grid.step_across)}v{number(grid.step_down)}h{number(-grid.step_across)}z"
        for tile in tiles
    )
    outlines = "".join(
        "M" + "L".join(f"{number(x)} {number(y)}" for x, y in thinned(piece.lines.outline, 0.1 * unit)) + "Z"
        for piece in spread.pieces
    )
    beside = {row_name(tile.row): (-1.6 * unit, tile.top + grid.step_down / 2 + 0.9 * unit) for tile in tiles}
    above = {str(tile.column + 1): (tile.left + grid.step_across / 2, -1.2 * unit) for tile in tiles}
    names = "".join(
        f'<text x="{number(x)}" y="{number(y)}" text-anchor="middle" font-size="{number(2.4 * unit)}" font-family="{PAPER_FONT}">{name}</text>'
        for name, (x, y) in (beside | above).items()
    )
    numbers = "".join(
        f'<text x="{number(piece.room.at[0])}" y="{number(piece.room.at[1] + 1.2 * unit)}" text-anchor="middle" font-weight="700"'
        f' font-size="{number(3.2 * unit)}" font-family="{PAPER_FONT}">{safe(piece.number)}</text>'
        for piece in spread.pieces
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{number((wide + edge) * scale)}mm" height="{number((high + edge) * scale)}mm"'
        f' viewBox="{number(-edge)} {number(-edge)} {number(wide + edge)} {number(high + edge)}"><path d="{outlines}" fill="#e4e4e4" stroke="#000" stroke-width="{number(0.2 * unit)}"/>'
        f'<path d="{pages}" fill="none" stroke="#000" stroke-width="{number(0.15 * unit)}"/>{names}{numbers}</svg>'
    )
