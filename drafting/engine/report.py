"""What a draft says of itself: warnings, checks, finished girths, bones, materials."""

from __future__ import annotations

from dataclasses import dataclass

from .point import Point


@dataclass(frozen=True, slots=True)
class Warning_:
    """Something for the cutter to decide; it never stops her. `text` holds {0} … for `figures` (mm)."""

    code: str
    text: str
    figures: tuple[float, ...] = ()

    def written(self, fmt) -> str:
        return self.text.format(*(fmt(figure) for figure in self.figures))


@dataclass(frozen=True, slots=True)
class Check:
    """One invariant, measured on the pieces: it passes where |figure| is within limit (or figure ≤ limit)."""

    name: str
    passed: bool
    figure: float
    limit: float
    unit: str = "mm"


@dataclass(frozen=True, slots=True)
class Stretch:
    """The part of a level that lies on one piece, `count` times round the body; `by` is "extent" or "length"."""

    piece: str
    line: tuple[Point, ...]
    by: str
    count: int

    @property
    def amount(self) -> float:
        """The stretch once, mm."""
        if self.by == "extent":
            return abs(self.line[-1].x - self.line[0].x)
        return sum(p.distance(q) for p, q in zip(self.line, self.line[1:], strict=False))


@dataclass(frozen=True, slots=True)
class Girth:
    """A finished girth: what goes round the body at a level, with the ease that was meant."""

    level: str
    body: float
    ease: float
    stretches: tuple[Stretch, ...]
    gap: float = 0.0
    wadding: float = 0.0

    @property
    def finished(self) -> float:
        """The sum of all stretches and the lacing gap, mm."""
        return sum(s.amount * s.count for s in self.stretches) + self.gap


@dataclass(frozen=True, slots=True)
class Bone:
    """A bone: where its channel runs, from stitching line to stitching line (along a curved seam), and how long to cut it."""

    place: str
    piece: str
    start: Point
    end: Point
    channel: float
    bone: float
    casing: float
    count: int
    pieces: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Material:
    """Something to buy or lay ready: `amount` mm where `unit` is "mm", else a plain number."""

    item: str
    amount: float
    unit: str
    count: int = 1


@dataclass(frozen=True, slots=True)
class Figure:
    """A worked-out figure that a cutter may want to see: mm, or degrees."""

    name: str
    value: float
    unit: str = "mm"


@dataclass(frozen=True, slots=True)
class LaidOver:
    """A sleeve's cap laid over an armhole, underarm on underarm: both as lines, and where they part at the cap's notch: its
    place on the cap and the armhole's nearest."""

    name: str
    armhole: tuple[Point, ...]
    cap: tuple[Point, ...]
    parts: tuple[Point, Point]

    @property
    def apart(self) -> float:
        """How far armhole and cap lie apart there, mm."""
        return self.parts[0].distance(self.parts[1])
