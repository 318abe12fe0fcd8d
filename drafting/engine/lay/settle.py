"""The last touch to a search's lay: overlaps of rounding size are pushed apart, exactly."""

from __future__ import annotations

import numpy as np

from ..tolerance import LAY_TOUCHING
from .nofit import forbidden
from .place import Places, Table

NEAR = 20 * LAY_TOUCHING
MOST_SETTLED = 200
"""With more things than this the rounding, a tenth of what the recheck allows, is left: settling would take too long."""

ROUNDING = 1e-9
MOST_ROUNDS = 12
"""Pushing one thing may push the next: so many rounds are allowed. What is left then is far below what the recheck refuses."""


def settled(table: Table, places: Places) -> Places:
    """Return the lay with every thing pushed on until it only touches those behind it; matched things stay where they are."""
    if table.count > MOST_SETTLED:
        return places
    out, task = places.copy(), table.task
    shape = [table.shape_of[i][int(way)] for i, way in enumerate(places.way)]
    shapes = [task.shapes[s] for s in shape]
    order = np.argsort(out.y + [s.low for s in shapes], kind="stable").tolist()
    left = out.row * task.step + [s.left for s in shapes]
    right = out.row * task.step + [s.right for s in shapes]
    high = np.array([s.high for s in shapes])
    low = np.array([s.low for s in shapes])
    exact: dict[tuple[int, int, int], list[tuple[float, float]]] = {}
    for _ in range(MOST_ROUNDS):
        moved = False
        for i in order:
            if table.matched[i]:
                continue
            beside = (left < right[i]) & (right > left[i])
            along = (out.y + high > out.y[i] + low[i] - NEAR) & (out.y + low < out.y[i] + high[i] + NEAR)
            for j in np.flatnonzero(beside & along).tolist():
                if j == i:
                    continue
                for start, end in _barred(table, exact, shape[j], shape[i], int(out.row[i] - out.row[j])):
                    off = out.y[i] - out.y[j]
                    if off > start + NEAR and end - NEAR < off < end - ROUNDING:
                        out.y[i], moved = out.y[j] + end, True
        if not moved:
            break
    out.length = max(float(y + s.high) for y, s in zip(out.y, shapes, strict=True))
    return out


def _barred(table: Table, exact, one: int, two: int, rows: int) -> list[tuple[float, float]]:
    key = (one, two, rows)
    if key not in exact:
        shapes = table.task.shapes
        exact[key] = []
        if shapes[one].layers & shapes[two].layers:
            first, low, high, depth = forbidden(shapes[one].chains, shapes[two].chains, table.task.step, only=rows)
            if len(depth):
                exact[key] = [(float(a), float(b)) for a, b in zip(low[0], high[0], strict=True) if a < b]
    return exact[key]
