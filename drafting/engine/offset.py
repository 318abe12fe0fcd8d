"""Seam allowances: each edge offset by its own width, and the corners between them.

The corner rules are those of a cutting table. Lines are run on till they meet, while the corner stays within twice the
wider allowance; else it is cut square across. An allowance that will be turned (a hem, a let-out) ends as the mirror
image of its neighbour's cutting line, so that it lies flat when turned; a tapered hem, which is turned up onto what is wider and
is arched a little, as the mirror image over a level line, so that its edge is as long as where it is sewn. A cup seam's allowance ends square to the
seam. Across a dart's mouth the cutting line is the cap that the folded dart needs.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from shapely import LineString, Polygon, distance, make_valid, points, union_all

from .path import Path
from .point import Point, meet
from .tolerance import TOUCHING

MITRE = 2.0
"""A corner is run to its point while that lies within this many times the wider allowance. Judgement."""
RUNS_ON = 0.98
"""Edges of two allowances that run on in one line (within 11°) have no corner: the allowance steps where they meet."""


FOLD_REACH = 12.0
"""On the fold there is no point to cut off: an allowance runs on to it however steeply it meets."""

NEARLY = 1e-3
"""An offset point this share nearer than its allowance is still on its line: flattening, not a loop."""


class Finish(Enum):
    """How an edge's allowance ends at its corners; the higher number rules where two edges disagree."""

    EXTENDED = 0
    SQUARED = 1
    LET_OUT = 2
    HEM = 3
    TAPERED_HEM = 4


@dataclass(frozen=True, slots=True)
class Margin:
    """One edge of the sewing line with its allowance."""

    name: str
    path: Path
    width: float
    finish: Finish

    @property
    def is_dart(self) -> bool:
        return self.name.startswith("dart ")


def cut_line(margins: list[Margin]) -> tuple[Point, ...]:
    """Return the cutting line round the edges `margins` (walked clockwise), an unclosed ring."""
    walls = [m for m in margins if not m.is_dart]
    offsets = [offset_points(m.path.polyline(), m.width, (m.path.leaves(), m.path.arrives())) for m in walls]
    corners: list[list[Point]] = []
    for i, wall in enumerate(walls):
        j = (i + 1) % len(walls)
        legs = _legs_between(margins, wall, walls[j])
        if legs:
            corners.append(_dart_cap(wall, walls[j], offsets, i, j, legs))
        else:
            corners.append(_corner(wall, walls[j], offsets, i, j))
    ring: list[Point] = []
    for i, wall in enumerate(offsets):
        ring.extend(wall)
        ring.extend(corners[i])
    return _uncrossed(_without_repeats(ring), margins)


def _uncrossed(ring: tuple[Point, ...], margins: list[Margin]) -> tuple[Point, ...]:
    """Return the ring; where wide allowances overlap round a tight curve, the outline of all that they cover."""
    outline = Polygon([(p.x, p.y) for p in ring])
    if outline.is_valid:
        return ring
    sewing = Polygon([(p.x, p.y) for m in margins for p in m.path.polyline()[:-1]])
    if not sewing.is_valid:
        return ring
    covered = union_all([make_valid(outline), sewing])
    parts = [part for part in getattr(covered, "geoms", [covered]) if isinstance(part, Polygon)]
    largest = max(parts, key=lambda part: part.area)
    return tuple(Point(x, y) for x, y in largest.exterior.coords[:-1][:: 1 if largest.exterior.is_ccw else -1])


def offset_points(
    line: tuple[Point, ...], width: float, ends: tuple[Point, Point] | None = None
) -> list[Point]:
    """Return the polyline `width` mm outside `line`: every point moved along the middle of its two normals.

    `ends` are the curve's own directions at its two ends, where the polyline's are a little off.
    """
    if width == 0.0:
        return list(line)
    normals = [(q - p).outward() for p, q in zip(line, line[1:], strict=False)]
    first, last = (ends[0].outward(), ends[1].outward()) if ends else (normals[0], normals[-1])
    moved = [line[0] + first * width]
    for point, before, after in zip(line[1:-1], normals, normals[1:], strict=False):
        x, y = before.x + after.x, before.y + after.y
        out = 2 * width / (x * x + y * y)
        moved.append(Point(point.x + x * out, point.y + y * out))
    moved.append(line[-1] + last * width)
    return _without_loops(line, moved, width)


def _without_loops(line: tuple[Point, ...], moved: list[Point], width: float) -> list[Point]:
    """Drop what an offset inside a tight curve doubles back on: points nearer to the sewing line than the allowance."""
    steps = zip(line, line[1:], moved, moved[1:], strict=False)
    if all((q.x - p.x) * (s.x - r.x) + (q.y - p.y) * (s.y - r.y) > 0 for p, q, r, s in steps):
        return moved
    sewing = LineString([(p.x, p.y) for p in line])
    gaps = distance(points([(p.x, p.y) for p in moved]), sewing)
    near = width * (1 - NEARLY)
    return [p for i, p in enumerate(moved) if gaps[i] >= near or i in (0, len(moved) - 1)]


def _legs_between(margins: list[Margin], before: Margin, after: Margin) -> tuple[Margin, ...]:
    i, j = margins.index(before), margins.index(after)
    between = margins[i + 1 : j] if i < j else margins[i + 1 :] + margins[:j]
    return tuple(m for m in between if m.is_dart)


def _corner(a: Margin, b: Margin, offsets: list[list[Point]], i: int, j: int) -> list[Point]:
    """Join the end of a's offset to the start of b's; trims both where they cross, returns what goes between."""
    line_a, line_b = offsets[i], offsets[j]
    if line_a[-1].is_at(line_b[0], TOUCHING):
        return []
    if _trim_at_crossing(line_a, line_b, 3 * max(a.width, b.width)):
        return []
    corner = a.path.end
    rule = max(a.finish, b.finish, key=lambda finish: finish.value)
    if rule is not Finish.EXTENDED and a.width and b.width:
        turned_first = a.finish is rule
        ends = _turned(a, b, line_a, line_b, turned_first, square=rule is Finish.SQUARED)
        if ends:
            return ends
    limit = (FOLD_REACH if "fold" in (a.name, b.name) else MITRE) * max(a.width, b.width)
    run_on = _run_on_to_crossing(line_a, a.path.arrives(), line_b, b.path.leaves(), limit)
    if run_on is not None:
        return [run_on]
    met = meet(line_a[-1], a.path.arrives(), line_b[0], b.path.leaves())
    if met is None or (met - line_a[-1]).dot(a.path.arrives()) < -TOUCHING:
        return []
    if met.distance(corner) <= limit:
        return [met]
    if a.path.arrives().dot(b.path.leaves()) > RUNS_ON:
        return []
    return _square_across(corner, met, limit, line_a, a.path.arrives(), line_b, b.path.leaves())


def _square_across(corner, met, limit, line_a, along_a, line_b, along_b) -> list[Point]:
    """Cut a long corner off square to the line from the sewing corner to its point, `limit` mm out."""
    out = (met - corner).unit()
    through, across = corner + out * limit, Point(-out.y, out.x)
    first, second = meet(through, across, line_a[-1], along_a), meet(through, across, line_b[0], along_b)
    if first is None or second is None:
        return []
    _trim_end(line_a, first, along_a)
    _trim_start(line_b, second, along_b)
    return [first, second]


def _turned(a: Margin, b: Margin, line_a, line_b, turned_first: bool, *, square: bool) -> list[Point]:
    """End a turned allowance as the mirror image of its neighbour's cutting line (or square to the seam)."""
    corner = a.path.end
    along_a, along_b = a.path.arrives(), b.path.leaves()
    if turned_first:
        seam, neighbour, foot, wide = along_a, along_b, line_b[0], line_a[-1]
    else:
        seam, neighbour, foot, wide = along_b, along_a, line_a[-1], line_b[0]
    on_seam = meet(corner, seam, foot, neighbour)
    if on_seam is None:
        return []
    width = max((a if turned_first else b).width, TOUCHING)
    if on_seam.distance(corner) > MITRE * max(a.width, b.width):
        return []
    outward = seam.outward()
    over = Point(1.0, 0.0) if (a if turned_first else b).finish is Finish.TAPERED_HEM else seam
    ray = outward if square else _mirrored_ray(neighbour, over, outward)
    end = meet(on_seam, ray, wide, seam)
    if end is None or end.distance(on_seam) > 2.5 * width:
        end = meet(on_seam, outward, wide, seam)
    if end is None:
        return []
    if turned_first:
        _trim_end(line_a, end, along_a)
        _trim_start(line_b, on_seam, along_b)
        return [end, on_seam]
    _trim_end(line_a, on_seam, along_a)
    _trim_start(line_b, end, along_b)
    return [on_seam, end]


def _trim_end(line: list[Point], at: Point, along: Point) -> None:
    """End `line` at `at` where it ran beyond."""
    longer = len(line)
    while len(line) > 1 and (line[-1] - at).dot(along) > 0:
        line.pop()
    if len(line) < longer:
        line.append(at)


def _trim_start(line: list[Point], at: Point, along: Point) -> None:
    """Start `line` at `at` where it began before."""
    longer = len(line)
    while len(line) > 1 and (line[0] - at).dot(along) < 0:
        line.pop(0)
    if len(line) < longer:
        line.insert(0, at)


def _mirrored_ray(neighbour: Point, seam: Point, outward: Point) -> Point:
    """The neighbour's cutting line as it would run beyond the seam line if it were mirrored there."""
    mirrored = neighbour.mirrored(Point(0.0, 0.0), seam)
    return mirrored if mirrored.dot(outward) > 0 else -mirrored


def _trim_at_crossing(line_a: list[Point], line_b: list[Point], reach: float) -> bool:
    """Where two offsets cross near their corner (it points inward), cut both back to the crossing."""
    end, start = line_a[-1], line_b[0]
    for ia in range(len(line_a) - 1, 0, -1):
        if line_a[ia].distance(end) > reach:
            break
        for ib in range(len(line_b) - 1):
            if line_b[ib].distance(start) > reach:
                break
            point = _crossing(line_a[ia - 1], line_a[ia], line_b[ib], line_b[ib + 1])
            if point is not None:
                line_a[ia:] = [point]
                line_b[: ib + 1] = [point]
                return True
    return False


def _run_on_to_crossing(line_a, along_a: Point, line_b, along_b: Point, limit: float) -> Point | None:
    """Where only one of two offsets, run on, crosses the other (it is much the narrower), cut that one back to there."""
    tail, head = [line_a[-1], line_a[-1] + along_a * limit], [line_b[0] - along_b * limit, line_b[0]]
    if _trim_at_crossing(tail, line_b, 3 * limit):
        return line_b[0]
    if _trim_at_crossing(line_a, head, 3 * limit):
        return line_a[-1]
    return None


def _crossing(p: Point, q: Point, r: Point, s: Point) -> Point | None:
    """Return where pq crosses rs; in plain numbers, for every corner asks this some thirty times."""
    ax, ay, bx, by, dx, dy = q.x - p.x, q.y - p.y, s.x - r.x, s.y - r.y, r.x - p.x, r.y - p.y
    cross = ax * by - ay * bx
    if abs(cross) < 1e-12:
        return None
    t = (dx * by - dy * bx) / cross
    if not 0 <= t <= 1:
        return None
    u = (dx * ay - dy * ax) / cross
    return Point(p.x + ax * t, p.y + ay * t) if 0 <= u <= 1 else None


def _dart_cap(a: Margin, b: Margin, offsets: list[list[Point]], i: int, j: int, legs: tuple[Margin, ...]) -> list[Point]:
    """Return the cap across a dart's mouth: the dart folded toward the centre (one in an upright edge: down), cut along the
    allowance line."""
    mouth_a, mouth_b = a.path.end, b.path.start
    leg_a, leg_b = legs[0].path.leaves(), -legs[-1].path.arrives()
    upright = abs(mouth_a.y - mouth_b.y) > abs(mouth_a.x - mouth_b.x)
    centre_first = mouth_a.y > mouth_b.y if upright else abs(mouth_a.x) < abs(mouth_b.x)
    middle, axis = mouth_a.toward(mouth_b, 0.5), (leg_a + leg_b).unit()
    if centre_first:
        foot, along, leg, mouth = offsets[i][-1], a.path.arrives(), leg_a, mouth_a
    else:
        foot, along, leg, mouth = offsets[j][0], -b.path.leaves(), leg_b, mouth_b
    on_leg = meet(mouth, leg, foot, along)
    if on_leg is None:
        return []
    onward = (-along).mirrored(Point(0.0, 0.0), leg)
    peak = meet(on_leg, onward, middle, axis)
    if peak is None:
        return []
    other = on_leg.mirrored(middle, axis)
    first, last = (on_leg, other) if centre_first else (other, on_leg)
    _trim_end(offsets[i], first, a.path.arrives())
    _trim_start(offsets[j], last, b.path.leaves())
    return [on_leg, peak, other] if centre_first else [other, peak, on_leg]


def _without_repeats(ring: list[Point]) -> tuple[Point, ...]:
    kept: list[Point] = []
    for point in ring:
        if not kept or not kept[-1].is_at(point, TOUCHING):
            kept.append(point)
    if len(kept) > 1 and kept[0].is_at(kept[-1], TOUCHING):
        kept.pop()
    return tuple(kept)
