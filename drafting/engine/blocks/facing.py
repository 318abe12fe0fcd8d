"""Facings of a front opening and of a back neck: the edge that they finish, a stretch of shoulder, an inner edge beside it."""

from __future__ import annotations

from dataclasses import dataclass

from ..curve import Cubic, Line
from ..offset import offset_points
from ..path import Path
from ..point import Point, meet
from ..tolerance import INCH
from .neck_shapes import FACING

BEHIND_CENTRE = 2.0 * INCH
"""A front facing reaches this far behind the centre, well past the buttonholes. Common practice, no source."""

ON_SHOULDER = 0.42
"""A facing covers at most this share of the shoulder, clear of a dart at its middle."""


@dataclass(frozen=True, slots=True)
class FrontFacing:
    """From the shoulder at the neck: `shoulder` out along the seam, `inner` from there down to the hem."""

    shoulder: Path
    inner: Path


def facing_width(whole_shoulder: float, sewn_shoulder: float) -> float:
    """Return how wide a neck facing can be, mm: 2½ in, less where the shoulder is short or a dart opens in it."""
    return min(FACING, ON_SHOULDER * whole_shoulder, 0.9 * sewn_shoulder)


def front_facing(neck: Path, shoulder: Path, width: float, hem: float) -> FrontFacing:
    """Draw the facing of an opening under `neck` (centre to shoulder): its inner edge follows the neckline at `width`, then
    turns straight down BEHIND_CENTRE from the centre to the level `hem`."""
    seam = shoulder.split_at(width)[0]
    along = seam.arrives()
    points = offset_points(tuple(reversed(neck.polyline())), width)
    beside = [seam.end, *(p for p in points[1:-1] if along.cross(p - seam.end) > 1.0 and p.x > BEHIND_CENTRE + INCH / 2)]
    last = beside[-1]
    way = (last - beside[-2]).unit() if len(beside) > 1 else Point(-along.y, along.x)
    drop = min(max(2.5 * (last.x - BEHIND_CENTRE), 1.5 * INCH), 0.7 * (hem - last.y))
    foot = Point(BEHIND_CENTRE, last.y + drop)
    curve = Cubic(last, last + way * (0.45 * drop), foot - Point(0.0, 0.5 * drop), foot)
    line = Path.through(*beside).strokes if len(beside) > 1 else ()
    return FrontFacing(seam, Path((*line, curve, Line(foot, Point(BEHIND_CENTRE, hem)))))


def back_facing(neck: Path, shoulder: Path, width: float) -> tuple[Path, Path]:
    """Return a back neck facing's stretch of shoulder and its outer edge, from there to the centre."""
    seam = shoulder.split_at(width)[0]
    inner = offset_points(tuple(reversed(neck.polyline())), width)
    bottom = meet(inner[-2], inner[-1] - inner[-2], Point(0.0, 0.0), Point(0.0, 1.0)) or Point(0.0, neck.start.y + width)
    along = seam.arrives()
    kept = [p for p in inner[1:-1] if along.cross(p - seam.end) > 1.0 and p.x > 1.0]
    return seam, Path.through(seam.end, *kept, bottom)


def mirrored_in(path: Path, x: float) -> Path:
    """Return the path mirrored in the upright line at `x`."""
    return path.mapped(lambda point: Point(2 * x - point.x, point.y))
