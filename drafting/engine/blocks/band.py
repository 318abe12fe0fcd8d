"""The under-bust band, to a straight waist or on into a basque; in two pieces where the waist is far smaller (or larger) than the
under-bust, or where a basque must spring out over the hips."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..curve import straight_down
from ..errors import ImpossibleMeasure
from ..offset import Finish
from ..path import Path
from ..piece import Dimension, Edge, Piece, upright_grain
from ..point import Point
from ..quarters import Quarters
from ..rules import Rules
from ..tolerance import INCH
from .basque import Basque, FrontEdge, SideTail, front_edge, seam_tail, side_tail

SIDE_SLANT_DEG = 25.0
"""The side seam takes waist shaping up to this slant; beyond it the seam would pull. Judgement."""

MOST_REST = 2.0 * INCH
"""More than this a quarter beyond the side seam would make a seam of the band that no longer lies flat. Judgement."""

STEEPEST = 1.5 / 0.975
"""A straight-down curve's steepest slant is this many times its mean (its middle, with handles of 0.35)."""


@dataclass(frozen=True, slots=True)
class Shaping:
    """How a quarter's under-bust less waist is taken: `side` at the side seam, `rest` under the cup seam."""

    side: float
    rest: float


def shaping(q: Quarters) -> Shaping:
    """Share the quarter's waist shaping (negative: outward) between the side seam and, beyond 25 degrees, elsewhere."""
    total = q.under_bust - q.waist
    height = q.front.waist - q.front.under_bust
    most = height * math.tan(math.radians(SIDE_SLANT_DEG)) / STEEPEST
    side = max(-most, min(most, total))
    if abs(total - side) > MOST_REST:
        raise ImpossibleMeasure("waist", 4 * q.waist - q.ease_waist, "Waist {value} differs from the under-bust by more than a band so deep can be "
                                "shaped for. Measure waist, under bust and shoulder to waist again.")
    return Shaping(side, total - side)


@dataclass(frozen=True, slots=True)
class BandBasque:
    """The basque of a band: its figures, its side below the waist, its lower edge."""

    figures: Basque
    tail: SideTail
    edge: FrontEdge

    @property
    def tail_length(self) -> float:
        """How far the side seam goes on below the waist, mm."""
        return self.tail.path.length() if self.tail.path else 0.0


@dataclass(frozen=True, slots=True)
class Band:
    """The band's pieces from the fold outward, where the cup seam meets it, and from where to where each piece goes at the waist."""

    pieces: tuple[Piece, ...]
    cup_seam_at: float
    at_waist: tuple[tuple[Point, Point], ...]
    basque: BandBasque | None = None

    @property
    def lower_edge(self) -> str:
        """The name of the edge that the skirt is sewn to."""
        return "basque edge" if self.basque else "waist"

    @property
    def side_length(self) -> float:
        return self.pieces[-1].edge("side").path.length()

    @property
    def front_length(self) -> float:
        """The length of the half's lower edge, mm."""
        return sum(piece.edge(self.lower_edge).path.length() for piece in self.pieces)


def band(q: Quarters, rules: Rules, cup_seam_at: float, basque: Basque | None = None) -> Band:
    """Draw the band: level at the under-bust and, without a basque, at the waist; its side a straight-down curve."""
    shape, u, w = shaping(q), q.front.under_bust, q.front.waist
    side_top, waist_end, half = Point(q.under_bust, u), Point(q.under_bust - shape.side, w), shape.rest / 2
    side = Path.of(straight_down(side_top, waist_end))
    joint, centre_end, side_start = Point(cup_seam_at, u), Point(cup_seam_at - half, w), Point(cup_seam_at + half, w)
    parted = abs(shape.rest) >= 1e-9
    below, name = None, "basque edge" if basque else "waist"
    if basque:
        tail = side_tail(basque, waist_end)
        edge = front_edge(basque, w, tail, (centre_end.x, side_start.x))
        side, parted, below = side + tail.path if tail.path else side, edge.parted, BandBasque(basque, tail, edge)
    if not parted:
        lower = below.edge.centre_part if below else Path.through(waist_end, Point(0.0, w))
        return Band((_one_piece(rules, name, side_top, side, lower),), cup_seam_at, ((Point(0.0, w), waist_end),), below)
    seams = [Path.of(straight_down(joint, end)) for end in (centre_end, side_start)]
    lower = [Path.through(centre_end, Point(0.0, w)), Path.through(waist_end, side_start)]
    if below:
        lower = [below.edge.centre_part, below.edge.side_part]
        seams = [seams[0] + seam_tail(centre_end, lower[0].start), seams[1] + seam_tail(side_start, lower[1].end)]
    pieces = (_centre_piece(rules, name, joint, seams[0], lower[0]), _side_piece(rules, name, joint, side_top, side, lower[1], seams[1]))
    return Band(pieces, cup_seam_at, ((Point(0.0, w), centre_end), (side_start, waist_end)), below)


def _one_piece(rules: Rules, name: str, side_top: Point, side: Path, lower: Path) -> Piece:
    top = Path.through(Point(0.0, side_top.y), side_top)
    return _on_fold(rules, name, top, Edge("side", side, rules["let_out"], Finish.LET_OUT), lower)


def _centre_piece(rules: Rules, name: str, joint: Point, seam: Path, lower: Path) -> Piece:
    top = Path.through(Point(0.0, joint.y), joint)
    return _on_fold(rules, name, top, Edge("band seam", seam, rules["seam_allowance"], Finish.SQUARED), lower)


def _on_fold(rules: Rules, name: str, top: Path, outer: Edge, lower: Path) -> Piece:
    sa, point, corner = rules["seam_allowance"], lower.end, lower.start
    return Piece(
        name="band", title="Band", on_fold=True, seam_allowance=sa,
        edges=(Edge("under-bust", top, sa), outer, Edge(name, lower, sa), Edge("fold", Path.through(point, top.start))),
        grain=upright_grain(min(corner.x, top.end.x) * 0.45, top.start.y, corner.y, above=0.15, below=0.15),
        dimensions=(Dimension(top.start, top.end), Dimension(point, corner), Dimension(top.start, point)),
    )


def _side_piece(rules: Rules, name: str, joint: Point, side_top: Point, side: Path, lower: Path, seam: Path) -> Piece:
    sa, end = rules["seam_allowance"], side.end
    inner = Edge("band seam", seam.reversed(), sa, Finish.SQUARED)
    return Piece(
        name="side band", title="Side band", seam_allowance=sa,
        edges=(
            Edge("under-bust", Path.through(joint, side_top), sa),
            Edge("side", side, rules["let_out"], Finish.LET_OUT),
            Edge(name, lower, sa),
            inner,
        ),
        grain=upright_grain((joint.x + side_top.x) / 2, joint.y, end.y, above=0.15, below=0.15),
        dimensions=(Dimension(joint, side_top), Dimension(lower.end, end), Dimension(end, Point(end.x, joint.y))),
    )
