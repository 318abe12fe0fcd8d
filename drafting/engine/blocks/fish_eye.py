"""A fish-eye dart: closed at both ends, widest at the waist, inside a piece that goes on below it."""

from __future__ import annotations

from dataclasses import dataclass

from ..piece import Mark
from ..point import Point


@dataclass(frozen=True, slots=True)
class FishEye:
    """Its upper point, its two sides at the waist, its lower point; the same to both sides of a line straight down."""

    top: Point
    inner: Point
    outer: Point
    bottom: Point

    @property
    def width(self) -> float:
        return self.outer.x - self.inner.x

    def marks(self) -> tuple[Mark, ...]:
        """Return its four legs as marks, each from the waist to a point."""
        return tuple(Mark("dart", side, end) for end in (self.top, self.bottom) for side in (self.inner, self.outer))


def fish_eyes(places: tuple[float, ...], width: float, top: float, waist: float, bottom: float, *, lower_by: float) -> tuple[FishEye, ...]:
    """Draw one dart on each of `places` (x), `width` mm between them all; those after the first end `lower_by` below `top`."""
    half = width / len(places) / 2
    return tuple(FishEye(Point(x, top + (lower_by if i else 0.0)), Point(x - half, waist), Point(x + half, waist), Point(x, bottom))
                 for i, x in enumerate(places))
