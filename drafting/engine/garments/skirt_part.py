"""The skirt of a whole garment, for any top that says how long its waist edges are."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from ..blocks.skirt import SkirtHalf, SkirtPlan, draw_pair, plan_circle, plan_skirt
from ..blocks.skirt_pieces import hem_allowance, skirt_back, skirt_front, vent_height
from ..body import Body
from ..errors import ImpossibleMeasure, UnknownChoice
from ..piece import Piece
from ..report import Girth, Stretch, Warning_
from ..rules import Rules
from ..spec import GarmentSpec
from ..tolerance import INCH

class HasWaist(Protocol):
    """Levels with a waist."""

    waist: float


class AnyQuarters(Protocol):
    """What a skirt must know of what it hangs from: waist levels front and side, and the eases, mm."""

    front: HasWaist
    side: HasWaist
    ease_waist: float
    ease_hip: float



LINING_HIP = 0.125 * INCH
LINING_SHORTER = 1.0 * INCH
LINING_HEM = 1.0 * INCH
SHORTEST_BELOW_HIP = 2 * INCH
CIRCLE_UNDER = 0.5 * INCH


@dataclass(frozen=True, slots=True)
class Skirt:
    """One layer of the skirt: its plan, its drawn halves and its pieces. `waist_ease` is by how much the top's waist is longer
    than the skirt's, front and back (negative where the skirt is gathered)."""

    plan: SkirtPlan
    front: SkirtHalf
    back: SkirtHalf
    pieces: tuple[Piece, Piece]
    vent: float
    opening: float
    length: float
    waist_ease: tuple[float, float] = (0.0, 0.0)


def skirt_part(
    spec: GarmentSpec, body: Body, rules: Rules, q: AnyQuarters, top_waist: tuple[float, float], gap: float, *, lining: bool = False
) -> tuple[Skirt, list[Warning_]]:
    """Draw the skirt that meets a top's front and back waist (mm, a quarter each, lacing gap left out).

    Raises ImpossibleMeasure for one that ends above the hip line.
    """
    depth, length = body["waist_to_hip"], float(spec.options["skirt.length"])
    if length < depth + SHORTEST_BELOW_HIP:
        raise ImpossibleMeasure("skirt.length", length, "A skirt {value} long ends above the hip line; it must be at "
                                "least {needed}.", needed=depth + SHORTEST_BELOW_HIP)
    kind = str(spec.options["skirt.kind"])
    hip = (body["hip"] + q.ease_hip) / 4 + (LINING_HIP if lining else 0.0)
    net = (top_waist[0], top_waist[1] + gap / 2)
    eases = waist_eases(spec, net)
    net = (net[0] - eases[0], net[1] - eases[1])
    if kind == "circle":
        plan = plan_circle(float(spec.options["skirt.fraction"]), hip, net, depth)
        _roomy_enough(rules, net, plan.fan)
    elif kind == "gathered":
        plan = SkirtPlan(0.0, net[0], net[1], 0.0, 0.0, 0.0, depth, False)
        if net[0] + net[1] < 2 * hip:
            raise UnknownChoice("skirt.fullness", spec.options["skirt.fullness"], ("a fuller skirt",), why="It would be tight over the hips.")
    else:
        plan = plan_skirt(kind, hip, net[0], net[1], depth)
    warnings = []
    if plan.deep_darts:
        warnings.append(Warning_("skirt-darts-deep", "The skirt's darts are deeper than {0} each: gores would lie "
                                 "flatter over so round a hip.", (1.25 * INCH,)))
    cut_length = length - LINING_SHORTER if lining else length
    front, back_half = draw_pair(plan, net, (q.front.waist, q.side.waist), cut_length)
    hem, held = hem_allowance(back_half, LINING_HEM if lining else rules["hem"])
    vent, walk = _vent(body, kind, plan, front, length)
    pieces = (skirt_front(front, rules, hem=hem),
              skirt_back(back_half, rules, hem=hem, under_lacing=gap / 2, vent=max(0.0, vent - (length - cut_length))))
    opening = _opening(body, q, kind, depth)
    return Skirt(plan, front, back_half, pieces, vent, opening, cut_length, eases), warnings + held + walk


def waist_eases(spec: GarmentSpec, net: tuple[float, float]) -> tuple[float, float]:
    """Return by how much each quarter of the top's waist is longer than the skirt's: a circle's gives on the bias and is cut ½ in
    under all round, a gathered skirt is fuller."""
    kind = spec.options["skirt.kind"]
    if kind == "circle":
        return CIRCLE_UNDER / 4, CIRCLE_UNDER / 4
    if kind == "gathered":
        more = float(spec.options["skirt.fullness"]) - 1.0
        return -more * net[0], -more * net[1]
    return 0.0, 0.0


def _roomy_enough(rules: Rules, net: tuple[float, float], fan: float) -> None:
    """Refuse a circle whose waist is so small a hole that its allowance can't be clipped and turned."""
    radius = min(net) / fan
    least = rules["seam_allowance"] + INCH
    if radius < least:
        raise ImpossibleMeasure("waist", radius, "The circle's waist would have a radius of only {value}; it needs {needed}. Choose a smaller "
                                "fraction of a circle.", needed=least)


def _vent(body: Body, kind: str, plan: SkirtPlan, front: SkirtHalf, length: float) -> tuple[float, list[Warning_]]:
    if kind != "straight":
        return 0.0, []
    height, knee = body.measures.get("height", 65 * INCH), body.measures.get("knee", 14 * INCH)
    vent, warnings = vent_height(front, 2 * (plan.hip_front + plan.hip_back), length, plan.depth, height, knee)
    if vent and not {"height", "knee"} <= body.measures.keys():
        warnings.append(Warning_("walking-assumed", "Height or knee were not measured: the vent is reckoned for {0} tall "
                                 "and a knee of {1}.", (height, knee)))
    return vent, warnings


def _opening(body: Body, q: AnyQuarters, kind: str, depth: float) -> float:
    """Return how far below the waist the gown must open to pass over the hips: waist + 2z at least hip + 1 in."""
    if kind == "straight":
        return depth - INCH
    needed = (body["hip"] + INCH - (body["waist"] + q.ease_waist)) / 2
    return max(4 * INCH, min(needed, depth - INCH))


def hip_girth(skirt: Skirt, body: Body, ease: float) -> Girth:
    """Return the finished hip along the skirt's hip line; a flared or gathered skirt has more `ease` (mm) than was asked for."""
    meant = 2 * (skirt.plan.hip_front + skirt.plan.hip_back) - body["hip"]
    return Girth("hip", body["hip"], max(ease, meant), tuple(
        Stretch(name, half.hip_line.polyline(), "length", 2) for name, half in (("skirt front", skirt.front), ("skirt back", skirt.back))))
