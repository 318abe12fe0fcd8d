"""The pages that a sheet is cut into: which are kept, what each is called, and which of its edges is joined to what.

Pages overlap by OVERLAP. Every spot of the sheet belongs to one page, the first that shows it, so a page is left out
where the spots that it alone stands for hold no piece; a page that lies wholly inside a piece is kept. The last row and
column have no next page, so they stand for all that they show.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from shapely import STRtree, box
from shapely.geometry.base import BaseGeometry

from drafting.paper.papers import Paper

OVERLAP = 10.0
"""Millimetres that two neighbours both show: as wide as a glue stick."""
STROKE = 1.0
"""A piece's line reaches this far beyond its outline, with a hair to spare, mm."""


@dataclass(frozen=True, slots=True)
class Grid:
    """A sheet of `width` × `length` mm cut into `columns` × `rows` windows of the paper's printed size."""

    paper: Paper
    width: float
    length: float

    @property
    def step_across(self) -> float:
        return self.paper.inner_width - OVERLAP

    @property
    def step_down(self) -> float:
        return self.paper.inner_length - OVERLAP

    @property
    def columns(self) -> int:
        return _count(self.width, self.step_across)

    @property
    def rows(self) -> int:
        return _count(self.length, self.step_down)

    def width_of(self, columns: int) -> float:
        """Return the widest sheet that so many columns show."""
        return columns * self.step_across + OVERLAP


def _count(size: float, step: float) -> int:
    return max(1, ceil((size - OVERLAP) / step - 1e-9))


@dataclass(frozen=True, slots=True)
class Tile:
    """One page: row and column from 0, its window's corner on the sheet in mm, and the neighbours that it is joined to."""

    row: int
    column: int
    left: float
    top: float
    above: str = ""
    below: str = ""
    before: str = ""
    after: str = ""

    @property
    def name(self) -> str:
        return tile_name(self.row, self.column)


def tile_name(row: int, column: int) -> str:
    """Return “A1” for the first: rows are letters (AA after Z), columns numbers."""
    return f"{row_name(row)}{column + 1}"


def row_name(row: int) -> str:
    """Return A for the first row, AA after Z."""
    letters = ""
    row += 1
    while row:
        row, rest = divmod(row - 1, 26)
        letters = chr(65 + rest) + letters
    return letters


def kept_tiles(grid: Grid, covered: Sequence[BaseGeometry]) -> list[Tile]:
    """Return the pages that hold any of `covered` (pieces, filled, in mm on the sheet), row by row."""
    tree = STRtree([shape.buffer(STROKE, quad_segs=2) for shape in covered])
    kept = set()
    for row in range(grid.rows):
        for column in range(grid.columns):
            left, top = column * grid.step_across, row * grid.step_down
            right, bottom = left + grid.step_across, top + grid.step_down
            own = box(left, top, right + (column == grid.columns - 1) * OVERLAP, bottom + (row == grid.rows - 1) * OVERLAP)
            if len(tree.query(own, predicate="intersects")):
                kept.add((row, column))

    def named(row: int, column: int) -> str:
        return tile_name(row, column) if (row, column) in kept else ""

    return [
        Tile(
            row, column, column * grid.step_across, row * grid.step_down,
            above=named(row - 1, column), below=named(row + 1, column),
            before=named(row, column - 1), after=named(row, column + 1),
        )
        for row, column in sorted(kept)
    ]  # fmt: skip
