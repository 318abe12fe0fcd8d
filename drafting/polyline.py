"""Plain sums on the polylines of a result: lists of (x, y) in millimetres, y down the page."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

XY = tuple[float, float]
Polyline = Sequence[XY]


def length(line: Polyline) -> float:
    """Return the length of an open polyline, mm."""
    return sum(math.dist(a, b) for a, b in zip(line, line[1:]))


def walked(line: Polyline, distance: float) -> tuple[XY, XY]:
    """Return the point at `distance` mm from the first point, and the unit direction of walking there.

    A distance beyond either end gives that end.
    """
    left = max(distance, 0.0)
    at, ahead = line[0], (1.0, 0.0)
    for a, b in zip(line, line[1:]):
        step = math.dist(a, b)
        if step == 0.0:
            continue
        ahead = ((b[0] - a[0]) / step, (b[1] - a[1]) / step)
        if left <= step:
            return (a[0] + ahead[0] * left, a[1] + ahead[1] * left), ahead
        left -= step
        at = b
    return at, ahead


def turning(ring: Polyline) -> int:
    """Return 1 where an unclosed ring is walked clockwise as drawn (y down), −1 otherwise."""
    doubled = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, [*ring[1:], ring[0]]))
    return 1 if doubled >= 0 else -1


def outward(ahead: XY, turn: int) -> XY:
    """Return the unit step out of a ring of that turning, square to the direction of walking."""
    return (ahead[1] * turn, -ahead[0] * turn)


def readable(ahead: XY) -> float:
    """Return the angle (degrees, clockwise) of text along a direction, read from below or from the right."""
    angle = math.degrees(math.atan2(ahead[1], ahead[0]))
    if angle > 89:
        return angle - 180
    return angle + 180 if angle < -91 else angle


def closed(ring: Polyline) -> list[XY]:
    """Return an unclosed ring with its first point repeated at its end."""
    return [*ring, ring[0]]


def bounds(points: Iterable[XY]) -> tuple[float, float, float, float]:
    """Return left, top, right, bottom of the points; raises ValueError where there are none."""
    xs, ys = zip(*points)
    return min(xs), min(ys), max(xs), max(ys)


def ray(start: XY, ahead: XY, ring: Polyline, *, beyond: float = -0.01) -> float | None:
    """Return how far along `ahead` (unit) from `start` the ring is first met, mm; None where it never is."""
    nearest = None
    for a, b in zip(ring, [*ring[1:], ring[0]]):
        across = (b[0] - a[0], b[1] - a[1])
        cross = ahead[0] * across[1] - ahead[1] * across[0]
        if abs(cross) < 1e-12:
            continue
        to = (a[0] - start[0], a[1] - start[1])
        far = (to[0] * across[1] - to[1] * across[0]) / cross
        share = (to[0] * ahead[1] - to[1] * ahead[0]) / cross
        if far > beyond and -1e-9 <= share <= 1 + 1e-9 and (nearest is None or far < nearest):
            nearest = far
    return nearest


def gap(point: XY, line: Polyline) -> float:
    """Return the shortest distance from the point to the polyline, mm."""
    best = math.inf
    for a, b in zip(line, line[1:]):
        dx, dy = b[0] - a[0], b[1] - a[1]
        squared = dx * dx + dy * dy
        share = 0.0 if squared == 0 else ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / squared
        share = min(max(share, 0.0), 1.0)
        best = min(best, math.hypot(point[0] - a[0] - share * dx, point[1] - a[1] - share * dy))
    return best


def reach(line: Polyline, at: XY, ahead: XY, out: XY, half: float) -> float:
    """Return how far the line goes beyond `at` in the direction `out`, looked at `half` mm either way along `ahead`.

    Never under 0: where the line stays behind, `at` itself is the limit.
    """
    farthest = 0.0
    for a, b in zip(line, line[1:]):
        ends = [
            ((x - at[0]) * ahead[0] + (y - at[1]) * ahead[1], (x - at[0]) * out[0] + (y - at[1]) * out[1])
            for x, y in (a, b)
        ]
        (along_a, out_a), (along_b, out_b) = ends
        if max(along_a, along_b) < -half or min(along_a, along_b) > half:
            continue
        for along, off in ends:
            if abs(along) <= half:
                farthest = max(farthest, off)
        for limit in (-half, half):
            if (along_a - limit) * (along_b - limit) < 0:
                farthest = max(farthest, out_a + (out_b - out_a) * (limit - along_a) / (along_b - along_a))
    return farthest


def holds(ring: Polyline, point: XY) -> bool:
    """Tell whether the ring goes round the point."""
    inside, (x, y) = False, point
    for a, b in zip(ring, [*ring[1:], ring[0]]):
        if (a[1] > y) != (b[1] > y) and x < a[0] + (y - a[1]) * (b[0] - a[0]) / (b[1] - a[1]):
            inside = not inside
    return inside


def thinned(line: Polyline, within: float) -> list[XY]:
    """Return the fewest of the line's own points that keep it within `within` mm of where it was (Douglas–Peucker)."""
    if len(line) < 3 or within <= 0:
        return list(line)
    kept = {0, len(line) - 1}
    spans = [(0, len(line) - 1)]
    while spans:
        first, last = spans.pop()
        farthest, distance = 0, within
        chord = (line[first], line[last])
        for index in range(first + 1, last):
            away = gap(line[index], chord)
            if away > distance:
                farthest, distance = index, away
        if farthest:
            kept.add(farthest)
            spans += [(first, farthest), (farthest, last)]
    return [line[index] for index in sorted(kept)]


def without_side(ring: Polyline, side: Polyline, *, within: float = 0.05) -> list[list[XY]]:
    """Return the ring as open lines, leaving out every stretch that runs along the straight line through `side`.

    A cutting line is drawn so where it meets a fold: there the cloth is not cut.
    """
    (x0, y0), (x1, y1) = side[0], side[-1]
    along = math.hypot(x1 - x0, y1 - y0)
    if along == 0:
        return [closed(ring)]

    def on_side(point: XY) -> bool:
        return abs((point[0] - x0) * (y1 - y0) - (point[1] - y0) * (x1 - x0)) / along <= within

    points = list(ring)
    start = next(
        (i for i in range(len(points)) if on_side(points[i]) and not on_side(points[i - len(points) + 1])), None
    )
    if start is None:
        return [closed(ring)]
    lines, current = [], []
    walk = [*points[start:], *points[: start + 1]]
    for a, b in zip(walk, walk[1:]):
        if on_side(a) and on_side(b):
            if len(current) > 1:
                lines.append(current)
            current = []
        else:
            current = [*(current or [a]), b]
    if len(current) > 1:
        lines.append(current)
    return lines
