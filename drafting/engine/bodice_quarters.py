"""Quarters, darts and levels of a fitted bodice: every figure that its front and back are drawn from.

Front and back share the bust by `front_share` (0.65 for a bodice); the upper dart is not taken at the chest, so the chest
quarter is the bust quarter. Waist shaping goes to the side, alike front and back, and to one dart in each. Source: the
drafting method, section 6, plain fitted bodice.
"""

from __future__ import annotations

from dataclasses import dataclass

from .body import Body, Levels, balance, check_bust, check_levels, front_levels, neck_width, side_levels
from .point import Point
from .report import Warning_
from .rules import Rules
from .tolerance import INCH

MOST_SIDE = 1.25 * INCH
LEAST_DART = 0.375 * INCH
WIDE_DART = 1.75 * INCH


@dataclass(frozen=True, slots=True)
class BodiceQuarters:
    """All in mm. `front_dart` and `back_dart` are widths at the waist (0: no dart); `front_side` and `back_side` are what
    the side takes there, negative where it goes out."""

    front: Levels
    side: Levels
    d: float
    bust_point: Point
    front_bust: float
    back_bust: float
    waist: float
    front_side: float
    back_side: float
    front_dart: float
    back_dart: float
    neck_width: float
    ease_bust: float
    ease_waist: float
    ease_hip: float

    @property
    def front_chest(self) -> float:
        """The chest quarter is the bust quarter: what is too much there stays as ease in the armhole."""
        return self.front_bust


def bodice_quarters(body: Body, rules: Rules, *, shifted: float = 0.0, least_front: float = 0.0) -> tuple[BodiceQuarters, list[Warning_]]:
    """Work out the quarters; `shifted` mm of the bust quarter move from front to back to make the armholes alike, and the front
    dart is at least `least_front` wide (a princess seam needs something to take)."""
    front, d = front_levels(body, rules), balance(body, rules)
    warnings = check_levels(body, front, d)
    bust, under = body["bust"], body["under_bust"]
    check_bust(body)
    ease_b, ease_w = rules["ease_bust"], rules["ease_waist"]
    tilt = (rules["front_share"] - 0.5) * (bust - under) / 2
    front_bust, back_bust = (bust + ease_b) / 4 + tilt - shifted, (bust + ease_b) / 4 - tilt + shifted
    waist = (body["waist"] + ease_w) / 4
    front_side, back_side = _sides(front_bust - waist, back_bust - waist, least_front)
    front_dart, back_dart = front_bust - waist - front_side, back_bust - waist - back_side
    if front_dart > WIDE_DART:
        warnings.append(Warning_("front-dart-wide", "The front waist dart is {0} wide; over {1} a princess seam lies better.",
                                 (front_dart, WIDE_DART)))
    return BodiceQuarters(
        front=front, side=side_levels(front, d), d=d, bust_point=Point(body["bust_span"] / 2, front.bust), front_bust=front_bust,
        back_bust=back_bust, waist=waist, front_side=front_side, back_side=back_side,
        front_dart=front_dart, back_dart=back_dart,
        neck_width=neck_width(body, rules), ease_bust=ease_b, ease_waist=ease_w, ease_hip=rules["ease_hip"],
    ), warnings


def _sides(front: float, back: float, least_front: float) -> tuple[float, float]:
    """Share what front and back have too much of at the waist: the side takes the same of both, darts the rest.

    A dart under ⅜ in is taken at that side's seam instead; the side seams are made equally long in any case.
    """
    side = back if back < 0 else min(MOST_SIDE, max(back / 2, back - MOST_SIDE))
    side = min(side, front - least_front)
    return tuple(over if over - side < LEAST_DART - 1e-9 else side for over in (front, back))
