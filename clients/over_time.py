"""One measure over time, as points to be drawn: days across on their true distances, lengths up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from clients.measures import BY_KEY, MM_PER_INCH, Measure
from workshop.length import print_length

#: Across, in per cent of the width; down, in pixels. The lowest and the highest point, and where the dates stand.
LEFT, RIGHT, TOP, BOTTOM = 8.0, 88.0, 26.0, 74.0
#: Dates nearer than this (per cent) would run into each other.
DATES_APART = 15.0
#: A band lower than this would make a mountain of the tape's own noise.
LEAST_BAND = 2 * MM_PER_INCH


@dataclass(frozen=True, slots=True)
class Point:
    day: date
    text: str
    change: str
    x: str
    y: str
    label_y: str
    dated: bool


@dataclass(frozen=True, slots=True)
class Stroke:
    x1: str
    y1: str
    x2: str
    y2: str


@dataclass(frozen=True, slots=True)
class Plot:
    """`points` in the order of their days; the strokes join them."""

    measure: Measure
    points: tuple[Point, ...]
    strokes: tuple[Stroke, ...]

    @property
    def first(self) -> Point:
        return self.points[0]

    @property
    def last(self) -> Point:
        return self.points[-1]

    @property
    def newest_first(self) -> tuple[Point, ...]:
        return tuple(reversed(self.points))


def plot(key: str, dates: Sequence[tuple[date, Mapping[str, Decimal]]], unit: str) -> Plot | None:
    """The measure in the lengths of these dates (newest first); None where it was never taken."""
    taken = [(day, lengths[key]) for day, lengths in reversed(dates) if key in lengths]
    if not taken:
        return None
    first, last = taken[0][0], taken[-1][0]
    days = (last - first).days
    lengths = [mm for _, mm in taken]
    middle = (min(lengths) + max(lengths)) / 2
    band = max(max(lengths) - min(lengths), LEAST_BAND)

    def across(day: date) -> float:
        return LEFT + (RIGHT - LEFT) * ((day - first).days / days if days else 1)

    def down(mm: Decimal) -> float:
        return (TOP + BOTTOM) / 2 - float((mm - middle) / band) * (BOTTOM - TOP)

    places = [(across(day), down(mm)) for day, mm in taken]
    dated = _dated([x for x, _ in places])
    points = []
    for n, ((day, mm), (x, y)) in enumerate(zip(taken, places, strict=True)):
        change = print_length(mm - lengths[n - 1], unit, step=16, signed=True) if n else ""
        text = print_length(mm, unit, step=16)
        points.append(Point(day, text, "" if change == "0" else change, f"{x:.2f}%", f"{y:.1f}", f"{y - 9:.1f}", dated[n]))
    strokes = tuple(Stroke(a.x, a.y, b.x, b.y) for a, b in zip(points, points[1:], strict=False))
    return Plot(BY_KEY[key], tuple(points), strokes)


def _dated(places: list[float]) -> list[bool]:
    """Which points have room for their date: the last always, then from the first on."""
    shown = [False] * len(places)
    shown[-1] = True
    before = -DATES_APART
    for n, x in enumerate(places[:-1]):
        if x - before >= DATES_APART and places[-1] - x >= DATES_APART:
            shown[n], before = True, x
    return shown
