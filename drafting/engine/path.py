"""A path: strokes one after another, such as one edge of a piece."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from .curve import Cubic, Line
from .errors import DraftingError
from .point import Point
from .solve import root
from .tolerance import TOUCHING

Stroke = Line | Cubic


@dataclass(frozen=True, slots=True)
class Path:
    """Strokes, each starting where the last one ends."""

    strokes: tuple[Stroke, ...]

    @classmethod
    def through(cls, *points: Point) -> Path:
        """Return the straight lines through `points`."""
        return cls(tuple(Line(p, q) for p, q in zip(points, points[1:], strict=False)))

    @classmethod
    def of(cls, *strokes: Stroke) -> Path:
        return cls(strokes)

    @property
    def start(self) -> Point:
        return self.strokes[0].start

    @property
    def end(self) -> Point:
        return self.strokes[-1].end

    def __add__(self, other: Path) -> Path:
        return Path(self.strokes + other.strokes)

    def length(self) -> float:
        """Return the length along the path, mm."""
        return sum(stroke.length() for stroke in self.strokes)

    def leaves(self) -> Point:
        """Return the direction in which the path leaves its start (unit)."""
        return self.strokes[0].direction(0.0).unit()

    def arrives(self) -> Point:
        """Return the direction in which the path arrives at its end (unit)."""
        return self.strokes[-1].direction(1.0).unit()

    def reversed(self) -> Path:
        return Path(tuple(stroke.reversed() for stroke in reversed(self.strokes)))

    def mapped(self, change: Callable[[Point], Point]) -> Path:
        return Path(tuple(stroke.mapped(change) for stroke in self.strokes))

    def moved(self, x: float, y: float) -> Path:
        """Return the path slid by x mm away from the fold and y mm down."""
        step = Point(x, y)
        return self.mapped(lambda point: point + step)

    def at(self, distance: float) -> Point:
        """Return the point `distance` mm along, held to the path's ends."""
        return self._stroke_at(distance)[0]

    def direction_at(self, distance: float) -> Point:
        """Return the unit direction `distance` mm along."""
        return self._stroke_at(distance)[1].unit()

    def _stroke_at(self, distance: float) -> tuple[Point, Point]:
        left = distance
        for stroke in self.strokes[:-1]:
            length = stroke.length()
            if left <= length:
                break
            left -= length
        else:
            stroke = self.strokes[-1]
        t = min(1.0, max(0.0, stroke.parameter_at(left)))
        return stroke.at(t), stroke.direction(t)

    def split_at(self, distance: float) -> tuple[Path, Path]:
        """Return the path up to `distance` mm along and the rest; raises DraftingError beyond either end."""
        before, left = [], distance
        if distance < -TOUCHING:
            raise DraftingError(f"split at {distance:.3f} mm, before the start of the path's {self.length():.3f} mm")
        for index, stroke in enumerate(self.strokes):
            length = stroke.length()
            if left < length - TOUCHING:
                head, tail = stroke.split(stroke.parameter_at(left))
                first = (*before, head) if left > TOUCHING else tuple(before)
                rest = (tail, *self.strokes[index + 1 :]) if left > TOUCHING else self.strokes[index:]
                return Path(tuple(first)), Path(tuple(rest))
            before.append(stroke)
            left -= length
        raise DraftingError(f"split at {distance:.3f} mm, beyond the path's {self.length():.3f} mm")

    def distance_where(self, measure: Callable[[Point], float]) -> float | None:
        """Return how far along `measure` (of a point) first changes sign; None where it never does."""
        walked = 0.0
        for stroke in self.strokes:
            points = stroke.flattened()
            count = len(points) - 1
            values = [measure(point) for point in points]
            for i in range(count):
                if values[i] == 0.0:
                    return walked + stroke.length_to(i / count)
                if values[i] * values[i + 1] < 0:
                    t = root(lambda t, s=stroke: measure(s.at(t)), i / count, (i + 1) / count, name="crossing")
                    return walked + stroke.length_to(t)
            walked += stroke.length()
            if values[-1] == 0.0:
                return walked
        return None

    def distance_at_level(self, y: float) -> float | None:
        """Return how far along the path first reaches level `y`; None where it never does."""
        return self.distance_where(lambda point: point.y - y)

    def polyline(self) -> tuple[Point, ...]:
        """Return points along the path, fine enough for the result file."""
        points: list[Point] = [self.start]
        for stroke in self.strokes:
            points.extend(stroke.flattened()[1:])
        return tuple(points)

    def draw(self, pen) -> None:
        """Draw this path to a pen: `move_to`, then `line_to` and `curve_to`."""
        pen.move_to(self.start)
        for stroke in self.strokes:
            stroke.draw(pen)

    def greatest_slant_deg(self) -> float:
        """Return the greatest slant from straight down anywhere along the path, degrees."""
        steps = [stroke.direction(i / 32) for stroke in self.strokes for i in range(33)]
        return max(abs(90.0 - abs(step.angle_deg)) for step in steps if step.size)
