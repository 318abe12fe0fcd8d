"""A point of the draft, and the arithmetic that a draft needs."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Point:
    """A place (or a step from one place to another): x mm away from the fold, y mm down the body."""

    x: float
    y: float

    def __add__(self, other: Point) -> Point:
        return Point(self.x + other.x, self.y + other.y)

    def __sub__(self, other: Point) -> Point:
        return Point(self.x - other.x, self.y - other.y)

    def __mul__(self, factor: float) -> Point:
        return Point(self.x * factor, self.y * factor)

    def __neg__(self) -> Point:
        return Point(-self.x, -self.y)

    @property
    def size(self) -> float:
        """The length of this step, mm."""
        return math.hypot(self.x, self.y)

    @property
    def angle_deg(self) -> float:
        """The direction of this step: 0 away from the fold, 90 straight down."""
        return math.degrees(math.atan2(self.y, self.x))

    def distance(self, other: Point) -> float:
        """Return the straight distance to `other`, mm."""
        return math.hypot(self.x - other.x, self.y - other.y)

    def dot(self, other: Point) -> float:
        return self.x * other.x + self.y * other.y

    def cross(self, other: Point) -> float:
        """Positive where `other` lies clockwise (as drawn) of this step."""
        return self.x * other.y - self.y * other.x

    def unit(self) -> Point:
        """Return this direction with length 1; raises ZeroDivisionError for no direction."""
        size = self.size
        return Point(self.x / size, self.y / size)

    def outward(self) -> Point:
        """Return the unit step square to this one, out of a piece that is walked clockwise."""
        size = self.size
        return Point(self.y / size, -self.x / size)

    def toward(self, other: Point, share: float) -> Point:
        """Return the point at `share` (0 here, 1 there) of the way to `other`."""
        return Point(self.x + (other.x - self.x) * share, self.y + (other.y - self.y) * share)

    def turned(self, angle_deg: float, about: Point | None = None) -> Point:
        """Return this point turned about `about` (the origin); positive is clockwise as drawn."""
        centre = about or ORIGIN
        turn = math.radians(angle_deg)
        cos, sin, dx, dy = math.cos(turn), math.sin(turn), self.x - centre.x, self.y - centre.y
        return Point(centre.x + dx * cos - dy * sin, centre.y + dx * sin + dy * cos)

    def mirrored(self, through: Point, direction: Point) -> Point:
        """Return this point mirrored in the line through `through` that runs along `direction`."""
        along = direction.unit()
        step = self - through
        return through + along * (2 * step.dot(along)) - step

    def is_at(self, other: Point, within: float) -> bool:
        """Tell whether `other` is this very place, to `within` mm."""
        return self.distance(other) <= within


ORIGIN = Point(0.0, 0.0)


def meet(a: Point, along_a: Point, b: Point, along_b: Point) -> Point | None:
    """Return where the line through `a` along `along_a` meets the one through `b`; None where they run parallel."""
    cross = along_a.cross(along_b)
    if abs(cross) < 1e-9 * along_a.size * along_b.size:
        return None
    return a + along_a * ((b - a).cross(along_b) / cross)
