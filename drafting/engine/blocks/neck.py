"""Neck and shoulder: the side neck point, the shoulder seam, and necklines that meet both square."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from ..body import Body
from ..curve import Cubic, Line
from ..errors import DraftingError, ImpossibleMeasure
from ..path import Path
from ..point import Point
from ..quarters import Quarters
from ..rules import Rules
from ..solve import root
from ..tolerance import INCH

ROUND_HANDLE = 0.55
"""Handles of this share of a neckline's width and depth draw very nearly an ellipse's quarter."""

LEAST_SHOULDER = 2.5 * INCH
NOWHERE: Mapping[str, float] = MappingProxyType({})
EASIER_THAN_NECK = 0.5 * INCH
FRAME_ARRIVES, FRAME_LEAVES = 0.40, 0.35
LEAST_FRAME = 1.5 * INCH


@dataclass(frozen=True, slots=True)
class Shoulder:
    """The shoulder seam from the neck to the tip; `square` points down from it, into the armhole."""

    neck: Point
    tip: Point

    @property
    def square(self) -> Point:
        along = (self.tip - self.neck).unit()
        return Point(-along.y, along.x)


def shoulder_seam(body: Body, q: Quarters) -> Shoulder:
    """Return the shoulder seam; raises ImpossibleMeasure where it is too short to sew."""
    seam = Shoulder(Point(q.neck_width, 0.0), Point(body["shoulder"] / 2, q.front.shoulder))
    if seam.tip.x - seam.neck.x < LEAST_SHOULDER:
        raise ImpossibleMeasure("shoulder", body["shoulder"], "Shoulder {value} leaves less than {needed} of shoulder beside "
                                "the neck. Measure shoulder and neck again.", needed=LEAST_SHOULDER)
    return seam


def round_neck(depth: float, end: Point, square: Point) -> Path:
    """Draw a round neckline from the centre, level there, to `end` on the shoulder, square to it."""
    handle = Point(ROUND_HANDLE * end.x, depth)
    return Path.of(Cubic(Point(0.0, depth), handle, end + square * (ROUND_HANDLE * (depth - end.y)), end))


def necklines(body: Body, rules: Rules, seam: Shoulder, middle: Mapping[str, float] = NOWHERE) -> tuple[Path, Path]:
    """Return front and back necklines at the neck's base; the front is deepened till both pass over the neck with ½ in to
    spare, or drawn to `middle`'s `neck_depth` (mm), where left and right have to meet. Raises DraftingError where no depth does."""
    back = round_neck(rules["back_neck_depth"], seam.neck, seam.square)
    wanted = body["neck"] + EASIER_THAN_NECK

    def excess(depth: float) -> float:
        return 2 * (round_neck(depth, seam.neck, seam.square).length() + back.length()) - wanted

    depth = middle.get("neck_depth", rules.get("front_neck_depth", seam.neck.x + 0.25 * INCH))
    if "neck_depth" not in middle and excess(depth) < 0:
        depth = root(excess, depth, 12 * INCH, name="front neck depth", remedy="Measure the neck again.")
    return round_neck(depth, seam.neck, seam.square), back


@dataclass(frozen=True, slots=True)
class Frame:
    """A neckline that stands off the neck: from mid-shoulder to the cup seam's head in front, to the centre behind."""

    middle: Point
    front: Path
    back: Path


def framed_necklines(rules: Rules, seam: Shoulder, head: Point, meet: Mapping[str, float] = NOWHERE) -> Frame:
    """Draw them: square to the shoulder at its middle, straight down onto the seam head, level at the centre back, at `meet`'s
    `back_neck_depth` (mm) where left and right have to meet."""
    middle = seam.neck.toward(seam.tip, 0.5)
    height = head.y - middle.y
    if height <= 0:
        raise DraftingError("the seam head lies above the shoulder")
    front = Cubic(middle, middle + seam.square * (FRAME_LEAVES * height), Point(head.x, head.y - FRAME_ARRIVES * height), head)
    depth = meet.get("back_neck_depth", rules["back_neck_depth"] + 0.5 * (middle.x - seam.neck.x) + middle.y)
    return Frame(middle, Path.of(front), round_neck(depth, middle, seam.square))


def shoulder_line(seam: Shoulder, start: Point | None = None) -> Path:
    """Return the shoulder seam as an edge, from the neck (or `start` on it) to the tip."""
    return Path.of(Line(start or seam.neck, seam.tip))
