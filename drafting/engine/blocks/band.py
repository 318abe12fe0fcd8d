"""The under-bust band with a straight waist; in two pieces where the waist is far smaller (or larger) than the under-bust."""

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
class Band:
    """The band's pieces from the fold outward, and where the cup seam meets it."""

    pieces: tuple[Piece, ...]
    cup_seam_at: float

    @property
    def side_length(self) -> float:
        return self.pieces[-1].edge("side").path.length()


def band(q: Quarters, rules: Rules, cup_seam_at: float) -> Band:
    """Draw the band: level at under-bust and waist, its side a straight-down curve."""
    shape, u, w = shaping(q), q.front.under_bust, q.front.waist
    side_top, side_end = Point(q.under_bust, u), Point(q.under_bust - shape.side, w)
    if abs(shape.rest) < 1e-9:
        return Band((_one_piece(rules, side_top, side_end, u, w),), cup_seam_at)
    joint, half = Point(cup_seam_at, u), shape.rest / 2
    centre_end, side_start = Point(cup_seam_at - half, w), Point(cup_seam_at + half, w)
    sa = rules["seam_allowance"]
    seam = Path.of(straight_down(joint, centre_end))
    centre = Piece(
        name="band", title="Band", on_fold=True, seam_allowance=sa,
        edges=(
            Edge("under-bust", Path.through(Point(0.0, u), joint), sa),
            Edge("band seam", seam, sa, Finish.SQUARED),
            Edge("waist", Path.through(centre_end, Point(0.0, w)), sa),
            Edge("fold", Path.through(Point(0.0, w), Point(0.0, u))),
        ),
        grain=upright_grain(joint.x * 0.45, u, w, above=0.15, below=0.15),
        dimensions=(Dimension(Point(0.0, u), joint), Dimension(Point(0.0, w), centre_end),
                    Dimension(Point(0.0, u), Point(0.0, w))),
    )
    side = Piece(
        name="side band", title="Side band", seam_allowance=sa,
        edges=(
            Edge("under-bust", Path.through(joint, side_top), sa),
            Edge("side", Path.of(straight_down(side_top, side_end)), rules["let_out"], Finish.LET_OUT),
            Edge("waist", Path.through(side_end, side_start), sa),
            Edge("band seam", Path.of(straight_down(joint, side_start)).reversed(), sa, Finish.SQUARED),
        ),
        grain=upright_grain((joint.x + side_end.x) / 2, u, w, above=0.15, below=0.15),
        dimensions=(Dimension(joint, side_top), Dimension(side_start, side_end),
                    Dimension(side_end, Point(side_end.x, u))),
    )
    return Band((centre, side), cup_seam_at)


def _one_piece(rules: Rules, side_top: Point, side_end: Point, u: float, w: float) -> Piece:
    sa = rules["seam_allowance"]
    return Piece(
        name="band", title="Band", on_fold=True, seam_allowance=sa,
        edges=(
            Edge("under-bust", Path.through(Point(0.0, u), side_top), sa),
            Edge("side", Path.of(straight_down(side_top, side_end)), rules["let_out"], Finish.LET_OUT),
            Edge("waist", Path.through(side_end, Point(0.0, w)), sa),
            Edge("fold", Path.through(Point(0.0, w), Point(0.0, u))),
        ),
        grain=upright_grain(side_end.x * 0.45, u, w, above=0.15, below=0.15),
        dimensions=(Dimension(Point(0.0, u), side_top), Dimension(Point(0.0, w), side_end),
                    Dimension(Point(0.0, u), Point(0.0, w))),
    )
