"""A skirt's hem where front, side and back are to be differently long, and how much can be turned up on a curved hem."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from ..curve import Cubic, Line
from ..path import Path
from ..point import Point
from ..report import Warning_
from ..tolerance import INCH, TOUCHING

HEM_SHARE = 0.025
"""A hem deeper than this share of its radius can't be eased flat. Common practice, no source."""

LEAST_HEM = 0.25 * INCH
TURNED_HEM = 0.375 * INCH
"""Less than this is not turned up but faced or rolled. Judgement."""

STEPS = 6
"""Cubics along a hem of uneven length, a half or a gore each: below a tenth of a millimetre beside the true line."""


@dataclass(frozen=True, slots=True)
class HemLengths:
    """By how much the hem lies below the plain one, mm, along the half from the centre front to the centre back.

    `front`, `side` and `back` are the three that were asked for; between them the hem runs level at both centres and without a
    corner across the side seam: a cubic in each half whose slope at the side is the harmonic mean of the two (Fritsch and
    Butland, SIAM J. Sci. Stat. Comput. 5, 1984: it never overshoots). `across_front` and `across_back` are the plain hem's halves.
    """

    front: float
    side: float
    back: float
    across_front: float
    across_back: float

    @property
    def is_plain(self) -> bool:
        return max(abs(self.front), abs(self.side), abs(self.back)) < TOUCHING

    @property
    def whole(self) -> float:
        return self.across_front + self.across_back

    def _side_slope(self) -> float:
        first, second = (self.side - self.front) / self.across_front, (self.back - self.side) / self.across_back
        return 2 * first * second / (first + second) if first * second > 0 else 0.0

    def at(self, place: float) -> tuple[float, float]:
        """Return the extra length and its slope `place` mm along the half hem."""
        slope = self._side_slope()
        if place <= self.across_front:
            return _hermite(place / self.across_front, self.across_front, self.front, 0.0, self.side, slope)
        return _hermite((place - self.across_front) / self.across_back, self.across_back, self.side, slope, self.back, 0.0)


def _hermite(t: float, width: float, start: float, slope_start: float, end: float, slope_end: float) -> tuple[float, float]:
    a, b = slope_start * width, slope_end * width
    value = start * (1 + 2 * t) * (1 - t) ** 2 + a * t * (1 - t) ** 2 + end * t * t * (3 - 2 * t) + b * t * t * (t - 1)
    rate = 6 * t * (1 - t) * (end - start) + a * (1 - t) * (1 - 3 * t) + b * t * (3 * t - 2)
    return value, rate / width


def uneven_hem(plain: Path, extra: Callable[[float], tuple[float, float]], *, start: float = 0.0) -> Path:
    """Return the plain hem (level or a circle's arc, walked from `start` mm of it on) lowered along its own square lines by
    `extra`, which answers (mm, slope) for a place on it."""
    length = plain.length()
    turn = math.radians(plain.arrives().angle_deg - plain.leaves().angle_deg)
    bend, heading = turn / length, math.radians(plain.leaves().angle_deg)

    def place(at: float) -> tuple[Point, Point]:
        angle = heading + bend * at
        along, down = Point(math.cos(angle), math.sin(angle)), Point(-math.sin(angle), math.cos(angle))
        more, slope = extra(start + at)
        return plain.at(at) + down * more, along * (1 - bend * more) + down * slope

    knots = [place(length * i / STEPS) for i in range(STEPS + 1)]
    third = length / STEPS / 3
    return Path(tuple(Cubic(p, p + u * third, q - v * third, q) for (p, u), (q, v) in zip(knots, knots[1:], strict=False)))


def lengthened_half(half, lengths: HemLengths, *, is_back: bool):
    """Return a front or back half (its hem walked from the centre) with its hem lowered by `lengths`."""
    if lengths.is_plain:
        return half

    def extra(at: float) -> tuple[float, float]:
        if not is_back:
            return lengths.at(at)
        more, slope = lengths.at(lengths.whole - at)
        return more, -slope

    hem = uneven_hem(half.hem, extra)
    return replace(half, hem=hem, side=ended_at(half.side, hem.end), tapered=False)


def ended_at(side: Path, end: Point) -> Path:
    """Return a seam with its last, straight stroke run on (or cut back) to `end`."""
    last = side.strokes[-1]
    return Path((*side.strokes[:-1], Line(last.start, end)))


def tightest_radius(hems: Iterable[Path]) -> float:
    """Return the least radius of curvature along the hems, mm; infinity for level ones."""
    tightest = math.inf
    for hem in hems:
        for stroke in hem.strokes:
            if isinstance(stroke, Line):
                continue
            for t in (0.0, 0.25, 0.5, 0.75, 1.0):
                bend = _bend(stroke, t)
                if bend > 1e-7:
                    tightest = min(tightest, 1 / bend)
    return tightest


def _bend(c: Cubic, t: float) -> float:
    first = c.direction(t)
    second = ((c.into - c.out * 2 + c.start) * (1 - t) + (c.end - c.into * 2 + c.out) * t) * 6
    return abs(first.cross(second)) / first.size**3


def hem_allowance(hems: Iterable[Path], wanted: float) -> tuple[float, list[Warning_]]:
    """Return the hem allowance, held to what the most curved of the hems can take."""
    radius = tightest_radius(hems)
    most = max(LEAST_HEM, HEM_SHARE * radius)
    if wanted <= most:
        return wanted, []
    how = " Face it or roll it." if most < TURNED_HEM else ""
    return most, [Warning_("hem-held", "The hem allowance was held to {0} (house rule {1}): deeper, a hem so flared can't "
                           f"be turned flat.{how}", (most, wanted))]
