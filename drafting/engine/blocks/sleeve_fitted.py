"""The fitted sleeve: two tapers that meet at the elbow, the lower arm turned forward there by a dart in the back seam.

A single taper from upper arm to wrist would be narrower than the elbow. Source: the drafting method, section 7.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..curve import Cubic, Line
from ..errors import ImpossibleMeasure
from ..path import Path
from ..piece import Dart
from ..point import Point
from ..tolerance import INCH
from .sleeve_cap import Cap

ELBOW_DART, LEAST_ELBOW_DART = 1.0 * INCH, 0.75 * INCH
DART_LONG = 0.3
"""The dart is this share of the elbow line long."""

MOST_FRONT_TURN_DEG = 16.0
ROUNDED = 1.25 * INCH
"""The seams are rounded so far on either side of the elbow: over 2½ in."""

ROUND_HANDLE = 0.55
WRIST_OPENING = 4.0 * INCH
LEAST_UPPER, LEAST_LOWER = 2.5 * INCH, WRIST_OPENING + INCH


@dataclass(frozen=True, slots=True)
class FittedSeams:
    """The sleeve's two seams from underarm to wrist: the front in one, the back in two with the dart between."""

    front: Path
    back: tuple[Path, Path]
    dart: Dart
    front_turn_deg: float


def fitted_seams(cap: Cap, *, elbow: float, wrist: float, elbow_level: float, wrist_level: float) -> FittedSeams:
    """Draw both seams under `cap` for finished widths `elbow` and `wrist` (mm) at levels below the bicep line.

    The lower part turns about the front seam's elbow point until the back seam opens by the dart: 1 in, less (not under ¾)
    where the front seam would turn by more than 16 degrees. Raises ImpossibleMeasure where elbow or wrist lie out of order.
    """
    _check(elbow, wrist, elbow_level, wrist_level)
    width = ELBOW_DART
    made = _drawn(cap, elbow, wrist, elbow_level, wrist_level, width)
    while made.front_turn_deg > MOST_FRONT_TURN_DEG and width > LEAST_ELBOW_DART:
        width = max(LEAST_ELBOW_DART, width - INCH / 16)
        made = _drawn(cap, elbow, wrist, elbow_level, wrist_level, width)
    return made


def _check(elbow: float, wrist: float, elbow_level: float, wrist_level: float) -> None:
    if wrist >= elbow:
        raise ImpossibleMeasure("wrist", wrist, "The sleeve would be {value} round at the wrist and only {needed} at the elbow. Measure wrist and "
                                "elbow again.", needed=elbow)
    if elbow_level < LEAST_UPPER:
        raise ImpossibleMeasure("shoulder_to_elbow", elbow_level, "The elbow would lie {value} below the underarm; it must be at least {needed}. "
                                "Measure shoulder to elbow again.", needed=LEAST_UPPER)
    if wrist_level - elbow_level < LEAST_LOWER:
        raise ImpossibleMeasure("sleeve_length", wrist_level - elbow_level, "Sleeve length and shoulder to elbow leave {value} between elbow and "
                                "wrist; a fitted sleeve needs {needed}. Measure both again, or choose a straight sleeve.", needed=LEAST_LOWER)


def _drawn(cap: Cap, elbow: float, wrist: float, elbow_level: float, wrist_level: float, width: float) -> FittedSeams:
    middle = (cap.back_width - cap.front_width) / 2
    left, right = Point(-cap.front_width, 0.0), Point(cap.back_width, 0.0)
    hinge, corner = Point(middle - elbow / 2, elbow_level), Point(middle + elbow / 2, elbow_level)
    turn = 2 * math.degrees(math.asin(width / (2 * elbow)))

    def turned(point: Point) -> Point:
        return point.turned(turn, hinge)

    other = turned(corner)
    wrist_left, wrist_right = (turned(Point(middle + half, wrist_level)) for half in (-wrist / 2, wrist / 2))
    point = hinge + (corner.toward(other, 0.5) - hinge).unit() * ((1 - DART_LONG) * elbow)
    front = _rounded(left, hinge, wrist_left)
    above, below = (corner - right).unit(), (wrist_right - other).unit()
    opening = (other - point).angle_deg - (corner - point).angle_deg
    kink = _signed(below.turned(-opening).angle_deg - above.angle_deg)
    upper = _bent(right, corner, above, above.turned(kink / 2))
    lower = _bent(wrist_right, other, -below, -below.turned(-kink / 2)).reversed()
    over = front.length() - upper.length() - lower.length()
    last = lower.strokes[-1]
    lower = Path((*lower.strokes[:-1], Line(last.start, last.end + below * over)))
    legs = (Path.through(corner, point), Path.through(other, point))
    slants = (hinge - left).angle_deg - (wrist_left - hinge).angle_deg
    return FittedSeams(front, (upper, lower), Dart(point, legs, corner.distance(other)), abs(_signed(slants)))


def _rounded(start: Point, corner: Point, end: Point) -> Path:
    """Return the two straight strokes with their corner rounded off."""
    into, out = (corner - start).unit(), (end - corner).unit()
    first, last = corner - into * ROUNDED, corner + out * ROUNDED
    curve = Cubic(first, first + into * (ROUND_HANDLE * ROUNDED), last - out * (ROUND_HANDLE * ROUNDED), last)
    return Path.of(Line(start, first), curve, Line(last, end))


def _bent(start: Point, end: Point, along: Point, arrives: Point) -> Path:
    """Return the straight stroke to `end` with its last stretch bent so that it arrives along `arrives`."""
    first = end - along * (2 * ROUNDED)
    curve = Cubic(first, first + along * (2 * ROUNDED / 3), end - arrives * (2 * ROUNDED / 3), end)
    return Path.of(Line(start, first), curve)


def _signed(angle_deg: float) -> float:
    return (angle_deg + 180.0) % 360.0 - 180.0
