"""Collars for a round neck: a stand, and a flat one. Each edge that is sewn to the neck is as long as the neckline measures."""

from __future__ import annotations

import math
from dataclasses import dataclass

from shapely import LineString
from shapely import Point as Place

from ..curve import Cubic, Line, arc
from ..offset import offset_points
from ..path import Path
from ..point import Point
from ..report import Warning_
from ..solve import root
from ..tolerance import INCH

STAND_DEPTH, STAND_DEPTHS = 1.25 * INCH, (0.75 * INCH, 2.0 * INCH)
STAND_RISE = 0.75 * INCH
"""The front of a stand rises so far, so that it leans in toward the neck. Common practice, no source."""

FLAT_DEPTH, FLAT_DEPTHS = 2.5 * INCH, (1.5 * INCH, 4.0 * INCH)
OVERLAP = 0.5 * INCH
"""Back and front overlap so far at the shoulder tips when a flat collar is traced: it then rolls over its own seam. Common
practice, no source."""


@dataclass(frozen=True, slots=True)
class Collar:
    """Half a collar, its fold at x = 0: `neck` from the centre back to the front, `end` at the front from the neck outward,
    `outer` from there back to the centre. `shoulder` and `centre` are places along `neck`, mm; `solved` what truing moved, at most."""

    kind: str
    neck: Path
    end: Path
    outer: Path
    depth: float
    shoulder: float
    centre: float
    solved: float = 0.0


def stand_collar(back: float, front: float, lap: float, depth: float) -> Collar:
    """Draw a stand over `back` and `front` mm of neckline and `lap` mm beyond the centre front: straight along the back, an arc
    along the front that rises by ¾ in."""
    length = front + lap
    turn = math.degrees(2 * STAND_RISE / length)
    start = Point(back, 0.0)
    neck = Path((Line(Point(0.0, 0.0), start), *arc(start, 0.0, -turn, length)))
    outer = Path((Line(Point(0.0, -depth), Point(back, -depth)),
                  *arc(Point(back, -depth), 0.0, -turn, length - depth * math.radians(turn))))
    end, top = _rounded_end(Path.through(neck.end, outer.end), outer, 0.4 * depth)
    return Collar("stand", neck, end, top, depth, back, back + front)


def flat_collar(back: Path, front: Path, tip: Point, depth: float) -> Collar:
    """Trace a flat collar from the necklines (each from its centre to the shoulder) with back and front laid shoulder on
    shoulder, overlapping by ½ in at `tip`. Its neck edge is one even curve, square to both centres, as long as both necklines:
    how far it bows is solved. `solved` is how far it then lies from the traced neckline, at most."""
    corner = back.end
    along = (tip - corner).unit()
    turn = 2 * math.degrees(math.asin(OVERLAP / 2 / tip.distance(corner)))

    def laid(point: Point) -> Point:
        return point.mirrored(corner, along).turned(turn, corner)

    fore = front.mapped(laid).reversed()
    start, end = back.start, fore.end
    wanted, reach = back.length() + front.length(), start.distance(end)

    def drawn(bow: float) -> Cubic:
        return Cubic(start, start + back.leaves() * (bow * reach), end - fore.arrives() * (bow * reach), end)

    bow = root(lambda bow: drawn(bow).length() - wanted, 0.2, 1.5, name="neck edge of the flat collar", within=1e-9,
               remedy="Choose a stand, or no collar.")
    neck = Path.of(drawn(bow))
    traced = LineString([(p.x, p.y) for p in (*back.polyline(), *fore.polyline())])
    apart = max(traced.distance(Place(p.x, p.y)) for p in neck.polyline())
    neck = neck.moved(-start.x, -start.y)
    outer = Path.through(*offset_points(tuple(reversed(neck.polyline())), depth, (-neck.arrives(), -neck.leaves())))
    end_edge, outer = _rounded_end(Path.through(neck.end, outer.start), outer.reversed(), 0.35 * depth)
    return Collar("flat", neck, end_edge, outer, depth, back.length(), wanted, apart)


def _rounded_end(end: Path, outer: Path, radius: float) -> tuple[Path, Path]:
    """Return the end (from the neck out, its corner rounded off) and the outer edge from there to the centre; `outer` comes
    walked from the centre to the end."""
    length = outer.length()
    kept, _ = outer.split_at(length - radius)
    straight, _ = end.split_at(end.length() - radius)
    corner_in, corner_out = straight.end, kept.end
    reach = 0.55 * radius
    curve = Cubic(corner_in, corner_in + end.arrives() * reach, corner_out + kept.arrives() * reach, corner_out)
    return straight + Path.of(curve), kept.reversed()


def depth_of(kind: str, asked: float | None) -> tuple[float, list[Warning_]]:
    """Return a collar's depth, mm, held to what its kind can be."""
    usual, (least, most) = (STAND_DEPTH, STAND_DEPTHS) if kind == "stand" else (FLAT_DEPTH, FLAT_DEPTHS)
    depth = usual if asked is None else min(max(asked, least), most)
    if asked is None or depth == asked:
        return depth, []
    return depth, [Warning_("collar-depth-held", f"A {kind} collar is {{0}} to {{1}} deep; it was drafted {{2}}.", (least, most, depth))]
