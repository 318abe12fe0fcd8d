"""Gored skirts hung from a basque: its edge is traced over gores that lie side by side, and each is then spread apart.

The edge, drawn whole as for any skirt below a basque, is parted straight down at even places across. In each part every
straight-down line is turned, evenly more toward both its seams, by their flare and slant: the part keeps its length, and at each
seam the two corners together are what they were, so the edge runs on once the seam is sewn. Below the edge a seam comes in by so
much of its own way to the hip, the same share at all of them; the centre lines of six gores and the centre seams of eight run
straight, for a point and a zip lie flat on them. So seams are shorter toward the centre front, where the edge is deeper, and each
pair of neighbours is drawn once. How much they flare is planned in basque_gore_plan.py.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache

from ..curve import Cubic, Line, arc
from ..path import Path
from ..point import Point
from .basque_gore_plan import room_below, seam_places
from .basque_skirt import Traced, back_path, front_path
from .skirt_gores import Gore, mirrored
from .skirt_mermaid import MermaidPlan, edge_below, hem_below
from .spread import spread

STEEPER = 1.5
"""At the edge a seam slants so much more than in the mean, as at a waist. drafting method, section 8."""

ROUNDS = 12
"""Rounds of solving; each leaves less than a tenth of what the one before left."""

SETTLED = 1e-3
"""Depths and girths that are nearer than this (mm) are solved."""


@dataclass(frozen=True, slots=True)
class HungGores:
    """What all gores share, mm (flare and slant in radians): `lean` is the share of its depth that each seam comes in at the edge,
    `hip_front` and `hip_back` half a gore's hip in the mean, `take` what the side seam comes in."""

    gores: int
    flare: float
    lean: float
    hip_front: float
    hip_back: float
    take: float
    depth: float


@dataclass(frozen=True, slots=True)
class Panel:
    """One gore down to the hip, drawn about its own middle (x = 0), or half a one beside the middle of the skirt.

    `inner` and `outer` are walked down from the edge to the hip; their flare below it is `flare` to each side.
    """

    edge: Path
    inner: Path
    outer: Path
    hip_line: Path
    flare: float
    is_half: bool

    def ended(self, run: float) -> Gore:
        """Return the gore with straight seams of `run` mm below the hip, and a hem square to them."""
        down = Point(math.sin(self.flare), math.cos(self.flare))
        left = Point(0.0, 1.0) if self.is_half else Point(-down.x, down.y)
        inner = self.inner + Path.of(Line(self.inner.end, self.inner.end + left * run))
        outer = self.outer + Path.of(Line(self.outer.end, self.outer.end + down * run))
        hem = _across(inner.end, self.hip_line.length(), self.flare, run, self.is_half)
        return Gore((self.edge,), (), inner, outer, self.hip_line, hem)

    def narrowed(self, plan: MermaidPlan, height: float) -> Gore:
        """Return the gore with a mermaid's seams below the hip, which end `height` mm below its narrowest line."""
        hip = self.outer.end
        below = edge_below(hip, plan, hip.y + plan.below - plan.upper.depth, height)
        half = hem_below(plan, below[-1].end)
        outer = self.outer + Path(below)
        if self.is_half:
            return Gore((self.edge,), (), Path.through(self.inner.start, half.start), outer, self.hip_line, half)
        inner = self.inner + Path(below).mapped(lambda point: Point(-point.x, point.y))
        return Gore((self.edge,), (), inner, outer, self.hip_line, mirrored(half) + half)


def hang_gores(gores: int, flare: float, hip: float, traced: Traced, waist_y: tuple[float, float]) -> tuple[HungGores, tuple[Panel, ...], tuple[Panel, ...]]:
    """Draw front and back panels from the centre to the side; `hip` is the quarter that they come to (more, where `flare` gives it).

    The lean is solved for the hip; the depth at the side, which front and back must share, by the level at which their edges end.
    """
    _, spare, sides = room_below(gores, hip, traced)
    lean, levels, deep = 0.0, [traced.side, traced.side], traced.to_hip - traced.side
    for _ in range(ROUNDS):
        halves = [_parts(path(replace(traced, side=level), 0.0), gores, flare, lean, traced, _turned_chord)
                  for path, level in zip((front_path, back_path), levels, strict=True)]
        over = [parts[-1].deep_right - deep for parts in halves]
        levels = [level + more for level, more in zip(levels, over, strict=True)]
        short = 2 * hip - sum(part.hip for parts in halves for part in parts)
        further = max(0.0, lean + short / sides)
        if max(abs(over[0]), abs(over[1]), abs(further - lean) * sides) < SETTLED:
            break
        lean = further
    front, back = (tuple(_panel(part, flare, y + traced.to_hip) for part in _parts(path(replace(traced, side=level), 0.0), gores, flare, lean, traced,
                                                                                  _spread_chord))
                   for path, level, y in zip((front_path, back_path), levels, waist_y, strict=True))
    means = [2 * sum(panel.hip_line.length() for panel in panels) / gores for panels in (front, back)]
    return HungGores(gores, flare, lean, *means, lean * deep, traced.to_hip), front, back


@dataclass(frozen=True, slots=True)
class _Part:
    """One gore's part of the edge, and its two seams, the one toward the centre first: what each comes in, its slant at the edge and how
    deep the hip lies below the edge; `width` is half the hip of a whole gore, all of half a one's."""

    edge: Path
    is_half: bool
    ins: tuple[float, float]
    slants: tuple[float, float]
    deep_left: float
    deep_right: float
    width: float

    @property
    def hip(self) -> float:
        return self.width * (1 if self.is_half else 2)

    def turns(self, flare: float) -> tuple[float, float]:
        """Return by how much the edge's lines are turned at both ends, radians."""
        return 0.0 if self.is_half else -(flare + self.slants[0]), flare + self.slants[1]


def _parts(path: Path, gores: int, flare: float, lean: float, traced: Traced, chord_of: Callable[[Path, float, float], Point]) -> list[_Part]:
    """Part a half's edge from the centre to the side. With the fan's own lines down and out at both seams of a gore, the way from hip to
    hip is the edge's chord less what lies above the hips: two equations for the hip's width and the next seam's depth."""
    found, deep, leaning = [], traced.to_hip - path.start.y, math.atan(STEEPER * lean)
    into, slant = (lean * deep, leaning) if gores == 4 else (0.0, 0.0)
    sin, cos, tan = math.sin(flare), math.cos(flare), math.tan(flare / 2)
    edges = _parted(path, gores)
    for number, edge in enumerate(edges):
        next_in = lean * (traced.to_hip - (traced.side if number == len(edges) - 1 else edge.end.y))
        part = _Part(edge, gores == 6 and not number, (into, next_in), (slant, leaning), deep, 0.0, 0.0)
        chord = chord_of(edge, *part.turns(flare))
        if part.is_half:
            deep_right = deep - chord.y - tan * chord.x + tan * next_in
            width = (chord.x + sin * deep_right + cos * next_in) * _arc_of_chord(flare)
        else:
            deep_right = deep + (sin * (next_in - into) - chord.y) / cos
            width = (chord.x + sin * (deep + deep_right) + cos * (into + next_in)) * _arc_of_chord(flare) / 2
        found.append(replace(part, deep_right=deep_right, width=width))
        deep, into, slant = deep_right, next_in, leaning
    return found


def _parted(path: Path, gores: int) -> list[Path]:
    """Return the parts of an edge between seams that part it straight down."""
    cuts, parts, walked = [path.distance_where(lambda p, at=place * path.end.x: p.x - at) for place in seam_places(gores)], [], 0.0
    for cut in cuts:
        first, path = path.split_at(cut - walked)
        parts.append(first)
        walked = cut
    return [*parts, path]


def _turned_chord(edge: Path, first: float, last: float) -> Point:
    """Return the way from end to end of an edge whose lines are turned evenly from `first` to `last`; along its polyline, which is right
    to a few hundredths of a mm and takes a tenth of the time."""
    points = edge.polyline()
    steps = [(q.x - p.x, q.y - p.y) for p, q in zip(points, points[1:], strict=False)]
    lengths = [math.hypot(*step) for step in steps]
    rate, walked, x, y = (last - first) / sum(lengths), 0.0, 0.0, 0.0
    for (dx, dy), length in zip(steps, lengths, strict=True):
        turn = first + rate * (walked + length / 2)
        sin, cos = math.sin(turn), math.cos(turn)
        x, y, walked = x + dx * cos + dy * sin, y + dy * cos - dx * sin, walked + length
    return Point(x, y)


def _spread_chord(edge: Path, first: float, last: float) -> Point:
    drawn = _spread(edge, first, last)
    return drawn.end - drawn.start


@lru_cache(maxsize=64)
def _spread(edge: Path, first: float, last: float) -> Path:
    """Return an edge whose lines are turned evenly from `first` to `last`."""
    return _turned(spread(edge, last - first).edge, first)


def _panel(part: _Part, flare: float, hip_y: float) -> Panel:
    """Draw one panel about its middle, its hip at level `hip_y` there."""
    sin, cos = math.sin(flare), math.cos(flare)
    edge, rises = _spread(part.edge, *part.turns(flare)), part.width * _rise(flare)
    hip_right = Point(part.width / _arc_of_chord(flare), hip_y - rises)
    if part.is_half:
        corner = Point(0.0, hip_y - part.deep_left)
    else:
        corner = Point(sin * part.deep_left + cos * part.ins[0] - hip_right.x, hip_right.y - cos * part.deep_left + sin * part.ins[0])
    edge = edge.mapped(lambda point, start=edge.start: point - start + corner)
    outer = _seam(edge.end, hip_right, flare, part.slants[1], part.deep_right)
    if part.is_half:
        inner, start = Path.through(corner, Point(0.0, hip_y)), Point(0.0, hip_y)
    else:
        inner = _seam(Point(-corner.x, corner.y), hip_right, flare, part.slants[0], part.deep_left).mapped(lambda p: Point(-p.x, p.y))
        start = Point(-hip_right.x, hip_right.y)
    return Panel(edge, inner, outer, _across(start, part.hip, flare, 0.0, part.is_half), flare, part.is_half)


def _turned(path: Path, turn: float) -> Path:
    """Turn a path about its start, outward: a step away from the fold then rises."""
    start, sin, cos = path.start, math.sin(turn), math.cos(turn)

    def moved(point: Point) -> Point:
        step = point - start
        return start + Point(step.x * cos + step.y * sin, step.y * cos - step.x * sin)

    return path.mapped(moved)


def _arc_of_chord(flare: float) -> float:
    """Return by how much half a fan's hip is longer than it reaches across."""
    return flare / math.sin(flare) if flare > 1e-9 else 1.0


def _rise(flare: float) -> float:
    """Return by how much half a fan's hip rises from the middle to its seam, for each mm of it."""
    return (1 - math.cos(flare)) / flare if flare > 1e-9 else 0.0


def _seam(top: Point, hip: Point, flare: float, slant: float, deep: float) -> Path:
    """Return a seam from the edge to the hip: it leaves slanting by `slant` beyond the fan's last line and arrives along it."""
    down, out = Point(math.sin(flare), math.cos(flare)), Point(math.cos(flare), -math.sin(flare))
    leaving = down + out * math.tan(slant)
    return Path.of(Cubic(top, top + leaving * (deep / 3), hip - down * (deep / 3), hip))


def _across(start: Point, hip: float, flare: float, below: float, is_half: bool) -> Path:
    """Return the line square to all lines of a fan, `below` mm under its hip of `hip` mm, from its inner end."""
    if is_half:
        return Path(arc(start, 0.0, -math.degrees(flare), hip + flare * below))
    half = hip / 2 + flare * below
    middle = Point(0.0, start.y + half * _rise(flare))
    right = Path(arc(middle, 0.0, -math.degrees(flare), half))
    return mirrored(right) + right
