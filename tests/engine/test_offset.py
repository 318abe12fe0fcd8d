"""Seam allowances: widths and corners against Shapely's buffers, turned ends and dart caps by folding them."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Place

from drafting.engine.curve import Cubic, arc
from drafting.engine.offset import MITRE, Finish, Margin, cut_line, offset_points
from drafting.engine.path import Path
from drafting.engine.point import ORIGIN, Point
from drafting.engine.tolerance import SLIVER

from .shapes import convex_rings, gentle_cubics, numbers, pairs, repeatable

FAR = 5000.0


def walls(ring, widths, finishes=None):
    """Return the margins of a ring of straight edges, one width and one finish each."""
    finishes = finishes or [Finish.EXTENDED] * len(ring)
    ends = (*ring[1:], ring[0])
    return [
        Margin(f"edge {i}", Path.through(p, q), width, finish)
        for i, (p, q, width, finish) in enumerate(zip(ring, ends, widths, finishes, strict=True))
    ]


def ring_of(*corners):
    return tuple(Point(x, y) for x, y in corners)


def shape(ring) -> Polygon:
    return Polygon(pairs(ring))


def angles_deg(ring):
    """Return the inner angle at the start of each edge."""
    found = []
    for before, here, after in zip((ring[-1], *ring[:-1]), ring, (*ring[1:], ring[0]), strict=True):
        a, b = before - here, after - here
        found.append(math.degrees(math.atan2(abs(a.cross(b)), a.dot(b))))
    return found


def outside_of(p: Point, q: Point, width: float = 0.0) -> Polygon:
    """Return everything more than `width` mm outside the line from p to q (a very large box)."""
    along, out = (q - p).unit(), (q - p).outward()
    base = p + out * width
    return shape([base - along * FAR, base + along * FAR, base + along * FAR + out * FAR, base - along * FAR + out * FAR])


def mirrored(polygon, through: Point, along: Point):
    """Return `polygon` folded over a line, by Shapely's affine maps: turn the line level, flip, turn back."""
    origin = (through.x, through.y)
    level = affinity.rotate(polygon, -along.angle_deg, origin=origin)
    return affinity.rotate(affinity.scale(level, 1, -1, origin=origin), along.angle_deg, origin=origin)


# Widths and plain corners


@repeatable
@given(convex_rings(), numbers(3, 50))
def test_equal_widths_give_shapelys_mitred_buffer(ring, width):
    assume(min(angles_deg(ring)) > 61)
    outline = shape(cut_line(walls(ring, [width] * len(ring))))
    wanted = shape(ring).buffer(width, join_style="mitre", mitre_limit=10)
    assert outline.area == pytest.approx(wanted.area, rel=0.001)
    assert outline.symmetric_difference(wanted).area < 0.001 * wanted.area


@repeatable
@given(convex_rings(), st.data())
def test_unequal_widths_give_the_meeting_of_the_moved_edges(ring, data):
    widths = [data.draw(numbers(3, 50)) for _ in ring]
    wanted = Polygon([(-2000, -2000), (2000, -2000), (2000, 2000), (-2000, 2000)])
    for p, q, width in zip(ring, (*ring[1:], ring[0]), widths, strict=True):
        wanted = wanted.difference(outside_of(p, q, width))
    assume(_no_corner_is_long(ring, widths) and _every_edge_is_left(ring, wanted))
    outline = shape(cut_line(walls(ring, widths)))
    assert outline.is_valid
    assert outline.symmetric_difference(wanted).area < 0.001 * wanted.area


def _no_corner_is_long(ring, widths):
    for angle, before, after in zip(angles_deg(ring), (widths[-1], *widths[:-1]), widths, strict=True):
        turn = math.radians(angle)
        # The corner's distance from the two lines' meeting, by the law of cosines in the kite of the two widths.
        out = math.sqrt(before**2 + after**2 + 2 * before * after * math.cos(turn)) / math.sin(turn)
        if out > MITRE * max(before, after) - 1e-6 or after < before * -math.cos(turn) or before < after * -math.cos(turn):
            return False
    return True


def _every_edge_is_left(ring, wanted):
    return len(wanted.exterior.coords) - 1 == len(ring)


@repeatable
@given(convex_rings(fewest=3, most=4), numbers(3, 20))
def test_a_corner_sharper_than_the_limit_is_cut_square_across_at_twice_the_width(ring, width):
    assume(min(angles_deg(ring)) < 59 and min(angles_deg(ring)) > 12)
    outline = shape(cut_line(walls(ring, [width] * len(ring))))
    wanted = shape(ring).buffer(width, join_style="mitre", mitre_limit=10)
    # Sixty degrees is where width/sin(angle/2) is twice the width. Beyond, take off what lies past that distance.
    for corner, angle, before, after in zip(
        ring, angles_deg(ring), (ring[-1], *ring[:-1]), (*ring[1:], ring[0]), strict=True
    ):
        if angle < 60:
            out = -((before - corner).unit() + (after - corner).unit()).unit()
            across = Point(out.y, -out.x)
            wanted = wanted.difference(_beyond(corner + out * (MITRE * width), out, across))
    assert outline.is_valid
    assert outline.symmetric_difference(wanted).area < 0.001 * wanted.area


def _beyond(through, out, across):
    left, right = through - across * FAR, through + across * FAR
    return shape([left, right, right + out * FAR, left + out * FAR])


def test_a_corner_at_the_limit_keeps_its_point():
    side = 200.0
    ring = ring_of((0, 0), (side, 0), (side / 2, side * math.sqrt(3) / 2))
    assert angles_deg(ring) == pytest.approx([60, 60, 60])
    # A whisker under the limit on all three corners: the wider allowance is that of one edge.
    outline = cut_line(walls(ring, [10, 10.001, 10]))
    assert max(p.distance(c) for p in outline for c in ring if p.distance(c) < 25) == pytest.approx(20, abs=0.01)


def test_on_the_fold_allowances_end_at_the_fold():
    ring = ring_of((0, 0), (100, 0), (100, 200), (0, 200))
    outline = shape(cut_line(walls(ring, [10, 20, 30, 0])))
    assert outline.bounds == (0, -10, 120, 230)
    assert outline.area == 120 * 240


def test_a_slanting_edge_is_run_on_to_the_fold():
    # A pointed basque: its allowance line, run on, meets the fold 10/cos of the slope below the point.
    ring = ring_of((0, 0), (100, 0), (100, 50), (0, 120))
    outline = shape(cut_line(walls(ring, [10, 10, 10, 0])))
    slope = math.atan2(70, 100)
    assert outline.bounds[0] == pytest.approx(0)
    assert outline.bounds[3] == pytest.approx(120 + 10 / math.cos(slope))


@pytest.mark.parametrize("rise", [10, 38.1, 80])
def test_an_edge_that_rises_from_the_fold_does_not_cross_it(rise):
    # A sweetheart's dip: square to the edge, the allowance would stand beyond the fold; it is cut back to it.
    ring = ring_of((0, rise), (100, 0), (100, 200), (0, 200))
    outline = shape(cut_line(walls(ring, [12.7, 12.7, 12.7, 0])))
    assert outline.is_valid
    assert outline.bounds[0] == 0
    at_the_fold = min(y for x, y in outline.exterior.coords if x == 0)
    assert at_the_fold == pytest.approx(rise - 12.7 / math.cos(math.atan2(rise, 100)))


def test_no_allowance_is_the_sewing_line_itself():
    ring = ring_of((0, 0), (100, 0), (100, 50), (0, 120))
    assert cut_line(walls(ring, [0, 0, 0, 0])) == ring


@repeatable
@given(gentle_cubics(smallest=100), numbers(3, 25))
def test_every_point_beside_a_curve_is_its_width_away(curve, width):
    line = curve.flattened()
    radius = min(_radius(curve, i / 200) for i in range(201))
    assume(radius > 2 * width)
    sewn = LineString(pairs(line))
    moved = offset_points(line, width)
    assert len(moved) == len(line)
    for before, after in zip(line, moved, strict=True):
        # A moved vertex is the mitre of two steps: width/cos of half the turn between them, so a trace further out.
        assert sewn.distance(Place(after.x, after.y)) == pytest.approx(width, abs=0.05)
        assert before.distance(after) == pytest.approx(width, rel=0.02)


def _radius(curve: Cubic, t: float) -> float:
    """Return the radius of curvature, |B'|³ / |B' × B''| with B'' by differences."""
    step = 1e-4
    low, high = max(0.0, t - step), min(1.0, t + step)
    first = curve.direction(t)
    second = (curve.direction(high) - curve.direction(low)) * (1 / (high - low))
    bend = abs(first.cross(second))
    return first.size**3 / bend if bend > 1e-9 else math.inf


def test_a_circle_is_offset_to_a_wider_circle():
    radius, width = 150.0, 12.7
    curves = arc(Point(0, -radius), 0.0, 360.0, 2 * math.pi * radius)
    margins = [Margin(f"edge {i}", Path.of(curve), width, Finish.EXTENDED) for i, curve in enumerate(curves)]
    for point in cut_line(margins):
        assert point.distance(ORIGIN) == pytest.approx(radius + width, abs=0.05)


# Inward corners


def test_two_edges_that_meet_inward_are_cut_back_to_where_their_allowances_cross():
    ring = ring_of((0, 0), (100, 0), (100, 60), (200, 60), (200, 160), (0, 160))
    outline = shape(cut_line(walls(ring, [10, 15, 20, 10, 10, 10])))
    assert outline.is_valid
    assert (115, 40) in set(outline.exterior.coords)
    # 100×60 and 200×100, with their allowances: 125 × 50 above the inward corner's line, 220 × 130 below it.
    assert outline.area == pytest.approx(125 * 50 + 220 * 130)


# Turned ends


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
    # An A-line hem is an arc square to both ends: there the turned end is the side's own cutting line, run on. The hem's
    # cutting line is moved by the normals of its polyline, hence the hundredth.
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


# Everything at once


@repeatable
@given(convex_rings(radius=(120.0, 500.0)), st.data())
def test_the_cutting_line_of_any_straight_piece_is_simple_and_holds_its_sewing_line(ring, data):
    assume(min(angles_deg(ring)) > 35)
    widths = [data.draw(st.sampled_from([0.0, 6.35, 12.7, 25.4, 38.1])) for _ in ring]
    finishes = [data.draw(st.sampled_from(list(Finish))) for _ in ring]
    assume(min(p.distance(q) for p, q in zip(ring, (*ring[1:], ring[0]), strict=True)) > 100)
    outline = shape(cut_line(walls(ring, widths, finishes)))
    assert outline.is_valid
    assert outline.buffer(SLIVER).contains(shape(ring))
    # No corner is drawn into a tail: it ends within the limit, and a mirrored end within 2½ widths of that.
    assert shape(ring).buffer((MITRE + 2.5) * max(widths) + 0.1).contains(outline)


@st.composite
def curved_pieces(draw):
    """Convex polygons whose edges are bowed out or hollowed by up to an eighth of their length."""
    ring = draw(convex_rings(fewest=4, most=6, radius=(200.0, 500.0)))
    assume(min(angles_deg(ring)) > 60)
    margins = []
    for i, (p, q) in enumerate(zip(ring, (*ring[1:], ring[0]), strict=True)):
        chord = q - p
        bow = chord.outward() * (chord.size * draw(numbers(-0.12, 0.12)))
        curve = Cubic(p, p.toward(q, 0.33) + bow, p.toward(q, 0.67) + bow, q)
        width, finish = draw(st.sampled_from([0.0, 6.35, 12.7, 25.4])), draw(st.sampled_from(list(Finish)))
        margins.append(Margin(f"edge {i}", Path.of(curve), width, finish))
    assume(min(margin.path.length() for margin in margins) > 100)
    return margins


@repeatable
@given(curved_pieces())
def test_the_cutting_line_of_any_curved_piece_is_simple_and_holds_its_sewing_line(margins):
    net = shape([p for margin in margins for p in margin.path.polyline()[:-1]])
    assume(net.is_valid)
    outline = shape(cut_line(margins))
    assert outline.is_valid
    assert outline.buffer(SLIVER).contains(net)


@repeatable
@given(curved_pieces())
def test_away_from_its_corners_every_allowance_is_as_wide_as_was_asked(margins):
    ring = cut_line(margins)
    outline = LineString(pairs([*ring, ring[0]]))
    for margin in margins:
        length = margin.path.length()
        for share in (0.4, 0.5, 0.6):
            here = margin.path.at(share * length)
            out = margin.path.direction_at(share * length).outward()
            ray = LineString(pairs([here - out * 2, here + out * (margin.width + 2)]))
            crossing = ray.intersection(outline)
            assert crossing.geom_type == "Point"
            assert here.distance(Point(crossing.x, crossing.y)) == pytest.approx(margin.width, abs=0.5)
