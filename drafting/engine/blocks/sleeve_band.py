"""The band that a gathered sleeve's hem is sewn into: a straight strip, folded along its middle."""

from __future__ import annotations

from ..path import Path
from ..piece import Dimension, Edge, Mark, Piece
from ..point import Point
from ..rules import Rules
from ..tolerance import INCH

DEPTH = 1.25 * INCH
"""Finished depth of a sleeve's band. Common practice, no source."""

OVERLAP = 1.0 * INCH


def sleeve_band(rules: Rules, round_: float, *, opens: bool) -> Piece:
    """Draw a band `round_` mm long; where it opens it has an inch to lap over, with a buttonhole and a button."""
    sa, deep, over = rules["seam_allowance"], 2 * DEPTH, OVERLAP if opens else 0.0
    a, b, c, d, e = Point(0.0, 0.0), Point(round_ + over, 0.0), Point(round_ + over, deep), Point(round_, deep), Point(0.0, deep)
    lower = (Edge("overlap", Path.through(c, d), sa),) if opens else ()
    fold = Mark("fold line", Point(0.0, DEPTH), Point(round_ + over, DEPTH))
    level, hole = 1.5 * DEPTH, rules.get("button", INCH / 2) + INCH / 8 if opens else 0.0
    closing = (Mark("buttonhole", Point(round_ + over / 2 - hole / 2, level), Point(round_ + over / 2 + hole / 2, level)),
               Mark("button", Point(over / 2, level), Point(over / 2, level))) if opens else ()
    return Piece(
        name="sleeve band", title="Sleeve band", seam_allowance=sa, group="sleeve",
        edges=(Edge("inner edge", Path.through(a, b), sa), Edge("end", Path.through(b, c), sa), *lower,
               Edge("sleeve edge", Path.through(d, e), sa), Edge("other end", Path.through(e, a), sa)),
        grain=(Point(round_ * 0.1, deep / 2), Point(round_ * 0.9, deep / 2)),
        dimensions=(Dimension(a, b), Dimension(b, c)), marks=(fold, *closing), remarks=("fold along the middle",),
    )
