"""The blouse's body: bodice blocks that go on below the waist to the hip and the hem, with fish-eye darts.

Waist shaping is the bodice's; below the waist front and back share one side curve, so that the side seams agree. The darts end
where a skirt's would: 4 in below the waist in front and 5½ behind, or half and 0.69 of waist to hip. Source: the drafting
method, sections 6 and 8.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from ..bodice_quarters import WIDE_DART, BodiceQuarters
from ..curve import Line, level_both_ends, straight_down
from ..errors import ImpossibleMeasure
from ..path import Path
from ..point import Point
from ..tolerance import INCH
from .bodice import SHORT_OF_POINT, Block
from .bodice_waist import BodiceWaist
from .fish_eye import FishEye, fish_eyes

FRONT_BELOW, BACK_BELOW = (4.0 * INCH, 0.5), (5.5 * INCH, 0.69)
SECOND_LOWER = 1.0 * INCH
CLEAR = 0.5 * INCH
"""A fish-eye dart keeps this far from the centre and the side. Judgement."""


@dataclass(frozen=True, slots=True)
class Below:
    """What lies below the waist, mm: `run` outward from waist to hip, the same in front and back; `to_hip`, `to_hem` down."""

    run: float
    to_hip: float
    to_hem: float
    ease_hip: float

    def side(self, waist: Point) -> Path:
        """Return the side seam from the waist to the hem: a curve to the hip, straight down from there."""
        hip = Point(waist.x + self.run, waist.y + self.to_hip)
        curve = straight_down(waist, hip)
        over = self.to_hem - self.to_hip
        return Path.of(curve, Line(hip, hip + Point(0.0, over))) if over > 0.1 else Path.of(curve)


def below_waist(q: BodiceQuarters, waist: float, hip: float, to_hip: float, to_hem: float) -> Below:
    """Work out what lies below the waist for a body of `waist` and `hip`; raises ImpossibleMeasure where the hem would lie
    above the hip. A hip smaller than the waist is drafted by the waist."""
    if to_hem < to_hip - 0.1:
        raise ImpossibleMeasure("length", to_hem, "A blouse {value} long from the waist ends above the hip; it must be at least {needed}.", needed=to_hip)
    ease = max(q.ease_hip, waist + q.ease_waist - hip)
    at_waist = q.front_bust - q.front_side + q.back_bust - q.back_side
    return Below(((hip + ease) / 2 - at_waist) / 2, to_hip, max(to_hem, to_hip), ease)


def level_waist(y: float, x: float) -> BodiceWaist:
    """Return a waist that is only a line across the piece."""
    return BodiceWaist((Path.through(Point(0.0, y), Point(x, y)),), None)


def lengthened(block: Block, below: Below) -> Block:
    """Return the block with its side seam carried on to the hem."""
    return replace(block, side=(*block.side[:-1], block.side[-1] + below.side(block.side[-1].end)))


def hem_line(side: Path, centre: Point) -> Path:
    """Return the hem from the side to the centre, square to both."""
    if abs(side.end.y - centre.y) < 1e-9:
        return Path.through(side.end, centre)
    return Path.of(level_both_ends(centre, side.end)).reversed()


def front_fish_eyes(q: BodiceQuarters, below: Below) -> tuple[FishEye, ...]:
    """Draw the front's: under the bust point, a second halfway to the side where one would be over 1¾ in wide."""
    return _placed(q.front_dart, q.bust_point.x, q.front_bust - q.front_side, q.bust_point.y + SHORT_OF_POINT, q.front.waist, below, FRONT_BELOW)


def back_fish_eyes(q: BodiceQuarters, below: Below) -> tuple[FishEye, ...]:
    """Draw the back's: halfway along the waist up to the bust line, two at its thirds where one would be over 1¾ in wide."""
    side = q.back_bust - q.back_side
    first = q.waist / 2 if q.back_dart <= WIDE_DART else side * 0.36
    return _placed(q.back_dart, first, side, q.side.bust, q.side.waist, below, BACK_BELOW)


def _placed(width: float, first: float, side: float, top: float, waist: float, below: Below, reach: tuple[float, float]) -> tuple[FishEye, ...]:
    if not width:
        return ()
    places = (first,) if width <= WIDE_DART else (first, (first + side) / 2)
    half = width / len(places) / 2
    places = tuple(min(max(x, CLEAR + half), side - CLEAR - half) for x in places)
    bottom = waist + min(reach[0], reach[1] * below.to_hip)
    return fish_eyes(places, width, min(top, waist - 2 * INCH), waist, bottom, lower_by=SECOND_LOWER)
