"""Spread an edge: every line that hangs straight down from it is turned, evenly more from the first to the last.

At distance s along the edge its straight-down line turns by psi(s) = theta s/N. The new edge is the old direction turned by psi,
so the edge keeps its length; a level line y below the start lies y - d(s) down the turned line, d the edge's own depth there. Its
length element is x'(s) + (y - d) psi', for it stays square to all of them. Source: the drafting method, section 7 (Spread).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..curve import Cubic
from ..path import Path
from ..point import Point

STEPS = 6
"""Parts into which each stroke is cut: a full circle's quarter then turns under 10 degrees in each."""


@dataclass(frozen=True, slots=True)
class _Node:
    """A place on the edge: how far along, its old level, turn, its new place, and the old direction (unit)."""

    along: float
    level: float
    turn: float
    at: Point
    direction: Point


@dataclass(frozen=True)
class Spread:
    """An edge spread by `theta` radians; see `spread`."""

    nodes: tuple[_Node, ...]
    theta: float
    length: float

    @property
    def edge(self) -> Path:
        """The spread edge, as long as the one it was made from."""
        ends = [(n.at, _turned(n.direction, n.turn)) for n in self.nodes]
        return self._joined(ends)

    def level(self, y: float) -> Path:
        """Return the line that lies at level `y` before spreading: square to every straight-down line."""
        rate, ends = self.theta / self.length, []
        for n in self.nodes:
            out, down = Point(math.cos(n.turn), -math.sin(n.turn)), Point(math.sin(n.turn), math.cos(n.turn))
            ends.append((n.at + down * (y - n.level), out * (n.direction.x + (y - n.level) * rate)))
        return self._joined(ends)

    @property
    def last_down(self) -> Point:
        """The direction down the last line."""
        return Point(math.sin(self.theta), math.cos(self.theta))

    @property
    def last_out(self) -> Point:
        return Point(math.cos(self.theta), -math.sin(self.theta))

    def _joined(self, ends: list[tuple[Point, Point]]) -> Path:
        strokes = []
        for i, ((start, leaves), (end, arrives)) in enumerate(zip(ends, ends[1:], strict=False)):
            step = self.nodes[i + 1].along - self.nodes[i].along
            strokes.append(Cubic(start, start + leaves * (step / 3), end - arrives * (step / 3), end))
        return Path(tuple(strokes))


def mean_depth(edge: Path, waist: float) -> float:
    """Return how deep below `waist` the edge lies, in the mean along it: a spread of theta widens a level line y below the waist
    by theta (y - this)."""
    total = area = 0.0
    for stroke in edge.strokes:
        points = stroke.flattened()
        for p, q in zip(points, points[1:], strict=False):
            step = p.distance(q)
            total, area = total + step, area + step * ((p.y + q.y) / 2 - waist)
    return area / total


def spread(edge: Path, theta: float) -> Spread:
    """Spread `edge`, walked from the centre to the side, by `theta` radians in all."""
    length = edge.length()
    along, at = 0.0, edge.start
    first = edge.strokes[0].direction(0.0).unit()
    nodes = [_Node(0.0, at.y, 0.0, at, first)]
    for stroke in edge.strokes:
        for i in range(STEPS):
            t0, t2 = i / STEPS, (i + 1) / STEPS
            tm = (t0 + t2) / 2
            s_m, s_2 = along + stroke.length_to(tm), along + stroke.length_to(t2)
            directions = [stroke.direction(t) for t in (t0, tm, t2)]
            turns = (nodes[-1].turn, theta * s_m / length, theta * s_2 / length)
            parts = [_turned(d, turn) for d, turn in zip(directions, turns, strict=True)]
            at = at + (parts[0] + parts[1] * 4 + parts[2]) * ((t2 - t0) / 6)
            nodes.append(_Node(s_2, stroke.at(t2).y, turns[2], at, directions[2].unit()))
        along += stroke.length()
    return Spread(tuple(nodes), theta, length)


def _turned(step: Point, turn: float) -> Point:
    """Return a step turned outward (a step away from the fold then rises)."""
    cos, sin = math.cos(turn), math.sin(turn)
    return Point(step.x * cos + step.y * sin, step.y * cos - step.x * sin)
