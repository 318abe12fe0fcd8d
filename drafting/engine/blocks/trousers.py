"""A plain trouser leg's front and back: waist, side, hem, inside leg and crotch seam, drawn about the crease line (x = 0).

The front comes first; the back is then trued to it: its side seam by the height of its waist end, its inside leg by the drop of its
fork, and both crotch curves by the direction in which they reach the fork, so that across the inside-leg seam they run on in one line.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from ..curve import Cubic, Line
from ..path import Path
from ..piece import Dart
from ..point import Point
from ..solve import root
from ..tolerance import INCH
from ..trouser_figures import LegHalf, TrouserFigures, TrouserLevels
from .skirt import LEAST_DART, back_darts, front_darts
from .skirt_waist import DartPlan, WaistEdge, waist_edge, waist_end

BACK_STRETCHED = 0.125 * INCH
"""The back's inside leg is cut this much shorter and stretched onto the front's, above the knee. Common practice, no source."""

ROUND = 0.58
"""The crotch curve's handles, as shares of its depth and width: a little fuller than a quarter of a circle (0.55). Judgement."""

FORK_SHARE = 0.35
"""Of the turn that joins both crotch curves at the fork the front takes this share, the back the rest. Judgement."""


@dataclass(frozen=True, slots=True)
class Leg:
    """One drawn half: `side` walked down, `hem` from the centre outward, `inside` from fork to hem, `crotch` from waist to fork.

    `seat` is where the crotch seam turns from straight to curved, mm along it.
    """

    figures: LegHalf
    waist: WaistEdge
    side: Path
    hem: Path
    inside: Path
    crotch: Path
    straight: float
    hip_line: tuple[Point, Point]

    @property
    def side_take(self) -> float:
        """How far the side comes in from the hip to the waist (negative: it goes out), mm."""
        return self.hip_line[1].x - self.waist.end.x

    @property
    def hollow(self) -> float:
        """How near the crotch curve comes to the corner under its upright, mm."""
        corner = Point(-self.figures.centre, self.inside.start.y)
        return min(self.crotch.strokes[1].at(i / 48).distance(corner) for i in range(49))


def draw_legs(f: TrouserFigures) -> tuple[Leg, Leg]:
    """Draw front and back, trued to each other."""
    front_inside = _inside(f.front, f.levels, f.levels.fork)

    def short(drop: float) -> float:
        return _inside(f.back, f.levels, f.levels.fork + drop).length() - (front_inside.length() - BACK_STRETCHED)

    drop = root(short, -40.0, 60.0, name="drop of the back's fork", remedy="Measure body rise, inside leg and hip again.")
    back_inside = _inside(f.back, f.levels, f.levels.fork + drop)
    turn = 180.0 - _fork_angle(front_inside) - _fork_angle(back_inside)
    front = _leg(f.front, f.levels, front_inside, turn * FORK_SHARE, f.levels.hip, back=False, like=None)
    back = _leg(f.back, f.levels, back_inside, turn * (1 - FORK_SHARE), _straight_to(f), back=True, like=front)
    return front, back


def _straight_to(f: TrouserFigures) -> float:
    """The back's centre seam runs straight half-way down to the fork."""
    return f.levels.fork / 2


def _inside(half: LegHalf, levels: TrouserLevels, fork_y: float) -> Path:
    """Return the inside leg: hollowed by the bow to the knee, there upright along the straight stroke to the hem."""
    fork, knee, hem = Point(-half.fork, fork_y), Point(-half.knee, levels.knee), Point(-half.hem, levels.hem)
    lower = (hem - knee).unit()
    chord = knee - fork
    inward = Point(chord.y, -chord.x).unit()
    third = chord * (1 / 3)
    return Path.of(Cubic(fork, fork + third + inward * half.bow, knee - lower * (chord.size / 3), knee), Line(knee, hem))


def _fork_angle(inside: Path) -> float:
    """Return the angle at the fork between a level crotch line and the inside leg, degrees."""
    return inside.leaves().angle_deg


def _crotch(half: LegHalf, top: Point, straight_y: float, fork: Point, tilt: float) -> Path:
    """Return the crotch seam: straight from the waist to the upright, then one curve that reaches the fork `tilt` degrees under
    level."""
    turn = Point(-half.centre, straight_y)
    along = (turn - top).unit()
    arriving = Point(-math.cos(math.radians(tilt)), math.sin(math.radians(tilt)))
    down, across = (fork.y - turn.y) * ROUND, (turn.x - fork.x) * ROUND
    return Path.of(Line(top, turn), Cubic(turn, turn + along * down, fork - arriving * across, fork))


def _leg(half: LegHalf, levels: TrouserLevels, inside: Path, tilt: float, straight_y: float, *, back: bool, like: Leg | None) -> Leg:
    """Draw one half. The waist is square to the centre seam, to each dart and to the side; the front's centre stays at the waist's level, the
    back's waist is raised or lowered until both side seams agree."""
    lean = math.atan2(half.centre_take, straight_y)
    top_x = -half.centre + half.centre_take
    crotch = _crotch(half, Point(top_x, 0.0), straight_y, inside.start, tilt)
    hip_x = crotch.at(crotch.distance_at_level(levels.hip)).x
    side_hip = Point(hip_x + half.hip, levels.hip)
    end_x = side_hip.x - half.side_take
    plans = (back_darts if back else front_darts)(half.dart, levels.hip, half.waist)
    if plans and _dart_needed(top_x, end_x, half, plans, lean, levels.hip) < LEAST_DART:
        plans = ()

    def slant_at(depth: float) -> float:
        """Return the side seam's slant at the waist; without darts the side takes what is left over."""
        take = half.side_take
        for _ in range(0 if plans else 5):
            take = side_hip.x - _waist_end(top_x, half.waist, (), lean, math.atan2(1.5 * take, depth)).x
        return math.atan2(1.5 * take, depth)

    def waist(depth: float) -> WaistEdge:
        return _waist(top_x, end_x, half.waist, plans, lean, slant_at(depth))

    def side(depth: float) -> Path:
        slant = slant_at(depth)
        x = end_x if plans else _waist_end(top_x, half.waist, (), lean, slant).x
        top = Point(x, levels.hip - depth)
        leaving, handle = Point(math.sin(slant), math.cos(slant)), depth / 3
        knee, hem = Point(half.knee, levels.knee), Point(half.hem, levels.hem)
        lower = (hem - knee).unit()
        fall = levels.knee - levels.hip
        return Path.of(Cubic(top, top + leaving * (handle / math.cos(slant)), Point(side_hip.x, side_hip.y - handle), side_hip),
                       Cubic(side_hip, Point(side_hip.x, side_hip.y + fall / 3), knee - lower * (fall / 3), knee), Line(knee, hem))

    if like is None:
        depth = levels.hip + 0.375 * INCH
        for _ in range(12):
            rise = -waist(depth).end.y
            if abs(levels.hip + rise - depth) < 1e-8:
                break
            depth = levels.hip + rise
    else:
        wanted = like.side.length()
        depth = root(lambda d: side(d).length() - wanted, levels.hip - 40.0, levels.hip + 60.0, name="height of the back's waist at the side",
                     remedy="Measure waist, hip and waist to hip again.")
    edge = waist(depth)
    lift = levels.hip - depth - edge.end.y
    edge = WaistEdge(tuple(s.moved(0.0, lift) for s in edge.sections),
                     tuple(Dart(d.point + Point(0.0, lift), tuple(leg.moved(0.0, lift) for leg in d.legs), d.width) for d in edge.darts))
    turn = crotch.strokes[0].end
    crotch = Path((Line(edge.sections[0].start, turn), *crotch.strokes[1:]))
    side_seam = side(depth)
    return Leg(half, edge, side_seam, _hem(inside, side_seam), inside, crotch, crotch.strokes[0].length(), (Point(hip_x, levels.hip), side_hip))


def _dart_needed(start_x: float, end_x: float, half: LegHalf, plans: tuple[DartPlan, ...], lean: float, depth: float) -> float:
    """Return about how wide the darts would come out in all: what the plain waist reaches beyond the side's end."""
    return end_x - _waist_end(start_x, half.waist, (), lean, math.atan2(1.5 * half.side_take, depth)).x


def _waist_end(start_x: float, net: float, plans: tuple[DartPlan, ...], lean: float, slant: float) -> Point:
    """Return where the waist would end, without drawing it: the solvers ask this many times."""
    return waist_end(Point(0.0, 0.0), net, plans, lean, slant).turned(math.degrees(lean)) + Point(start_x, 0.0)


def _waist(start_x: float, end_x: float, net: float, plans: tuple[DartPlan, ...], lean: float, slant: float) -> WaistEdge:
    """Return the waist from the centre seam (which leans by `lean`) to the side, its darts as wide as brings it to `end_x`."""
    def scaled(scale: float) -> tuple[DartPlan, ...]:
        return tuple(replace(plan, width=plan.width * scale) for plan in plans)

    if plans:
        plans = scaled(root(lambda k: _waist_end(start_x, net, scaled(k), lean, slant).x - end_x, 0.0, 4.0, name="width of the darts in the trousers",
                            within=1e-9, remedy="Measure waist, hip and waist to hip again."))
    edge, turn = waist_edge(Point(0.0, 0.0), net, plans, lean, slant), math.degrees(lean)

    def placed(p: Point) -> Point:
        return p.turned(turn) + Point(start_x, 0.0)

    return WaistEdge(tuple(s.mapped(placed) for s in edge.sections),
                     tuple(Dart(placed(d.point), tuple(leg.mapped(placed) for leg in d.legs), d.width) for d in edge.darts))


def _hem(inside: Path, side: Path) -> Path:
    """Return the hem from the inside leg to the side, square to both."""
    a, b = inside.end, side.end
    third = a.distance(b) / 3
    left, right = inside.arrives(), side.arrives()
    return Path.of(Cubic(a, a + Point(left.y, -left.x) * third, b - Point(right.y, -right.x) * third, b))
