"""A bodice's waist: arcs square to the centre, to both legs of its dart and to the side, as long as the waist quarter."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..curve import Cubic, Line, arc
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


@dataclass(frozen=True, slots=True)
class Foot:
    """What of a front or back lies below its waist, in a basque: its lower `edge`, the side's `tail` down to it and its slant there
    (radians), how deep it hangs at the centre (`drop`), its dart's width at the edge, and by how much a quarter comes out `short`; mm."""

    edge: BodiceWaist
    tail: Path
    slant: float
    drop: float
    dart_at_edge: float
    short: float


def bodice_waist(start: Point, net: float, apex: Point | None, side_x: float, raised: float = 0.0) -> BodiceWaist:
    """Draw a waist of `net` mm from `start` on the centre that ends at `side_x`, with a dart up to `apex` in between.

    `raised` lifts its end on the centre by so much (mm; less than 0 lowers it), for a hollow back: it leaves level and is as
    long as before.

    Where the quarter's own width is no longer than its waist, there is no dart and the waist runs level to the side.
    Raises NoSolution where no dart gives that width.
    """
    if apex is None:
        level = Path.through(start, Point(start.x + net, start.y))
        return BodiceWaist((_raised_level(start, net, raised) if raised else level,), None)

    def drawn(half: float) -> tuple[Path, Path, Point, Point]:
        first = _raised(_first_section(start, apex, half), raised)
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


def _raised(section: Path, by: float) -> Path:
    """Return a section from the centre with that end lifted, level there, its other end and slant as before."""
    if not by:
        return section
    start, end = section.start - Point(0.0, by), section.end
    handle = (end.x - start.x) / 3
    return Path.of(Cubic(start, start + Point(handle, 0.0), end - section.arrives() * handle, end))


def _raised_level(start: Point, net: float, by: float) -> Path:
    def path(width: float) -> Path:
        return _raised(Path.through(start, Point(start.x + width, start.y)), by)

    return path(root(lambda width: path(width).length() - net, 0.5 * net, net, name="width of the raised waist"))


def _first_section(start: Point, apex: Point, half: float) -> Path:
    """Return the arc from the centre that arrives square to the dart's first leg, which slants by `half` (radians)."""
    def path(length: float) -> Path:
        return Path(arc(start, 0.0, math.degrees(half), length))

    def miss(length: float) -> float:
        end = path(length).end
        return (apex.x - end.x) - math.tan(half) * (end.y - apex.y)

    return path(root(miss, 1.0, apex.x - start.x + 1.0, name="place of the waist dart", within=1e-10))
