"""Room for a piece's label: the largest writing that fits inside the sewing line, clear of darts and grain."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, partial

import numpy as np
from shapely import LineString, Polygon, make_valid
from shapely.geometry.base import BaseGeometry

from drafting.paper.piece_lines import PieceLines
from drafting.paper.raster import cells_inside, grid_round, rectangle_counts, summed
from drafting.polyline import XY

CELL = 4.0
CLEAR_OF_SEWING = (9.0, 4.0, 1.0)
"""A label stands so far inside the sewing line, mm: at first clear of the words along the edges, and of the body's levels."""
CLEAR_OF_LINES = 3.0
BROAD_LETTER = 0.6
"""Width of a letter over the size of the writing, reckoned broad so that no line is longer than thought."""
LEADING = 1.3
SIZES = (1.5, 1.0, 0.82, 0.66)
"""Writing sizes tried, over the usual: large where there is much room, at last about 6 pt."""
USUAL = 3.4
"""Size of a label's writing, mm (9.6 pt)."""
HEAD = 1.45
"""The first line is so much larger."""
WIDTHS = (82.0, 62.0, 48.0, 36.0, 26.0)


@dataclass(frozen=True, slots=True)
class Room:
    """A label's place: its middle on the piece, how far it is turned (clockwise, degrees), its size in mm."""

    at: XY
    angle: float
    width: float
    height: float
    writing: float


def room_for(lines: PieceLines, texts: Sequence[str]) -> Room:
    """Return where the texts (the first in larger letters) are written; small, across the middle, where nothing fits."""
    floor_at = cache(partial(_floor, lines))
    for size in SIZES:
        for clear in CLEAR_OF_SEWING:
            floor = floor_at(clear)
            if floor is None:
                continue
            for angle in (0.0, 90.0) if size <= 1 else (0.0,):
                for width in WIDTHS if size <= 1 else WIDTHS[:2]:
                    high = height_of(texts, width * size, USUAL * size)
                    across, down = (high, width * size) if angle else (width * size, high)
                    at = floor.spot(across, down)
                    if at:
                        return Room(at, angle, width * size, high, USUAL * size)
    middle = Polygon(lines.net).representative_point()
    width = WIDTHS[2] * SIZES[-1]
    return Room((middle.x, middle.y), 0.0, width, height_of(texts, width, USUAL * SIZES[-1]), USUAL * SIZES[-1])


def height_of(texts: Sequence[str], width: float, size: float) -> float:
    """Return the height that the texts need at that width, mm."""
    rows = 0.0
    for place, text in enumerate(texts):
        larger = HEAD if place == 0 else 1.0
        fit = max(1, int(width / (BROAD_LETTER * size * larger)))
        rows += larger * _rows(text, fit)
    return rows * size * LEADING


def _rows(text: str, fit: int) -> int:
    """Return how many rows the text takes where words are kept whole and longer ones are broken."""
    rows, used = 1, 0
    for word in text.split():
        if used and used + 1 + len(word) > fit:
            rows, used = rows + 1, 0
        rows += max(0, math.ceil(len(word) / fit) - 1)
        used += len(word) + bool(used)
    return rows


def _free(lines: PieceLines, clear: float) -> BaseGeometry:
    inside = make_valid(Polygon(lines.net)).buffer(-clear, quad_segs=2)
    darts = (*lines.inner_darts, *(edge.line for edge in lines.edges if edge.name.startswith("dart")))
    levels = [line for _, line in lines.levels] if clear == CLEAR_OF_SEWING[0] else []
    for line in (lines.grain, *lines.bones, *lines.centre, *darts, *levels):
        inside = inside.difference(LineString(line).buffer(CLEAR_OF_LINES, quad_segs=2))
    return inside


@dataclass(frozen=True)
class _Floor:
    """What is free of a piece, as sums over cells: where a rectangle fits is then one subtraction for each cell."""

    table: np.ndarray
    corner: XY
    centre: XY

    def spot(self, across: float, down: float) -> XY | None:
        """Return the middle of a free rectangle of that size, as near the middle as there is one."""
        wide, high = math.ceil(across / CELL), math.ceil(down / CELL)
        if high >= self.table.shape[0] or wide >= self.table.shape[1]:
            return None
        fits = np.argwhere(rectangle_counts(self.table, high, wide) == high * wide)
        if not len(fits):
            return None
        middles = (fits + (high / 2, wide / 2)) * CELL + (self.corner[1], self.corner[0])
        best = middles[np.argmin((middles[:, 0] - self.centre[1]) ** 2 + (middles[:, 1] - self.centre[0]) ** 2)]
        return float(best[1]), float(best[0])


def _floor(lines: PieceLines, clear: float) -> _Floor | None:
    free = _free(lines, clear)
    if free.is_empty:
        return None
    parts = [part for part in getattr(free, "geoms", [free]) if isinstance(part, Polygon)]
    left, top, right, bottom = free.bounds
    corner, rows, columns = grid_round([(left, top), (right, bottom)], CELL)
    inside = np.zeros((rows, columns), dtype=bool)
    for part in parts:
        for ring in (part.exterior, *part.interiors):
            inside ^= cells_inside(list(ring.coords)[:-1], CELL, origin=corner, rows=rows, columns=columns)
    return _Floor(summed(inside), corner, (free.centroid.x, free.centroid.y))
