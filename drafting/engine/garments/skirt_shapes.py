"""The shape of each kind of skirt: its plan and its drawn halves, before hem lengths, pieces and layers."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from ..blocks.skirt import LEAST_FAN, MOST_FAN, SkirtHalf, SkirtPlan, draw_pair, plan_circle, plan_skirt
from ..blocks.skirt_gores import Gore, GorePlan, draw_gores, plan_gores, plan_panels, whole_gores
from ..blocks.skirt_mermaid import USUAL_SWEEP, MermaidPlan, Upper, close_gores, draw_mermaid, plan_mermaid
from ..blocks.skirt_peg import Peg, pegged, plan_peg
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
    """A skirt as drawn: `gores` is 0 for one front and one back, else `drawn` holds them from centre front to centre back, each about
    its own middle, and `front` and `back` are the gores at the side. `girth_at` answers the girth so far below the waist, mm."""

    kind: str
    plan: SkirtPlan | GorePlan | MermaidPlan
    front: SkirtHalf
    back: SkirtHalf
    gores: int
    girth_at: Callable[[float], float]
    warnings: tuple[Warning_, ...] = ()
    drawn: tuple[Gore, ...] = ()
    peg: Peg | None = None

    @property
    def seamed(self) -> bool:
        """Whether a seam lies at the centre front and one at the centre back: in 4 and 8 gores."""
        return self.gores in (4, 8)

    @property
    def hems(self) -> tuple[float, float]:
        """How long the plain hem is in a front and in a back half, mm."""
        if not self.gores:
            return self.front.hem.length(), self.back.hem.length()
        lengths = [gore.hem.length() for gore in self.drawn]
        return sum(lengths[:len(lengths) // 2]), sum(lengths[len(lengths) // 2:])

    @property
    def centre_lengths(self) -> tuple[float, float]:
        """How long the skirt is at the centre front and the centre back from its own upper edge, mm, with a plain hem."""
        if not self.gores:
            return tuple(half.hem.start.y - half.waist.sections[0].start.y for half in (self.front, self.back))
        return self.drawn[0].inner.length(), self.drawn[-1].inner.length()


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
    made = _plain(kind, plan, net, waist_y, cut)
    return pegged_shape(spec, made, depth, cut, whole)


def pegged_shape(spec: GarmentSpec, made: Shape, depth: float, cut: float, whole: float) -> Shape:
    """Return a straight skirt with its sides tapered to the hem that was asked for; any other, or one without such a hem, as it is.

    Raises ImpossibleMeasure for a hem that no taper gives, UnknownChoice where the skirt flares.
    """
    sweep = spec.options.get("skirt.sweep")
    if made.kind != "straight" or not sweep:
        return made
    if made.front.hem.end.y != made.front.hem.start.y or made.back.hem.end.y != made.back.hem.start.y:
        raise UnknownChoice("skirt.sweep", sweep, ("to leave it blank",), why="Over so round a hip, below a basque, this skirt flares: it can't be pegged.")
    peg = plan_peg((made.front.hip_line.end.x, made.back.hip_line.end.x), whole - depth, float(sweep))
    front, back = pegged(made.front, made.back, peg, cut - depth)
    return replace(made, front=front, back=back, peg=peg, girth_at=lambda level: made.girth_at(level) - 4 * peg.comes_in(level - depth))


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
                 lambda level: plan.gores * (plan.hip_front + plan.hip_back + 2 * plan.flare * (level - depth)), (),
                 whole_gores(plan.gores, (front, back)))


def _mermaid(spec: GarmentSpec, body: Body, hip: float, net, waist_y, cut: float, whole: float) -> Shape:
    gores = mermaid_gores(spec)
    plan, found = mermaid_below(spec, body, close_gores(gores, hip, net, body["waist_to_hip"]), whole)
    halves = draw_mermaid(plan, net, waist_y, cut)
    return Shape("mermaid", plan, *halves, gores, mermaid_girth(plan, whole), found, whole_gores(gores, halves))


def mermaid_gores(spec: GarmentSpec) -> int:
    """Return how many gores a mermaid is to have; raises UnknownChoice for too few."""
    gores = int(spec.options["skirt.gores"])
    if gores < 6:
        raise UnknownChoice("skirt.gores", gores, ("6", "8"), why="A mermaid skirt is shaped in 6 to 8 seams.")
    return gores


def mermaid_below(spec: GarmentSpec, body: Body, upper: Upper, whole: float) -> tuple[MermaidPlan, tuple[Warning_, ...]]:
    """Plan a mermaid below the hip for gores that are `upper` down to there, `whole` mm long from the waist."""
    height, knee = body.measures.get("height", USUAL_HEIGHT), body.measures.get("knee", USUAL_KNEE)
    level, found = body.measures.get("waist_to_knee"), []
    if level is None:
        level = KNEE_SHARE * height
        found.append(Warning_("knee-level-assumed", "Waist to knee was not measured: the knee is taken {0} below the waist. Measure it before cutting.",
                              (level,)))
    plan, more = plan_mermaid(upper, whole, float(spec.options.get("skirt.sweep") or USUAL_SWEEP), height=height, knee=knee, knee_level=level,
                              godets=bool(spec.options.get("skirt.godets")))
    return plan, (*found, *more)


def mermaid_girth(plan: MermaidPlan, whole: float) -> Callable[[float], float]:
    """Return what answers a mermaid's girth below its narrowest line, where the short step must find room: the edge's slant, evenly."""
    return lambda y: plan.narrow + max(0.0, (y - plan.below) / (whole - plan.below)) * (plan.sweep - plan.narrow)


def _roomy_enough(rules: Rules, net: tuple[float, float], fan: float) -> None:
    """Refuse a circle whose waist is so small a hole that its allowance can't be clipped and turned."""
    radius = min(net) / fan
    least = rules["seam_allowance"] + INCH
    if radius < least:
        raise ImpossibleMeasure("waist", radius, "The circle's waist would have a radius of only {value}; it needs {needed}. Choose a smaller "
                                "fraction of a circle.", needed=least)
