"""What hangs from a basque: its edge as a skirt must know it, and the shape of each kind of skirt below it."""

from __future__ import annotations

import math
from dataclasses import replace

from ..blocks.back import Back
from ..blocks.band import Band
from ..blocks.basque_gore_plan import check_close, plan_hung_gores
from ..blocks.basque_gores import hang_gores
from ..blocks.basque_skirt import HungPlan, Traced, draw_hung, plan_hung
from ..blocks.skirt import SkirtHalf
from ..blocks.skirt_gores import Gore
from ..blocks.skirt_mermaid import height_below
from ..blocks.skirt_waist import WaistEdge
from ..blocks.skirt_walking import USUAL_HEIGHT, USUAL_KNEE, needed_girth
from ..body import Body
from ..errors import ImpossibleMeasure, UnknownChoice
from ..report import Warning_
from ..rules import Rules
from ..spec import GarmentSpec
from ..tolerance import INCH
from .skirt_shapes import Shape, mermaid_below, mermaid_girth, mermaid_gores, pegged_shape

FLARES = math.radians(2.0)
"""A front that spreads more than this no longer hangs straight. Judgement."""

BASQUE_PULLS = 0.25 * INCH
"""More than this beyond the ease pulls the edge up. Drafting method, section 8."""

LINING_GORES = 4
"""With a seam at each centre a lining in gores has the same pieces, front and back, as the A-line that it stands for."""


def traced_of(band: Band, back: Back, waist: float, gap: float) -> Traced:
    """Return the basque's edge as it is traced for a skirt: `waist` is the front's waist level, `gap` the lacing gap."""
    made, whole = band.basque, band.pieces[0].edge(band.lower_edge).path.reversed()
    front = whole
    if not made.edge.parted:
        front = whole.split_at(whole.distance_where(lambda p: p.x - band.cup_seam_at))[0]
    swing = made.tail.end.x - band.at_waist[-1][1].x
    return Traced(front.moved(0.0, -waist), band.front_length - front.length(), back.back_length + gap / 2, made.figures.side, back.drop,
                  made.figures.to_hip, made.tail.slant, max(0.0, made.figures.side_growth - swing), made.figures.front_growth)


def hung_shape(spec: GarmentSpec, body: Body, rules: Rules, hip: float, traced: Traced, waist_y: tuple[float, float], cut: float, whole: float,
               eases: tuple[float, float]) -> Shape:
    """Draw the skirt that the order asks for below a basque, `cut` mm long from the waist (a lining is less than `whole`); `eases` is by
    how much its edge is cut under the basque's, front and back. Raises what its block refuses."""
    kind = str(spec.options["skirt.kind"])
    if kind == "gored":
        return _gored(spec, body, hip, traced, waist_y, cut, whole)
    if kind == "mermaid":
        return _mermaid(spec, body, hip, traced, waist_y, cut, whole)
    fan = float(spec.options["skirt.fraction"]) * math.pi / 2 if kind == "circle" else 0.0
    times = float(spec.options["skirt.fullness"]) if kind == "gathered" else 1.0
    under = (0.0, 0.0) if kind == "gathered" else eases
    snug = replace(traced, front_rest=traced.front_rest - under[0], back=traced.back - under[1])
    plan = plan_hung(kind, hip, snug, fan=fan, fullness=times)
    if kind == "circle":
        _roomy_enough(rules, snug, fan)
        if panels := int(spec.options.get("skirt.panels", 0)):
            return _fanned(kind, panels, 2 * fan / panels, 0.0, snug, waist_y, cut)
    found = ()
    if kind == "straight" and plan.fan_front > FLARES:
        found = (Warning_("basque-skirt-flares", f"Below the basque the skirt's front flares by {math.degrees(plan.fan_front):.0f}° from centre to "
                          "side: one dart can't hold so round a hip. An A-line flares front and back alike."),)
    return pegged_shape(spec, _shape(kind, plan, snug, waist_y, cut, found), traced.to_hip, cut, whole)


def hung_lining(skirt: Shape, body: Body, hip: float, traced: Traced, waist_y: tuple[float, float], cut: float) -> Shape:
    """Draw the A-line that lines a circle or gathered skirt below a basque: wide enough for a full step, no wider than the skirt.

    Over so round a hip that its front would flare too much, it is four gores instead: they share the hip out over front and back.
    """
    below = cut - traced.to_hip
    needed = needed_girth(below + INCH, body.measures.get("height", USUAL_HEIGHT), body.measures.get("knee", USUAL_KNEE))
    wanted = min(needed, skirt.girth_at(cut))
    try:
        plan = plan_hung("a-line", hip, traced)
    except UnknownChoice:
        flare = plan_hung_gores(LINING_GORES, hip, traced, cut, None, step=wanted)
        return _fanned("gored", LINING_GORES, flare, hip, traced, waist_y, cut)
    short = wanted - 2 * (plan.hip_front + plan.hip_back) - 2 * (plan.fan_front + plan.fan_back) * below
    if short > 0:
        plan = plan_hung("a-line", hip, traced, least=plan.fan_front + short / (4 * below))
    return _shape("a-line", plan, traced, waist_y, cut)


def _shape(kind: str, plan: HungPlan, traced: Traced, waist_y, cut: float, found: tuple[Warning_, ...] = ()) -> Shape:
    front, back = draw_hung(plan, traced, waist_y, cut)
    return Shape(kind, plan, front, back, 0, lambda level: 2 * (plan.hip_front + plan.hip_back) + 2 * (plan.fan_front + plan.fan_back) * (
        level - traced.to_hip), found)


def _gored(spec: GarmentSpec, body: Body, hip: float, traced: Traced, waist_y: tuple[float, float], cut: float, whole: float) -> Shape:
    gores, sweep = int(spec.options["skirt.gores"]), spec.options.get("skirt.sweep")
    step = needed_girth(whole - traced.to_hip + INCH, body.measures.get("height", USUAL_HEIGHT), body.measures.get("knee", USUAL_KNEE))
    flare = plan_hung_gores(gores, hip, traced, whole, float(sweep) if sweep else None, step=step)
    return _fanned("gored", gores, flare, hip, traced, waist_y, cut)


def _fanned(kind: str, gores: int, flare: float, hip: float, traced: Traced, waist_y: tuple[float, float], cut: float) -> Shape:
    """Draw gores that flare evenly from the hip to the hem; `hip` is the quarter that they come to at least."""
    plan, front, back = hang_gores(gores, flare, hip, traced, waist_y)
    run = cut - traced.front.start.y - front[0].inner.length()  # so the centre front is as long as was asked for
    drawn = tuple(panel.ended(run) for panel in (*front, *reversed(back)))
    return _of_gores(kind, plan, drawn, plan.take, lambda level: gores * (plan.hip_front + plan.hip_back + 2 * flare * (level - traced.to_hip)))


def _mermaid(spec: GarmentSpec, body: Body, hip: float, traced: Traced, waist_y: tuple[float, float], cut: float, whole: float) -> Shape:
    gores = mermaid_gores(spec)
    check_close(gores, hip, traced)
    upper, front, back = hang_gores(gores, 0.0, hip, traced, waist_y)
    plan, found = mermaid_below(spec, body, upper, whole)
    height = height_below(plan, front[0].outer.end.x - plan.taper, cut - plan.below)
    drawn = tuple(panel.narrowed(plan, height) for panel in (*front, *reversed(back)))
    return _of_gores("mermaid", plan, drawn, upper.take, mermaid_girth(plan, whole), found)


def _of_gores(kind: str, plan, drawn: tuple[Gore, ...], take: float, girth_at, found: tuple[Warning_, ...] = ()) -> Shape:
    """Return the shape of gores from centre front to centre back; the two beside the side seam stand for front and back."""
    upper, side = getattr(plan, "upper", plan), len(drawn) // 2
    front, back = (SkirtHalf(WaistEdge(gore.sections, ()), gore.outer, gore.hip_line, gore.hem, take, upper.depth, 0.0) for gore in drawn[side - 1:side + 1])
    return Shape(kind, plan, front, back, upper.gores, girth_at, found, drawn)


def _roomy_enough(rules: Rules, traced: Traced, fan: float) -> None:
    radius, least = min(traced.front.length() + traced.front_rest, traced.back) / fan, rules["seam_allowance"] + INCH
    if radius < least:
        raise ImpossibleMeasure("waist", radius, "The circle's upper edge would have a radius of only {value}; it needs {needed}. Choose a smaller "
                                "fraction of a circle.", needed=least)


def basque_pulls(where: str, short: float) -> list[Warning_]:
    """Return the warning for a basque's front or back that lacks `short` mm over the body at its edge, where that is to be seen."""
    if short <= BASQUE_PULLS:
        return []
    return [Warning_("basque-pulls", f"The basque's {where} comes out {{0}} a quarter tighter than the body at its edge: make it shallower, or "
                     "let it out at the side.", (short,))]
