"""Straight and A-line skirts: one front and one back with one side seam, mated to a given waist edge for edge.

A skirt is a fan. Its plumb lines spread evenly from the centre (slant 0) to the side (slant `fan`); a straight skirt's
fan is 0. The hip line is square to all of them. The side seam leaves the fan's last line at the hip, tangent to it,
and comes in by the side take at the waist, there with 1.5 times its mean slope. What the side does not take, darts
take. Source of the shares: the drafting method, section 8 (common practice).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..curve import Cubic, Line, arc
from ..errors import UnknownChoice
from ..path import Path
from ..point import Point
from ..solve import root
from ..tolerance import INCH
from .skirt_waist import DartPlan, WaistEdge, waist_edge, waist_end

CIRCLES = (0.25, 0.5, 0.75, 1.0)
LEAST_DART = 0.375 * INCH
WIDEST_DART = 1.25 * INCH
LEAST_FAN = math.radians(6.0)
"""An A-line flares at least this much from centre to side, or it would be a straight skirt. Judgement."""

MOST_FAN = math.radians(30.0)

CENTRE_MOVES_FREELY = 0.0625 * INCH
"""The back's centre may move by this at the waist without a thought: half an eighth. Judgement."""

LEAST_LATE = 0.25
"""The waist needs at least this share of its last section to turn square to the side, or it shows a corner."""


@dataclass(frozen=True, slots=True)
class SkirtPlan:
    """The shared figures of front and back, mm (fan in radians). Darts are total widths to take in a quarter."""

    fan: float
    hip_front: float
    hip_back: float
    side_take: float
    front_darts: float
    back_darts: float
    depth: float
    deep_darts: bool


def plan_skirt(kind: str, hip: float, waist_front: float, waist_back: float, depth: float, *, least_fan: float = LEAST_FAN) -> SkirtPlan:
    """Share the difference between hip quarter `hip` and the waist quarters over side seam, darts and flare.

    `kind` is "straight" or "a-line"; `depth` is waist to hip; an A-line flares by at least `least_fan` (radians) a quarter.
    """
    uneven = (waist_back - waist_front) / 2
    total = hip - (waist_front + waist_back) / 2
    if total <= 0:
        fan = least_fan if kind == "a-line" else 0.0
        room = fan * depth
        return SkirtPlan(fan, waist_front + room, waist_back + room, 0.0, 0.0, 0.0, depth, False)
    side = min(1.5 * INCH, 0.4 * total)
    hip_front, hip_back = hip - total / 10 - uneven, hip + total / 10 + uneven
    front, back = hip_front - waist_front - side, hip_back - waist_back - side
    if kind == "a-line":
        return _a_line(hip, uneven, total, side, front, back, waist_front, waist_back, depth, least_fan)
    if front < LEAST_DART:
        return SkirtPlan(0.0, hip - uneven, hip + uneven, total, 0.0, 0.0, depth, False)
    over = max(0.0, front - 2 * WIDEST_DART, back - 3 * WIDEST_DART)
    more = min(1.75 * INCH - side, over) if over and side < 1.75 * INCH else 0.0
    return SkirtPlan(0.0, hip_front, hip_back, side + more, front - more, back - more, depth, over > more + 1e-9)


def plan_circle(fraction: float, hip: float, waist: tuple[float, float], depth: float) -> SkirtPlan:
    """Plan a circle skirt: each quarter of it a fan of `fraction` times 90 degrees, its hip line an arc `depth` under the waist.

    r = C/(2 pi f) for fraction f of a circle (coutureschmiede.com, crossover pleat circle skirt). Raises UnknownChoice where so
    small a fraction would be tight over the hips.
    """
    fan = fraction * math.pi / 2
    front, back = waist[0] + fan * depth, waist[1] + fan * depth
    if front + back < 2 * hip - 1e-6:
        wider = tuple(str(f) for f in CIRCLES if waist[0] + waist[1] + 2 * f * math.pi / 2 * depth >= 2 * hip)
        raise UnknownChoice("skirt.fraction", fraction, wider or ("an A-line",), why="It would be tight over the hips.")
    return SkirtPlan(fan, front, back, 0.0, 0.0, 0.0, depth, False)


def _a_line(hip, uneven, total, side, front, back, waist_front, waist_back, depth, least_fan) -> SkirtPlan:
    fan = min(max(front / depth, least_fan), MOST_FAN)
    spread = fan * depth
    hip_front, hip_back = hip - total / 10 - uneven, hip + total / 10 + uneven
    dart = hip_back - waist_back - spread - side
    if dart < LEAST_DART:
        hip_front, hip_back, dart = hip - uneven, hip + uneven, 0.0
        side = total - spread
        if side < 0:
            hip_front, hip_back, side = hip_front - side, hip_back - side, 0.0
    return SkirtPlan(fan, hip_front, hip_back, side, 0.0, dart, depth, False)


@dataclass(frozen=True, slots=True)
class SkirtHalf:
    """One half front or back: its waist edge, side seam, hip line (centre to side) and hem (centre to side); `tapered` where the hem is
    narrower than what it is turned up onto."""

    waist: WaistEdge
    side: Path
    hip_line: Path
    hem: Path
    side_take: float
    side_depth: float
    slant: float
    tapered: bool = False


def front_darts(total: float, depth: float, net: float) -> tuple[DartPlan, ...]:
    """Return the front's darts: at most 2 of 1¼, half the hip depth long, 4 in at most; the outer ¾ shorter."""
    length = min(4 * INCH, depth / 2)
    if total <= 0:
        return ()
    if total <= WIDEST_DART:
        return (DartPlan(0.45 * net, total, length),)
    return tuple(
        DartPlan(share * net, total / 2, length - shorter) for share, shorter in ((0.40, 0.0), (0.74, 0.75 * INCH))
    )


def back_darts(total: float, depth: float, net: float) -> tuple[DartPlan, ...]:
    """Return the back's darts: at most 3 of 1¼, 0.69 of the hip depth long, 5½ in at most; the outer ¾ shorter."""
    length = min(5.5 * INCH, 0.69 * depth)
    if total <= 0:
        return ()
    if total <= WIDEST_DART:
        return (DartPlan(0.48 * net, total, length),)
    if total <= 2 * WIDEST_DART:
        places = ((0.34, 0.0), (0.72, 0.75 * INCH))
    else:
        places = ((0.34, 0.0), (0.53, 0.0), (0.72, 0.75 * INCH))
    return tuple(DartPlan(share * net, total / len(places), length - shorter) for share, shorter in places)


def draw_pair(plan: SkirtPlan, net: tuple[float, float], waist_y: tuple[float, float], length: float) -> tuple[
    SkirtHalf, SkirtHalf]:
    """Draw front and back (`net` waists and `waist_y` levels in that order), `length` mm long, with one side seam.

    The side take agrees because the darts are solved for it; the side's depth agrees because the front turns square to
    the side later or earlier along its waist, and, for what that leaves, the back's centre moves.
    """
    darts = (front_darts(plan.front_darts, plan.depth, net[0]), back_darts(plan.back_darts, plan.depth, net[1]))

    def pair(late: float) -> tuple[SkirtHalf, SkirtHalf]:
        front = draw_half(plan, net[0], plan.hip_front, darts[0], waist_y[0], length, late=late)
        return front, draw_half(plan, net[1], plan.hip_back, darts[1], waist_y[1], length, like=front)

    front, back = pair(1.0)
    moved = _moved(back, waist_y[1])
    if abs(moved) <= CENTRE_MOVES_FREELY:
        return front, back
    other = _moved(pair(0.5)[1], waist_y[1])
    late = 1.0 if moved == other else 1.0 - 0.5 * moved / (moved - other)
    return pair(min(1.0, max(LEAST_LATE, late)))


def _moved(back: SkirtHalf, waist_y: float) -> float:
    return waist_y - back.waist.sections[0].start.y


def draw_half(plan: SkirtPlan, net: float, hip: float, darts: tuple[DartPlan, ...], waist_y: float, length: float, *,
              like: SkirtHalf | None = None, late: float = 1.0) -> SkirtHalf:
    """Draw one half with a waist of `net` and a hip line of `hip` mm, its waist at `waist_y`, `length` long.

    `like` is the half that it must share a side seam with: its darts are then solved so that the side take agrees, and
    its centre is raised or lowered at the waist until the side seams are equally deep.
    """
    take, start = (like.side_take if like else plan.side_take), Point(0.0, waist_y)
    depth = like.side_depth if like else plan.depth + 0.375 * INCH
    hip_y = waist_y + plan.depth
    for _ in range(12):
        slant = like.slant if like else math.atan2(1.5 * take, depth)
        solved = _solved_darts(plan, net, hip, darts, start, hip_y, slant, take, late)
        found_take, found_depth = _from_side(plan, hip, hip_y, waist_end(start, net, solved, plan.fan, slant, late=late))
        take = take if darts else found_take
        miss = depth - found_depth
        if abs(miss) < 1e-8:
            break
        if like:
            start = Point(0.0, start.y - miss)
        else:
            depth = found_depth
    edge = waist_edge(start, net, solved, plan.fan, slant, late=late)
    return finished_half(plan, hip, hip_y, edge, slant, take, depth, waist_y + length)


def _solved_darts(plan, net, hip, darts, start, hip_y, slant, take, late) -> tuple[DartPlan, ...]:
    """Scale the darts' widths until the side end lands `take` inside the fan's last line."""
    def scaled(scale: float) -> tuple[DartPlan, ...]:
        return tuple(DartPlan(d.at, d.width * scale, d.length) for d in darts)

    def excess(scale: float) -> float:
        end = waist_end(start, net, scaled(scale), plan.fan, slant, late=late)
        return _from_side(plan, hip, hip_y, end)[0] - take

    if not darts:
        return darts
    return scaled(root(excess, 0.0, 3.0, name="width of the skirt darts", within=1e-9,
                       remedy="Measure waist, hip and waist to hip again."))


def _from_side(plan: SkirtPlan, hip: float, hip_y: float, end: Point) -> tuple[float, float]:
    """Return how far `end` lies inside the fan's last line, and how far above the hip along it."""
    along, out = _last_line(plan.fan)
    step = _hip_end(plan.fan, hip, hip_y) - end
    return step.dot(out), step.dot(along)


def _last_line(fan: float) -> tuple[Point, Point]:
    """Return the direction down the fan's last plumb line and the direction square to it, outward."""
    return Point(math.sin(fan), math.cos(fan)), Point(math.cos(fan), -math.sin(fan))


def _hip_end(fan: float, hip: float, hip_y: float) -> Point:
    if fan == 0.0:
        return Point(hip, hip_y)
    radius = hip / fan
    return Point(radius * math.sin(fan), hip_y - radius * (1 - math.cos(fan)))


def _spread_line(fan: float, hip: float, hip_y: float, below: float) -> Path:
    """Return the line square to every plumb line, `below` mm under the hip line, from the centre to the fan's side."""
    start = Point(0.0, hip_y + below)
    if fan == 0.0:
        return Path.through(start, Point(hip, start.y))
    return Path(arc(start, 0.0, -math.degrees(fan), hip + fan * below))


def edge_top(fan: float, hip: float, hip_y: float, depth: float, take: float) -> Point:
    """Return where a side edge meets the waist: `depth` above the hip along the fan's last line, `take` inside it."""
    along, out = _last_line(fan)
    return _hip_end(fan, hip, hip_y) - along * depth - out * take


def finished_half(plan: SkirtPlan, hip: float, hip_y: float, edge: WaistEdge, slant: float, take: float, depth: float, hem_y: float) -> SkirtHalf:
    """Return the half below a drawn waist edge: side seam, hip line and a plain hem."""
    along, out = _last_line(plan.fan)
    hip_line = _spread_line(plan.fan, hip, hip_y, 0.0)
    hem = _spread_line(plan.fan, hip, hip_y, hem_y - hip_y)
    handle = depth / 3
    leaving = along * math.cos(slant) + out * math.sin(slant)
    upper = Cubic(edge.end, edge.end + leaving * (handle / math.cos(slant)), hip_line.end - along * handle, hip_line.end)
    return SkirtHalf(edge, Path.of(upper, Line(hip_line.end, hem.end)), hip_line, hem, take, depth, slant)
