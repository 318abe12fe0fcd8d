"""The two kinds of stroke that a draft is drawn with: a straight line and a cubic curve.

Lengths are measured by Gauss-Legendre quadrature (Abramowitz & Stegun, table 25.4) on halves of the curve, which for
the smooth, short curves of a pattern is right to a few nanometres; the tests hold it against SciPy's adaptive rule.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from .point import Point
from .tolerance import FLATTEN

SHORT_CURVE = 40.0
"""A curve shorter than this (mm) is smooth enough in eight steps."""

_GAUSS = (
    (0.1488743389816312, 0.2955242247147529),
    (0.4333953941292472, 0.2692667193099963),
    (0.6794095682990244, 0.2190863625159821),
    (0.8650633666889845, 0.1494513491505806),
    (0.9739065285171717, 0.0666713443086881),
)


@dataclass(frozen=True, slots=True)
class Line:
    """A straight stroke from `start` to `end`."""

    start: Point
    end: Point

    def length(self) -> float:
        return self.start.distance(self.end)

    def at(self, t: float) -> Point:
        """Return the point at parameter `t`, 0 to 1."""
        return self.start.toward(self.end, t)

    def direction(self, t: float) -> Point:
        return self.end - self.start

    def length_to(self, t: float) -> float:
        return self.length() * t

    def parameter_at(self, distance: float) -> float:
        """Return the parameter `distance` mm along."""
        length = self.length()
        return distance / length if length else 0.0

    def split(self, t: float) -> tuple[Line, Line]:
        middle = self.at(t)
        return Line(self.start, middle), Line(middle, self.end)

    def reversed(self) -> Line:
        return Line(self.end, self.start)

    def mapped(self, change) -> Line:
        """Return this stroke with `change` (Point -> Point, keeping straight lines straight) applied."""
        return Line(change(self.start), change(self.end))

    def flattened(self) -> tuple[Point, ...]:
        return (self.start, self.end)

    def draw(self, pen) -> None:
        pen.line_to(self.end)


@dataclass(frozen=True, slots=True)
class Cubic:
    """A cubic Bezier curve: leaves `start` toward `out`, arrives at `end` from `into`."""

    start: Point
    out: Point
    into: Point
    end: Point

    def at(self, t: float) -> Point:
        """Return the point at parameter `t`, 0 to 1 (Bernstein form)."""
        s = 1.0 - t
        a, b, c, d = s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t
        return Point(
            a * self.start.x + b * self.out.x + c * self.into.x + d * self.end.x,
            a * self.start.y + b * self.out.y + c * self.into.y + d * self.end.y,
        )

    def direction(self, t: float) -> Point:
        """Return the tangent at `t` (not of unit length); where a handle has no length, the next one's."""
        s = 1.0 - t
        a, b, c = 3 * s * s, 6 * s * t, 3 * t * t
        step = (self.out - self.start) * a + (self.into - self.out) * b + (self.end - self.into) * c
        if step.size > 1e-9:
            return step
        return (self.into - self.start) if t < 0.5 else (self.end - self.out)

    def turning_points(self) -> tuple[float, ...]:
        """Return the parameters inside the curve where it runs level or straight down: its box reaches to these."""
        across = (self.start.x, self.out.x, self.into.x, self.end.x)
        down = (self.start.y, self.out.y, self.into.y, self.end.y)
        return tuple(t for t in (*_still(*across), *_still(*down)) if 0.0 < t < 1.0)

    def length(self) -> float:
        return _length(self)

    def length_to(self, t: float) -> float:
        """Return the length from the start to parameter `t`."""
        return _quadrature(self, 0.0, t / 2) + _quadrature(self, t / 2, t)

    def parameter_at(self, distance: float) -> float:
        """Return the parameter `distance` mm along, by Newton's method kept inside a shrinking bracket."""
        total = self.length()
        if distance <= 0:
            return 0.0
        if distance >= total:
            return 1.0
        low, high, t = 0.0, 1.0, distance / total
        for _ in range(40):
            miss = self.length_to(t) - distance
            if abs(miss) < 1e-9:
                break
            low, high = (low, t) if miss > 0 else (t, high)
            speed = self.direction(t).size
            t = t - miss / speed if speed else (low + high) / 2
            if not low < t < high:
                t = (low + high) / 2
        return t

    def split(self, t: float) -> tuple[Cubic, Cubic]:
        """Return the two halves that join at `t` (de Casteljau)."""
        p, q, r = self.start.toward(self.out, t), self.out.toward(self.into, t), self.into.toward(self.end, t)
        pq, qr = p.toward(q, t), q.toward(r, t)
        middle = pq.toward(qr, t)
        return Cubic(self.start, p, pq, middle), Cubic(middle, qr, r, self.end)

    def reversed(self) -> Cubic:
        return Cubic(self.end, self.into, self.out, self.start)

    def mapped(self, change) -> Cubic:
        """Return this curve with `change` (Point -> Point, affine) applied to its four points."""
        return Cubic(change(self.start), change(self.out), change(self.into), change(self.end))

    def flattened(self) -> tuple[Point, ...]:
        """Return points along the curve whose polyline is at most FLATTEN mm shorter than it."""
        return _flattened(self)

    def draw(self, pen) -> None:
        pen.curve_to(self.out, self.into, self.end)


def _still(s: float, o: float, i: float, e: float) -> tuple[float, ...]:
    """Where the cubic with these four values has derivative 0: the roots of a quadratic, in the stable form."""
    a, b, c = e - 3 * i + 3 * o - s, i - 2 * o + s, o - s
    under = b * b - a * c
    if under < 0:
        return ()
    q = -(b + math.copysign(math.sqrt(under), b))
    return tuple(top / bottom for top, bottom in ((q, a), (c, q)) if bottom)


def _quadrature(curve: Cubic, low: float, high: float) -> float:
    middle, half = (low + high) / 2, (high - low) / 2
    s, o, i, e = curve.start, curve.out, curve.into, curve.end
    ax, ay = 3 * (o.x - s.x), 3 * (o.y - s.y)
    bx, by = 6 * (i.x - o.x), 6 * (i.y - o.y)
    cx, cy = 3 * (e.x - i.x), 3 * (e.y - i.y)
    total = 0.0
    for node, weight in _GAUSS:
        for t in (middle - half * node, middle + half * node):
            r = 1.0 - t
            u, v, w = r * r, r * t, t * t
            total += weight * math.hypot(ax * u + bx * v + cx * w, ay * u + by * v + cy * w)
    return total * half


@lru_cache(maxsize=4096)
def _length(curve: Cubic) -> float:
    return _quadrature(curve, 0.0, 0.5) + _quadrature(curve, 0.5, 1.0)


@lru_cache(maxsize=4096)
def _flattened(curve: Cubic) -> tuple[Point, ...]:
    """A polyline's shortfall falls with the square of its steps, so one trial tells how many are needed.

    Sixteen steps at least on a curve that is not nearly straight: they also keep the polyline within 0.15 mm beside it.
    """
    length, chord = _length(curve), curve.start.distance(curve.end)
    count = 8 if length - chord < FLATTEN or length < SHORT_CURVE else 16
    trial = _polyline(curve, count)
    short = length - sum(p.distance(q) for p, q in zip(trial, trial[1:], strict=False))
    if short <= FLATTEN:
        return trial
    return _polyline(curve, min(400, math.ceil(count * math.sqrt(short / FLATTEN) * 1.05)))


def _polyline(curve: Cubic, count: int) -> tuple[Point, ...]:
    return (curve.start, *(curve.at(i / count) for i in range(1, count)), curve.end)


def straight_down(start: Point, end: Point, *, leave: float = 0.35, arrive: float = 0.35) -> Cubic:
    """Return the curve from `start` to `end` that leaves and arrives straight down.

    Its handles are upright, `leave` and `arrive` of the height long, so it meets level edges square.
    """
    height = end.y - start.y
    return Cubic(start, Point(start.x, start.y + leave * height), Point(end.x, end.y - arrive * height), end)


def level_both_ends(start: Point, end: Point, *, handle: float = 1 / 3) -> Cubic:
    """Return the curve from `start` to `end` that leaves and arrives level; handles are a share of the width."""
    width = end.x - start.x
    return Cubic(start, Point(start.x + handle * width, start.y), Point(end.x - handle * width, end.y), end)


def arc(start: Point, direction_deg: float, turn_deg: float, length: float) -> tuple[Cubic, ...]:
    """Return a circular arc as cubics of at most 15 degrees each (radial error under 6e-9 of the radius).

    It leaves `start` along `direction_deg` and turns by `turn_deg` (positive clockwise) over `length` mm. A turn of
    nearly nothing gives one straight cubic. Handle length 4/3 tan(angle/4): the usual circle rule.
    """
    count = max(1, math.ceil(abs(turn_deg) / 15.0))
    piece, step = length / count, turn_deg / count
    curves = []
    for _ in range(count):
        turn = math.radians(step)
        if abs(turn) < 1e-9:
            handle, chord = piece / 3, piece
        else:
            radius = piece / abs(turn)
            handle, chord = radius * 4 / 3 * math.tan(abs(turn) / 4), 2 * radius * math.sin(abs(turn) / 2)
        heading = Point(1.0, 0.0).turned(direction_deg)
        end = start + Point(chord, 0.0).turned(direction_deg + step / 2)
        leaving = Point(1.0, 0.0).turned(direction_deg + step)
        curves.append(Cubic(start, start + heading * handle, end - leaving * handle, end))
        start, direction_deg = end, direction_deg + step
    return tuple(curves)
