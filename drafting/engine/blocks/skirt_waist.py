"""A skirt's waist edge: between seams each section is an arc square to both its ends, so that closed darts lie smooth."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..curve import Line, arc
from ..path import Path
from ..piece import Dart
from ..point import Point


@dataclass(frozen=True, slots=True)
class DartPlan:
    """A dart to be placed: the net waist before it (mm from the centre), its width and length, mm."""

    at: float
    width: float
    length: float

    @property
    def half_angle(self) -> float:
        return math.atan2(self.width / 2, self.length)


@dataclass(frozen=True, slots=True)
class WaistEdge:
    """The sections of a waist edge from the centre to the side, and the darts between them."""

    sections: tuple[Path, ...]
    darts: tuple[Dart, ...]

    @property
    def end(self) -> Point:
        return self.sections[-1].end

    @property
    def length(self) -> float:
        """The edge's length with its darts closed, mm."""
        return sum(section.length() for section in self.sections)


def waist_edge(
    start: Point, net: float, darts: tuple[DartPlan, ...], fan: float, side_slant: float, *, late: float = 1.0
) -> WaistEdge:
    """Draw a waist edge of `net` mm from `start` on the centre line, darts left out.

    `fan` is the skirt's flare from centre to side and `side_slant` the side seam's slant beyond it at the waist (both
    radians): the edge leaves the centre line square, meets each dart leg square, and arrives square to the side seam.
    `late` is the share of the last section over which it turns square to the side: less of it rises less there.
    """
    sections, drawn, heading, walked, at = [], [], 0.0, 0.0, start
    for plan in darts:
        axis, half = fan * plan.at / net, plan.half_angle
        section = _section(at, heading, -(axis + half), plan.at - walked)
        mouth_a, leg = section.end, math.hypot(plan.length, plan.width / 2)
        point = mouth_a + Point(math.sin(axis + half), math.cos(axis + half)) * leg
        mouth_b = point - Point(math.sin(axis - half), math.cos(axis - half)) * leg
        sections.append(section)
        drawn.append(Dart(point, (Path.of(Line(mouth_a, point)), Path.of(Line(mouth_b, point))), plan.width))
        at, heading, walked = mouth_b, -(axis - half), plan.at
    last = net - walked
    before = heading + (-fan - heading) * (1.0 - late)
    strokes = () if late == 1.0 else _section(at, heading, before, last * (1.0 - late)).strokes
    turn = _section(strokes[-1].end if strokes else at, before, -(fan + side_slant), last * late)
    sections.append(Path(strokes + turn.strokes))
    return WaistEdge(tuple(sections), tuple(drawn))


def waist_end(
    start: Point, net: float, darts: tuple[DartPlan, ...], fan: float, side_slant: float, *, late: float = 1.0
) -> Point:
    """Return where `waist_edge` would end, without drawing it: the solvers ask this many times."""
    x, y, heading, walked = start.x, start.y, 0.0, 0.0
    for plan in darts:
        axis, half = fan * plan.at / net, plan.half_angle
        x, y = _chord(x, y, heading, -(axis + half), plan.at - walked)
        leg = math.hypot(plan.length, plan.width / 2)
        x += leg * (math.sin(axis + half) - math.sin(axis - half))
        y += leg * (math.cos(axis + half) - math.cos(axis - half))
        heading, walked = -(axis - half), plan.at
    last = net - walked
    before = heading + (-fan - heading) * (1.0 - late)
    x, y = _chord(x, y, heading, before, last * (1.0 - late))
    x, y = _chord(x, y, before, -(fan + side_slant), last * late)
    return Point(x, y)


def _chord(x: float, y: float, leaves: float, arrives: float, length: float) -> tuple[float, float]:
    half = (arrives - leaves) / 2
    chord = length * (math.sin(half) / half if abs(half) > 1e-9 else 1.0)
    return x + chord * math.cos(leaves + half), y + chord * math.sin(leaves + half)


def _section(start: Point, heading: float, arrives: float, length: float) -> Path:
    return Path(arc(start, math.degrees(heading), math.degrees(arrives - heading), length))
