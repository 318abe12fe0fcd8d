"""The body that a garment is drafted for: measures taken, measures estimated, and the levels that follow from them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from .errors import ImpossibleMeasure, MissingMeasure
from .report import Warning_
from .rules import Rules
from .tolerance import INCH

LEAST_APART = 0.25 * INCH
"""Two levels nearer than this can't be told apart with a tape: one of the two measures is wrong."""


@dataclass(frozen=True, slots=True)
class Levels:
    """Levels in mm below the side neck point."""

    shoulder: float
    chest: float
    bust: float
    under_bust: float
    waist: float
    hip: float

    def as_dict(self) -> dict[str, float]:
        return {name: getattr(self, name) for name in self.__slots__}


@dataclass(frozen=True, slots=True)
class Body:
    """Measures in mm; `estimated` names those that a rule supplied."""

    measures: Mapping[str, float]
    estimated: frozenset[str]

    def __getitem__(self, key: str) -> float:
        return self.measures[key]


ESTIMATED_BY_RULE = ("high_bust", "neck", "nape_to_waist", "across_front", "across_back", "bust_span", "waist_to_hip")


def body_from(given: Mapping[str, float], rules: Rules, *, needs: tuple[str, ...]) -> Body:
    """Return the body with what is missing estimated by rule; raises MissingMeasure for what has no rule.

    Estimates (common practice, no source): high bust = bust − 0.4 D with D = bust − under-bust; neck = bust/4 + 5½ in;
    nape to waist = shoulder to waist − back neck depth − 0.2 D; across front = high bust/5 + 6.2 in and across back =
    high bust/5 + 7 in, held near the shoulder; bust span = bust/5; waist to hip = 8 in.
    """
    missing = tuple(key for key in needs if key not in given)
    if missing:
        raise MissingMeasure(missing)
    m = dict(given)
    spread = m["bust"] - m["under_bust"]
    m.setdefault("high_bust", m["bust"] - 0.4 * spread)
    m.setdefault("neck", m["bust"] / 4 + 5.5 * INCH)
    m.setdefault("nape_to_waist", m["shoulder_to_waist"] - rules["back_neck_depth"] - 0.2 * spread)
    shoulder, fifth = m["shoulder"], m["high_bust"] / 5
    m.setdefault("across_front", min(max(fifth + 6.2 * INCH, shoulder - 2 * INCH), shoulder))
    m.setdefault("across_back", min(max(fifth + 7.0 * INCH, shoulder - INCH), shoulder))
    m.setdefault("bust_span", m["bust"] / 5)
    m.setdefault("waist_to_hip", 8 * INCH)
    return Body(m, frozenset(key for key in m if key not in given))


def neck_width(body: Body, rules: Rules) -> float:
    """Return the neck's width from the fold: neck/6 + ¼ in unless the house says otherwise."""
    return rules.get("neck_width", body["neck"] / 6 + 0.25 * INCH)


def balance(body: Body, rules: Rules) -> float:
    """Return d, by which the front is longer than the back from shoulder to waist: the climb over the bust."""
    return body["shoulder_to_waist"] - (body["nape_to_waist"] + rules["back_neck_depth"])


def front_levels(body: Body, rules: Rules) -> Levels:
    """Return the levels at the fold and the bust point. Shoulder slope 0.36 of the seam's width, about 20 degrees."""
    slope = rules.get("shoulder_slope", 0.36 * (body["shoulder"] / 2 - neck_width(body, rules)))
    waist = body["shoulder_to_waist"]
    return Levels(
        shoulder=slope,
        chest=slope + body["armhole_depth"],
        bust=body["shoulder_to_bust"],
        under_bust=body["shoulder_to_under_bust"],
        waist=waist,
        hip=waist + body["waist_to_hip"],
    )


def side_levels(front: Levels, d: float) -> Levels:
    """Return the levels at the side seam and all of the back: lower ones are higher by d, the bust's in proportion."""
    c, b, u = front.chest, front.bust, front.under_bust
    return Levels(
        shoulder=front.shoulder,
        chest=c,
        bust=c + (b - c) * (u - d - c) / (u - c),
        under_bust=u - d,
        waist=front.waist - d,
        hip=front.hip - d,
    )


_STEPS = (
    ("chest", "bust", "armhole_depth", "shoulder_to_bust"),
    ("bust", "under_bust", "shoulder_to_bust", "shoulder_to_under_bust"),
    ("under_bust", "waist", "shoulder_to_under_bust", "shoulder_to_waist"),
    ("waist", "hip", "shoulder_to_waist", "waist_to_hip"),
)


def check_levels(body: Body, front: Levels, d: float) -> list[Warning_]:
    """Return what looks wrong; raises ImpossibleMeasure, naming two measures, where levels are out of order."""
    for upper, lower, first, second in _STEPS:
        if getattr(front, lower) - getattr(front, upper) < LEAST_APART:
            raise _too_near(body, upper, lower, first, second)
    if front.under_bust - d - front.chest < INCH:
        raise ImpossibleMeasure(
            "nape_to_waist", body["nape_to_waist"], "With nape to waist {value} the under-bust lies less than {needed} "
            "below the underarm at the side. Measure nape to waist and shoulder to waist again.", needed=INCH,
        )
    side = side_levels(front, d)
    if side.bust - side.chest < LEAST_APART:
        raise _too_near(body, "chest", "bust", "armhole_depth", "shoulder_to_bust", where=" at the side seam")
    found = []
    if front.bust - front.chest < INCH:
        found.append(Warning_("bust-near-underarm", "The bust level is only {0} below the underarm level. Measure "
                              "armhole depth and shoulder to bust once more.", (front.bust - front.chest,)))
    if d < -0.125 * INCH or d > 2.5 * INCH:
        found.append(Warning_("front-back-balance", "The front is {0} longer than the back from shoulder to waist; {1} to "
                              "{2} is usual. Hold shoulder to waist against nape to waist.", (d, 0.0, 2 * INCH)))
    return found


def _too_near(body: Body, upper: str, lower: str, first: str, second: str, where: str = "") -> ImpossibleMeasure:
    above, below = (name.replace("chest", "underarm").replace("under_bust", "under-bust") for name in (upper, lower))
    a, b = first.replace("_", " "), second.replace("_", " ")
    return ImpossibleMeasure(
        second, body[second], f"The {below} level comes out less than {{needed}} below the {above} level{where}. "
        f"{b.capitalize()} is {{value}}: measure it and {a} again.", needed=LEAST_APART,
    )


def check_bust(body: Body) -> None:
    """Raise ImpossibleMeasure where the under-bust is not smaller than the bust."""
    if body["bust"] - body["under_bust"] <= 0:
        raise ImpossibleMeasure("under_bust", body["under_bust"], "Under bust {value} is not smaller than the bust ({needed}). Measure both again.",
                                needed=body["bust"])


def estimate_warnings(body: Body) -> list[Warning_]:
    """Return the warning that names what was worked out by rule; none where all was measured."""
    names = ", ".join(sorted(key.replace("_", " ") for key in body.estimated))
    return [Warning_("estimated", f"Not measured, worked out by rule: {names}.")] if names else []


def is_for_toile_only(body: Body) -> bool:
    """Tell whether measures that shape a whole top were only estimated: then its draft is for a toile alone."""
    return bool(body.estimated & {"nape_to_waist", "across_front", "across_back"})
