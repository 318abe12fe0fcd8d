"""A pattern piece: the edges that walk once round it, and what the cutter and the sewer must know about it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import cached_property

from .errors import OpenOutline
from .offset import Finish, Margin, cut_line
from .path import Path
from .point import Point
from .tolerance import TOUCHING


@dataclass(frozen=True, slots=True)
class Edge:
    """One named edge of a piece, walked clockwise as drawn; `allowance` mm outside it, its ends by `finish`."""

    name: str
    path: Path
    allowance: float = 0.0
    finish: Finish = Finish.EXTENDED


@dataclass(frozen=True, slots=True)
class Cut:
    """So many finished pieces of one cloth: `role` is the layer (shell part, lining, stay, wadding). A `plain` one is cut with the
    seam allowance alone: it has no part in what is kept to let out or turn up."""

    cloth: str
    role: str
    count: int
    plain: bool = False


@dataclass(frozen=True, slots=True)
class Notch:
    """A mark `at` mm from the first point of `edge`; `mate` is (piece, edge, at) on the edge that it meets."""

    edge: str
    at: float
    mark: str = "single"
    mate: tuple[str, str, float] | None = None


@dataclass(frozen=True, slots=True)
class Dart:
    """A dart: its point, and its two legs, each walked from the mouth to the point."""

    point: Point
    legs: tuple[Path, Path]
    width: float


@dataclass(frozen=True, slots=True)
class Mark:
    """Something to mark inside a piece, a line from `start` to `end` (one point twice: a spot).

    `kind` says what for: "centre line", "fold line", "buttonhole", "button", "eyelet", "dart" (a leg of a fish-eye dart, from its
    widest place to a point).
    """

    kind: str
    start: Point
    end: Point

    @property
    def is_spot(self) -> bool:
        return self.start == self.end


@dataclass(frozen=True, slots=True)
class Dimension:
    """A measured stretch to print beside the piece, between two points on its sewing line."""

    start: Point
    end: Point

    @property
    def value(self) -> float:
        return self.start.distance(self.end)


def upright_grain(x: float, top: float, bottom: float, *, above: float = 0.2, below: float = 0.2) -> tuple[Point, Point]:
    """Return a straight-down grain line at `x`, `above` and `below` (shares of the height) short of a piece's two ends."""
    height = bottom - top
    return Point(x, top + above * height), Point(x, bottom - below * height)


@dataclass(frozen=True)
class Piece:
    """One block. `edges` walk once round the sewing line; the fold is an edge named `fold` with no allowance."""

    name: str
    title: str
    edges: tuple[Edge, ...]
    grain: tuple[Point, Point]
    cuts: tuple[Cut, ...] = ()
    number: int = 0
    of: str | None = None
    on_fold: bool = False
    side: str = "both"
    notches: tuple[Notch, ...] = ()
    darts: tuple[Dart, ...] = ()
    dimensions: tuple[Dimension, ...] = ()
    marks: tuple[Mark, ...] = ()
    remarks: tuple[str, ...] = ()
    seam_allowance: float = 0.0
    group: str = field(default="top")
    repeats: int = 1

    def __post_init__(self) -> None:
        before = self.edges[-1]
        for edge in self.edges:
            gap = before.path.end.distance(edge.path.start)
            if gap > TOUCHING:
                raise OpenOutline(self.name, edge.name, gap)
            before = edge

    def edge(self, name: str) -> Edge:
        """Return the edge called `name`; raises KeyError."""
        return self._by_name[name]

    def has_edge(self, name: str) -> bool:
        return name in self._by_name

    @property
    def pieces_of_a_cloth(self) -> int:
        """How many finished pieces one layer of the garment takes: one whole on the fold, else a mirrored pair, so many times
        as the garment has the piece (`repeats`)."""
        return (1 if self.on_fold else 2) * self.repeats

    @cached_property
    def _by_name(self) -> dict[str, Edge]:
        return {edge.name: edge for edge in self.edges}

    @cached_property
    def net(self) -> tuple[Point, ...]:
        """The sewing line as an unclosed ring."""
        return tuple(point for edge in self.edges for point in edge.path.polyline()[:-1])

    @cached_property
    def cut_line(self) -> tuple[Point, ...]:
        """The cutting line as an unclosed ring: the net with its allowances."""
        return cut_line([Margin(e.name, e.path, e.allowance, e.finish) for e in self.edges])

    @cached_property
    def plain_cut_line(self) -> tuple[Point, ...]:
        """The cutting line of a plain layer: the seam allowance along every edge that has one, nothing more."""
        return cut_line([Margin(e.name, e.path, min(e.allowance, self.seam_allowance),
                                Finish.EXTENDED if e.finish in (Finish.LET_OUT, Finish.HEM, Finish.TAPERED_HEM) else e.finish) for e in self.edges])

    @property
    def has_plain_line(self) -> bool:
        """Whether a plain layer's cutting line differs from the piece's own."""
        return any(e.allowance > self.seam_allowance for e in self.edges)

    @property
    def let_outs(self) -> tuple[tuple[Point, ...], ...]:
        """Where the plain allowance would have ended, for each edge that was given more to let out."""
        return tuple(
            tuple(
                p + (q - p).outward() * self.seam_allowance for p, q in zip(line, line[1:] + line[-2:-1], strict=False)
            )[:-1]
            + (line[-1] + (line[-1] - line[-2]).outward() * self.seam_allowance,)
            for line in (e.path.polyline() for e in self.edges if e.finish is Finish.LET_OUT)
        )

    def renamed(self, name: str, title: str, **changes) -> Piece:
        """Return a layer made from this piece: same shape, another name, and whatever else `changes` says."""
        return replace(self, name=name, title=title, **changes)

    def mapped(self, change: Callable[[Point], Point]) -> Piece:
        """Return the piece with every line moved by `change` (a slide or a turn, which keeps lengths)."""
        return replace(
            self,
            edges=tuple(replace(e, path=e.path.mapped(change)) for e in self.edges),
            grain=(change(self.grain[0]), change(self.grain[1])),
            darts=tuple(Dart(change(d.point), tuple(leg.mapped(change) for leg in d.legs), d.width) for d in self.darts),
            dimensions=tuple(Dimension(change(d.start), change(d.end)) for d in self.dimensions),
            marks=tuple(Mark(m.kind, change(m.start), change(m.end)) for m in self.marks),
        )
