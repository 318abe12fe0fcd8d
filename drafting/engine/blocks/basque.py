"""The basque: the band goes on below the waist, to a point at the centre front and a little at the side.

Below the waist the body grows. At the side the seam swings out with the hip; what the front's skirt dart would have let out
is sprung, half and half, from a seam through the band under the cup seam. Source of shares and curves: the drafting method,
sections 6 (Band) and 8 (Basque); common practice, no source: about 5 in deep at the centre, ½ to 1 at the side.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..body import Body
from ..curve import Cubic, straight_down
from ..path import Path
from ..point import Point
from ..quarters import Quarters
from ..report import Warning_
from ..rules import Rules
from ..solve import root
from ..tolerance import INCH

MOST_OF_HIP_DEPTH = 0.55
"""The point lies at most this share of the way to the hip: lower, the band would have to hold the hips. Drafting method."""

LEAST_FALL = 1.5 * INCH
"""From the side to the centre the edge falls at least this, or the flare at the band seam would make it dip. Judgement."""

LEAST_SIDE = 0.25 * INCH
"""At the side a basque is at least so deep, or its edge would lie in the waist's own crease. Judgement."""

BACK_RISE = 0.1 * INCH
"""The back's edge lies this much deeper at the centre than at the side, whatever hangs from it: a skirt with back darts can turn its
own edge so, and left and right stay alike at the centre where they differ at the hip. The drafting method has 0.6 to 1, for a side
seam that slants twice as much at the waist; ours leaves the waist straight down. Judgement."""

SPRING_NEEDED = 0.25 * INCH
"""What the cloth takes up by its ease where the edge passes under the cup seam; beyond it the band is cut there."""

FULL_BY = 4.0 * INCH
"""Where the skirt's front dart would end: there all of it is let out. Drafting method."""

LEAST_HANDLE = 0.1
"""Of the chord: less, and a curve seems to start with a corner. Judgement."""

STEEPER = 1.15
"""An edge that springs out ends this much steeper than its mean; the edge under it turns by as much toward the seam."""

TOWARD_SEAM = 0.6
"""The chord of the edge beside the seam lies this far between its slants at side and seam: one even bend. Judgement."""


@dataclass(frozen=True, slots=True)
class Basque:
    """What a basque is drawn from, mm: how deep below the waist at the centre front and the side, how far down the hip lies, and
    how the body grows to there in a quarter: at the side, in front and behind."""

    depth: float
    side: float
    to_hip: float
    side_growth: float
    front_growth: float
    back_growth: float
    ease_waist: float
    ease_hip: float

    def front_needs(self, depth: float) -> float:
        """Return what the front needs beyond its side seam `depth` mm below the waist."""
        return self.front_growth * min(depth, FULL_BY) / FULL_BY

    @property
    def back(self) -> float:
        """How deep the basque is at the centre back."""
        return self.side + BACK_RISE

    def back_needs(self, depth: float) -> float:
        return self.back_growth * min(1.0, depth / min(5.5 * INCH, 0.69 * self.to_hip))

    def ease_at(self, depth: float) -> float:
        """Return a quarter's ease `depth` mm below the waist."""
        return (self.ease_waist + (self.ease_hip - self.ease_waist) * depth / self.to_hip) / 4


def basque_for(body: Body, rules: Rules, q: Quarters) -> tuple[Basque, list[Warning_]]:
    """Return the basque's figures, its depths held to what the body allows."""
    to_hip, found = body["waist_to_hip"], []
    wanted, wanted_side = rules["basque_depth"], rules["basque_side"]
    shallowest, deepest = LEAST_SIDE + LEAST_FALL, MOST_OF_HIP_DEPTH * to_hip
    depth = max(shallowest, min(wanted, deepest))
    side = max(LEAST_SIDE, min(wanted_side, depth - LEAST_FALL))
    if abs(depth - wanted) > 1e-6 and "basque_depth" in rules.given:
        found.append(Warning_("basque-held", "The basque is {0} deep at the centre front (house rule {1}): from {2} to {3} can be drawn on this body.",
                              (depth, wanted, shallowest, deepest)))
    if abs(side - wanted_side) > 1e-6:
        found.append(Warning_("basque-side-held", "The basque is {0} deep at the side (house rule {1}): at least {2}, and {3} less than at the centre.",
                              (side, wanted_side, LEAST_SIDE, LEAST_FALL)))
    total = (body["hip"] + q.ease_hip) / 4 - q.waist
    swing = max(0.0, min(1.5 * INCH, 0.4 * total))
    front, back = max(0.0, 0.9 * total - swing), max(0.0, 1.1 * total - swing)
    return Basque(depth, side, to_hip, swing, front, back, q.ease_waist, q.ease_hip), found


@dataclass(frozen=True, slots=True)
class SideTail:
    """The side seam from the waist to the basque's edge: `path` (None where it ends at the waist), its end and its slant there."""

    path: Path | None
    end: Point
    slant: float


def side_tail(basque: Basque, start: Point) -> SideTail:
    """Draw the first part of the side seam's curve from the waist to the hip."""
    if basque.side < 1e-6:
        return SideTail(None, start, 0.0)
    whole = straight_down(start, start + Point(basque.side_growth, basque.to_hip), leave=0.3, arrive=0.45)
    at = root(lambda t: whole.at(t).y - start.y - basque.side, 0.0, 1.0, name="depth of the basque at the side")
    first = whole.split(at)[0]
    step = first.direction(1.0)
    return SideTail(Path.of(first), first.end, math.atan2(step.x, step.y))


def inward(slant: float) -> Point:
    """Return the direction toward the fold, square to a seam that slants outward by `slant`; or an edge that falls by it."""
    return Point(-math.cos(slant), math.sin(slant))


def bow(start: Point, leaving: Point, end: Point, arriving: Point) -> Cubic:
    """Return one even bend from `start` to `end`: where it turns one way only, its handles reach two thirds of the way to where both
    directions meet, as a parabola's do (by the angles to the chord, so that its length never jumps while an end is moved)."""
    chord = end - start
    at_start, at_end = abs(leaving.cross(chord)) / chord.size, abs(chord.cross(arriving)) / chord.size
    both = at_start + at_end
    share = at_end / both if both > 1e-9 else 0.5
    first, last = (max(LEAST_HANDLE, 2 / 3 * part) * chord.size for part in (share, 1 - share))
    return Cubic(start, start + leaving * first, end - arriving * last, end)


@dataclass(frozen=True, slots=True)
class FrontEdge:
    """The band's lower edge below the waist level `waist`, walked from the side to the fold: one stroke, or two with the seam
    between them, each drawn on its own side of it.

    `at_seam` is its depth under the cup seam and `spring` what is let out there; `short` what the seam could not let out.
    """

    side_part: Path | None
    centre_part: Path
    at_seam: float
    spring: float
    short: float

    @property
    def parted(self) -> bool:
        return self.side_part is not None


def front_edge(basque: Basque, waist: float, tail: SideTail, seam: tuple[float, float]) -> FrontEdge:
    """Draw the front's lower edge; `seam` is where a band seam would pass the waist, toward the centre and toward the side.

    Raises NoSolution where no depth at the seam lets the edge run on smoothly.
    """
    end, point = tail.end, Point(0.0, waist + basque.depth)
    fall = point.y - end.y
    whole = Path.of(Cubic(end, end + inward(tail.slant) * (0.3 * end.x), Point(0.35 * end.x, end.y + 0.72 * fall), point))
    at = whole.distance_where(lambda p: p.x - seam[0])
    depth = whole.at(at).y - waist if at is not None else basque.side
    needs = basque.front_needs(depth)
    if needs <= SPRING_NEEDED and seam[0] == seam[1]:
        return FrontEdge(None, whole, depth, 0.0, max(0.0, needs - SPRING_NEEDED))
    return _parted(basque, waist, tail, seam)


def _parted(basque: Basque, waist: float, tail: SideTail, seam: tuple[float, float]) -> FrontEdge:
    end, point = tail.end, Point(0.0, waist + basque.depth)
    steepest = STEEPER * math.atan2(basque.depth - basque.side, seam[0])
    growth = min(basque.front_growth / FULL_BY, 2 * math.tan(max(0.0, 0.45 * steepest)) / STEEPER)
    slant = math.atan(STEEPER * growth / 2)

    def shape(depth: float) -> tuple[float, float, float, float]:
        spring = growth * min(depth, FULL_BY) / 2
        chord = math.atan2(basque.depth - depth, seam[0] + spring)
        return spring, chord, STEEPER * chord, math.atan2(depth - basque.side, end.x - seam[1] + spring)

    def uneven(depth: float) -> float:
        _, _, steep, chord_side = shape(depth)
        return chord_side - (tail.slant + TOWARD_SEAM * (steep - 2 * slant - tail.slant))

    depth = root(uneven, basque.side + 1.0, basque.depth - 1.0, name="depth of the basque at the band seam",
                 remedy="Set the basque's depth at centre or side otherwise.")
    spring, chord, steep, _ = shape(depth)
    on_centre, on_side = Point(seam[0] + spring, waist + depth), Point(seam[1] - spring, waist + depth)
    side_part = Path.of(bow(end, inward(tail.slant), on_side, inward(steep - 2 * slant)))
    centre_part = Path.of(bow(on_centre, inward(steep), point, inward(2 * chord - steep)))
    return FrontEdge(side_part, centre_part, depth, 2 * spring, max(0.0, basque.front_needs(depth) - 2 * spring - SPRING_NEEDED))


def seam_tail(waist: Point, end: Point) -> Path:
    """Draw one side of the band seam from the waist to the edge: straight down where it leaves, springing out at once."""
    out = end.x - waist.x
    slant = math.atan2(STEEPER * abs(out), end.y - waist.y)
    return Path.of(bow(waist, Point(0.0, 1.0), end, Point(math.copysign(math.sin(slant), out), math.cos(slant))))


def back_edge(tail: SideTail, mouth: Point) -> Path:
    """Draw the back's lower edge from the side, square to the seam there, to `mouth`, level."""
    reach = tail.end.x - mouth.x
    return Path.of(Cubic(tail.end, tail.end + inward(tail.slant) * (0.35 * reach), mouth + Point(0.35 * reach, 0.0), mouth))
