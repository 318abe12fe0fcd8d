"""Facings for the top edge of an unlined strapless top: the upper strip of each piece, its upper edges the piece's own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..path import Path
from ..piece import Dimension, Edge, Piece
from ..tolerance import INCH

DEPTH = 2.0 * INCH
BELOW_ARMHOLE = 0.75 * INCH
"""A facing is 2 in deep, and reaches this far under the underarm. Common practice, no source."""

MOST = 0.7
"""Of the shortest seam that it runs along: deeper, it would be a lining. Judgement."""

UPPER = ("top", "armhole")


def top_facings(pieces: Sequence[Piece], top: float, underarm: float) -> tuple[Piece, ...]:
    """Return a facing for each of `pieces` (whose walk begins with the top edge), none where the seams are too short for one.

    `top` and `underarm` are levels, mm. All are equally deep along every seam, so that they meet where the pieces meet.
    """
    depth = max(DEPTH, underarm - top + BELOW_ARMHOLE)
    beside = [edge.path.length() for piece in pieces for edge in _beside(piece)]
    if depth > MOST * min(beside):
        return ()
    return tuple(_facing(piece, depth) for piece in pieces)


def _upper(piece: Piece) -> list[Edge]:
    return [edge for edge in piece.edges if edge.name in UPPER]


def _beside(piece: Piece) -> tuple[Edge, Edge]:
    """Return the edge that follows the upper ones and the one that leads to them."""
    return piece.edges[len(_upper(piece))], piece.edges[-1]


def _facing(piece: Piece, depth: float) -> Piece:
    after, before = _beside(piece)
    down = after.path.split_at(depth)[0]
    up = before.path.split_at(before.path.length() - depth)[1]
    outer = Edge("outer edge", Path.through(down.end, up.start), 0.25 * piece.seam_allowance)
    upper, middle = _upper(piece), down.end.toward(up.start, 0.5)
    high = max(upper[0].path.start.y, upper[0].path.end.y)
    grain = (replace(middle, y=high + 0.25 * (middle.y - high)), replace(middle, y=middle.y - 0.15 * (middle.y - high)))
    return Piece(
        name=f"{piece.name} facing", title=f"{piece.title} facing", on_fold=piece.on_fold, seam_allowance=piece.seam_allowance, group="facing",
        edges=(*upper, replace(after, path=down), outer, replace(before, path=up)), grain=grain,
        dimensions=(Dimension(down.start, down.end), Dimension(up.start, up.end)),
    )
