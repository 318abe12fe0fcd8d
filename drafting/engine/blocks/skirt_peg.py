"""A pegged skirt: a straight one whose side seams come in below the hip, to a hem that is narrower than the hips.

From the hip the side seam bends inward over its first part and runs on straight; the hem is an arc square to the centre and to the
side, so it lies a little lower at the side. Source of the limit: the drafting method, section 8 (Walking): a taper of 3 degrees a
side at most; the rest is common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from ..curve import Cubic, Line, arc
from ..errors import ImpossibleMeasure
from ..path import Path
from ..point import Point
from ..solve import root
from ..tolerance import TOUCHING
from .skirt import SkirtHalf

MOST_TAPER = math.radians(3.0)
BEND = 0.3
"""The side bends inward over this share of the way from the hip to the hem. Judgement."""


@dataclass(frozen=True, slots=True)
class Peg:
    """A side seam's slant inward (radians) and over how many mm below the hip it bends to it."""

    taper: float
    bend: float

    def comes_in(self, below: float) -> float:
        """Return how far the side has come in `below` mm under the hip."""
        if below <= 0:
            return 0.0
        tan = math.tan(self.taper)
        return tan * below * below / (2 * self.bend) if below < self.bend else tan * (below - self.bend / 2)


def plan_peg(hips: tuple[float, float], run: float, sweep: float) -> Peg:
    """Return the peg for a hem of `sweep` mm all round, `run` mm below the hip line; `hips` are the front's and back's hip quarters.

    Raises ImpossibleMeasure for a hem wider than the hips, or too narrow for the taper.
    """
    def hem(taper: float) -> float:
        peg = Peg(taper, BEND * run)
        return 2 * sum(_arc(hip - peg.comes_in(_down(peg, hips[0], run)), taper) for hip in hips)

    least = hem(MOST_TAPER)
    if sweep > hem(0.0) + TOUCHING:
        raise ImpossibleMeasure("skirt.sweep", sweep, "A straight skirt's hem is no wider than its hips, {needed}; {value} was asked for. Choose an A-line "
                                "or gores.", needed=hem(0.0))
    if sweep < least - TOUCHING:
        raise ImpossibleMeasure("skirt.sweep", sweep, "A hem of {value} all round is too narrow: pegged by 3° a side, this skirt comes in to {needed}.",
                                needed=least)
    if sweep >= hem(0.0) - TOUCHING:
        return Peg(0.0, BEND * run)
    return Peg(root(lambda taper: hem(taper) - max(sweep, least), 0.0, MOST_TAPER, name="taper of the side seam"), BEND * run)


def pegged(front: SkirtHalf, back: SkirtHalf, peg: Peg, run: float) -> tuple[SkirtHalf, SkirtHalf]:
    """Return straight halves with one side seam tapered from the hip line to the hem, which lies `run` mm below it at the centre front;
    at the centre back by so much less as makes the seams alike (under a millimetre)."""
    if peg.taper < 1e-6:
        return front, back
    down = _down(peg, front.hip_line.end.x, run)
    return _pegged(front, peg, down), _pegged(back, peg, down)


def _pegged(half: SkirtHalf, peg: Peg, down: float) -> SkirtHalf:
    hip, tan, third = half.hip_line.end, math.tan(peg.taper), peg.bend / 3
    end = Point(hip.x - peg.comes_in(down), hip.y + down)
    turned = Point(hip.x - peg.comes_in(peg.bend), hip.y + peg.bend)
    bend = Cubic(hip, hip + Point(0.0, third), turned - Point(-tan, 1.0) * third, turned)
    start = Point(0.0, end.y - end.x * math.tan(peg.taper / 2))
    hem = Path(arc(start, 0.0, math.degrees(peg.taper), _arc(end.x, peg.taper)))
    return replace(half, side=Path.of(half.side.strokes[0], bend, Line(turned, end)), hem=hem, tapered=True)


def _down(peg: Peg, hip: float, run: float) -> float:
    """Return how far below the hip the side seam ends where the hem ends `run` mm below it at the centre."""
    tan, half = math.tan(peg.taper), math.tan(peg.taper / 2)
    across = (hip - tan * (run - peg.bend / 2)) / (1 + tan * half)
    return run + across * half


def _arc(across: float, taper: float) -> float:
    """Return the length of half a hem that reaches `across`: from the centre, level, square to the side."""
    return across * taper / math.sin(taper) if taper > 1e-9 else across
