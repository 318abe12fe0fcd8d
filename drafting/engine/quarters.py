"""Quarters, intakes and levels of a cupped top: every figure that its pieces are drawn from.

Symbols follow the drafting method: D = bust − under-bust, F and K the front and back bust quarters, L and U the lower
and upper bust darts, a the lower dart's part toward the centre, d the balance, BP the bust point.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from .body import Body, Levels, balance, check_bust, check_levels, front_levels, neck_width, side_levels
from .errors import ImpossibleMeasure, UnknownChoice
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
    second: float = 0.0
    """The part of the lower dart that a third cup piece takes; `lower` is then the rest."""

    @property
    def front_chest(self) -> float:
        """Front chest quarter with the upper dart closed: F − U, so that front and back make the high bust."""
        return self.front_bust - self.upper


def quarters_for(body: Body, rules: Rules, *, wadded: bool, cups: str = "two") -> tuple[Quarters, list[Warning_]]:
    """Work out the quarters of a cupped top; raises ImpossibleMeasure where no cup can be drawn.

    Wadding in the cups adds three pressed thicknesses to bust and high bust (by that much the outside cloth lies
    further out, pi × 2t over the front half), so that zero ease stays zero. `cups` are cut in "two", "three" or "by-rule".
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
    lower, second, lower_warnings = _lower_dart(rules, front_bust - under_quarter, front, cups)
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
        second=second,
    )
    return quarters, warnings + lower_warnings


FIXED_DARTS = {"lower_intake": 1.75 * INCH, "dart_toward_centre": 0.5 * INCH, "upper_intake": 1.0 * INCH}
"""A dressmaker's own bust darts, the same for every client, where she has not set them as house rules: below ½ in toward the
centre and 1¼ toward the side, above about 1 across. Common practice, no source; the rules come to them at a bust 4⅜ in over
the under-bust."""


def with_fixed_darts(given: Mapping[str, float], intakes: str) -> Mapping[str, float]:
    """Return the rules (mm) with fixed bust darts where `intakes` is "fixed": the workshop's own, else the usual ones."""
    return {**FIXED_DARTS, **given} if intakes == "fixed" else given


FIRST_SHARE = 0.6
"""Of a lower dart that two seams share, the one over the bust takes this much. Judgement."""

SECOND_MOST = 0.8
"""The outer seam lies beside the bust's fullness and takes at most this share of what the one over it may. Judgement."""

TOO_MUCH = 0.75 * INCH
LEAST_SHARED = 1.0 * INCH


def _lower_dart(rules: Rules, worked_out: float, front: Levels, cups: str) -> tuple[float, float, list[Warning_]]:
    """Return the lower bust dart and what a second one takes of it, each held to what a cup so deep can hold: 1.1 of its depth;
    what is over goes into the side seam."""
    lower = rules.get("lower_intake", worked_out)
    most, second, found = 1.1 * (front.under_bust - front.bust), 0.0, []
    if cups == "three" and lower < LEAST_SHARED:
        raise UnknownChoice("cups", "three", ("two", "by-rule"), why="The lower bust dart is too small to be shared between two seams.")
    if cups == "three" or (cups == "by-rule" and lower - most > TOO_MUCH):
        if cups == "by-rule":
            found.append(Warning_("cups-in-three", "The lower bust dart would be {0}, and {1} is the most that one seam over a cup so deep can hold: "
                                  "the cup is cut in three pieces, and two seams share the dart.", (lower, most)))
        second = min((1 - FIRST_SHARE) * lower, SECOND_MOST * most)
        if lower - second > most:
            second = min(lower - most, SECOND_MOST * most)
    if lower - second > most:
        over = lower - second - most
        if over > TOO_MUCH:
            offer = "A panelled corset" if second else "A third cup piece or a panelled corset"
            found.append(Warning_("cup-too-deep", "The lower bust dart would be {0}; {1} is the most that a cup so deep can hold, and {2} went to the "
                                  f"side seam. {offer} would lie better. Make a toile.", (lower, most + second, over)))
        else:
            found.append(Warning_("lower-dart-held", "The lower bust dart was held to {0}; {1} went to the side seam instead.", (most + second, over)))
        lower = most + second
    if lower < 0.75 * INCH:
        found.append(Warning_("cup-very-shallow", "The lower bust dart is only {0}: a plain bodice would do as well.", (lower,)))
    return lower - second, second, found
