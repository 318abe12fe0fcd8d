"""Sleeves under a set-in cap: straight, short, bell, flutter and puff. Bicep line at y = 0, crown above it at x = 0."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..curve import Cubic, Line
from ..errors import ImpossibleMeasure
from ..offset import Finish
from ..path import Path
from ..piece import Dimension, Edge, Piece
from ..point import Point
from ..report import Warning_
from ..rules import Rules
from ..tolerance import INCH
from .sleeve_cap import Cap

FLARES = {"bell": 30.0, "flutter": 150.0}
"""Degrees from one underarm seam to the other."""

PUFF = 1.5
STEPS = 48
SHORT_UNDERARM = 2.5 * INCH
FLUTTER_UNDERARM = 1.5 * INCH


@dataclass(frozen=True, slots=True)
class Sleeve:
    """A sleeve piece, its cap's halves as lengths, and what a band would measure (0: none)."""

    piece: Piece
    cap_front: float
    cap_back: float
    band: float


def hem_level(kind: str, cap: Cap, length: float | None) -> float:
    """Return how far below the bicep line the hem lies; a length is from the shoulder tip."""
    if length is None:
        return FLUTTER_UNDERARM if kind == "flutter" else SHORT_UNDERARM
    level = length - cap.height
    if level < INCH:
        raise ImpossibleMeasure("sleeve.length", length, "A sleeve {value} long ends above the underarm; it must be at least {needed}.",
                                needed=cap.height + INCH)
    return level


def taper_deg(bicep: float, hem: float, level: float) -> float:
    """Return the slant of each sleeve seam from the bicep line to a hem of `hem` mm, `level` below."""
    return math.degrees(math.atan2((bicep - hem) / 2, level))


def tapered(cap: Cap, rules: Rules, hem: float, level: float) -> Sleeve:
    """Draw a sleeve that narrows evenly from the bicep line to its hem, square to both seams there."""
    inset = (cap.bicep - hem) / 2
    left, right = Point(-cap.front_width, 0.0), Point(cap.back_width, 0.0)
    foot_left, foot_right = Point(left.x + inset, level), Point(right.x - inset, level)
    return _sleeve(cap, rules, cap.front + cap.back, Path.of(Line(right, foot_right)), Path.of(Line(left, foot_left)),
                   _square_hem(foot_right, foot_left, right, left))


def _square_hem(right: Point, left: Point, over_right: Point, over_left: Point) -> Path:
    """Return the hem from back to front, square to both seams."""
    width = right.x - left.x
    leave = (right - over_right).unit()
    arrive = (left - over_left).unit()
    first = Point(-leave.y, leave.x) * (width / 3)
    last = Point(arrive.y, -arrive.x) * (width / 3)
    return Path.of(Cubic(right, right + first, left + last, left))


def flared(cap: Cap, rules: Rules, flare_deg: float, level: float) -> Sleeve:
    """Spread the sleeve by `flare_deg`: every plumb line turns evenly from one seam to the other, the cap keeps its length."""
    whole = cap.front + cap.back
    total = whole.length()
    count = 2 * STEPS
    old = [whole.at(total * i / count) for i in range(count + 1)]
    turns = [flare_deg * (0.5 - i / count) for i in range(count + 1)]
    edge = [Point(0.0, 0.0)]
    for i in range(count):
        edge.append(edge[-1] + (old[i + 1] - old[i]).turned((turns[i] + turns[i + 1]) / 2))
    hem = [p + Point(0.0, level - q.y).turned(turn) for p, q, turn in zip(edge, old, turns, strict=True)]
    crown = edge[_nearest(old)]
    move = Point(-crown.x, -cap.height - crown.y)
    edge, hem = [p + move for p in edge], [p + move for p in hem]
    return _sleeve(cap, rules, Path.through(*edge), Path.through(edge[-1], hem[-1]), Path.through(edge[0], hem[0]),
                   Path.through(*reversed(hem)))


def _nearest(points: list[Point]) -> int:
    return min(range(len(points)), key=lambda i: abs(points[i].x))


def puffed(cap: Cap, rules: Rules, front_notch: float, back_notch: float, band: float, level: float) -> Sleeve:
    """Slide the sleeve apart between its notches (by half their distance) and raise the crown: gathers for cap and band."""
    whole = cap.front + cap.back
    first, last = whole.at(front_notch), whole.at(whole.length() - back_notch)
    width = last.x - first.x
    slide, rise = (PUFF - 1.0) * width, PUFF * INCH

    def moved(point: Point) -> Point:
        share = min(1.0, max(0.0, (point.x - first.x) / width))
        smooth = share * share * (3 - 2 * share)
        return Point(point.x + slide * (smooth - 0.5), point.y - rise * math.sin(math.pi * share) ** 2)

    count = 2 * STEPS
    edge = Path.through(*(moved(whole.at(whole.length() * i / count)) for i in range(count + 1)))
    foot_right, foot_left = Point(edge.end.x, level), Point(edge.start.x, level)
    made = _sleeve(cap, rules, edge, Path.of(Line(edge.end, foot_right)), Path.of(Line(edge.start, foot_left)),
                   Path.of(Line(foot_right, foot_left)))
    return Sleeve(made.piece, made.cap_front, made.cap_back, band)


def _sleeve(cap: Cap, rules: Rules, edge: Path, back: Path, front: Path, hem: Path) -> Sleeve:
    sa = rules["seam_allowance"]
    top = min(edge.polyline(), key=lambda point: point.y)
    piece = Piece(
        name="sleeve", title="Sleeve", seam_allowance=sa, group="sleeve",
        edges=(
            Edge("cap", edge, sa),
            Edge("underarm back", back, sa),
            Edge("hem", hem, min(rules["hem"], INCH), Finish.HEM),
            Edge("underarm front", front.reversed(), sa),
        ),
        grain=(Point(0.0, top.y * 0.5), Point(0.0, max(back.end.y, front.end.y) * 0.85)),
        dimensions=(Dimension(edge.start, edge.end), Dimension(front.end, back.end), Dimension(top, Point(top.x, edge.start.y)),
                    Dimension(back.start, back.end)),
    )
    return Sleeve(piece, cap.front.length(), cap.back.length(), 0.0)


def check_width(hem: float, bicep: float) -> list[Warning_]:
    """Return a warning where a straight sleeve's hem would be wider than its bicep line."""
    if hem <= bicep:
        return []
    return [Warning_("sleeve-hem-held", "The sleeve's hem was held to its width at the upper arm, {0}.", (bicep,))]
