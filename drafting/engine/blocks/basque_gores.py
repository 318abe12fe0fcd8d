"""Gored skirts hung from a basque: its edge is traced over gores that lie side by side, and each is then spread apart.

The edge, drawn whole as for any skirt below a basque, is parted straight down at even places across. In each part every
straight-down line is turned, evenly more toward both its seams, by their flare and slant: the part keeps its length, and at each
seam the two corners together are what they were, so the edge runs on once the seam is sewn. Below the edge a seam comes in by so
much of its own way to the hip, the same share at all of them; the centre seams run straight, for a point or a zip lies flat on
them. So seams are shorter toward the centre front, where the edge is deeper, and each pair of neighbours is drawn once.
Source of the limits: the drafting method, section 8 (Gores, Basque); the rest is common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from ..curve import Cubic, Line, arc
from ..errors import ImpossibleMeasure, UnknownChoice
from ..path import Path
from ..point import Point
from ..tolerance import INCH, TOUCHING
from .basque_skirt import Traced, back_path, front_path
from .skirt_gores import MOST_FLARE, USUAL_FLARE, Gore, mirrored
from .skirt_mermaid import MermaidPlan, edge_below, hem_below
from .spread import mean_depth, spread

MOST_LEAN = 0.35
"""A seam comes in by at most this share of its way from the hip to the edge: it then slants 28 degrees there. Judgement."""

USUAL_LEAN = 0.2
"""A skirt whose hem was not asked for flares until its seams come in by no more than this, 17 degrees at the edge. Judgement."""

STEEPER = 1.5
"""At the edge a seam slants so much more than in the mean, as at a waist. drafting method, section 8."""

ROUNDS = 12
"""Rounds of solving; each leaves less than a tenth of what the one before left."""

SETTLED = 1e-3
"""Depths and girths that are nearer than this (mm) are solved."""


@dataclass(frozen=True, slots=True)
class HungGores:
    """What all gores share, mm (flare and slant in radians): `lean` is the share of its depth that each seam comes in at the edge,
    `hip_front` and `hip_back` half a gore's hip in the mean."""

    gores: int
    flare: float
    lean: float
    hip_front: float
    hip_back: float
    take: float
    depth: float

    @property
    def fan(self) -> float:
        """The flare of a whole quarter, radians."""
        return self.flare * self.gores / 2


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


def plan_hung_gores(gores: int, hip: float, traced: Traced, length: float, sweep: float | None, *, step: float = 0.0) -> float:
    """Return the flare at each seam side (radians) of a gored skirt `length` mm long from the waist; `hip` is a quarter's, `sweep` the
    hem all round that was asked for (None: the usual flare, or as much as makes the hem `step` mm).

    Raises ImpossibleMeasure for a hem that no flare gives, UnknownChoice where gores would have to flare too much over the hips.
    """
    room, spare, sides = _room(gores, hip, traced)
    run = length - traced.to_hip

    def hem(flare: float) -> float:
        return 2 * (2 * hip + max(0.0, flare * room - spare)) + 2 * gores * flare * run

    least, usual = (max(0.0, (spare - lean * sides) / room) for lean in (MOST_LEAN, USUAL_LEAN))
    if least > MOST_FLARE:
        raise UnknownChoice("waist", "basque", ("straight",), why="Below a basque these gores would have to flare more than cloth can fall.")
    if sweep is None:
        return max(min(usual, MOST_FLARE), USUAL_FLARE, _flare_of(min(step, hem(MOST_FLARE)), hem))
    if sweep < hem(least) - TOUCHING:
        raise ImpossibleMeasure("skirt.sweep", sweep, "A hem of {value} all round is too narrow: below a basque these gores need {needed} to clear the hips.",
                                needed=hem(least))
    if sweep > hem(MOST_FLARE):
        raise ImpossibleMeasure("skirt.sweep", sweep, f"{gores} gores flare to at most {{needed}} round the hem; {{value}} was asked for. Choose more "
                                "gores, or part of a circle.", needed=hem(MOST_FLARE))
    return max(least, _flare_of(sweep, hem))


def _flare_of(sweep: float, hem) -> float:
    """Return the flare that gives a hem; it grows with the flare, in two straight stretches."""
    low, high = 0.0, MOST_FLARE
    if sweep <= hem(low):
        return low
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if hem(middle) < sweep else (low, middle)
    return high


def check_close(gores: int, hip: float, traced: Traced) -> None:
    """Raise UnknownChoice where seams that run straight down at the hip, as a mermaid's, would come in too fast above it."""
    _, spare, sides = _room(gores, hip, traced)
    if spare > MOST_LEAN * sides:
        raise UnknownChoice("waist", "basque", ("straight",), why="Below a basque the seams of this skirt would have to come in too fast from the hips.")


def _room(gores: int, hip: float, traced: Traced) -> tuple[float, float, float]:
    """Return how much half a skirt widens for each radian of flare, by how much its hip is wider than the edge reaches, and the
    depths of all seam edges that may come in, together; mm."""
    halves, room, across, sides = gores // 2, 0.0, 0.0, 0.0
    for path in (front_path(traced, 0.0), back_path(traced, 0.0)):
        across += path.end.x
        room += halves * (traced.to_hip - mean_depth(path, 0.0))
        sides += traced.to_hip - traced.side + (traced.to_hip - path.start.y if gores == 4 else 0.0)
        for place in _places(gores):
            sides += 2 * (traced.to_hip - path.at(path.distance_where(lambda p, at=place * path.end.x: p.x - at)).y)
    return room, 2 * hip - across, sides


def _places(gores: int) -> tuple[float, ...]:
    """Return where seams part a half between its centre and its side, as shares of the way across."""
    return {4: (), 6: (1 / 3,), 8: (1 / 2,)}[gores]


def hang_gores(gores: int, flare: float, hip: float, traced: Traced, waist_y: tuple[float, float]) -> tuple[HungGores, tuple[Panel, ...], tuple[Panel, ...]]:
    """Draw front and back panels from the centre to the side; `hip` is the quarter that they come to (more, where `flare` gives it).

    The lean is solved for the hip; the depth at the side, which front and back must share, by the level at which their edges end.
    """
    _, spare, sides = _room(gores, hip, traced)
    lean, levels, deep = 0.0, [traced.side, traced.side], traced.to_hip - traced.side
    for _ in range(ROUNDS):
        halves = tuple(_half(path(replace(traced, side=level), 0.0), gores, flare, lean, traced, y)
                       for path, level, y in zip((front_path, back_path), levels, waist_y, strict=True))
        over = [at - deep for _, at in halves]
        levels = [level + more for level, more in zip(levels, over, strict=True)]
        short = 2 * hip - sum(panel.hip_line.length() for panels, _ in halves for panel in panels)
        further = max(0.0, lean + short / sides)
        if max(abs(over[0]), abs(over[1]), abs(further - lean) * sides) < SETTLED:
            break
        lean = further
    front, back = halves[0][0], halves[1][0]
    means = [2 * sum(panel.hip_line.length() for panel in panels) / gores for panels in (front, back)]
    return HungGores(gores, flare, lean, *means, lean * deep, traced.to_hip), front, back


def _half(path: Path, gores: int, flare: float, lean: float, traced: Traced, waist_y: float) -> tuple[tuple[Panel, ...], float]:
    """Draw one half's panels, and return how deep below its edge the hip lies at the side."""
    cuts = [path.distance_where(lambda p, at=place * path.end.x: p.x - at) for place in _places(gores)]
    parts, walked = [], 0.0
    for cut in cuts:
        first, path = path.split_at(cut - walked)
        parts.append(first)
        walked = cut
    parts.append(path)
    panels, deep, leaning = [], traced.to_hip - parts[0].start.y, math.atan(STEEPER * lean)
    into, slant = (lean * deep, leaning) if gores == 4 else (0.0, 0.0)
    for number, part in enumerate(parts):
        next_in = lean * (traced.to_hip - (traced.side if number == len(parts) - 1 else part.end.y))
        panel, deep = _panel(part, flare, (deep, into, slant), (next_in, leaning), waist_y + traced.to_hip, is_half=gores == 6 and not number)
        panels.append(panel)
        into, slant = next_in, leaning
    return tuple(panels), deep


def _panel(part: Path, flare: float, left: tuple[float, float, float], right: tuple[float, float], hip_y: float, *, is_half: bool) -> tuple[Panel, float]:
    """Draw one panel. `left` is its seam toward the centre: how deep the hip lies below the edge there, what the seam comes in and its
    slant at the edge; `right` the same of the other, whose depth is worked out and returned: the edge is as long as it is.

    With the fan's own lines down and out at both seams, the way from hip to hip is the edge's chord less what lies above the hips:
    two equations for the hip's width and the depth.
    """
    deep, in_left, slant_left = left
    in_right, slant_right = right
    turn_left = 0.0 if is_half else -(flare + slant_left)
    edge = _turned(spread(part, flare + slant_right - turn_left).edge, turn_left)
    chord, tan = edge.end - edge.start, math.tan(flare / 2)
    sin, cos = math.sin(flare), math.cos(flare)
    if is_half:
        deep_right = deep - chord.y - tan * chord.x + tan * in_right
        width = (chord.x + sin * deep_right + cos * in_right) * _arc_of_chord(flare)
        corner = Point(0.0, hip_y - deep)
    else:
        deep_right = deep + (sin * (in_right - in_left) - chord.y) / cos
        width = (chord.x + sin * (deep + deep_right) + cos * (in_left + in_right)) * _arc_of_chord(flare) / 2
        hip_left = Point(-width / _arc_of_chord(flare), hip_y - width * _rise(flare))
        corner = hip_left + Point(sin * deep + cos * in_left, -cos * deep + sin * in_left)
    edge = edge.mapped(lambda point: point - edge.start + corner)
    hip_right = Point(width / _arc_of_chord(flare), hip_y - width * _rise(flare))
    outer = _seam(edge.end, hip_right, flare, slant_right, deep_right)
    if is_half:
        inner = Path.through(corner, Point(0.0, hip_y))
        hip_line = _across(Point(0.0, hip_y), width, flare, 0.0, True)
    else:
        inner = _seam(Point(-corner.x, corner.y), hip_right, flare, slant_left, deep).mapped(lambda p: Point(-p.x, p.y))
        hip_line = _across(hip_left, 2 * width, flare, 0.0, False)
    return Panel(edge, inner, outer, hip_line, flare, is_half), deep_right


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
