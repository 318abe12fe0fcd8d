"""Outlines made ready for the search: checked, made simpler outwards only, and divided into convex parts."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from .errors import BadPiece

Points = NDArray[np.float64]
"""(n, 2): x across, y along; an unclosed ring, counter-clockwise where nothing else is said."""

FEW_POINTS = 24
MOST_POINTS = 56
MOST_PARTS = 14
SAME_POINT = 1e-9
THINNEST = 1e-7
"""An outline with less area than this share of its length squared is a line drawn there and back."""


def clean_ring(name: str, outline: tuple[tuple[float, float], ...]) -> Points:
    """Return the outline counter-clockwise without doubled points; raises BadPiece where it is no simple outline."""
    ring = np.array(outline, dtype=float)
    keep = np.hypot(*(ring - np.roll(ring, 1, axis=0)).T) > SAME_POINT
    ring = ring[keep]
    shape = Polygon(ring) if len(ring) >= 3 else None
    if shape is None or _is_line(shape.convex_hull):
        raise BadPiece(name, "outline", "its outline encloses nothing. Give points that go once round it.")
    if not shape.is_valid:
        where = shapely.is_valid_reason(shape)
        raise BadPiece(name, "outline", f"its outline crosses itself ({where}). Give points that go once round it.")
    if _is_line(shape):
        raise BadPiece(name, "outline", "its outline encloses next to nothing. Give points that go once round it.")
    return ring if shape.exterior.is_ccw else ring[::-1].copy()


def _is_line(shape) -> bool:
    return shape.area <= SAME_POINT or shape.area < THINNEST * shape.length**2


def opened_out(name: str, half: Points) -> Points:
    """Return the whole piece of a right half whose fold lies at x = 0; raises BadPiece where no fold edge is there."""
    check_fold(name, half)
    right = Polygon(half)
    whole = shapely.union(right, Polygon(half * [-1, 1]), grid_size=1e-6)
    if whole.geom_type != "Polygon" or whole.interiors:
        raise BadPiece(
            name, "outline", "opened out along its fold it does not make one whole piece. Check its right half."
        )
    ring = np.array(whole.exterior.coords[:-1])
    return ring if whole.exterior.is_ccw else ring[::-1].copy()


def check_fold(name: str, half: Points) -> None:
    """Raise BadPiece unless the outline is a right half that has an edge on its fold, x = 0."""
    on_fold = np.abs(half[:, 0]) < 1e-3
    if half[:, 0].min() < -1e-3 or on_fold.sum() < 2:
        raise BadPiece(
            name, "outline", "it is on the fold, so its outline is the right half: x from 0 up, the fold at x = 0."
        )


def outwards(ring: Points, tolerance: float) -> Points:
    """Return a ring of fewer points that covers `ring`, standing off it by about `tolerance` at most where that is enough.

    Hollow corners are filled and short edges are cut off to where their neighbours meet. A ring that has too many points
    even so is made simpler still, in the end to its convex hull: the search must end, whatever the outline.
    """
    best = ring
    for factor in (1e-6, 0.1, 0.25, 0.5, 1, 4, 16, 64):
        if len(best) <= (FEW_POINTS if factor <= 1 else MOST_POINTS):
            break
        best = _simplified(best, tolerance * factor) if len(best) < 2000 else _hull(best)
    if len(best) > MOST_POINTS:
        best = _hull(ring)
    if best is not ring:
        shape = Polygon(best)
        if not shape.is_valid or shapely.difference(Polygon(ring), shape).area > 1e-6 * max(shape.length, 1):
            best = ring if len(ring) <= MOST_POINTS else _hull(ring)
    return best


def _hull(ring: Points) -> Points:
    hull = np.array(Polygon(ring).convex_hull.exterior.coords[:-1])
    hull = hull if Polygon(hull).exterior.is_ccw else hull[::-1].copy()
    if len(hull) > MOST_POINTS:
        low, high = ring.min(axis=0), ring.max(axis=0)
        return np.array([low, (high[0], low[1]), high, (low[0], high[1])])
    return hull


def _simplified(ring: Points, tolerance: float) -> Points:
    for _ in range(200):
        at = _cheapest(ring, tolerance)
        if at is None:
            return ring
        ring = at
    return ring


def _cheapest(ring: Points, tolerance: float) -> Points | None:
    """Take out every corner or edge whose cost is within `tolerance` and least among its neighbours; None when none is."""
    if len(ring) <= 4:
        return None
    before, after = _rolled(ring, 1), _rolled(ring, -1)
    far = _rolled(after, -1)
    into, out, on = ring - before, after - ring, far - after
    turn = _cross(into, out)
    chord = np.hypot(*(after - before).T)
    hollow = np.where(turn <= 1e-12, np.abs(turn) / np.maximum(chord, 1e-12), np.inf)
    # An edge from a full corner to a full corner: its neighbours are prolonged until they meet.
    across = _cross(into, on)
    full = (turn > 0) & (_rolled(turn, -1) > 0) & (across > 1e-12)
    with np.errstate(divide="ignore", invalid="ignore"):
        reach = _cross(out, on) / across
        meet = ring + into * reach[:, None]
        height = np.abs(_cross(out, meet - ring)) / np.maximum(np.hypot(*out.T), 1e-12)
    short = np.where(full & (reach >= 0), height, np.inf)
    cost = np.minimum(hollow, short)
    best = cost <= tolerance
    if not best.any():
        return None
    for shift in (1, 2, 3):
        best &= (cost < _rolled(cost, shift)) & (cost <= _rolled(cost, -shift))
    chosen = np.flatnonzero(best)
    if not len(chosen):
        at = int(np.argmin(cost))
        if not cost[at] <= tolerance:
            return None
        chosen = np.array([at])
    if len(ring) - len(chosen) < 4:
        chosen = chosen[:1]
    keep, made = np.ones(len(ring), bool), ring.copy()
    for at in chosen:
        if hollow[at] <= short[at]:
            keep[at] = False
        else:
            made[at] = meet[at]
            keep[(at + 1) % len(ring)] = False
    return made[keep]


def convex_parts(ring: Points) -> list[Points]:
    """Divide a simple ring into convex rings whose union it is; at most MOST_PARTS, else its convex hull alone."""
    if (_turns(ring) >= -1e-9).all():
        return [ring]
    triangles = shapely.constrained_delaunay_triangles(Polygon(ring))
    index = {(x, y): at for at, (x, y) in enumerate(map(tuple, ring))}
    parts: dict[int, list[int]] = {}
    edges: dict[tuple[int, int], int] = {}
    for number, triangle in enumerate(triangles.geoms):
        corners = [index[point] for point in triangle.exterior.coords[:-1]]
        if not triangle.exterior.is_ccw:
            corners.reverse()
        parts[number] = corners
        for one, two in zip(corners, corners[1:] + corners[:1], strict=True):
            edges[one, two] = number
    inner = [edge for edge in edges if edge[0] < edge[1] and edge[::-1] in edges]
    inner.sort(key=lambda edge: -float(np.hypot(*(ring[edge[0]] - ring[edge[1]]))))
    for one, two in inner:
        _join(ring, parts, edges, one, two)
    if len(parts) > MOST_PARTS:
        return [_hull(ring)]
    return [ring[corners] for corners in parts.values()]


def _join(ring: Points, parts: dict[int, list[int]], edges: dict[tuple[int, int], int], one: int, two: int) -> None:
    left, right = edges[one, two], edges[two, one]
    if left == right:
        return
    a, b = parts[left], parts[right]
    at, to = a.index(two), b.index(one)
    joined = a[at:] + a[:at]  # from `two` round to `one`
    joined = joined + (b[to:] + b[:to])[1:-1]
    if (_turns(ring[joined]) < -1e-9).any():
        return
    parts[left] = joined
    del parts[right]
    for start, end in zip(joined, joined[1:] + joined[:1], strict=True):
        edges[start, end] = left
    edges[one, two] = edges[two, one] = left


def _turns(ring: Points) -> Points:
    return _cross(ring - _rolled(ring, 1), _rolled(ring, -1) - ring)


def _rolled(ring: Points, by: int) -> Points:
    """The rows of a ring of more than `by` of them, begun `by` rows earlier; numpy's own roll is five times slower on so few."""
    return np.concatenate((ring[-by:], ring[:-by]))


def _cross(a: Points, b: Points) -> Points:
    return a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
