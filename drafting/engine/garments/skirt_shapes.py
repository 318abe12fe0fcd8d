"""The shape of each kind of skirt: its plan and its drawn halves, before hem lengths, pieces and layers."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from ..blocks.skirt import LEAST_FAN, MOST_FAN, SkirtHalf, SkirtPlan, draw_pair, plan_circle, plan_skirt
from ..blocks.skirt_gores import GorePlan, draw_gores, plan_gores, plan_panels
from ..blocks.skirt_mermaid import USUAL_SWEEP, MermaidPlan, draw_mermaid, plan_mermaid
from ..blocks.skirt_walking import USUAL_HEIGHT, USUAL_KNEE, needed_girth
from ..body import Body
from ..errors import ImpossibleMeasure, UnknownChoice
from ..report import Warning_
from ..rules import Rules
from ..spec import GarmentSpec
from ..tolerance import INCH

KNEE_SHARE = 0.36
"""Waist to knee as a share of the height, where it was not measured: 58.5 cm of 164, Aldrich's size 12, from memory."""


@dataclass(frozen=True, slots=True)
class Shape:
    """A skirt as drawn: `gores` is 0 for one front and one back; `girth_at` answers the girth so far below the waist, mm."""

    kind: str
    plan: SkirtPlan | GorePlan | MermaidPlan
    front: SkirtHalf
    back: SkirtHalf
    gores: int
    girth_at: Callable[[float], float]
    warnings: tuple[Warning_, ...] = ()


def shape_of(spec: GarmentSpec, body: Body, rules: Rules, hip: float, net: tuple[float, float], waist_y: tuple[float, float], cut: float,
             whole: float) -> Shape:
    """Draw the skirt that the order asks for, `cut` mm long (a lining is less than `whole`). Raises what its block refuses."""
    kind, depth = str(spec.options["skirt.kind"]), body["waist_to_hip"]
    if kind == "gored":
        sweep = spec.options.get("skirt.sweep")
        step = needed_girth(whole - depth + INCH, body.measures.get("height", USUAL_HEIGHT), body.measures.get("knee", USUAL_KNEE))
        plan = plan_gores(int(spec.options["skirt.gores"]), hip, net, depth, whole, float(sweep) if sweep else None, step=step)
        return _gored(kind, plan, net, waist_y, cut, depth)
    if kind == "mermaid":
        return _mermaid(spec, body, hip, net, waist_y, cut, whole)
    if kind == "circle":
        fraction, panels = float(spec.options["skirt.fraction"]), int(spec.options.get("skirt.panels", 0))
        plan = plan_circle(fraction, hip, net, depth)
        _roomy_enough(rules, net, plan.fan)
        if panels:
            return _gored(kind, plan_panels(panels, fraction, net, depth), net, waist_y, cut, depth)
    elif kind == "gathered":
        plan = SkirtPlan(0.0, net[0], net[1], 0.0, 0.0, 0.0, depth, False)
        if net[0] + net[1] < 2 * hip:
            raise UnknownChoice("skirt.fullness", spec.options["skirt.fullness"], ("a fuller skirt",), why="It would be tight over the hips.")
    else:
        plan = plan_skirt(kind, hip, net[0], net[1], depth)
    return _plain(kind, plan, net, waist_y, cut)


def lining_under(skirt: Shape, body: Body, hip: float, net: tuple[float, float], waist_y: tuple[float, float], cut: float) -> Shape:
    """Draw the A-line that lines a circle or gathered skirt: wide enough at the hem for a full step, never wider than the skirt."""
    depth = body["waist_to_hip"]
    below = cut - depth
    needed = needed_girth(below + INCH, body.measures.get("height", USUAL_HEIGHT), body.measures.get("knee", USUAL_KNEE))
    wanted = min(needed, skirt.girth_at(cut))
    plan = plan_skirt("a-line", hip, net[0], net[1], depth)
    short = wanted - 2 * (plan.hip_front + plan.hip_back) - 4 * plan.fan * below
    if short > 0:
        plan = plan_skirt("a-line", hip, net[0], net[1], depth, least_fan=min(MOST_FAN, max(LEAST_FAN, plan.fan + short / (4 * below))))
    return _plain("a-line", plan, net, waist_y, cut)


def _plain(kind: str, plan: SkirtPlan, net, waist_y, cut: float) -> Shape:
    front, back = draw_pair(plan, net, waist_y, cut)
    found = ()
    if plan.deep_darts:
        found = (Warning_("skirt-darts-deep", "The skirt's darts are deeper than {0} each: gores would lie flatter over so round a hip.", (1.25 * INCH,)),)
    return Shape(kind, plan, front, back, 0,
                 lambda level: 2 * (plan.hip_front + plan.hip_back) + 4 * plan.fan * (level - plan.depth), found)


def _gored(kind: str, plan: GorePlan, net, waist_y, cut: float, depth: float) -> Shape:
    front, back = draw_gores(plan, net, waist_y, cut)
    return Shape(kind, plan, front, back, plan.gores,
                 lambda level: plan.gores * (plan.hip_front + plan.hip_back + 2 * plan.flare * (level - depth)))


def _mermaid(spec: GarmentSpec, body: Body, hip: float, net, waist_y, cut: float, whole: float) -> Shape:
    gores, depth = int(spec.options["skirt.gores"]), body["waist_to_hip"]
    if gores < 6:
        raise UnknownChoice("skirt.gores", gores, ("6", "8"), why="A mermaid skirt is shaped in 6 to 8 seams.")
    height, knee = body.measures.get("height", USUAL_HEIGHT), body.measures.get("knee", USUAL_KNEE)
    level, found = body.measures.get("waist_to_knee"), []
    if level is None:
        level = KNEE_SHARE * height
        found.append(Warning_("knee-level-assumed", "Waist to knee was not measured: the knee is taken {0} below the waist. Measure it before cutting.",
                              (level,)))
    plan, more = plan_mermaid(gores, hip, net, depth, whole, float(spec.options.get("skirt.sweep") or USUAL_SWEEP), height=height, knee=knee,
                              knee_level=level, godets=bool(spec.options.get("skirt.godets")))
    front, back = draw_mermaid(plan, net, waist_y, cut)

    def girth_at(y: float) -> float:
        """Between the narrowest line and the hem, where the short step must find room: the edge's slant, evenly."""
        share = max(0.0, (y - plan.below) / (whole - plan.below))
        return plan.narrow + share * (plan.sweep - plan.narrow)

    return Shape("mermaid", plan, front, back, gores, girth_at, (*found, *more))


def _roomy_enough(rules: Rules, net: tuple[float, float], fan: float) -> None:
    """Refuse a circle whose waist is so small a hole that its allowance can't be clipped and turned."""
    radius = min(net) / fan
    least = rules["seam_allowance"] + INCH
    if radius < least:
        raise ImpossibleMeasure("waist", radius, "The circle's waist would have a radius of only {value}; it needs {needed}. Choose a smaller "
                                "fraction of a circle.", needed=least)
