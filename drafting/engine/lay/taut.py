"""A lay pulled taut: all things moved at once, freely, as far towards the cloth's beginning as those around them let them.

Two convex parts lie apart along the normal of one of their edges. Those normals kept, what all may move at once is a linear
programme; its answer gives new normals, until nothing is gained (Li and Milenkovic, 1995, from memory).
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from .place import Places
from .shapes import parts_of
from .things import Task

MOST_TAUT = 64
"""With more things the programme takes over 0.3 s of CPU; a lay of so many has little to gain."""

REACH, MOST_ROUNDS, LEAST_GAIN = 60.0, 10, 0.05
FLUSH_ROUNDS, FLUSH_ALONG, FLUSH_ACROSS = 2, 1e-2, 1e-3
FINE, MOST_PUSHED = 0.05, 1.0
"""How far the parts may stand off an outline, mm; parts that overlap by no more than the other are pushed apart, those that
overlap by more, as the hull of an outline of very many hollows, stay as they lie to each other."""


class _Parts:
    """The convex parts of all things and flaws, padded: corners and edge normals (parts, corners, 2), and whose they are."""

    def __init__(self, task: Task, shape: list[int], gap: float):
        made: dict[int, tuple] = {}
        rings, self.of = [], []
        for number, of in enumerate([*shape, *task.barred]):
            ring, base, flip = task.shapes[of].ring, task.shapes[of].base, task.shapes[of].flip
            if base not in made:
                made[base] = flip, parts_of(ring, gap=gap, tolerance=FINE, rough=False)
            flipped = np.array(flip) * made[base][0]
            way = 1 if flipped.prod() > 0 else -1  # a mirrored ring is walked the other way round
            rings += [(part * flipped)[::way] for part in made[base][1]]
            self.of += [number] * len(made[base][1])
        self.of = np.array(self.of)
        most = max(len(ring) for ring in rings)
        self.corners = np.array([np.concatenate([ring, np.repeat(ring[-1:], most - len(ring), axis=0)]) for ring in rings])
        edges = np.roll(self.corners, -1, axis=1) - self.corners
        long = np.hypot(edges[..., 0], edges[..., 1])
        self.flat = long < 1e-9
        self.normals = np.stack([edges[..., 1], -edges[..., 0]], axis=2) / np.where(self.flat, 1, long)[..., None]
        self.own = (self.corners * self.normals).sum(axis=2)

    def apart(self, one, two, at) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """How far apart each two parts lie at most, along which normal of an edge, from the first to the second."""
        forth, back = self._along(one, two, at), self._along(two, one, at)
        first = forth[0] >= back[0]
        return np.where(first, forth[0], back[0]), np.where(first[:, None], forth[1], -back[1])

    def _along(self, one, two, at):
        normals = self.normals[one]
        gaps = np.matmul(normals, self.corners[two].transpose(0, 2, 1)).min(axis=2) - self.own[one]
        gaps += np.matmul(normals, (at[self.of[two]] - at[self.of[one]])[..., None])[..., 0]
        gaps[self.flat[one]] = -np.inf
        best = gaps.argmax(axis=1)
        each = np.arange(len(one))
        return gaps[each, best], normals[each, best]


def pulled_taut(task: Task, places: Places) -> Places | None:
    """Return a shorter lay of the same neighbourhood, no longer on the steps across; None where none was found."""
    count = len(task.things)
    if not 1 < count <= MOST_TAUT:
        return None
    ways = [thing.ways[int(way)] for thing, way in zip(task.things, places.way, strict=True)]
    shapes = [task.shapes[way.shape] for way in ways]
    parts = _Parts(task, [way.shape for way in ways], task.cloth.gap)
    at = np.zeros((count + len(task.barred), 2))
    at[:count, 0], at[:count, 1] = places.across(task.step), places.y
    pairs = _pairs(task, parts, shapes)
    box = np.array([(shape.left, shape.low, shape.right, shape.high) for shape in shapes])
    free = _free(task)
    length = float((at[:count, 1] + box[:, 3]).max())
    begun = length
    for _ in range(MOST_ROUNDS):
        move = _round(task, parts, pairs, at, box, free)
        if move is None:
            break
        at[:count] += move
        now = float((at[:count, 1] + box[:, 3]).max())
        if length - now < LEAST_GAIN:
            length = min(length, now)
            break
        length = now
    if length > begun - LEAST_GAIN / 5:
        return None
    for _ in range(FLUSH_ROUNDS):
        move = _round(task, parts, pairs, at, box, free, flush=True)
        if move is None:
            break
        at[:count] += move
    length = float((at[:count, 1] + box[:, 3]).max())
    return Places(places.way.copy(), places.row.copy(), at[:count, 1].copy(), length, places.phase, at[:count, 0].copy())


def _pairs(task: Task, parts: _Parts, shapes) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """All two parts that may not overlap: of two things, or of a thing and a flaw, on a layer in common."""
    layers = np.array([shape.layers for shape in shapes] + [task.shapes[of].layers for of in task.barred])
    one, two = np.triu_indices(len(parts.of), 1)
    first, second = parts.of[one], parts.of[two]
    may = (first != second) & (first < len(shapes)) & ((layers[first] & layers[second]) != 0)
    return one[may], two[may]


def _free(task: Task) -> NDArray[np.bool_]:
    """(things, 2): whether a thing may move across and along; not off its fold, nor off the print."""
    across = [not (thing.on_fold and task.layout != "open") and not (thing.matched and task.cloth.repeat_across) for thing in task.things]
    along = [not (thing.matched and task.repeat) for thing in task.things]
    return np.stack([across, along], axis=1)


def _round(task: Task, parts: _Parts, pairs, at, box, free, *, flush: bool = False) -> NDArray[np.float64] | None:
    """How far all things may move at once, none by more than REACH across or along, mm; (things, 2).

    `flush` moves all that have room on to the cloth's beginning, then to its lower edge; else they stand anywhere in it.
    """
    count = len(box)
    one, two = pairs
    low, high = parts.corners.min(axis=1) + at[parts.of], parts.corners.max(axis=1) + at[parts.of]
    near = ((low[two] - high[one] < 2 * REACH) & (low[one] - high[two] < 2 * REACH)).all(axis=1)
    one, two = one[near], two[near]
    apart, normal = parts.apart(one, two, at)
    near = apart < 3 * REACH
    apart, normal, first, second = apart[near], normal[near], parts.of[one[near]], parts.of[two[near]]
    apart[apart < -MOST_PUSHED] = 0.0
    many = int(free.sum())
    column = np.full((count + len(task.barred), 2), -1)  # flaws never move
    column[:count][free] = np.arange(many)
    rows = np.zeros((len(apart), many + 2))  # the last column takes what does not move, the one before it is the length
    each = np.arange(len(apart))
    for axis in (0, 1):
        rows[each, column[first, axis]] += normal[:, axis]
        rows[each, column[second, axis]] -= normal[:, axis]
    ends = np.zeros((count, many + 2))
    ends[np.arange(count), column[:count, 1]] = 1
    ends[:, many] = -1
    tops = at[:count, 1] + box[:, 3]
    length = tops.max()
    here = at[:count]
    back = np.minimum(here + box[:, :2], REACH)
    on = np.stack([np.minimum(task.across - here[:, 0] - box[:, 2], REACH), np.full(count, REACH)], axis=1)
    bounds = np.eye(many, many + 2)
    rows = np.concatenate([rows, ends, bounds, -bounds])[:, :-1]
    most = np.concatenate([apart, length - tops, np.maximum(on[free], 0), np.maximum(back[free], 0)])
    cost = np.zeros(many + 1)
    cost[many] = 1
    if flush:
        cost[:many] = np.broadcast_to([FLUSH_ACROSS, FLUSH_ALONG], free.shape)[free] / count
    found = least(cost, rows, most / REACH)
    if found is None:
        return None
    move = np.zeros((count, 2))
    move[free] = found[:many] * REACH
    return move


def least(cost: NDArray[np.float64], rows: NDArray[np.float64], most: NDArray[np.float64]) -> NDArray[np.float64] | None:
    """Return x for which cost·x is least among those with rows·x <= most; None where none was found. Shapes: (n,), (m, n), (m,)."""
    from scipy.optimize import linprog  # takes longer to read than a first answer may take, which needs none of it
    from scipy.sparse import csr_array

    found = linprog(cost, A_ub=csr_array(rows), b_ub=most, bounds=(None, None), method="highs-ipm")
    return found.x if found.status == 0 else None
