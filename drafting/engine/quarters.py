"""Quarters, intakes and levels of a cupped top: every figure that its pieces are drawn from.

Symbols follow the drafting method: D = bust − under-bust, F and K the front and back bust quarters, L and U the lower
and upper bust darts, a the lower dart's part toward the centre, d the balance, BP the bust point.
"""

from __future__ import annotations

from dataclasses import dataclass

from .body import Body, Levels, balance, check_bust, check_levels, front_levels, neck_width, side_levels
from .errors import ImpossibleMeasure
from .report import Warning_
from .rules import Rules
from .tolerance import INCH

LEAST_BACK_DART = 0.375 * INCH
"""A back dart narrower than this is taken at the side seam: it would be lost in the stitching. Judgement."""


@dataclass(frozen=True, slots=True)
class Quarters:
    """All in mm. `front`, `side` are the levels at the fold and at the side seam."""

    front: Levels
    side: Levels
    d: float
    bust_point_x: float
    front_bust: float
    back_bust: float
    under_bust: float
    waist: float
    lower: float
    lower_to_centre: float
    upper: float
    back_dart: float
    neck_width: float
    padded_bust: float
    padded_high_bust: float
    ease_bust: float
    ease_waist: float
    ease_hip: float
    wadding: float

    @property
    def front_chest(self) -> float:
        """Front chest quarter with the upper dart closed: F − U, so that front and back make the high bust."""
        return self.front_bust - self.upper


def quarters_for(body: Body, rules: Rules, *, wadded: bool) -> tuple[Quarters, list[Warning_]]:
    """Work out the quarters of a cupped top; raises ImpossibleMeasure where no cup can be drawn.

    Wadding in the cups adds three pressed thicknesses to bust and high bust (by that much the outside cloth lies
    further out, pi × 2t over the front half), so that zero ease stays zero.
    """
    front = front_levels(body, rules)
    d = balance(body, rules)
    warnings = check_levels(body, front, d)
    padding = 3 * rules["wadding_thickness"] if wadded else 0.0
    bust, high, under, waist = body["bust"] + padding, body["high_bust"] + padding, body["under_bust"], body["waist"]
    check_bust(body)
    if high > bust:
        raise ImpossibleMeasure(
            "high_bust", body["high_bust"], "High bust {value} is larger than the bust ({needed}). Measure both again.",
            needed=body["bust"],
        )
    ease_b, ease_w, ease_h = rules["ease_bust"], rules["ease_waist"], rules["ease_hip"]
    share = rules["front_share"]
    tilt = (share - 0.5) * (bust - under) / 2
    front_bust, back_bust = (bust + ease_b) / 4 + tilt, (bust + ease_b) / 4 - tilt
    under_quarter, waist_quarter = (under + ease_w) / 4, (waist + ease_w) / 4
    lower, lower_warnings = _lower_dart(rules, front_bust - under_quarter, front)
    upper = rules.get("upper_intake", (bust - high) / 2)
    centre_most = lower / 2
    centre = rules.get("dart_toward_centre", max(0.5 * INCH, lower / 3, lower - 0.55 * (front.under_bust - front.bust)))
    if centre > centre_most + 1e-9 and "dart_toward_centre" in rules.given:
        lower_warnings.append(Warning_("dart-toward-centre-held", "The part of the lower dart toward the centre was held "
                                       "to half the dart, {0}.", (centre_most,)))
    back_dart = back_bust - under_quarter
    quarters = Quarters(
        front=front, side=side_levels(front, d), d=d, bust_point_x=body["bust_span"] / 2, front_bust=front_bust,
        back_bust=back_bust, under_bust=under_quarter, waist=waist_quarter, lower=lower,
        lower_to_centre=min(centre, centre_most), upper=upper,
        back_dart=back_dart if back_dart >= LEAST_BACK_DART else 0.0, neck_width=neck_width(body, rules),
        padded_bust=bust, padded_high_bust=high, ease_bust=ease_b, ease_waist=ease_w, ease_hip=ease_h, wadding=padding,
    )
    return quarters, warnings + lower_warnings


def _lower_dart(rules: Rules, worked_out: float, front: Levels) -> tuple[float, list[Warning_]]:
    """Return the lower bust dart, held to 1.1 of the depth of the cup; what is over goes into the side seam."""
    lower = rules.get("lower_intake", worked_out)
    most = 1.1 * (front.under_bust - front.bust)
    found = []
    if lower > most:
        if lower - most > 0.75 * INCH:
            found.append(Warning_("cup-too-deep", "The lower bust dart would be {0}; {1} is the most that a cup so deep "
                                  "can hold, and {2} went to the side seam. A third cup piece or a panelled corset would "
                                  "lie better. Make a toile.", (lower, most, lower - most)))
        else:
            found.append(Warning_("lower-dart-held", "The lower bust dart was held to {0}; {1} went to the side seam "
                                  "instead.", (most, lower - most)))
        lower = most
    if lower < 0.75 * INCH:
        found.append(Warning_("cup-very-shallow", "The lower bust dart is only {0}: a plain bodice would do as well.",
                              (lower,)))
    return lower, found
