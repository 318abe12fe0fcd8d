"""Gored skirts: each gore is a fan about its own middle, its two edges alike, so that every seam meets its neighbour.

A skirt of 6 gores has its seams at 30, 90 and 150 degrees from the centre front; 4 and 8 also have one at the centre front
and one at the centre back. All edges of a skirt share one take, one flare and one depth. Source: the drafting method, section 8.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..curve import Line, arc
from ..errors import ImpossibleMeasure
from ..path import Path
from ..piece import Dart
from ..point import Point
from ..solve import root
from ..tolerance import INCH, TOUCHING
from .skirt import LEAST_DART, WIDEST_DART, SkirtHalf, SkirtPlan, draw_half, edge_top, finished_half
from .skirt_waist import DartPlan, WaistEdge

USUAL_FLARE = math.radians(5.0)
"""A gored skirt whose hem was not asked for flares by this at each seam side. Judgement."""

MOST_FLARE = math.radians(20.0)
MOST_TAKE = 1.25 * INCH
"""A gore's edge takes no more than this in one curve; the rest goes into a dart in the gore. drafting method, section 8."""

DART_LENGTH = 4.5 * INCH


@dataclass(frozen=True, slots=True)
class Gore:
    """One drawn gore: waist from the centre's side to the side, the two edges walked down, hip line and hem walked outward."""

    sections: tuple[Path, ...]
    darts: tuple[Dart, ...]
    inner: Path
    outer: Path
    hip_line: Path
    hem: Path


@dataclass(frozen=True, slots=True)
class GorePlan:
    """What all gores share. `halves` are the half gores in a quarter (2, 3 or 4); widths in mm for one half gore.

    `take` is what each edge comes in at the waist beside its flare, `dart` what each half gore still takes in a dart.
    """

    gores: int
    flare: float
    hip_front: float
    hip_back: float
    take: float
    dart: float
    depth: float

    @property
    def halves(self) -> int:
        return self.gores // 2

    @property
    def fan(self) -> float:
        """The flare of a whole quarter, radians."""
        return self.flare * self.halves


def plan_gores(gores: int, hip: float, net: tuple[float, float], depth: float, length: float, sweep: float | None, *,
               step: float = 0.0) -> GorePlan:
    """Share what the hip is wider than the waist among flare, edges and, where that is not enough, a dart in each gore.

    `hip`, `net` are quarters; `sweep` is the hem all round that was asked for (None: the usual flare, or as much as makes the hem
    `step` mm, which walking needs). Raises ImpossibleMeasure for a hem that no flare from 0 to 20 degrees a seam side gives.
    """
    halves = gores // 2
    middle = (net[0] + net[1]) / 2
    need = max(0.0, (hip - middle) / halves)
    widest = max(hip, middle) / halves

    def hem(flare: float) -> float:
        return 2 * gores * (max(widest, middle / halves + flare * depth) + flare * (length - depth))

    flare = USUAL_FLARE
    if sweep is None and hem(flare) < step < hem(MOST_FLARE):
        sweep = step
    if sweep is not None:
        if sweep < hem(0.0) - TOUCHING:
            raise ImpossibleMeasure("skirt.sweep", sweep, "A hem of {value} all round is narrower than the hip; a gored skirt needs {needed}.",
                                    needed=hem(0.0))
        if sweep > hem(MOST_FLARE):
            raise ImpossibleMeasure("skirt.sweep", sweep, f"{gores} gores flare to at most {{needed}} round the hem; {{value}} was asked for. Choose more "
                                    "gores, or part of a circle.", needed=hem(MOST_FLARE))
        flare = (sweep / (2 * gores) - widest) / (length - depth)
        if middle / halves + flare * depth > widest:
            flare = (sweep / (2 * gores) - middle / halves) / length
    spread = flare * depth
    if spread >= need:
        return GorePlan(gores, flare, net[0] / halves + spread, net[1] / halves + spread, 0.0, 0.0, depth)
    edge = min(need, max(MOST_TAKE, spread))
    dart = need - edge
    if dart < (LEAST_DART if gores == 6 else LEAST_DART / 2):
        edge, dart = need, 0.0
    front, back = net[0] / halves + need, net[1] / halves + need
    return GorePlan(gores, flare, front, back, edge - spread, dart, depth)


def plan_panels(panels: int, fraction: float, net: tuple[float, float], depth: float) -> GorePlan:
    """Plan a circle skirt cut in so many equal panels: gores without a take, their flare the circle's own."""
    halves = panels // 2
    flare = fraction * math.pi / 2 / halves
    return GorePlan(panels, flare, net[0] / halves + flare * depth, net[1] / halves + flare * depth, 0.0, 0.0, depth)


def draw_gores(plan: GorePlan, net: tuple[float, float], waist_y: tuple[float, float], length: float) -> tuple[SkirtHalf, SkirtHalf]:
    """Draw half a front and half a back gore about their middles (x = 0), with one edge.

    Where the dart of a whole gore fits into one, it lies in the middle; centre gores on the fold have theirs in each half.
    """
    front = _half(plan, net[0] / plan.halves, plan.hip_front, waist_y[0], length, None)
    if plan.gores != 6:  # a seam lies at the centre front: there the length is measured
        front = _half(plan, net[0] / plan.halves, plan.hip_front, waist_y[0], 2 * length - front.side.length(), None)
        length = front.hem.start.y - waist_y[0]
    return front, _half(plan, net[1] / plan.halves, plan.hip_back, waist_y[1], length, front)


def _half(plan: GorePlan, net: float, hip: float, waist_y: float, length: float, like: SkirtHalf | None) -> SkirtHalf:
    shared = SkirtPlan(plan.flare, hip, hip, plan.take, 0.0, 0.0, plan.depth, False)
    if plan.dart and plan.gores != 6 and 2 * plan.dart <= WIDEST_DART:
        return _dart_in_the_middle(shared, net, hip, waist_y, length, like)
    darts = (DartPlan(0.5 * net, plan.dart, dart_length(plan.depth)),) if plan.dart else ()
    return draw_half(shared, net, hip, darts, waist_y, length, like=like)


def _dart_in_the_middle(plan: SkirtPlan, net: float, hip: float, waist_y: float, length: float, like: SkirtHalf | None) -> SkirtHalf:
    """Draw a half gore whose dart lies on its middle line: the waist runs from the dart's leg, square to it, to the edge."""
    take, long, hip_y = plan.side_take, dart_length(plan.depth), waist_y + plan.depth
    depth = like.side_depth if like else plan.depth + 0.25 * INCH
    for _ in range(20):
        slant = math.atan2(1.5 * take, depth)
        end = edge_top(plan.fan, hip, hip_y, depth, take)

        def from_middle(width: float) -> Point:
            """Where the waist begins if it ends at the edge, less the dart's mouth."""
            leaves, arrives = math.atan2(width / 2, long), -(plan.fan + slant)
            half = (arrives - leaves) / 2
            chord = net * math.sin(half) / half
            return Point(end.x - chord * math.cos(leaves + half) - width / 2, end.y - chord * math.sin(leaves + half))

        width = root(lambda w: from_middle(w).x, 0.0, 3 * WIDEST_DART, name="width of the dart in the gore", within=1e-9)
        miss = from_middle(width).y - waist_y
        if like or abs(miss) < 1e-8:
            break
        depth += miss
    mouth = Point(width / 2, end.y - (end.y - from_middle(width).y))
    leaves = math.atan2(width / 2, long)
    point = Point(0.0, mouth.y + long)
    section = Path(arc(mouth, math.degrees(leaves), math.degrees(-(plan.fan + slant) - leaves), net))
    dart = Dart(point, (Path.of(Line(Point(-mouth.x, mouth.y), point)), Path.of(Line(mouth, point))), width)
    return finished_half(plan, hip, hip_y, WaistEdge((section,), (dart,)), slant, take, depth, waist_y + length)


def dart_length(depth: float) -> float:
    """Return how long a gore's darts are: as a skirt's usual ones, little more than half of the way to the hip."""
    return min(DART_LENGTH, 0.55 * depth)


def mirrored(path: Path) -> Path:
    """Return a path mirrored in the gore's middle and walked back, so that it runs on into the other half."""
    return path.mapped(lambda p: Point(-p.x, p.y)).reversed()


def whole_gores(gores: int, halves: tuple[SkirtHalf, SkirtHalf]) -> tuple[Gore, ...]:
    """Return every gore of a skirt from centre front to centre back, about its own middle, from half a front and half a back one.

    Six gores have half a one on each side of both centres, whose inner edge is the centre line.
    """
    front, back = halves
    if gores == 6:
        return _beside_the_centre(front), _whole(front), _whole(back), _beside_the_centre(back)
    each = gores // 4
    return (_whole(front),) * each + (_whole(back),) * each


def _beside_the_centre(half: SkirtHalf) -> Gore:
    inner = Path.through(half.waist.sections[0].start, half.hem.start)
    return Gore(half.waist.sections, half.waist.darts, inner, half.side, half.hip_line, half.hem)


def _whole(half: SkirtHalf) -> Gore:
    edge = whole_waist(half.waist)
    return Gore(edge.sections, edge.darts, half.side.mapped(lambda p: Point(-p.x, p.y)), half.side, mirrored(half.hip_line) + half.hip_line,
                mirrored(half.hem) + half.hem)


def whole_waist(edge: WaistEdge) -> WaistEdge:
    """Return both halves of a gore's waist from left to right: where no dart lies in the middle, its two sections become one."""
    left = tuple(mirrored(section) for section in reversed(edge.sections))
    if len(edge.darts) == len(edge.sections):
        return WaistEdge((*left, *edge.sections), edge.darts)
    darts = tuple(Dart(Point(-d.point.x, d.point.y), tuple(leg.mapped(lambda p: Point(-p.x, p.y)) for leg in reversed(d.legs)), d.width)
                  for d in reversed(edge.darts))
    return WaistEdge((*left[:-1], left[-1] + edge.sections[0], *edge.sections[1:]), (*darts, *edge.darts))
