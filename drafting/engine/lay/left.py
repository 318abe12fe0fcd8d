"""What a lay leaves: the greatest rectangles of cloth that no piece touches, for telling them as they are sold."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from shapely.geometry import Polygon

from .flat import flat_width, opened_flat

CELL = 12.7
"""Cloth is looked at in squares of half an inch, mm; a square that any piece touches counts as gone."""


@dataclass(frozen=True, slots=True)
class Leftover:
    """A rectangle of cloth that is left: `x` from the left inner edge, `y` from the cut end, mm."""

    x: float
    y: float
    wide: float
    long: float


def left_of(lay: Mapping[str, Any], length: float, *, least: tuple[float, float], most: int = 2) -> list[Leftover]:
    """Return the greatest rectangles left of cloth `length` long, at most `most`, none less than `least` (wide, long), mm."""
    width = flat_width(lay)
    taken = [Polygon(ring) for _, ring in opened_flat(lay)] + [Polygon(ring) for ring in _blocked(lay)]
    free = _free(width, length, taken)
    found: list[Leftover] = []
    while len(found) < most:
        row, column, rows, columns = _greatest(free, least)
        if not rows:
            break
        found.append(Leftover(column * CELL, row * CELL, columns * CELL, rows * CELL))
        free[row : row + rows, column : column + columns] = False
    return found


def _blocked(lay: Mapping[str, Any]) -> Iterable[list]:
    half = lay["usable"]
    for ring in lay.get("blocked", ()):
        if lay["layout"] == "folded":
            yield [(half + x, y) for x, y in ring]
            yield [(half - x, y) for x, y in ring]
        else:
            yield ring


def _free(width: float, length: float, taken: list[Polygon]):
    """Which squares nothing touches; rows along the cloth, columns across."""
    columns, rows = int(width / CELL + 1e-6), int(length / CELL + 1e-6)
    free = np.ones((rows, columns), bool)
    for shape in taken:
        x0, y0, x1, y1 = shape.bounds
        c0, c1 = max(int(x0 / CELL) - 1, 0), min(int(x1 / CELL) + 2, columns)
        r0, r1 = max(int(y0 / CELL) - 1, 0), min(int(y1 / CELL) + 2, rows)
        if c1 <= c0 or r1 <= r0:
            continue
        at, to = np.meshgrid(np.arange(c0, c1) * CELL, np.arange(r0, r1) * CELL)
        squares = shapely.box(at + 0.01, to + 0.01, at + CELL - 0.01, to + CELL - 0.01)
        shapely.prepare(shape)
        free[r0:r1, c0:c1] &= ~shapely.intersects(shape, squares)
    return free


def _greatest(free, least: tuple[float, float]) -> tuple[int, int, int, int]:
    """(row, column, rows, columns) of the rectangle of most cloth, no less than `least`; no rows where there is none."""
    rows, columns = free.shape
    high = np.zeros(columns, int)
    least_columns, least_rows = (int(np.ceil(size / CELL - 1e-6)) for size in least)
    best, found = 0, (0, 0, 0, 0)
    for row in range(rows):
        high = np.where(free[row], high + 1, 0)
        stack: list[tuple[int, int]] = []  # (column where a stretch begins, its height), heights rising
        for column, height in enumerate([*high.tolist(), 0]):
            begins = column
            while stack and stack[-1][1] >= height:
                begins, tall = stack.pop()
                across = column - begins
                if tall * across > best and across >= least_columns and tall >= least_rows:
                    best, found = tall * across, (row - tall + 1, begins, tall, across)
            stack.append((begins, height))
    return found
