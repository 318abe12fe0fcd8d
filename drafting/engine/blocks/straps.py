"""Shoulder straps for a strapless top: from the cup seam's head over the middle of the shoulder to the back's top edge."""

from __future__ import annotations

from dataclasses import dataclass

from ..body import Body
from ..path import Path
from ..piece import Dimension, Edge, Mark, Piece
from ..point import Point
from ..rules import Rules
from ..tolerance import INCH
from .neck import Shoulder

NARROWEST, WIDEST = 0.5 * INCH, 1.25 * INCH
WIDER_FROM = 36 * INCH
WIDER_BY = 1 / 16
"""A strap is ½ in wide up to a bust of 36 and 1/16 in wider for each inch more: it carries more. Common practice, no source."""

EIGHTH = 0.125 * INCH

TO_ADJUST = 1.0 * INCH
"""So much longer it is cut at the back, for the fitting. Common practice, no source."""

TOWARD_CENTRE = 0.85
"""Behind, a strap leans toward the centre so that it does not slip off. Judgement."""

BESIDE_CENTRE = 1.0 * INCH


@dataclass(frozen=True, slots=True)
class Straps:
    """The strap's piece, its finished width and length, and where it meets shoulder and back (each in its own half's frame)."""

    piece: Piece
    width: float
    front: float
    back: float
    over: Point
    behind: Point

    @property
    def length(self) -> float:
        """From edge to edge, finished, mm."""
        return self.front + self.back


def strap_width(body: Body, rules: Rules) -> float:
    """Return the finished width: the house rule's, or by the bust, to the eighth of an inch."""
    by_bust = min(WIDEST, NARROWEST + WIDER_BY * max(0.0, body["bust"] - WIDER_FROM))
    return rules.get("strap_width", round(by_bust / EIGHTH) * EIGHTH)


def straps(body: Body, rules: Rules, shoulder: Shoulder, head: Point, back_top: tuple[Point, Point]) -> Straps:
    """Draw the strap: `head` is the cup seam's head with the upper dart closed, `back_top` the back's top edge from the centre to the
    armhole. Its length is the straight way over the middle of the shoulder."""
    sa, width = rules["seam_allowance"], strap_width(body, rules)
    over = shoulder.neck.toward(shoulder.tip, 0.5)
    low, high = back_top[0].x + BESIDE_CENTRE + width / 2, back_top[1].x - width
    behind = Point(max(min(TOWARD_CENTRE * over.x, high), min(low, high)), back_top[0].y)
    front, back = head.distance(over), over.distance(behind)
    cut_length, wide = front + back + TO_ADJUST, 2 * width
    a, b, c, d = Point(0.0, 0.0), Point(wide, 0.0), Point(wide, cut_length), Point(0.0, cut_length)
    piece = Piece(
        name="strap", title="Strap", seam_allowance=sa,
        edges=(Edge("end", Path.through(a, b), sa), Edge("long edge", Path.through(b, c), sa), Edge("other end", Path.through(c, d), sa),
               Edge("other long edge", Path.through(d, a), sa)),
        grain=(Point(wide / 2, cut_length * 0.15), Point(wide / 2, cut_length * 0.85)),
        dimensions=(Dimension(a, b), Dimension(b, c)), marks=(Mark("fold line", Point(width, 0.0), Point(width, cut_length)),),
    )
    return Straps(piece, width, front, back, over, behind)
