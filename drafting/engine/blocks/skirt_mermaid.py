"""A mermaid skirt: gores that run close from the hip to above the knee and flare from there, with or without godets.

Each gore's edge curves in from waist to hip, runs straight down at the hip, comes in to the narrowest line, leaves it straight
down and bends out to the hem. Source of the limits: the drafting method, section 8.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Protocol

from ..curve import Cubic, Line, arc, straight_down
from ..errors import ImpossibleMeasure
from ..path import Path
from ..point import Point
from ..report import Warning_
from ..solve import root
from ..tolerance import INCH
from .skirt import SkirtHalf
from .skirt_gores import MOST_FLARE, GorePlan, draw_gores, plan_gores
from .skirt_walking import SHORT_STEP, needed_girth

ABOVE_KNEE = 3 * INCH
LEAST_BELOW = 6 * INCH
"""The flare needs this much between the narrowest line and the hem. Judgement."""

USUAL_SWEEP = 80 * INCH
MOST_TAPER = math.tan(math.radians(5.0))
"""A gore's edge comes in from hip to narrowest line by at most this per length, or the cloth cups under the seat. Judgement."""

BEND = 0.4
"""The edge bends over this share of the way to the hem; below, it is straight. Judgement."""

GODET_FLARE = math.radians(1.0)
"""With godets in its seams, a gore itself flares by hardly anything. Judgement."""

WIDEST_GODET = math.radians(100.0)


class Upper(Protocol):
    """What a mermaid must know of its gores above the hip, mm: half a front gore's and half a back one's hip, in the mean."""

    gores: int
    hip_front: float
    hip_back: float
    depth: float


@dataclass(frozen=True, slots=True)
class MermaidPlan:
    """`narrow` and `sweep` are girths all round, `taper` what each edge comes in from the hip, `flare` its slant at the hem
    (radians), `below` the distance from the waist to the narrowest line. A godet's sides are `godet` long, its angle `spread`."""

    upper: Upper
    below: float
    narrow: float
    taper: float
    flare: float
    sweep: float
    godet: float = 0.0
    spread: float = 0.0


def close_gores(gores: int, hip: float, net: tuple[float, float], depth: float) -> GorePlan:
    """Plan gores whose edges run straight down at the hip, for a mermaid."""
    widest = max(hip, (net[0] + net[1]) / 2)
    return replace(plan_gores(gores, hip, net, depth, depth + INCH, 4 * widest), flare=0.0)


def plan_mermaid(upper: Upper, length: float, sweep: float, *, height: float, knee: float, knee_level: float, godets: bool) -> tuple[
        MermaidPlan, list[Warning_]]:
    """Plan the narrowest line from the walking loop with a short step, and the flare from the hem that was asked for; `upper` is what its
    gores share down to the hip.

    Raises ImpossibleMeasure for one that ends too near its narrowest line.
    """
    gores, depth = upper.gores, upper.depth
    below = knee_level - ABOVE_KNEE
    if length < below + LEAST_BELOW:
        raise ImpossibleMeasure("skirt.length", length, "A mermaid skirt {value} long ends too near its narrowest line, above the knee; it must be at "
                                "least {needed}.", needed=below + LEAST_BELOW)
    hips = gores * (upper.hip_front + upper.hip_back)
    step = needed_girth(below - depth + INCH, height, knee, step=SHORT_STEP)
    taper = max(0.0, min((hips - step) / (2 * gores), MOST_TAPER * (below - depth)))
    narrow = hips - 2 * gores * taper
    full = needed_girth(below - depth + INCH, height, knee)
    warnings = [] if narrow >= full else [
        Warning_("short-steps", "Print “short steps” for the wearer: at its narrowest, {0} below the waist, the skirt measures {1}; a short step needs "
                 "{2} there, a full step {3}.", (below, narrow, step, full))]
    run = length - below
    if godets:
        flare = GODET_FLARE
        plain = 2 * gores * _hem_half(narrow / (2 * gores), flare, run)[0]
        spread = (sweep - plain) / (gores * run)
        if spread <= 0:
            raise ImpossibleMeasure("skirt.sweep", sweep, "A hem of {value} leaves nothing for godets; with them it needs more than {needed}.",
                                    needed=plain)
        if spread > WIDEST_GODET:
            spread = WIDEST_GODET
            warnings.append(_held(sweep, plain + gores * run * spread, "godets"))
        return MermaidPlan(upper, below, narrow, taper, flare, plain + gores * run * spread, run, spread), warnings

    def hem(flare: float) -> float:
        return 2 * gores * _hem_half(narrow / (2 * gores), flare, run)[0]

    if sweep < narrow:
        raise ImpossibleMeasure("skirt.sweep", sweep, "A hem of {value} is narrower than the skirt above the knee; it needs {needed}.", needed=narrow)
    if sweep > hem(MOST_FLARE):
        flare = MOST_FLARE
        warnings.append(_held(sweep, hem(flare), "flare"))
    else:
        flare = root(lambda a: hem(a) - sweep, 0.0, MOST_FLARE, name="flare of the mermaid's hem")
    return MermaidPlan(upper, below, narrow, taper, flare, hem(flare), 0.0, 0.0), warnings


def _held(asked: float, got: float, what: str) -> Warning_:
    """Return the warning that the hem came out smaller than asked; `what` is flare or godets."""
    give, more = ("flare gives", "8 gores, godets or a longer skirt") if what == "flare" else ("godets give", "8 gores or a longer skirt")
    return Warning_("sweep-held", f"A hem of {{0}} all round was asked for; at this length the {give} {{1}}. Take {more} for more.", (asked, got))


def _hem_half(narrow: float, flare: float, run: float) -> tuple[float, float]:
    """Return a half gore's hem arc and how far below the narrowest line its edge ends, for `run` mm down the middle.

    The edge goes out by (1 - BEND/2) of its height times the flare's tangent; the hem arc is square to middle and edge.
    """
    tan, half = math.tan(flare), math.tan(flare / 2)
    height = (run - narrow * half) / (1 + (1 - BEND / 2) * tan * half)
    across = narrow + (1 - BEND / 2) * height * tan
    return (across * flare / math.sin(flare) if flare > 1e-9 else across), height


def draw_mermaid(plan: MermaidPlan, net: tuple[float, float], waist_y: tuple[float, float], length: float) -> tuple[SkirtHalf, SkirtHalf]:
    """Draw half a front and half a back gore about their middles; both get the front's edge."""
    front, back = draw_gores(plan.upper, net, waist_y, length)
    line, hem = waist_y[0] + plan.below, front.hem.start.y
    drop = back.hip_line.start.y - front.hip_line.start.y
    return _lower(front, plan, line, hem), _lower(back, plan, line + drop, hem + drop)


def _lower(half: SkirtHalf, plan: MermaidPlan, line: float, hem_y: float) -> SkirtHalf:
    height = height_below(plan, plan.narrow / (2 * plan.upper.gores), hem_y - line)
    below = edge_below(half.hip_line.end, plan, line, height)
    return replace(half, side=Path.of(half.side.strokes[0], *below), hem=hem_below(plan, below[-1].end))


def height_below(plan: MermaidPlan, narrow: float, run: float) -> float:
    """Return how far below the narrowest line, `narrow` mm wide in half a gore, its edge ends if its middle ends `run` mm below it."""
    return _hem_half(narrow, plan.flare, run)[1]


def edge_below(hip: Point, plan: MermaidPlan, line: float, height: float) -> tuple[Cubic, Cubic, Line]:
    """Return a gore's edge from `hip` to the narrowest line at level `line`, and on to the hem `height` mm below that."""
    tan, knee = math.tan(plan.flare), BEND * height
    top = Point(hip.x - plan.taper, line)
    out, end = Point(top.x + tan * knee / 2, line + knee), Point(top.x + tan * (1 - BEND / 2) * height, line + height)
    bend = Cubic(top, Point(top.x, line + knee / 3), Point(out.x - tan * knee / 3, out.y - knee / 3), out)
    return straight_down(hip, top), bend, Line(out, end)


def hem_below(plan: MermaidPlan, end: Point) -> Path:
    """Return half a gore's hem from its middle (x = 0) to `end`, square to both."""
    middle = Point(0.0, end.y + end.x * math.tan(plan.flare / 2))
    if plan.flare <= 1e-9:
        return Path.through(middle, end)
    return Path(arc(middle, 0.0, -math.degrees(plan.flare), end.x * plan.flare / math.sin(plan.flare)))
