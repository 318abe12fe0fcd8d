"""The figures of a plain trouser block, worked out from the measures before anything is drawn.

After the classic tailored trouser block of Aldrich, Metric Pattern Cutting for Women's Wear: its formulas are from memory. Ours
are the darts (as a skirt's), the side take that front and back share, the fork's drop and every seam's truing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from .blocks.skirt import LEAST_DART
from .body import Body
from .errors import ImpossibleMeasure
from .report import Warning_
from .tolerance import INCH

CM = 10.0
WAIST_EASE = 0.75 * INCH
"""Skirt and trousers ½ to ¾ in: Central Washington University, costume text, chapter 16."""

HIP_EASE = 2.0 * INCH
"""2 to 2¾ in, the same text."""

RISE_EASE = 1.0 * CM
USUAL_HEM = 17.25 * INCH
"""Bottom width 22 cm a leg laid flat: Aldrich's size 12, from memory."""

NARROWEST_HEM, WIDEST_HEM = 11 * INCH, 32 * INCH
KNEE_EASE = 3.0 * INCH
THIGH_EASE = 2.0 * INCH
"""A leg is this much wider than knee and thigh, so that it can be sat down in. Common practice, no source."""

BACK_WIDER = 1.0 * CM
"""The back's hip is this much over a quarter, the front's as much under: the seat lies behind. (Aldrich's half a centimetre is measured from
her upright; the seat seam has then left it.) Judgement."""

LEAST_RISE_BELOW_HIP = 0.5 * INCH
MOST_SIDE = 1.5 * INCH


@dataclass(frozen=True, slots=True)
class TrouserLevels:
    """Levels in mm below the waist; `fork` is where the crotch seams meet the inside leg, `hem` the end of the leg."""

    waist: float
    hip: float
    fork: float
    knee: float
    hem: float

    def as_dict(self) -> dict[str, float]:
        return {name: getattr(self, name) for name in self.__slots__}


@dataclass(frozen=True, slots=True)
class LegHalf:
    """A front's or back's figures, mm across from the crease line (x = 0): `centre` the upright of the centre seam, `fork` the fork,
    both toward the centre (positive); `hip` the width at the hip; `waist` its net quarter; `centre_take`, `side_take`, `dart` what the waist loses
    at the centre, at the side and in darts; `knee`, `hem` half widths; `bow` how far the inside leg hollows."""

    centre: float
    fork: float
    hip: float
    waist: float
    centre_take: float
    side_take: float
    dart: float
    knee: float
    hem: float
    bow: float


@dataclass(frozen=True, slots=True)
class TrouserFigures:
    levels: TrouserLevels
    front: LegHalf
    back: LegHalf
    ease_waist: float = WAIST_EASE
    ease_hip: float = HIP_EASE


def trouser_figures(body: Body, options: Mapping[str, object]) -> tuple[TrouserFigures, list[Warning_]]:
    """Return the block's figures and what to remark; raises ImpossibleMeasure for levels out of order."""
    levels, hip = _levels(body, options), body["hip"]
    hem = float(options.get("trousers.hem") or USUAL_HEM)
    if not NARROWEST_HEM <= hem <= WIDEST_HEM:
        least = hem < NARROWEST_HEM
        raise ImpossibleMeasure("trousers.hem", hem, f"A trouser hem of {{value}} round can't be drafted; it can be at {'least' if least else 'most'} {{needed}}.",
                                needed=NARROWEST_HEM if least else WIDEST_HEM)
    knee, warnings = hem / 4 + 1.3 * CM, []
    if "knee" in body.measures and knee < (body["knee"] + KNEE_EASE) / 4:
        knee = (body["knee"] + KNEE_EASE) / 4
        warnings.append(Warning_("knee-widened", "The leg was widened at the knee to {0}: the knee measures {1}.", (4 * knee, body["knee"])))
    centre, reach = hip / 12 + 1.5 * CM, hip / 16 + 0.5 * CM
    quarter, net = (hip + HIP_EASE) / 4, (body["waist"] + WAIST_EASE) / 4
    widths = max(quarter - BACK_WIDER, net), max(quarter + BACK_WIDER, net + BACK_WIDER)
    takes = _takes(widths, net)
    front = LegHalf(centre, centre + reach, widths[0], net, takes[0], takes[2], takes[3], knee - 0.5 * CM, hem / 4 - 0.5 * CM, 0.75 * CM)
    upright = centre - centre / 4
    back = LegHalf(upright, centre + 1.5 * reach, widths[1], net, takes[1], takes[2], takes[4], knee + 0.5 * CM, hem / 4 + 0.5 * CM, 1.25 * CM)
    return TrouserFigures(levels, front, back), warnings


def _levels(body: Body, options: Mapping[str, object]) -> TrouserLevels:
    fork, hip = body["body_rise"] + RISE_EASE, body["waist_to_hip"]
    if hip < 4 * INCH:
        raise ImpossibleMeasure("waist_to_hip", hip, "Waist to hip {value} is too little; it must be at least {needed}. Measure it again.", needed=4 * INCH)
    if body["body_rise"] < hip + LEAST_RISE_BELOW_HIP:
        raise ImpossibleMeasure("body_rise", body["body_rise"], "Body rise {value} ends above or too near the hip line; it must be at least {needed}. Measure it and "
                                "waist to hip again.", needed=hip + LEAST_RISE_BELOW_HIP)
    inside = body["inside_leg"]
    knee = fork + (inside - RISE_EASE) / 2 - 5 * CM
    hem = float(options.get("trousers.length") or body["body_rise"] + inside)
    if hem < knee + 2 * INCH:
        raise ImpossibleMeasure("trousers.length", hem, "Trousers {value} long end above the knee; they must be at least {needed}.", needed=knee + 2 * INCH)
    return TrouserLevels(0.0, hip, fork, knee, hem)


def _takes(widths: tuple[float, float], net: float) -> tuple[float, float, float, float, float]:
    """Return centre takes front and back, the side take that both share, and the darts front and back; each pair adds up."""
    front, back = widths[0] - net, widths[1] - net
    centre = min(1.0 * CM, 0.3 * front)
    side = min(MOST_SIDE, 0.4 * (front + back) / 2, front - centre)
    dart = front - centre - side
    if dart < LEAST_DART:
        side, dart = side + dart, 0.0
    seat = min(2.0 * CM, 0.4 * back, back - side)
    rest = back - side - seat
    if 0 < rest < LEAST_DART:
        seat, rest = seat + rest, 0.0
    return centre, seat, side, dart, rest
