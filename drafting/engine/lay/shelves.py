"""The plainest lay: pieces side by side in shelves by their bounding boxes. Always at once, for when time is too short."""

from __future__ import annotations

import numpy as np

from .place import Places, Table


def in_shelves(table: Table) -> Places:
    """Return all things in shelves beyond any flaw, longest first; matched pieces stand on the print's lattice."""
    task, phase = table.task, table.task.phases[0]
    shapes = [task.shapes[ways[0]] for ways in table.shape_of]
    places = Places(np.zeros(table.count, np.int32), np.zeros(table.count, np.int32), np.zeros(table.count), 0.0, phase)
    flawed = max((float(ring[:, 1].max()) for ring, _ in task.flaws), default=0.0)
    shelf = max(flawed + task.cloth.gap, 0.0) if task.flaws else 0.0
    taken, deep = 0.0, shelf
    for i in sorted(range(table.count), key=lambda i: (-shapes[i].long, not task.things[i].on_fold)):
        shape, rows = shapes[i], table.rows[i][0]
        beside = rows[rows * task.step + shape.left >= taken - 1e-6]
        if taken and (not len(beside) or task.things[i].on_fold):
            shelf, taken, beside = deep, 0.0, rows
        y = shelf - shape.low
        y = float(table.snapped(y, phase)) if table.matched[i] else y
        places.row[i], places.y[i] = beside[0], y
        taken = beside[0] * task.step + shape.right + task.cloth.gap
        places.length = max(places.length, y + shape.high)
        deep = max(deep, y + shape.high + task.cloth.gap)
    return places
