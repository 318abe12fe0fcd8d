"""Skirts hung from a basque: front and back edges traced from it, spread below it till they clear the hips.

Front: toward the centre the edge is the basque's own; toward the side, where the band springs out of its seam, it is an even
bend as long as the band's part. What the side seam does not take enters by spread, theta = rest / (hip depth - mean depth of the
edge); a straight skirt keeps it as a short dart below the edge instead, where it is more than can be shifted, and its back's darts
too. Source: the drafting method, section 8 (Basque).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from ..curve import Cubic, Line
from ..errors import ImpossibleMeasure, UnknownChoice
from ..path import Path
from ..piece import Dart
from ..point import Point
from ..solve import root
from ..tolerance import INCH, SEAM
from .basque import bow, inward
from .skirt import CIRCLES, LEAST_DART, LEAST_FAN, LEAST_LATE, MOST_FAN, WIDEST_DART, SkirtHalf, SkirtPlan, back_darts, draw_half
from .skirt_waist import DartPlan, WaistEdge
from .spread import Spread, mean_depth, spread

MOST_SIDE = 1.75 * INCH
LEAST_DART_LENGTH = 1.5 * INCH
PLACE = 0.45
"""A front dart stands this far along the edge from the cup seam to the side. Judgement."""

MOST_SHIFT = 0.75 * INCH
"""So much of the front's hip may go to the back where the front would flare too much. Judgement."""


@dataclass(frozen=True, slots=True)
class Traced:
    """What a skirt must know of the basque, mm. Levels are below the waist.

    `front` is the band's edge from the fold to the cup seam as drawn on it, `front_rest` the length from there to the side;
    `back` the length of the back's edge with what lies under a lacing gap, `drop` its depth at the centre; `front_growth` the front
    dart of a plain skirt, `side_left` what the body still grows at the side below the edge.
    """

    front: Path
    front_rest: float
    back: float
    side: float
    drop: float
    to_hip: float
    side_slant: float
    side_left: float
    front_growth: float

    @property
    def depths(self) -> tuple[float, float, float]:
        """How deep below the waist the edge lies at the side, the centre back and the centre front."""
        return self.side, self.drop, self.front.start.y

    def slant_for(self, take: float) -> float:
        """Return the side's slant at the edge for a skirt that takes `take` in from there to the hip (the body: side_left)."""
        return math.atan(math.tan(self.side_slant) * min(1.0, take / self.side_left)) if self.side_left > 1e-6 else 0.0


def front_path(traced: Traced, slant: float) -> Path:
    """Return the front's edge before spreading, from the centre to the side; solved to be as long as the band's."""
    joint = traced.front.end
    leaving = traced.front.arrives()
    return traced.front + Path.of(_bend(joint, leaving, traced.side, slant, traced.front_rest))


def back_path(traced: Traced, slant: float) -> Path:
    """Return the back's edge before spreading: level at the centre, square to the side."""
    return Path.of(_bend(Point(0.0, traced.drop), Point(1.0, 0.0), traced.side, slant, traced.back))


def _bend(start: Point, leaving: Point, level: float, slant: float, length: float) -> Cubic:
    """Return the bend from `start` to `level`, square to a side that slants by `slant`, `length` mm long."""
    arriving = -inward(slant)

    def drawn(across: float) -> Cubic:
        return bow(start, leaving, Point(start.x + across, level), arriving)

    rise = abs(start.y - level)
    if length <= rise:
        raise ImpossibleMeasure("basque_side", level, "The basque falls too steeply from {value} at the side. Make it shallower at the "
                                "centre front.")
    least = 0.5 * math.sqrt(length * length - rise * rise)
    across = root(lambda x: drawn(x).length() - length, least, length, name="width of the skirt at the basque",
                  remedy="Make the basque shallower at the centre front.")
    return drawn(across)


@dataclass(frozen=True, slots=True)
class HungPlan:
    """How a skirt fills out from the basque to the hip, mm (fans in radians): hip quarters, side take, back darts, fans."""

    hip_front: float
    hip_back: float
    take: float
    darts: float
    fan_front: float
    fan_back: float
    depth: float
    times: float = 1.0
    front_dart: float = 0.0


def plan_hung(kind: str, hip: float, traced: Traced, *, fan: float = 0.0, fullness: float = 1.0, least: float = LEAST_FAN) -> HungPlan:
    """Share the hip over fans, side seam and back darts; `hip` is its quarter. A circle spreads by `fan`, an A-line by at least
    `least` (radians a quarter).

    Raises UnknownChoice where the skirt would be tight over the hips, ImpossibleMeasure where it would flare beyond measure.
    """
    if kind == "gathered":
        front, back = (fullness * path.end.x for path in (front_path(traced, 0.0), back_path(traced, 0.0)))
        if front + back < 2 * hip:
            raise UnknownChoice("skirt.fullness", fullness, ("a fuller skirt",), why="It would be tight over the hips.")
        return HungPlan(front, back, 0.0, 0.0, 0.0, 0.0, traced.to_hip, fullness)
    if kind == "circle":
        reach = _reach(traced, 0.0)
        front, back = (across + fan * room for across, room in reach)
        if front + back < 2 * hip - 1e-6:
            wider = tuple(str(f) for f in CIRCLES if sum(a + f * math.pi / 2 * room for a, room in reach) >= 2 * hip)
            raise UnknownChoice("skirt.fraction", round(fan / (math.pi / 2), 2), wider or ("an A-line",), why="It would be tight over the hips.")
        return HungPlan(front, back, 0.0, 0.0, fan, fan, traced.to_hip)
    return _tailored(kind, hip, traced, least)


def _reach(traced: Traced, slant: float) -> tuple[tuple[float, float], ...]:
    """Return, front and back, how far the edge reaches across and how far below it, in the mean, the hip lies."""
    return tuple((path.end.x, traced.to_hip - mean_depth(path, 0.0)) for path in (front_path(traced, slant), back_path(traced, slant)))


def _tailored(kind: str, hip: float, traced: Traced, least_fan: float) -> HungPlan:
    take = traced.side_left
    (front_x, front_room), (back_x, back_room) = _reach(traced, traced.slant_for(take))
    spare = 2 * hip - front_x - back_x
    if spare <= 0:
        fan = least_fan if kind == "a-line" else 0.0
        return HungPlan(front_x + fan * front_room, back_x + fan * back_room, 0.0, 0.0, fan, fan, traced.to_hip)
    take = min(take, 0.5 * spare)
    hip_front = hip - (spare / 2 + take) / 20
    least = max(0.0, (hip_front - front_x - take) / front_room)
    if kind == "a-line":
        fan = min(MOST_FAN, max(least_fan, traced.front_growth / traced.to_hip, least))
        take = max(0.0, min(take, hip_front - front_x - fan * front_room))
        darts = 2 * hip - front_x - back_x - fan * (front_room + back_room) - 2 * take
        if darts < LEAST_DART:
            take = max(0.0, take + darts / 2)
            darts = 0.0
        _flares(fan, least)
        return HungPlan(front_x + fan * front_room + take, back_x + fan * back_room + take + darts, take, darts, fan, fan, traced.to_hip)
    rest = max(0.0, hip_front - front_x - take)
    if rest > WIDEST_DART:
        more = min(rest - WIDEST_DART, max(0.0, MOST_SIDE - traced.side_left))
        take, rest = take + more, rest - more
        rest -= min(rest - WIDEST_DART, MOST_SHIFT)
    dart = rest if LEAST_DART <= rest <= WIDEST_DART + 1e-9 else 0.0
    if dart:
        front_x = dart_front(traced, traced.slant_for(take), dart).end.x
    least = rest / front_room if rest > WIDEST_DART + 1e-9 else 0.0
    _flares(least, least)
    hip_front = front_x + least * front_room + take
    darts = 2 * hip - hip_front - back_x - take
    fan_back = 0.0
    if darts < LEAST_DART:
        fan_back, darts = max(0.0, darts / back_room), 0.0
    return HungPlan(hip_front, back_x + take + darts + fan_back * back_room, take, darts, least, fan_back, traced.to_hip, 1.0, dart)


def _flares(fan: float, needed: float) -> None:
    if max(fan, needed) > MOST_FAN + 1e-9:
        raise UnknownChoice("waist", "basque", ("straight",), why="Below a basque the front of this skirt would have to flare more than cloth "
                            "can fall.")


def draw_hung(plan: HungPlan, traced: Traced, waist_y: tuple[float, float], length: float) -> tuple[SkirtHalf, SkirtHalf]:
    """Draw front and back halves, `length` mm long from the waist, with one side seam."""
    slant = traced.slant_for(plan.take)
    if plan.front_dart:
        front = _darted_front(plan, traced, slant, waist_y[0], length)
    else:
        front = _spread_half(front_path(traced, slant), plan, plan.fan_front, plan.take, slant, traced, waist_y[0], length)
    if plan.darts:
        return front, _darted_back(front, plan, traced, waist_y[1], length)
    return front, _spread_half(back_path(traced, slant), plan, plan.fan_back, plan.take, slant, traced, waist_y[1], length)


def dart_front(traced: Traced, slant: float, width: float) -> WaistEdge:
    """Draw a front edge with one dart of `width` below it, toward the side; its axis hangs straight down, its legs are square to the
    edge once it is closed."""
    plain = _bend(traced.front.end, traced.front.arrives(), traced.side, slant, traced.front_rest)
    at = plain.parameter_at(PLACE * traced.front_rest)
    level, step = plain.at(at).y, plain.direction(at)
    length = max(LEAST_DART_LENGTH, min(4 * INCH, traced.to_hip / 2) - level)
    half, rises = math.atan2(width / 2, length), math.atan2(-step.y, step.x)
    first = _bend(traced.front.end, traced.front.arrives(), level, rises + half, PLACE * traced.front_rest)
    mouth = first.end + Point(width, 0.0)
    second = _bend(mouth, -inward(rises - half), traced.side, slant, (1 - PLACE) * traced.front_rest)
    point = first.end + Point(width / 2, length)
    legs = Path.of(Line(first.end, point)), Path.of(Line(mouth, point))
    return WaistEdge((traced.front + Path.of(first), Path.of(second)), (Dart(point, legs, width),))


def _darted_front(plan: HungPlan, traced: Traced, slant: float, waist_y: float, length: float) -> SkirtHalf:
    drop = Point(0.0, waist_y)
    made = dart_front(traced, slant, plan.front_dart)
    edge = WaistEdge(tuple(section.moved(0.0, waist_y) for section in made.sections), tuple(
        Dart(d.point + drop, tuple(leg.moved(0.0, waist_y) for leg in d.legs), d.width) for d in made.darts))
    across, down, out = Point(plan.hip_front, 0.0), Point(0.0, 1.0), Point(1.0, 0.0)
    lines = (Path.through(Point(0.0, waist_y + below), across + Point(0.0, waist_y + below)) for below in (traced.to_hip, length))
    return _half(edge, *lines, down, out, plan.take, slant, traced)


def _spread_half(edge: Path, plan: HungPlan, fan: float, take: float, slant: float, traced: Traced, waist_y: float, length: float) -> SkirtHalf:
    if plan.times != 1.0:
        edge = edge.mapped(lambda p: Point(p.x * plan.times, p.y))
    made: Spread = spread(edge.moved(0.0, waist_y), fan)
    hip_line, hem = (_beyond(made.level(waist_y + below), made.last_out, take) for below in (traced.to_hip, length))
    return _half(WaistEdge((made.edge,), ()), hip_line, hem, made.last_down, made.last_out, take, slant, traced)


def _half(edge: WaistEdge, hip_line: Path, hem: Path, down: Point, out: Point, take: float, slant: float, traced: Traced) -> SkirtHalf:
    """Put a half together: its side leaves the edge slanting out beyond `down` by `slant` and meets the hip along `down`."""
    depth = traced.to_hip - traced.side
    top, handle = edge.end, depth / 3
    leaving = down * math.cos(slant) + out * math.sin(slant)
    upper = Cubic(top, top + leaving * (handle / math.cos(slant)), hip_line.end - down * handle, hip_line.end)
    return SkirtHalf(edge, Path.of(upper, Line(hip_line.end, hem.end)), hip_line, hem, take, depth, slant)


def _beyond(line: Path, out: Point, take: float) -> Path:
    return line + Path.through(line.end, line.end + out * take) if take > 1e-6 else line


def _darted_back(front: SkirtHalf, plan: HungPlan, traced: Traced, waist_y: float, length: float) -> SkirtHalf:
    """Draw a back with what is left of its darts below the edge. Its edge turns square to the side so early or late that its centre
    lies as deep as the basque's; what that leaves, under 1/8 in, the first section takes up before the dart. Where that makes the edge
    longer or shorter by over half of what a seam may be off, it is drawn again for so much less or more."""
    whole = back_darts(plan.darts, traced.to_hip, traced.back)
    darts = tuple(DartPlan(d.at, d.width, max(LEAST_DART_LENGTH, d.length - traced.drop)) for d in whole)
    below = SkirtPlan(plan.fan_back, plan.hip_front, plan.hip_back, plan.take, 0.0, plan.darts, traced.to_hip - traced.drop, False)

    def drawn(late: float, net: float) -> SkirtHalf:
        return draw_half(below, net, plan.hip_back, darts, waist_y + traced.drop, length - traced.drop, like=front, late=late)

    def levelled(net: float) -> SkirtHalf:
        late, early = drawn(1.0, net), drawn(LEAST_LATE, net)
        high, low = (half.waist.sections[0].start.y - waist_y - traced.drop for half in (late, early))
        if high * low >= 0:
            half = late if abs(high) <= abs(low) else early
        else:
            half = drawn(1.0 + (LEAST_LATE - 1.0) * high / (high - low), net)
        return _from_level(half, waist_y + traced.drop)

    half = levelled(traced.back)
    longer = half.waist.length - traced.back
    return levelled(traced.back - longer) if abs(longer) > SEAM / 2 else half


def _from_level(half: SkirtHalf, level: float) -> SkirtHalf:
    """Return the half with its edge starting at `level` on the centre line, square to it, and unchanged from the first dart on."""
    first, start = half.waist.sections[0], Point(0.0, level)
    third = start.distance(first.end) / 3
    curve = Cubic(start, start + Point(third, 0.0), first.end - first.arrives() * third, first.end)
    return replace(half, waist=WaistEdge((Path.of(curve), *half.waist.sections[1:]), half.waist.darts))
