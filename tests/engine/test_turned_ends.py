"""Allowances that are turned, squared or folded: each is turned over here by Shapely or by hand, and must fit."""

import math

import pytest
from shapely.geometry import Polygon

from drafting.engine.curve import arc
from drafting.engine.offset import Finish, Margin, cut_line
from drafting.engine.path import Path
from drafting.engine.point import Point

from .outlines import FAR, mirrored, outside_of, ring_of, shape, walls


def trapezium(taper: float):
    """A skirt's front, wider at the hem by `taper` mm (narrower where negative), walked clockwise."""
    return ring_of((0, 0), (250, 0), (250 + taper, 600), (0, 600))


@pytest.mark.parametrize("taper", [-60, -35, -5, 0, 5, 35, 60, 120])
@pytest.mark.parametrize("hem", [12.7, 50.8])
def test_a_turned_up_hem_lies_on_the_piece_and_ends_at_its_cut_edge(taper, hem):
    ring = trapezium(taper)
    finishes = [Finish.EXTENDED, Finish.LET_OUT, Finish.HEM, Finish.EXTENDED]
    whole = shape(cut_line(walls(ring, [12.7, 25.4, hem, 0], finishes)))
    turned = mirrored(whole.intersection(outside_of(ring[2], ring[3])), ring[2], ring[3] - ring[2])
    kept = whole.difference(outside_of(ring[2], ring[3]))
    assert turned.difference(kept.buffer(1e-6)).area < 1e-6
    # And it ends at the same cut edge as what it lies on: nothing is missing in the strip that it covers.
    strip = kept.intersection(Polygon([(-1, 600 - hem), (FAR, 600 - hem), (FAR, 600), (-1, 600)]))
    assert strip.symmetric_difference(turned).area < 1e-6


@pytest.mark.parametrize("top", [-80, -20, 0, 20, 80])
@pytest.mark.parametrize("taper", [-35, 0, 60])
def test_a_let_out_side_turned_over_its_seam_lies_on_the_piece(top, taper):
    ring = ring_of((0, 0), (250, top), (250 + taper, 600), (0, 600))
    finishes = [Finish.EXTENDED, Finish.LET_OUT, Finish.EXTENDED, Finish.EXTENDED]
    whole = shape(cut_line(walls(ring, [12.7, 38.1, 12.7, 0], finishes)))
    assert whole.is_valid
    beyond = outside_of(ring[1], ring[2])
    turned = mirrored(whole.intersection(beyond), ring[1], ring[2] - ring[1])
    assert turned.difference(whole.difference(beyond).buffer(1e-6)).area < 1e-6


def test_a_curved_hem_is_mirrored_where_it_meets_the_side():
    # An A-line hem is an arc square to both ends: there the turned end is the side's own cutting line, run on. The
    # hem's cutting line is moved by the normals of its polyline, hence the hundredth.
    sweep = 12.0
    radius = 1200.0
    hem = Path(arc(Point(0, radius), 0.0, -sweep, radius * math.radians(sweep))).reversed()
    corner = hem.start
    inner = corner * (600 / radius)
    margins = [
        Margin("waist", Path.through(Point(0, 600), inner), 12.7, Finish.EXTENDED),
        Margin("side", Path.through(inner, corner), 25.4, Finish.LET_OUT),
        Margin("hem", hem, 25.4, Finish.HEM),
        Margin("fold", Path.through(hem.end, Point(0, 600)), 0.0, Finish.EXTENDED),
    ]
    outline = cut_line(margins)
    assert shape(outline).is_valid
    lowest = max((p for p in outline if p.x > 100), key=lambda p: p.size)
    side = (corner - inner).unit()
    assert abs(side.cross(lowest - corner)) == pytest.approx(25.4, abs=1e-6)
    assert side.dot(lowest - corner) == pytest.approx(25.4, abs=0.01)


# Squared seam ends


@pytest.mark.parametrize("lean", [-30, -12, 0, 12, 30])
@pytest.mark.parametrize("width", [6.35, 12.7])
def test_the_allowances_of_two_mating_seams_end_alike(lean, width):
    """Two cups whose top edge runs on level across a seam that slants: sewn, both allowances are to match."""
    foot = 150 * math.tan(math.radians(lean))
    left = ring_of((-120, 0), (0, 0), (foot, 150), (-120, 150))
    right = ring_of((0, 0), (120, 0), (120, 150), (foot, 150))
    seam = Finish.SQUARED
    plain = Finish.EXTENDED
    one = cut_line(walls(left, [10, width, 10, 10], [plain, seam, plain, plain]))
    two = cut_line(walls(right, [10, 10, 10, width], [plain, plain, plain, seam]))
    down = Point(foot, 150).unit()
    over = [_flap(ring, down, side) for ring, side in ((one, 1), (two, -1))]
    # Sewn with right sides together, one flap lies on the mirror image of the other: same places along, same widths.
    assert over[0] == pytest.approx(over[1], abs=1e-6)
    along = over[0][0]
    # The seam's line meets the top's cutting line 10 mm up, which is 10/cos of the slant along the seam; the flap is
    # a rectangle from there to the like place at the foot.
    assert along == pytest.approx(-10 / math.cos(math.radians(lean)), abs=1e-6)
    assert over[0][1] == pytest.approx(width, abs=1e-6)


def _flap(ring, down: Point, side: int):
    """Return (from, width, to, width) of what lies beyond a seam through the origin that runs along `down`."""
    corners = [(down.dot(p), -side * down.cross(p)) for p in ring if -side * down.cross(p) > 1e-6]
    return [value for corner in sorted(corners) for value in corner]


# Darts


def darted(width: float, depth: float, tilt_deg: float, slant: float):
    """A bodice's waist (`slant` lower at the fold) with one dart, its mates closed to one straight line."""
    middle = Point(130.0, 300.0)
    half = math.degrees(math.atan2(width / 2, depth))
    point = middle - Point(0, depth).turned(tilt_deg)
    leg = math.hypot(width / 2, depth)
    down = Point(0, leg).turned(tilt_deg)
    side_mouth, centre_mouth = point + down.turned(-half), point + down.turned(half)
    # Closing the dart turns the side part about its point, clockwise as drawn, by the dart's whole angle. The waist
    # runs on straight then: the centre's part leaves at `slant`, and the side's part is that line turned back.
    run = Point(-1.0, 0.0).turned(-slant)
    centre_end = centre_mouth + run * (centre_mouth.x / -run.x)
    side_run = run.turned(-2 * half)
    side_end = side_mouth - side_run * 110
    top_side = Point(side_end.x, 0.0)
    names = [
        ("top", Point(0, 0), top_side, 12.7), ("side", top_side, side_end, 25.4),
        ("waist 1", side_end, side_mouth, 12.7), ("dart 1 a", side_mouth, point, 0.0),
        ("dart 1 b", point, centre_mouth, 0.0), ("waist 2", centre_mouth, centre_end, 12.7),
        ("fold", centre_end, Point(0, 0), 0.0),
    ]  # fmt: skip
    margins = [Margin(name, Path.through(p, q), width, Finish.EXTENDED) for name, p, q, width in names]
    return margins, point, half


@pytest.mark.parametrize("width", [12.0, 25.0, 32.0])
@pytest.mark.parametrize("tilt", [-8.0, 0.0, 8.0])
@pytest.mark.parametrize("slant", [-10.0, 0.0, 6.0])
def test_folded_toward_the_centre_a_darts_cap_lies_along_the_waists_allowance(width, tilt, slant):
    margins, point, half = darted(width, 110.0, tilt, slant)
    outline = cut_line(margins)
    assert shape(outline).is_valid
    waist = margins[5].path
    centre_mouth, side_mouth = waist.start, margins[2].path.end
    leg_b, leg_a = centre_mouth - point, side_mouth - point
    allowance = (waist.start + waist.leaves().outward() * 12.7, waist.leaves())

    def off_the_allowance_line(p: Point) -> float:
        return allowance[1].cross(p - allowance[0])

    cap = [
        p for p in outline
        if leg_b.cross(p - point) <= 1e-6 and leg_a.cross(p - point) >= -1e-6 and (p - point).size > leg_a.size - 1
    ]  # fmt: skip
    assert len(cap) == 3
    side, peak, centre = cap
    # Sewn along its legs and pressed toward the centre, the dart's centre half is folded over the centre's leg: the
    # cap's centre half must come to lie on the waist's own cutting line.
    assert off_the_allowance_line(centre) == pytest.approx(0, abs=0.1)
    assert off_the_allowance_line(peak.mirrored(point, leg_b)) == pytest.approx(0, abs=0.1)
    # Its other half comes back over the dart's middle on top of the first: fold over the middle, then over the leg.
    middle = (leg_a.unit() + leg_b.unit()).unit()
    assert off_the_allowance_line(side.mirrored(point, middle).mirrored(point, leg_b)) == pytest.approx(0, abs=0.1)
    # And the side's waist, turned to the closed dart, carries its own cutting line on from there.
    side_start = margins[2].path.end + margins[2].path.arrives().outward() * 12.7
    assert off_the_allowance_line(side_start.turned(2 * half, point)) == pytest.approx(0, abs=0.1)


def test_a_dart_of_the_skirt_opens_upward_and_its_cap_stands_up():
    names = [
        ("waist 1", (0, 0), (90, 0), 12.7), ("dart 1 a", (90, 0), (102, 130), 0.0),
        ("dart 1 b", (102, 130), (114, 0), 0.0), ("waist 2", (114, 0), (200, 0), 12.7),
        ("side", (200, 0), (240, 500), 25.4), ("hem", (240, 500), (0, 500), 50.8), ("fold", (0, 500), (0, 0), 0.0),
    ]  # fmt: skip
    margins = [Margin(n, Path.through(Point(*p), Point(*q)), w, Finish.EXTENDED) for n, p, q, w in names]
    outline = cut_line(margins)
    assert shape(outline).is_valid
    peak = min(outline, key=lambda p: p.y)
    assert peak.x == pytest.approx(102)
    # Folded over the centre's leg, the peak lies on the level allowance line 12.7 above the waist.
    assert peak.mirrored(Point(90, 0), Point(12, 130)).y == pytest.approx(-12.7, abs=0.1)
