"""What hangs from a basque: its edge as a skirt must know it, and the shape of each kind of skirt below it."""

from __future__ import annotations

import math
from dataclasses import replace

from ..blocks.back import Back
from ..blocks.band import Band
from ..blocks.basque_skirt import HungPlan, Traced, draw_hung, plan_hung
from ..blocks.skirt_walking import USUAL_HEIGHT, USUAL_KNEE, needed_girth
from ..body import Body
from ..errors import ImpossibleMeasure, UnknownChoice
from ..report import Warning_
from ..rules import Rules
from ..spec import GarmentSpec
from ..tolerance import INCH
from .skirt_shapes import Shape

FLARES = math.radians(2.0)
"""A front that spreads more than this no longer hangs straight. Judgement."""

KINDS = ("straight", "a-line", "circle", "gathered")


def traced_of(band: Band, back: Back, waist: float, gap: float) -> Traced:
    """Return the basque's edge as it is traced for a skirt: `waist` is the front's waist level, `gap` the lacing gap."""
    made, whole = band.basque, band.pieces[0].edge(band.lower_edge).path.reversed()
    front = whole
    if not made.edge.parted:
        front = whole.split_at(whole.distance_where(lambda p: p.x - band.cup_seam_at))[0]
    swing = made.tail.end.x - band.at_waist[-1][1].x
    return Traced(front.moved(0.0, -waist), band.front_length - front.length(), back.back_length + gap / 2, made.figures.side, back.drop,
                  made.figures.to_hip, made.tail.slant, max(0.0, made.figures.side_growth - swing), made.figures.front_growth)


def hung_shape(spec: GarmentSpec, rules: Rules, hip: float, traced: Traced, waist_y: tuple[float, float], cut: float,
               eases: tuple[float, float]) -> Shape:
    """Draw the skirt that the order asks for below a basque, `cut` mm long from the waist; `eases` is by how much its edge is cut
    under the basque's, front and back. Raises what its block refuses, UnknownChoice for a kind that is not hung from a basque."""
    kind = str(spec.options["skirt.kind"])
    if kind not in KINDS:
        raise UnknownChoice("skirt.kind", kind, KINDS, why="Its seams are not carried up to a basque; choose a straight waist for it.")
    if kind == "circle" and spec.options.get("skirt.panels"):
        raise UnknownChoice("skirt.panels", spec.options["skirt.panels"], ("to leave it out",), why="A circle below a basque is cut in two halves.")
    fan = float(spec.options["skirt.fraction"]) * math.pi / 2 if kind == "circle" else 0.0
    times = float(spec.options["skirt.fullness"]) if kind == "gathered" else 1.0
    under = (0.0, 0.0) if kind == "gathered" else eases
    snug = replace(traced, front_rest=traced.front_rest - under[0], back=traced.back - under[1])
    plan = plan_hung(kind, hip, snug, fan=fan, fullness=times)
    if kind == "circle":
        _roomy_enough(rules, snug, fan)
    found = ()
    if kind == "straight" and plan.fan_front > FLARES:
        found = (Warning_("basque-skirt-flares", f"Below the basque the skirt's front flares by {math.degrees(plan.fan_front):.0f}° from centre to "
                          "side: one dart can't hold so round a hip. An A-line flares front and back alike."),)
    return _shape(kind, plan, snug, waist_y, cut, found)


def hung_lining(skirt: Shape, body: Body, hip: float, traced: Traced, waist_y: tuple[float, float], cut: float) -> Shape:
    """Draw the A-line that lines a circle or gathered skirt below a basque: wide enough for a full step, no wider than the skirt."""
    below = cut - traced.to_hip
    needed = needed_girth(below + INCH, body.measures.get("height", USUAL_HEIGHT), body.measures.get("knee", USUAL_KNEE))
    wanted = min(needed, skirt.girth_at(cut))
    plan = plan_hung("a-line", hip, traced)
    short = wanted - 2 * (plan.hip_front + plan.hip_back) - 2 * (plan.fan_front + plan.fan_back) * below
    if short > 0:
        plan = plan_hung("a-line", hip, traced, least=plan.fan_front + short / (4 * below))
    return _shape("a-line", plan, traced, waist_y, cut)


def _shape(kind: str, plan: HungPlan, traced: Traced, waist_y, cut: float, found: tuple[Warning_, ...] = ()) -> Shape:
    front, back = draw_hung(plan, traced, waist_y, cut)
    return Shape(kind, plan, front, back, 0, lambda level: 2 * (plan.hip_front + plan.hip_back) + 2 * (plan.fan_front + plan.fan_back) * (
        level - traced.to_hip), found)


def _roomy_enough(rules: Rules, traced: Traced, fan: float) -> None:
    radius, least = min(traced.front.length() + traced.front_rest, traced.back) / fan, rules["seam_allowance"] + INCH
    if radius < least:
        raise ImpossibleMeasure("waist", radius, "The circle's upper edge would have a radius of only {value}; it needs {needed}. Choose a smaller "
                                "fraction of a circle.", needed=least)
