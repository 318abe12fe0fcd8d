"""Quarters, darts and levels of a fitted bodice: every figure that its front and back are drawn from.

Front and back share the bust by `front_share` (0.65 for a bodice); the upper dart is not taken at the chest, so the chest
quarter is the bust quarter. Waist shaping goes to the side, alike front and back, and to one dart in each. Source: the
drafting method, section 6, plain fitted bodice.
"""

from __future__ import annotations

from dataclasses import dataclass

from .body import Body, Levels, balance, check_levels, front_levels, neck_width, side_levels
from .errors import ImpossibleMeasure
from .point import Point
from .report import Warning_
from .rules import Rules
from .tolerance import INCH

MOST_SIDE = 1.25 * INCH
LEAST_DART = 0.375 * INCH
WIDE_DART = 1.75 * INCH


@dataclass(frozen=True, slots=True)
class BodiceQuarters:
    """All in mm. `front_dart` and `back_dart` are widths at the waist; `side_take` is negative where the side goes out."""

    front: Levels
    side: Levels
    d: float
    bust_point: Point
    front_bust: float
    back_bust: float
    waist: float
    side_take: float
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


def bodice_quarters(body: Body, rules: Rules, *, shifted: float = 0.0) -> tuple[BodiceQuarters, list[Warning_]]:
    """Work out the quarters; `shifted` mm of the bust quarter move from front to back to make the armholes alike."""
    front, d = front_levels(body, rules), balance(body, rules)
    warnings = check_levels(body, front, d)
    bust, under = body["bust"], body["under_bust"]
    if bust - under <= 0:
        raise ImpossibleMeasure("under_bust", under, "Under bust {value} is not smaller than the bust ({needed}). Measure both again.",
                                needed=bust)
    ease_b, ease_w = rules["ease_bust"], rules["ease_waist"]
    tilt = (rules["front_share"] - 0.5) * (bust - under) / 2
    front_bust, back_bust = (bust + ease_b) / 4 + tilt - shifted, (bust + ease_b) / 4 - tilt + shifted
    waist = (body["waist"] + ease_w) / 4
    over = back_bust - waist
    side = over if over < 0 else min(MOST_SIDE, max(over / 2, over - MOST_SIDE))
    back_dart = max(0.0, over - side)
    if back_dart < LEAST_DART:
        side, back_dart = over, 0.0
    front_dart = front_bust - side - waist
    if front_dart < 0:
        raise ImpossibleMeasure("waist", body["waist"], "Waist {value} is too large for a bodice shaped at the waist with this bust. "
                                "Measure both again, or draft it straight.")
    if front_dart > WIDE_DART:
        warnings.append(Warning_("front-dart-wide", "The front waist dart is {0} wide; over {1} a princess seam lies better.",
                                 (front_dart, WIDE_DART)))
    return BodiceQuarters(
        front=front, side=side_levels(front, d), d=d, bust_point=Point(body["bust_span"] / 2, front.bust), front_bust=front_bust,
        back_bust=back_bust, waist=waist, side_take=side, front_dart=front_dart, back_dart=back_dart,
        neck_width=neck_width(body, rules), ease_bust=ease_b, ease_waist=ease_w, ease_hip=rules["ease_hip"],
    ), warnings
