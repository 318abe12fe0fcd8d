"""A sleeve's cap laid over the armhole at the underarm: below the notches the two should run together.

Where they part the sleeve drags or folds under the arm. Limit ½ in at the notch: the drafting method, section 7.
"""

from __future__ import annotations

from shapely import LineString
from shapely import Point as Place
from shapely.ops import nearest_points

from ..path import Path
from ..point import Point
from ..report import LaidOver, Warning_
from ..tolerance import INCH
from .sleeve_cap import Cap

MOST_APART = 0.5 * INCH


def laid_over(cap: Cap, front_hole: Path, back_hole: Path, notch_share: float) -> tuple[LaidOver, ...]:
    """Lay each half of `cap` over its armhole (walked from shoulder tip to underarm), the bicep line on the chest line."""
    return (_laid("front", front_hole, cap.front, notch_share), _laid("back", back_hole, cap.back.reversed(), notch_share))


def _laid(name: str, hole: Path, half: Path, notch_share: float) -> LaidOver:
    """`half` runs from its underarm up to the crown; it is turned over where it lies to the wrong side."""
    under, start = hole.end, half.start
    way = 1.0 if half.end.x < start.x else -1.0
    placed = half.mapped(lambda point: Point(under.x + way * (point.x - start.x), under.y + point.y - start.y))
    notch = placed.at(notch_share * hole.length())
    line = hole.polyline()
    nearest = nearest_points(LineString([(p.x, p.y) for p in line]), Place(notch.x, notch.y))[0]
    return LaidOver(name, line, placed.polyline(), (notch, Point(nearest.x, nearest.y)))


def laid_warnings(laid: tuple[LaidOver, ...]) -> list[Warning_]:
    """Return a warning for each half that parts from its armhole by over ½ in at the notch."""
    return [Warning_("cap-parts-from-armhole", f"Laid over the {one.name} armhole, the sleeve's cap parts from it by {{0}} at the notch; up to {{1}} "
                     "sets in without drag lines. Look at it in the toile.", (one.apart, MOST_APART)) for one in laid if one.apart > MOST_APART]
