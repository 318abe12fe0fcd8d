"""Straight-down curves, level ones and arcs, against closed forms."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.engine.curve import arc, level_both_ends, straight_down
from drafting.engine.point import Point

from .shapes import numbers, points, repeatable, straight_downs


@repeatable
@given(straight_downs())
def test_straight_down_meets_level_edges_square(curve):
    assert curve.direction(0).angle_deg == pytest.approx(90, abs=1e-6)
    assert curve.direction(1).angle_deg == pytest.approx(90, abs=1e-6)


@pytest.mark.parametrize("slant", [1, 5, 10, 20, 25, 35, 45, 55])
def test_straight_down_slants_most_at_its_middle_by_one_and_a_half_times_the_chord(slant):
    # x(t) = dx(3t² − 2t³), so x' = 6·dx·t·s with s = 1 − t. The handles are 0.35 of the height h, so
    # y' = 3h(0.35s² + 0.6st + 0.35t²) = 3h(0.35 − 0.1st), since s² + t² = 1 − 2st. The slant's tangent x'/y' =
    # (dx/h)·2st/(0.35 − 0.1st) rises with st, which is greatest (¼) at the middle: 0.5/0.325 = 1.538 times dx/h.
    height, across = 300.0, 300.0 * math.tan(math.radians(slant)) / (0.5 / 0.325)
    curve = straight_down(Point(10, 20), Point(10 + across, 20 + height))
    slants = [90 - curve.direction(i / 1000).angle_deg for i in range(1001)]
    assert max(slants) == pytest.approx(slant, abs=1e-9)
    assert slants.index(max(slants)) == 500


@repeatable
@given(straight_downs())
def test_two_mirrored_straight_down_curves_are_equally_long(curve):
    mirrored = straight_down(curve.start, Point(2 * curve.start.x - curve.end.x, curve.end.y))
    assert mirrored.length() == pytest.approx(curve.length(), abs=1e-9)


def test_the_handles_of_straight_down_are_shares_of_the_height():
    curve = straight_down(Point(0, 0), Point(30, 100), leave=0.5, arrive=0.35)
    assert curve.out == Point(0, 50)
    assert curve.into == Point(30, 65)


@repeatable
@given(points(), numbers(20, 400), numbers(-100, 100))
def test_level_both_ends_meets_upright_edges_square(start, width, fall):
    curve = level_both_ends(start, start + Point(width, fall))
    assert curve.direction(0).angle_deg == pytest.approx(0, abs=1e-6)
    assert curve.direction(1).angle_deg == pytest.approx(0, abs=1e-6)
    assert curve.out.x - start.x == pytest.approx(width / 3)


# Arcs


@st.composite
def arcs(draw):
    """A start, a direction, a turn of up to a full circle, and a length."""
    turn = draw(st.one_of(numbers(-360, -0.5), numbers(0.5, 360)))
    return draw(points()), draw(numbers(-180, 180)), turn, draw(numbers(50, 2000))


@repeatable
@given(arcs())
def test_an_arc_ends_where_its_chord_says(given_arc):
    start, direction, turn, length = given_arc
    curves = arc(start, direction, turn, length)
    radius = length / math.radians(abs(turn))
    # Closed form: the chord is 2r·sin(turn/2), and it lies half the turn off the start's direction.
    chord = Point(2 * radius * math.sin(math.radians(abs(turn)) / 2), 0).turned(direction + turn / 2)
    assert curves[-1].end.is_at(start + chord, 1e-6)
    assert sum(curve.length() for curve in curves) == pytest.approx(length, abs=1e-5)


@repeatable
@given(arcs())
def test_an_arc_keeps_its_radius_all_along(given_arc):
    start, direction, turn, length = given_arc
    radius = length / math.radians(abs(turn))
    centre = start + Point(radius, 0).turned(direction + math.copysign(90, turn))
    # The worst of a cubic over the angle a is 2/27·sin⁶(a/4)/cos²(a/4) of the radius (from memory: expand |B(t)|²
    # for the handle 4/3·tan(a/4)). At 15 degrees that is 5.9e-9: a millionth of a millimetre
    # on a waist of radius 170 mm.
    worst = 2 / 27 * math.sin(math.radians(3.75)) ** 6 / math.cos(math.radians(3.75)) ** 2
    assert worst < 6e-9
    for curve in arc(start, direction, turn, length):
        for i in range(11):
            assert abs(curve.at(i / 10).distance(centre) - radius) < 1.01 * worst * radius + 1e-9


def test_a_circle_skirts_waist_and_hem_keep_their_radius_within_a_millionth_and_a_hundred_thousandth():
    for radius, within in ((170.0, 1e-6), (1200.0, 1e-5)):
        for curve in arc(Point(0, radius), 0.0, -90.0, radius * math.pi / 2):
            assert all(abs(curve.at(i / 50).size - radius) < within for i in range(51))


@repeatable
@given(arcs())
def test_an_arc_leaves_and_arrives_along_its_directions_and_never_bends(given_arc):
    start, direction, turn, length = given_arc
    curves = arc(start, direction, turn, length)
    heading = direction
    for curve in curves:
        assert curve.direction(0).unit().is_at(Point(1, 0).turned(heading), 1e-9)
        heading += turn / len(curves)
        assert curve.direction(1).unit().is_at(Point(1, 0).turned(heading), 1e-9)
    assert heading == pytest.approx(direction + turn)


def test_a_positive_turn_is_clockwise_as_drawn():
    quarter = arc(Point(0, 0), 0.0, 90.0, 100 * math.pi / 2)
    assert quarter[-1].end.is_at(Point(100, 100), 1e-6)
    assert arc(Point(0, 0), 0.0, -90.0, 100 * math.pi / 2)[-1].end.is_at(Point(100, -100), 1e-6)


@pytest.mark.parametrize("turn", [0.0, 1e-13, -1e-13])
def test_an_arc_of_no_turn_is_straight(turn):
    curves = arc(Point(5, 5), 90.0, turn, 80.0)
    assert len(curves) == 1
    assert curves[0].end.is_at(Point(5, 85), 1e-9)
    assert curves[0].length() == pytest.approx(80)
