"""Seam allowances: widths and plain corners, against Shapely's buffers and closed forms."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Place

from drafting.engine.curve import Cubic, arc
from drafting.engine.offset import Finish, Margin, cut_line, offset_points
from drafting.engine.path import Path
from drafting.engine.point import ORIGIN, Point
from drafting.engine.tolerance import SLIVER

from .outlines import angles_deg, beyond, outside_of, ring_of, shape, walls
from .shapes import convex_rings, gentle_cubics, numbers, pairs, repeatable

LIMIT = 2.0
"""A corner is run to its point within this many times the wider allowance; else it is cut square across."""


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
        if out > LIMIT * max(before, after) - 1e-6:
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
            wanted = wanted.difference(beyond(corner + out * (LIMIT * width), out))
            cut = corner + out * (LIMIT * width)
            assert outline.exterior.distance(Place(cut.x, cut.y)) < 1e-6
    assert outline.is_valid
    assert outline.symmetric_difference(wanted).area < 0.001 * wanted.area


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


def test_a_polylines_corner_is_moved_to_where_both_moved_lines_meet():
    assert offset_points(ring_of((0, 0), (100, 0), (100, 100)), 10) == list(ring_of((0, -10), (110, -10), (110, 100)))


# Inward corners


def test_two_edges_that_meet_inward_are_cut_back_to_where_their_allowances_cross():
    ring = ring_of((0, 0), (100, 0), (100, 60), (200, 60), (200, 160), (0, 160))
    outline = shape(cut_line(walls(ring, [10, 15, 20, 10, 10, 10])))
    assert outline.is_valid
    assert (115, 40) in set(outline.exterior.coords)
    # 100×60 and 200×100, with their allowances: 125 × 50 above the inward corner's line, 220 × 130 below it.
    assert outline.area == pytest.approx(125 * 50 + 220 * 130)


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
    assert shape(ring).buffer((LIMIT + 2.5) * max(widths) + 0.1).contains(outline)


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


def test_an_allowance_that_changes_along_a_straight_edge_steps_where_the_edges_meet():
    """A zip's edge of 1 in above a seam of ½ in, one degree off its line: the step lies at their corner, not a point run out of sight."""
    low, corner, top = Point(0, 100), Point(0, 50), Point(0.9, 0)
    right = [Point(60, 0), Point(60, 100)]
    walked = ((low, corner, 12.7), (corner, top, 25.4), (top, right[0], 12.7), (*right, 12.7), (right[1], low, 12.7))
    margins = [Margin(f"edge {n}", Path.through(p, q), width, Finish.EXTENDED) for n, (p, q, width) in enumerate(walked)]
    ring = shape(cut_line(margins)).exterior
    assert ring.distance(Place(0.45, 25)) == pytest.approx(25.4, abs=0.05)
    assert ring.distance(Place(0, 75)) == pytest.approx(12.7, abs=0.05)
