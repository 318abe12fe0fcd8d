"""Rings of straight edges and their allowances, and how to fold and compare them by Shapely."""

import math

from shapely import affinity
from shapely.geometry import Polygon

from drafting.engine.offset import Finish, Margin
from drafting.engine.path import Path
from drafting.engine.point import Point

from .shapes import pairs

FAR = 5000.0


def walls(ring, widths, finishes=None):
    """Return the margins of a ring of straight edges, one width and one finish each."""
    finishes = finishes or [Finish.EXTENDED] * len(ring)
    ends = (*ring[1:], ring[0])
    return [
        Margin(f"edge {i}", Path.through(p, q), width, finish)
        for i, (p, q, width, finish) in enumerate(zip(ring, ends, widths, finishes, strict=True))
    ]


def ring_of(*corners):
    return tuple(Point(x, y) for x, y in corners)


def shape(ring) -> Polygon:
    return Polygon(pairs(ring))


def angles_deg(ring):
    """Return the inner angle at the start of each edge."""
    found = []
    for before, here, after in zip((ring[-1], *ring[:-1]), ring, (*ring[1:], ring[0]), strict=True):
        a, b = before - here, after - here
        found.append(math.degrees(math.atan2(abs(a.cross(b)), a.dot(b))))
    return found


def outside_of(p: Point, q: Point, width: float = 0.0) -> Polygon:
    """Return everything more than `width` mm outside the line from p to q (a very large box)."""
    return beyond(p + (q - p).outward() * width, (q - p).outward())


def beyond(through: Point, out: Point) -> Polygon:
    """Return everything on the `out` side of the line through a point square to `out` (a very large box)."""
    across = Point(out.y, -out.x)
    left, right = through - across * FAR, through + across * FAR
    return shape([left, right, right + out * FAR, left + out * FAR])


def mirrored(polygon, through: Point, along: Point):
    """Return `polygon` folded over a line, by Shapely's affine maps: turn the line level, flip, turn back."""
    origin = (through.x, through.y)
    level = affinity.rotate(polygon, -along.angle_deg, origin=origin)
    return affinity.rotate(affinity.scale(level, 1, -1, origin=origin), along.angle_deg, origin=origin)
