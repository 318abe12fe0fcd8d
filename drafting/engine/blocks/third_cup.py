"""A cup in three pieces: beyond the seam over the bust a second one, from the top edge to the under-bust, shares the lower dart.

The second dart ends at the bust line, so that bust and chest stay what they are; above it the seam is a plain cut. Its lower halves
mirror each other, so they need no truing. Common practice, no source; which dart takes how much is judgement.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..curve import Line, level_both_ends, straight_down
from ..errors import ImpossibleMeasure
from ..offset import Finish
from ..path import Path
from ..piece import Dimension, Edge, Piece, upright_grain
from ..point import Point
from ..quarters import Quarters
from ..rules import Rules
from ..solve import root
from ..tolerance import INCH

BESIDE = 1.0 * INCH
"""A cup piece is at least this wide along the under-bust: narrower, its seams would lie on each other. Judgement."""

OUT = 0.5
"""The second seam passes the bust line this far from the bust point to the side. Judgement."""


@dataclass(frozen=True, slots=True)
class ThirdCup:
    """Middle and side cup; where the seam between them meets top edge, bust line and, on either side, the under-bust."""

    middle: Piece
    side: Piece
    side_x: float
    head: Point
    point: Point


def outer_cups(q: Quarters, rules: Rules, bp: Point, seam: Path, top: Line, side: Path, arm: Path, target: float) -> ThirdCup:
    """Draw middle and side cup. `seam` is the cup seam from the under-bust up, `top` the top edge from it to the armhole, `side` the
    side seam as far as the bust; the lower edges together measure `target`, mm. Raises ImpossibleMeasure or NoSolution where
    they can't."""
    start, width, sa = seam.start, q.second, rules["seam_allowance"]
    reach = side.end.x - bp.x
    x = max(bp.x + OUT * reach, start.x + width / 2 + BESIDE)
    share = (x - bp.x) / reach
    if share > 0.85:
        raise ImpossibleMeasure("under_bust", q.under_bust, "A third cup piece leaves too little of the side cup. Choose cups in two pieces, or "
                                "measure bust and under bust again.")
    point = Point(x, bp.y + share * (side.end.y - bp.y))
    foot = start.y + share * (q.side.under_bust - start.y)
    inner, outer = Point(x - width / 2, foot), Point(x + width / 2, foot)
    room = min(0.5 * INCH, 0.4 * top.length())
    head = Point(min(max(x, top.start.x + room), top.end.x - room), top.start.y)
    middle_low = level_both_ends(start, inner)

    def excess(at: float) -> float:
        return middle_low.length() + level_both_ends(outer, Point(at, q.side.under_bust)).length() - target

    side_x = root(excess, outer.x + 1e-3, outer.x + target * 1.02 + 1.0, name="width of the side cup at the under-bust",
                  remedy="Choose cups in two pieces, or measure under bust and bust span again.")
    end = Point(side_x, q.side.under_bust)
    whole_side = side + Path.of(straight_down(side.end, end))
    upper = straight_down(head, point)
    middle = Piece(
        name="middle cup", title="Middle cup", seam_allowance=sa,
        edges=(
            Edge("top", Path.through(top.start, head), sa),
            Edge("side cup seam", Path.of(upper, straight_down(point, inner)), sa, Finish.SQUARED),
            Edge("under-bust", Path.of(middle_low.reversed()), sa),
            Edge("cup seam", seam, sa, Finish.SQUARED),
        ),
        grain=upright_grain((start.x + inner.x) / 2, head.y, start.y),
        dimensions=(Dimension(top.start, head), Dimension(start, inner), Dimension(head, inner)),
    )
    outer_piece = Piece(
        name="side cup", title="Side cup", seam_allowance=sa,
        edges=(
            Edge("top", Path.through(head, top.end), sa),
            Edge("armhole", arm, sa),
            Edge("side", whole_side, rules["let_out"], Finish.LET_OUT),
            Edge("under-bust", Path.of(level_both_ends(outer, end).reversed()), sa),
            Edge("side cup seam", Path.of(straight_down(point, outer).reversed(), upper.reversed()), sa, Finish.SQUARED),
        ),
        grain=upright_grain((outer.x + end.x) / 2, head.y, end.y),
        dimensions=(Dimension(head, top.end), Dimension(outer, end), Dimension(side.start, Point(side.start.x, end.y))),
    )
    return ThirdCup(middle, outer_piece, side_x, head, point)
