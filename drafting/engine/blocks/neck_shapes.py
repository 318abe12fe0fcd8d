"""Necklines of a bodice: round, V, square and boat, front and back, and the facings that finish them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..body import Body
from ..curve import Cubic, Line
from ..errors import ImpossibleMeasure
from ..path import Path
from ..point import Point
from ..rules import Rules
from ..tolerance import INCH
from .neck import NOWHERE, Shoulder, necklines, round_neck

V_DEEPER, SQUARE_DEEPER = 3.0 * INCH, 1.5 * INCH
"""How much deeper than a round neck a V or a square is cut in front. Judgement."""

SQUARE_WIDER, BOAT_WIDER, BOAT_DEPTH = 0.75 * INCH, 1.75 * INCH, 0.75 * INCH
ABOVE_BUST = 1.5 * INCH
FACING = 2.5 * INCH
"""A neck facing is this wide all along. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Neck:
    """Front and back necklines from the centre to the shoulder, and where on the shoulder they end."""

    front: Path
    back: Path
    end: Point


def neck_of(kind: str, body: Body, rules: Rules, seam: Shoulder, bust: float, middle: Mapping[str, float] = NOWHERE) -> Neck:
    """Draw a neckline of `kind`; where it sits at the base of the neck it passes over the neck with ½ in to spare. A V or a square
    ends at least 1½ in above the `bust` level. Raises ImpossibleMeasure where even a round neck comes too low.

    `middle` fixes where it lies at the centre front (`neck_depth`) and centre back (`back_neck_depth`), mm: left and right
    differ, but meet there.
    """
    lowest = bust - ABOVE_BUST
    front, back = necklines(body, rules, seam)
    depth = front.start.y
    if depth > lowest:
        raise ImpossibleMeasure("neck", body["neck"], "For a neck of {value} the neckline would end less than {needed} above the bust. "
                                "Measure neck and shoulder to bust again.", needed=ABOVE_BUST)
    if kind == "round":
        return Neck(round_neck(middle.get("neck_depth", depth), seam.neck, seam.square), back, seam.neck)
    if kind == "v":
        return Neck(_vee(middle.get("neck_depth", min(depth + V_DEEPER, lowest)), seam.neck), back, seam.neck)
    along = (seam.tip - seam.neck).unit()
    most = 0.5 * seam.tip.distance(seam.neck)
    end = seam.neck + along * min(SQUARE_WIDER if kind == "square" else BOAT_WIDER, most)
    behind = round_neck(middle.get("back_neck_depth", rules["back_neck_depth"] + end.y), end, seam.square)
    if kind == "square":
        return Neck(_square(middle.get("neck_depth", min(depth + SQUARE_DEEPER, lowest)), end), behind, end)
    return Neck(_boat(middle.get("neck_depth", end.y + BOAT_DEPTH), end, seam), behind, end)


def _vee(depth: float, end: Point) -> Path:
    """A V whose sides bow in a little, so that they don't gape over the chest."""
    start, middle = Point(0.0, depth), Point(0.0, depth).toward(end, 0.5)
    inward = (end - start).unit().outward() * -(0.125 * INCH)
    bow = middle + inward
    return Path.of(Cubic(start, start.toward(bow, 0.6), bow.toward(end, 0.4), end))


def _square(depth: float, end: Point) -> Path:
    return Path.of(Line(Point(0.0, depth), Point(end.x, depth)), Line(Point(end.x, depth), end))


def _boat(depth: float, end: Point, seam: Shoulder) -> Path:
    handle = seam.square * (0.5 * (depth - end.y))
    return Path.of(Cubic(Point(0.0, depth), Point(0.6 * end.x, depth), end + handle, end))
