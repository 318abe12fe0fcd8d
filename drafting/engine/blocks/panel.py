"""The modesty panel behind a lacing: gap + 4 in wide, as high as the centre back."""

from __future__ import annotations

from ..path import Path
from ..piece import Dimension, Edge, Piece, upright_grain
from ..point import Point
from ..rules import Rules
from ..tolerance import INCH

OVERLAP = 2 * INCH
"""The panel lies this far under the back on each side of the gap. Judgement."""


def modesty_panel(rules: Rules, top: float, waist: float, *, foot: str = "waist") -> Piece:
    """Draw half the panel, on the fold, from `top` down to `waist`; its lower edge is called `foot`."""
    sa, half = rules["seam_allowance"], rules["lacing_gap"] / 2 + OVERLAP
    a, b, c, d = Point(0.0, top), Point(half, top), Point(half, waist), Point(0.0, waist)
    return Piece(
        name="modesty panel", title="Modesty panel", on_fold=True, seam_allowance=sa,
        edges=(
            Edge("top", Path.through(a, b), sa),
            Edge("panel side", Path.through(b, c), sa),
            Edge(foot, Path.through(c, d), sa),
            Edge("fold", Path.through(d, a)),
        ),
        grain=upright_grain(half * 0.5, top, waist),
        dimensions=(Dimension(a, b), Dimension(b, c)),
    )
