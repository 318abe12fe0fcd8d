"""Fitted bodice blocks: front with a waist dart and one more (side or shoulder), back with a waist dart."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..bodice_quarters import BodiceQuarters
from ..curve import Cubic, Line, straight_down
from ..errors import ImpossibleMeasure, NoSolution, UnknownChoice
from ..path import Path
from ..piece import Dart
from ..point import Point
from ..report import Warning_
from ..solve import root
from ..tolerance import INCH
from .bodice_waist import BodiceWaist, Foot, bodice_waist

SHORT_OF_POINT = 1.0 * INCH
"""A dart is sewn to an inch short of the bust point, so that it does not poke. Common practice, no source."""

BELOW_UNDERARM = 0.75 * INCH
LEAST_SIDE_DART = 0.25 * INCH
MOST_SIDE_DART = 2.5 * INCH


@dataclass(frozen=True, slots=True)
class Block:
    """Half a front or back: its edges as paths, clockwise from the neck at the centre. `side` is in parts where darted; `below` is a
    basque's, whose tail the side then includes."""

    neck: Path
    shoulder: tuple[Path, ...]
    armhole: Path
    side: tuple[Path, ...]
    waist: BodiceWaist
    bust_dart: Dart | None = None
    dart_angle: float = 0.0
    below: Foot | None = None

    @property
    def lower(self) -> BodiceWaist:
        """The edge that a skirt is sewn to: the waist, or a basque's edge."""
        return self.below.edge if self.below else self.waist

    @property
    def lower_edge(self) -> str:
        return "basque edge" if self.below else "waist"

    def side_length(self) -> float:
        return sum(part.length() for part in self.side)


def back_block(q: BodiceQuarters, neck: Path, shoulder: Path, armhole: Path, centre_x: float, waist: BodiceWaist | None = None,
               raised: float = 0.0) -> Block:
    """Draw the back; its dart's point is on the back bust line, halfway along the waist. `waist` is that of a back that goes on
    below it, with darts of its own."""
    start = Point(centre_x, q.side.waist)
    net = q.waist - centre_x
    apex = Point(centre_x + net / 2, q.side.bust) if q.back_dart else None
    waist = waist or bodice_waist(start, net, apex, q.back_bust - q.back_side, raised)
    side = _side(armhole.end, q.side.bust, waist.end)
    return Block(neck, (shoulder,), armhole, (side,), waist)


def front_block(q: BodiceQuarters, neck: Path, shoulder: Path, armhole: Path, side_length: float,
                waist: BodiceWaist | None = None) -> tuple[Block, list[Warning_]]:
    """Draw the front with its side dart: as wide as the front's side seam is longer than the back's `side_length`. `waist` is
    that of a front that goes on below it, with darts of its own."""
    apex = q.bust_point + Point(0.0, SHORT_OF_POINT)
    waist = waist or bodice_waist(Point(0.0, q.front.waist), q.waist, apex if q.front_dart else None, q.front_bust - q.front_side)
    side = _side(armhole.end, q.front.bust, waist.end)
    width = side.length() - side_length
    if width < LEAST_SIDE_DART:
        return _without_side_dart(q, neck, shoulder, armhole, waist, side_length, width)
    if width > MOST_SIDE_DART:
        raise ImpossibleMeasure("shoulder_to_waist", width, "The side dart would be {value} wide, over {needed}: choose a princess seam, or "
                                "measure shoulder to waist and nape to waist again.", needed=MOST_SIDE_DART)
    dart, upper, lower, angle = _side_dart(q.bust_point, armhole.end, waist.end, side_length)
    return Block(neck, (shoulder,), armhole, (upper, lower), waist, dart, angle), []


def _side(underarm: Point, bust: float, waist: Point) -> Path:
    joint = Point(underarm.x, bust)
    return Path.of(Line(underarm, joint), straight_down(joint, waist))


def _without_side_dart(q, neck, shoulder, armhole, waist, side_length, width) -> tuple[Block, list[Warning_]]:
    """Raise or lower the front waist's side end until the side seams agree: too little for a dart."""
    last = waist.sections[-1]

    def path(move: float) -> Path:
        return _side(armhole.end, q.front.bust, last.end + Point(0.0, move))

    move = root(lambda move: path(move).length() - side_length, -2 * INCH, 2 * INCH, name="front waist at the side",
                remedy="Measure shoulder to waist and nape to waist again.")
    made = moved_end(waist, move)
    warnings = []
    if abs(move) > INCH / 8:
        warnings.append(Warning_("front-waist-moved", "The front's waist was moved {0} at the side so that the side seams are equally long; "
                                 "{1} is too little for a dart.", (abs(move), abs(width))))
    return Block(neck, (shoulder,), armhole, (path(move),), made), warnings


def _side_dart(bust_point: Point, underarm: Point, waist: Point, length: float) -> tuple[Dart, Path, Path, float]:
    """Return the side dart, the side seam above and below it, and its angle at the bust point, degrees.

    Its marks lie as far from the bust point, either side of the bust line (but not too near the underarm). Below it the side
    leaves so that, with the dart closed, it runs on without a corner. The angle is solved so that both parts of the side are
    `length` mm long together.
    """
    reach, depth = underarm.x - bust_point.x, bust_point.y - underarm.y

    def drawn(angle: float) -> tuple[Path, Path, Point]:
        above = max(BELOW_UNDERARM, depth - reach * math.tan(math.radians(angle / 2)))
        upper = Path.of(Line(underarm, underarm + Point(0.0, above)))
        mark = upper.end.turned(angle, bust_point)
        point = bust_point + (upper.end.toward(mark, 0.5) - bust_point).unit() * SHORT_OF_POINT
        opening = (mark - point).angle_deg - (upper.end - point).angle_deg
        handle = mark.distance(waist) / 3
        leaves = Point(0.0, handle).turned(opening)
        return upper, Path.of(Cubic(mark, mark + leaves, waist - Point(0.0, handle), waist)), point

    def excess(angle: float) -> float:
        upper, lower, _ = drawn(angle)
        return upper.length() + lower.length() - length

    angle = root(excess, 0.01, 45.0, name="width of the side dart", within=1e-9,
                 remedy="Measure shoulder to waist and nape to waist again.")
    upper, lower, point = drawn(angle)
    legs = (Path.of(Line(upper.end, point)), Path.of(Line(lower.start, point)))
    return Dart(point, legs, upper.end.distance(lower.start)), upper, lower, angle


def shoulder_darted(block: Block, bust_point: Point) -> Block:
    """Close the side dart and open it at mid-shoulder: the outer part turns about the bust point by the same angle."""
    if block.bust_dart is None:
        return block
    angle, shoulder = block.dart_angle, block.shoulder[0]
    inner, outer = shoulder.split_at(shoulder.length() / 2)

    def turn(path: Path) -> Path:
        return path.mapped(lambda point: point.turned(angle, bust_point))

    outer, armhole = turn(outer), turn(block.armhole)
    side, move = closed_side(block, bust_point)
    middle = inner.end.toward(outer.start, 0.5)
    point = bust_point + (middle - bust_point).unit() * SHORT_OF_POINT
    dart = Dart(point, (Path.of(Line(inner.end, point)), Path.of(Line(outer.start, point))), inner.end.distance(outer.start))
    return Block(block.neck, (inner, outer), armhole, (side,), moved_end(block.waist, move), dart, angle)


def closed_side(block: Block, bust_point: Point) -> tuple[Path, float]:
    """Return the side seam with its dart closed by turning what lies above, and how far its waist end moved."""
    upper = block.side[0].mapped(lambda point: point.turned(block.dart_angle, bust_point))
    return _smooth_side(upper, block.side[1], bust_point.y - block.armhole.end.y)


def _smooth_side(upper: Path, lower: Path, to_bust: float) -> tuple[Path, float]:
    """Return the side as one line, as long as both parts: straight on to the bust level (so that the bust keeps its girth),
    from there a curve that arrives at the waist as before. Where it would be too long, the waist's end is moved up by what is
    returned beside it."""
    on = max(0.0, to_bust - upper.length())
    whole = upper + Path.of(Line(upper.end, upper.end + upper.arrives() * on)) if on else upper
    start, end, length = whole.end, lower.end, lower.length() - on
    leaves, arrives, span = whole.arrives(), lower.arrives(), whole.end.distance(lower.end)

    def path(share: float) -> Path:
        return Path.of(Cubic(start, start + leaves * (share * span), end - arrives * (share * span), end))

    def moved(move: float) -> Path:
        foot = end + Point(0.0, move)
        return Path.of(Cubic(start, start + leaves * (span / 3), foot - arrives * (span / 3), foot))

    try:
        return whole + path(root(lambda share: path(share).length() - length, 0.1, 1.2, name="smooth side seam")), 0.0
    except NoSolution:
        pass  # too long even when drawn flattest: the waist's end moves instead
    try:
        move = root(lambda move: moved(move).length() - length, -INCH, INCH, name="front waist at the side")
    except NoSolution:
        raise UnknownChoice("darts", "shoulder", ("side",), why="The bust dart is too wide to be turned to the shoulder.") from None
    return whole + moved(move), move


def moved_end(waist: BodiceWaist, move: float) -> BodiceWaist:
    """Return the waist with its side end moved by `move` mm straight down, still level there."""
    if not move:
        return waist
    last = waist.sections[-1]
    stroke, foot = last.strokes[-1], last.end + Point(0.0, move)
    redrawn = (Cubic(stroke.start, stroke.out, Point(stroke.into.x, foot.y), foot) if isinstance(stroke, Cubic)
               else Line(stroke.start, foot))
    return BodiceWaist((*waist.sections[:-1], Path((*last.strokes[:-1], redrawn))), waist.dart)
