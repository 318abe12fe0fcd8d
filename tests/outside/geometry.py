"""Plane geometry on a result's polylines, by Shapely and plain vectors."""

import math
from itertools import pairwise

import numpy as np
from shapely import LineString, Polygon

Line = list[list[float]]

INCH = 25.4


def length(line: Line) -> float:
    return sum(map(math.dist, line, line[1:]))


def ring(points: Line) -> Polygon:
    return Polygon(np.asarray(points))  # many times as quick as from a list


def named(result: dict) -> dict[str, dict]:
    return {piece["name"]: piece for piece in result["pieces"]}


def edge_of(piece: dict, name: str) -> dict:
    return next(edge for edge in piece["edges"] if edge["name"] == name)


def along(line: Line, at: float) -> tuple[float, float]:
    point = LineString(line).interpolate(at)
    return point.x, point.y


def slice_width(net: Line, y: float) -> float:
    """How much of the level y lies inside the outline."""
    xs = [x for x, _ in net]
    return Polygon(net).intersection(LineString([(min(xs) - 10, y), (max(xs) + 10, y)])).length


def x_at(line: Line, y: float) -> float:
    """Where an edge crosses the level y (its only crossing)."""
    for (x0, y0), (x1, y1) in pairwise(line):
        if min(y0, y1) - 1e-9 <= y <= max(y0, y1) + 1e-9 and y0 != y1:
            return x0 + (x1 - x0) * (y - y0) / (y1 - y0)
    raise AssertionError(f"the edge does not reach y = {y}")


def vector(line: Line) -> tuple[float, float]:
    return line[-1][0] - line[0][0], line[-1][1] - line[0][1]


def same_way(a: Line, b: Line) -> bool:
    """Whether two mated edges are drawn the same way, judged by the component that a runs along most; what lies left of the
    middle is drawn as the mirror image."""
    (ax, ay), (bx, by) = vector(a), vector(b)
    if (sum(x for x, _ in a) < 0) != (sum(x for x, _ in b) < 0):
        ax = -ax
    return (ax * bx if abs(ax) > abs(ay) else ay * by) > 0


def _angle(a: list[float], b: list[float]) -> float:
    return math.atan2(b[1] - a[1], b[0] - a[0])


def end_direction(line: Line) -> float:
    """The direction in which the curve behind a polyline arrives at its last point, radians.

    The last chord lags behind the curve by half of what it bends over it; the bend is read off the last three points.
    A last chord over twice as long as the one before it is no chord of that curve but a straight stroke after it.
    """
    last = _angle(line[-2], line[-1])
    if len(line) < 3:
        return last
    before = _angle(line[-3], line[-2])
    reach, reach_before = math.dist(line[-2], line[-1]), math.dist(line[-3], line[-2])
    if reach > 2 * reach_before:
        return last
    turn = math.remainder(last - before, math.tau)
    return last + turn * reach / (reach + reach_before)


def corner_deg(before: Line, after: Line) -> float:
    """The angle from where `after` sets out back to where `before` came from, degrees 0 to 360."""
    back, out = end_direction(before) + math.pi, end_direction(after[::-1]) + math.pi
    return math.degrees(back - out) % 360


def interior_deg(piece: dict, before: str, after: str) -> float:
    """The inside angle of a piece at the corner where one named edge ends and the next begins."""
    angle = corner_deg(edge_of(piece, before)["line"], edge_of(piece, after)["line"])
    area = sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(piece["net"], piece["net"][1:] + piece["net"][:1], strict=True))
    return angle if area > 0 else 360 - angle


CORNER_IN_AN_EDGE = math.radians(60)


def unseen_arc(line: Line) -> float:
    """About how much longer than its polyline the true curve is: θ²s/24 a chord, θ the turn over it.

    Where chords differ, the shorter counts: a long straight stroke beside a curve bends nowhere itself.
    """
    total = 0.0
    steps = [(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(line)]
    for (ux, uy), (vx, vy) in pairwise(steps):
        turn = math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)
        if abs(turn) > CORNER_IN_AN_EDGE:
            continue  # a corner that is meant, as in a square neckline, not a curve drawn too coarsely
        total += turn * turn * min(math.hypot(ux, uy), math.hypot(vx, vy)) / 24
    return total
