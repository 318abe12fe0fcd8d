"""The plainest lay: pieces side by side in shelves by their bounding boxes. Always at once, for when time is too short."""

from __future__ import annotations

import numpy as np

from ..tolerance import LAY_EXACT_WIDTH
from .place import Places, Table


def in_shelves(table: Table) -> Places | None:
    """Return all things in shelves beyond any flaw, longest first; None where matched pieces would lose the print."""
    task = table.task
    if any(table.matched) or (task.things and any(thing.matched for thing in task.things)):
        return None
    shapes = [task.shapes[ways[0]] for ways in table.shape_of]
    places = Places(np.zeros(table.count, np.int32), np.zeros(table.count, np.int32), np.zeros(table.count), 0.0)
    shelf = max((float(ring[:, 1].max()) for ring, _ in task.flaws), default=0.0)
    shelf, taken, deep = max(shelf + task.cloth.gap, 0.0) if task.flaws else 0.0, 0, 0.0
    order = sorted(range(table.count), key=lambda i: (-shapes[i].long, not task.things[i].on_fold))
    for i in order:
        shape, fold = shapes[i], task.things[i].on_fold
        full = int(np.ceil((shape.wide + task.cloth.gap) / task.step - 1e-9))
        if (fold and taken) or taken * task.step + shape.wide > task.across + LAY_EXACT_WIDTH:
            shelf, taken, deep = shelf + deep, 0, 0.0
        places.row[i], places.y[i] = (0 if fold else taken), shelf - shape.low
        taken += full
        deep = max(deep, shape.long + task.cloth.gap)
    places.length = shelf + deep - task.cloth.gap
    return places
