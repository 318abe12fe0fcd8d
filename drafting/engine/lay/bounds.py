"""Lengths that no lay can go below: proofs, not estimates. Only these may say that a cloth cannot be enough."""

from __future__ import annotations

import numpy as np

from .outline import Points, inwards
from .shapes import BOTH
from .things import Task, Thing

LEVELS = 120
"""Even levels across that are tried besides the outlines' own. Each by itself proves its bound: few only make it weaker."""

MOST_LEVELS = 500
MOST_CORNERS = 400
"""Of an outline with more corners a simpler one inside of it is cut: no chord of that is longer."""

HAIR = 1e-6


def lower_bound(task: Task) -> float:
    """Return the greatest of the area bound, the longest piece and the line bound, mm along the lay."""
    if not task.things:
        return 0.0
    return max(area_bound(task), longest_piece(task), line_bound(task))


def area_bound(task: Task) -> float:
    """Cloth as long as the pieces' area over the width: every layer counted."""
    total = sum(_share(task, thing) * min(task.shapes[way.shape].area for way in thing.ways) for thing in task.things)
    return total / task.across


def longest_piece(task: Task) -> float:
    """Cloth as long as the longest piece, lying the way in which it is shortest."""
    return max(min(task.shapes[way.shape].long for way in thing.ways) for thing in task.things)


def line_bound(task: Task) -> float:
    """A line along the cloth at one level cuts every piece that has no room beside it; the cut lengths can't overlap.

    A piece on the fold lies at one level exactly. A free piece that is wider than what the level leaves on either side
    must be cut somewhere in a known stretch of it: its least chord there counts, the exact least over the outline's
    own levels. The bound is the greatest sum over the levels tried.
    """
    levels = _levels(task)
    known: dict[tuple, np.ndarray] = {}
    total = np.zeros(len(levels))
    for thing in task.things:
        key = (thing.ways, thing.on_fold)
        if key not in known:
            known[key] = np.min([_must_cut(task, thing, way.shape, levels) for way in thing.ways], axis=0)
        total += _share(task, thing) * known[key]
    return float(total.max())


def _levels(task: Task) -> np.ndarray:
    """Levels where the sum can be greatest: at the points of what lies on the fold, and where a free piece begins to be cut."""
    found = [np.linspace(0, task.across, LEVELS + 1)[1:-1]]
    for thing in set(task.things):
        for shape in (task.shapes[way.shape] for way in thing.ways):
            if thing.on_fold:
                found.append(np.unique(shape.ring[:, 0]))
            elif shape.wide > task.across / 2:
                found.append(np.array([task.across - shape.wide, shape.wide]))
    levels = np.unique(np.concatenate(found))
    levels = np.unique(np.concatenate([levels - HAIR, levels + HAIR]))
    levels = levels[(levels > 0) & (levels < task.across)]
    return levels[:: len(levels) // MOST_LEVELS + 1]


def _share(task: Task, thing: Thing) -> float:
    return 1.0 if task.layers == 1 or thing.ways[0].layers == BOTH else 1.0 / task.layers


def _must_cut(task: Task, thing: Thing, number: int, levels: np.ndarray) -> np.ndarray:
    shape = task.shapes[number]
    if thing.on_fold:
        low, high, sure = levels, levels, (levels > shape.left) & (levels < shape.right)
    else:
        room = task.across - shape.wide
        low, high = shape.left + np.maximum(levels - room, 0), shape.left + np.minimum(levels, shape.wide)
        sure = (levels > room) & (levels < shape.wide)
    if not sure.any():
        return np.zeros(len(levels))
    ring = shape.ring if len(shape.ring) <= MOST_CORNERS else inwards(shape.ring, MOST_CORNERS)
    if ring is None:
        return np.zeros(len(levels))
    at, start, end = chords(ring)
    if ring is not shape.ring:  # beyond the simpler outline nothing is sure to be cut
        at = np.concatenate([[shape.left - 1], at, [shape.right + 1]])
        start, end = np.pad(start, 1), np.pad(end, 1)
    return np.where(sure, least_chord(at, start, end, low, high), 0.0)


def chords(ring: Points) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return the levels x of the outline's points and the chord along at both ends of every stretch between them, mm.

    Between two neighbouring levels the chord changes linearly; at a level it may jump, so each stretch has its own ends.
    """
    at = np.unique(ring[:, 0])
    at = at[np.concatenate([[True], np.diff(at) > 1e-9])]
    (x0, y0), (x1, y1) = ring.T, np.roll(ring, -1, axis=0).T
    left, right = at[:-1, None], at[1:, None]
    middle = (left + right) / 2
    crossing = (np.minimum(x0, x1) < middle) & (np.maximum(x0, x1) > middle)
    with np.errstate(divide="ignore", invalid="ignore"):
        slope = (y1 - y0) / (x1 - x0)
        sign = np.where(x1 > x0, -1.0, 1.0)  # counter-clockwise: the lower border runs to the right
        start = np.where(crossing, sign * (y0 + slope * (left - x0)), 0).sum(axis=1)
        end = np.where(crossing, sign * (y0 + slope * (right - x0)), 0).sum(axis=1)
    return at, np.maximum(start, 0), np.maximum(end, 0)


def least_chord(at: np.ndarray, start: np.ndarray, end: np.ndarray, low: np.ndarray, high: np.ndarray) -> np.ndarray:
    """Return the least chord at any level from `low` to `high`, for each pair of these."""
    left, right = at[:-1][None], at[1:][None]
    from_, to = np.maximum(left, low[:, None]), np.minimum(right, high[:, None])
    long = np.maximum(right - left, 1e-12)
    value = np.minimum(start + (end - start) * (from_ - left) / long, start + (end - start) * (to - left) / long)
    return np.where(to >= from_, value, np.inf).min(axis=1, initial=np.inf, where=to >= from_)
