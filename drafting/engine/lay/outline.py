"""Outlines made ready for the search: checked, made simpler outwards only, and divided into convex parts."""

from __future__ import annotations

import re

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from .errors import BadPiece

Points = NDArray[np.float64]
"""(n, 2): x across, y along; an unclosed ring, counter-clockwise where nothing else is said."""

FEW_POINTS, FEW_HOLLOWS = 24, 8
MOST_POINTS = 56
MOST_AT_ONCE = 600
"""Corners that are taken out one by one: an outline of more is first made simpler all along, by Shapely."""

MOST_PARTS = 18
SAME_POINT = 1e-9
DIRECTIONS = 48
GOLDEN = 0.6180339887498949
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
        text = "its outline crosses itself near {x} across, {y} along. Give points that go once round it."
        raise BadPiece(name, "outline", text, near=_crossing(shape))
    if _is_line(shape):
        raise BadPiece(name, "outline", "its outline encloses next to nothing. Give points that go once round it.")
    return ring if shape.exterior.is_ccw else ring[::-1].copy()


def _crossing(shape: Polygon) -> tuple[float, float]:
    """Where an outline that is not valid crosses or touches itself."""
    figures = re.search(r"\[(\S+) (\S+)\]", shapely.is_valid_reason(shape))
    return (float(figures[1]), float(figures[2])) if figures else tuple(shape.exterior.coords[0])


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
    best = ring = standing_off(ring, tolerance / 4)
    for factor in (1e-6, 0.1, 0.25, 0.5, 1, 4, 16, 64):
        few = len(best) <= FEW_POINTS and _hollows(best) <= FEW_HOLLOWS
        if few or (factor > 1 and len(best) <= MOST_POINTS and _hollows(best) < MOST_PARTS):
            break
        best = _simplified(best, tolerance * factor)
    if len(best) > MOST_POINTS:
        best = _hull(ring)
    if best is not ring:
        shape = Polygon(best)
        if not shape.is_valid or shapely.difference(Polygon(ring), shape).area > 1e-6 * max(shape.length, 1):
            best = ring if len(ring) <= MOST_POINTS else _hull(ring)
    return best


def inwards(ring: Points, most: int) -> Points | None:
    """Return a ring of at most `most` points that lies inside of `ring` and near it; None where none was found.

    The outline passes no nearer than `reach` to what is left when its simplified line, which stays within `reach` of it,
    is cut off by that much: what is left lies inside.
    """
    for reach in np.sqrt(Polygon(ring).area) * 1e-4 * 4.0 ** np.arange(6):
        shape = Polygon(_thinned(ring, reach))
        if len(shape.exterior.coords) > most or not shape.is_valid:
            continue
        inner = shape.buffer(-reach, join_style="mitre")
        inner = max(getattr(inner, "geoms", [inner]), key=lambda part: part.area)
        if 3 < len(inner.exterior.coords) <= most:
            found = np.array(inner.exterior.coords[:-1])
            return found if inner.exterior.is_ccw else found[::-1].copy()
    return None


def standing_off(ring: Points, reach: float) -> Points:
    """Return a ring of at most MOST_AT_ONCE points round `ring`: itself if it has no more, else one that stands off by twice
    `reach` or, where that leaves too many, by more.
    """
    if len(ring) <= MOST_AT_ONCE:
        return ring
    hull = _hull(ring)
    for wider in reach * 4.0 ** np.arange(4):
        line = _thinned(ring, wider)
        if len(line) > MOST_AT_ONCE:
            continue
        outer = Polygon(shapely.linearrings(line).buffer(wider, quad_segs=2).exterior)
        if outer.area > Polygon(hull).area:
            break
        if len(outer.exterior.coords) <= MOST_AT_ONCE:
            return np.array(shapely.orient_polygons(outer).exterior.coords[:-1])
    return hull


def _thinned(ring: Points, reach: float) -> Points:
    """Some of the ring's points: each edge between two of them passes within `reach` of all that it leaves out.

    Runs of 2, 4, 8 … points are taken together as long as their chord is near enough: n log n, whatever the outline.
    """
    count = len(ring)
    keep = np.ones(count, bool)
    begins = np.arange(0, count - 1, 2)
    long = 2
    while len(begins):
        ends = np.minimum(begins + long, count - 1)
        at = np.minimum(begins[:, None] + np.arange(1, long)[None, :], ends[:, None])
        chord, along = ring[ends] - ring[begins], ring[at] - ring[begins][:, None]
        share = (along * chord[:, None]).sum(axis=2) / np.maximum((chord**2).sum(axis=1), 1e-12)[:, None]
        off = along - np.clip(share, 0, 1)[..., None] * chord[:, None]
        near = ((off**2).sum(axis=2) <= reach**2).all(axis=1)
        inner = at[near]
        keep[inner[inner < ends[near][:, None]]] = False
        begins, long = begins[near & (begins % (2 * long) == 0)], 2 * long
    return ring[keep]


def _hull(ring: Points) -> Points:
    """The convex hull; of more than MOST_POINTS corners, what lies inside of DIRECTIONS lines that touch it all round."""
    hull = shapely.get_coordinates(shapely.orient_polygons(Polygon(ring).convex_hull))[:-1]
    if len(hull) <= MOST_POINTS:
        return hull
    angle = np.arange(DIRECTIONS) * (2 * np.pi / DIRECTIONS)
    out = np.stack([np.cos(angle), np.sin(angle)], axis=1)
    reach, after = (hull @ out.T).max(axis=0), np.roll(np.arange(DIRECTIONS), -1)
    step = 2 * np.pi / DIRECTIONS
    on = (reach[after] - reach * np.cos(step)) / np.sin(step)  # from where a line touches a circle on to where it meets the next
    corners = out * reach[:, None] + np.stack([-out[:, 1], out[:, 0]], axis=1) * on[:, None]
    return corners[np.hypot(*(corners - corners[after]).T) > SAME_POINT]


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
    # Among equals, as all round a circle, one of a few neighbours is picked as if by lot; else only one would go at a time.
    lot = cost + tolerance * 1e-6 * (np.arange(len(ring)) * GOLDEN % 1)
    for shift in (1, 2, 3):
        best &= (lot < _rolled(lot, shift)) & (lot <= _rolled(lot, -shift))
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


def _hollows(ring: Points) -> int:
    """How many corners turn inwards: each takes a part more."""
    return int((_turns(ring) < -1e-9).sum())


def _turns(ring: Points) -> Points:
    return _cross(ring - _rolled(ring, 1), _rolled(ring, -1) - ring)


def _rolled(ring: Points, by: int) -> Points:
    """The rows of a ring of more than `by` of them, begun `by` rows earlier; numpy's own roll is five times slower on so few."""
    return np.concatenate((ring[-by:], ring[:-by]))


def _cross(a: Points, b: Points) -> Points:
    return a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
