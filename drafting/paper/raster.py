"""Outlines as grids of square cells: what placing pieces on paper, and labels in pieces, is reckoned on."""

from __future__ import annotations

import numpy as np

from drafting.polyline import Polyline, bounds

Mask = np.ndarray
"""Cells as a two-dimensional array of bool, rows down the page."""


def cells_inside(ring: Polyline, cell: float, *, origin: tuple[float, float], rows: int, columns: int) -> Mask:
    """Return which cells of `cell` mm have their centre inside the unclosed ring; `origin` is the grid's corner, mm."""
    points = (np.asarray(ring, dtype=float) - origin) / cell
    ends = np.roll(points, -1, axis=0)
    middles = np.arange(rows) + 0.5
    y0, y1 = points[:, 1][:, None], ends[:, 1][:, None]
    edge, row = np.nonzero((y0 <= middles) != (y1 <= middles))
    share = (middles[row] - points[edge, 1]) / (ends[edge, 1] - points[edge, 1])
    met = points[edge, 0] + share * (ends[edge, 0] - points[edge, 0])
    column = np.clip(np.ceil(met - 0.5), 0, columns).astype(int)
    crossings = np.zeros((rows, columns + 1), dtype=np.int32)
    np.add.at(crossings, (row, column), 1)
    return np.cumsum(crossings, axis=1)[:, :columns] % 2 == 1


def grid_round(ring: Polyline, cell: float) -> tuple[tuple[float, float], int, int]:
    """Return the corner (mm), rows and columns of the smallest grid round the ring."""
    left, top, right, bottom = bounds(ring)
    return (left, top), max(1, int(np.ceil((bottom - top) / cell))), max(1, int(np.ceil((right - left) / cell)))


def summed(mask: Mask) -> np.ndarray:
    """Return the table of sums over all rectangles from the corner, with a row and a column of noughts before it."""
    return np.pad(mask.astype(np.int64).cumsum(axis=0).cumsum(axis=1), ((1, 0), (1, 0)))


def rectangle_counts(table: np.ndarray, high: int, wide: int) -> np.ndarray:
    """Return, for each cell as upper left corner, how many true cells a rectangle of that size holds."""
    return table[high:, wide:] - table[:-high, wide:] - table[high:, :-wide] + table[:-high, :-wide]
