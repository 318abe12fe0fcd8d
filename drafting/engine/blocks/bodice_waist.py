"""A bodice's waist: arcs square to the centre, to both legs of its dart and to the side, as long as the waist quarter."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..curve import Line, arc
from ..path import Path
from ..piece import Dart
from ..point import Point
from ..solve import root


@dataclass(frozen=True, slots=True)
class BodiceWaist:
    """The waist's sections from the centre to the side, and the dart between them (None where there is none)."""

    sections: tuple[Path, ...]
    dart: Dart | None

    @property
    def end(self) -> Point:
        return self.sections[-1].end


def bodice_waist(start: Point, net: float, apex: Point | None, side_x: float) -> BodiceWaist:
    """Draw a waist of `net` mm from `start` on the centre that ends at `side_x`, with a dart up to `apex` in between.

    Where the quarter's own width is no longer than its waist, there is no dart and the waist runs level to the side.
    Raises NoSolution where no dart gives that width.
    """
    if apex is None:
        return BodiceWaist((Path.through(start, Point(start.x + net, start.y)),), None)

    def drawn(half: float) -> tuple[Path, Path, Point, Point]:
        first = _first_section(start, apex, half)
        mouth, leg = first.end, first.end.distance(apex)
        other = apex + Point(math.sin(half), math.cos(half)) * leg
        second = Path(arc(other, -math.degrees(half), math.degrees(half), net - first.length()))
        return first, second, mouth, other

    widest = min(0.5, math.atan2(0.85 * (apex.x - start.x), start.y - apex.y))
    half = root(lambda half: drawn(half)[1].end.x - side_x, 1e-4, widest, name="front or back waist dart", within=1e-10,
                remedy="Measure waist, bust and shoulder to waist again.")
    first, second, mouth, other = drawn(half)
    legs = (Path.of(Line(mouth, apex)), Path.of(Line(other, apex)))
    return BodiceWaist((first, second), Dart(apex, legs, mouth.distance(other)))


def _first_section(start: Point, apex: Point, half: float) -> Path:
    """Return the arc from the centre that arrives square to the dart's first leg, which slants by `half` (radians)."""
    def path(length: float) -> Path:
        return Path(arc(start, 0.0, math.degrees(half), length))

    def miss(length: float) -> float:
        end = path(length).end
        return (apex.x - end.x) - math.tan(half) * (end.y - apex.y)

    return path(root(miss, 1.0, apex.x - start.x + 1.0, name="place of the waist dart", within=1e-10))
