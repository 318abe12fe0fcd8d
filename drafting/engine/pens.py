"""Pens: a path draws itself to a pen, and each new output is one new pen."""

from __future__ import annotations

from .curve import Cubic
from .point import Point


class BoundsPen:
    """Collects the box round what is drawn: `left`, `top`, `right`, `bottom` in mm."""

    def __init__(self) -> None:
        self.left = self.top = float("inf")
        self.right = self.bottom = float("-inf")
        self._at = Point(0.0, 0.0)

    def move_to(self, point: Point) -> None:
        self._take(point)

    def line_to(self, point: Point) -> None:
        self._take(point)

    def curve_to(self, out: Point, into: Point, end: Point) -> None:
        curve = Cubic(self._at, out, into, end)
        for t in curve.turning_points():
            self._take(curve.at(t))
        self._take(end)

    def _take(self, point: Point) -> None:
        self.left, self.right = min(self.left, point.x), max(self.right, point.x)
        self.top, self.bottom = min(self.top, point.y), max(self.bottom, point.y)
        self._at = point


class LengthPen:
    """Adds up the length of what is drawn, mm."""

    def __init__(self) -> None:
        self.length = 0.0
        self._at = Point(0.0, 0.0)

    def move_to(self, point: Point) -> None:
        self._at = point

    def line_to(self, point: Point) -> None:
        self.length += self._at.distance(point)
        self._at = point

    def curve_to(self, out: Point, into: Point, end: Point) -> None:
        self.length += Cubic(self._at, out, into, end).length()
        self._at = end


class SvgPen:
    """Writes the `d` of an SVG path, three decimals of a millimetre, never localised."""

    def __init__(self) -> None:
        self._parts: list[str] = []

    def move_to(self, point: Point) -> None:
        self._parts.append(f"M{point.x:.3f} {point.y:.3f}")

    def line_to(self, point: Point) -> None:
        self._parts.append(f"L{point.x:.3f} {point.y:.3f}")

    def curve_to(self, out: Point, into: Point, end: Point) -> None:
        self._parts.append(f"C{out.x:.3f} {out.y:.3f} {into.x:.3f} {into.y:.3f} {end.x:.3f} {end.y:.3f}")

    def path_text(self) -> str:
        return "".join(self._parts)
