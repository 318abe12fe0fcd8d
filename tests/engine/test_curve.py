"""Curves, against SciPy's quadrature and closed forms."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.engine.curve import Cubic, Line
from drafting.engine.point import Point
from drafting.engine.tolerance import FLATTEN

from .shapes import gentle_cubics, hard_cubics, numbers, points, repeatable, straight_downs, true_length

RESULT_FILE = 0.1
"""What the result file promises of its polylines: within this of the true curve's length, mm."""

NANOMETRES = 5e-6
"""What the curve module promises of its lengths, mm: a few nanometres."""


def polyline_length(line) -> float:
    return sum(p.distance(q) for p, q in zip(line, line[1:], strict=False))


# Lines


@repeatable
@given(points(), points(), numbers(0, 1))
def test_a_line_is_as_long_as_it_is_far(p, q, share):
    line = Line(p, q)
    assert line.length() == math.dist((p.x, p.y), (q.x, q.y))
    assert line.length_to(share) == pytest.approx(line.at(share).distance(p), abs=1e-9)
    first, second = line.split(share)
    assert first.end == second.start == line.at(share)
    assert line.reversed() == Line(q, p)


def test_a_line_of_no_length_has_parameter_nought():
    assert Line(Point(1, 1), Point(1, 1)).parameter_at(5) == 0.0


# Length


@repeatable
@given(gentle_cubics())
def test_the_length_of_a_pattern_curve_agrees_with_scipy_to_nanometres(curve):
    assert curve.length() == pytest.approx(true_length(curve), abs=NANOMETRES)


@repeatable
@given(straight_downs())
def test_the_length_of_a_straight_down_curve_agrees_with_scipy_to_nanometres(curve):
    assert curve.length() == pytest.approx(true_length(curve), abs=NANOMETRES)


@repeatable
@given(hard_cubics())
def test_the_length_of_a_harder_curve_agrees_with_scipy_to_a_hundredth_of_what_a_seam_allows(curve):
    assert curve.length() == pytest.approx(true_length(curve), abs=0.005)


def test_a_parabola_has_its_closed_length():
    # y = x² from 0 to 1, raised to a cubic: √5/2 + asinh(2)/4 (from memory; any table of integrals), here in metres.
    size = 1000.0
    curve = Cubic(Point(0, 0), Point(size / 3, 0), Point(size * 2 / 3, size / 3), Point(size, size))
    assert curve.length() == pytest.approx(size * (math.sqrt(5) / 2 + math.asinh(2) / 4), abs=NANOMETRES)


@repeatable
@given(gentle_cubics(), numbers(0, 1))
def test_the_length_up_to_a_parameter_agrees_with_scipy(curve, t):
    assert curve.length_to(t) == pytest.approx(true_length(curve, 0, t), abs=NANOMETRES)


@repeatable
@given(gentle_cubics(), numbers(0, 1))
def test_the_parameter_at_a_distance_is_the_inverse_of_the_length(curve, share):
    distance = share * curve.length()
    assert curve.length_to(curve.parameter_at(distance)) == pytest.approx(distance, abs=1e-6)


@repeatable
@given(gentle_cubics(), numbers(0, 1))
def test_the_length_is_the_inverse_of_the_parameter(curve, t):
    assert curve.parameter_at(curve.length_to(t)) == pytest.approx(t, abs=1e-7)


@repeatable
@given(hard_cubics(), numbers(0, 1))
def test_the_parameter_is_found_on_hard_curves_too(curve, share):
    distance = share * curve.length()
    assert true_length(curve, 0, curve.parameter_at(distance)) == pytest.approx(distance, abs=0.005)


@repeatable
@given(gentle_cubics())
def test_distances_beyond_the_ends_are_held_to_them(curve):
    assert curve.parameter_at(-1.0) == 0.0
    assert curve.parameter_at(curve.length() + 1.0) == 1.0


# Points and directions


@repeatable
@given(gentle_cubics(), numbers(0, 1))
def test_a_point_is_where_de_casteljau_puts_it(curve, t):
    # De Casteljau's corner cutting: another way to the same point than the Bernstein form in the engine.
    row = [curve.start, curve.out, curve.into, curve.end]
    while len(row) > 1:
        row = [p.toward(q, t) for p, q in zip(row, row[1:], strict=False)]
    assert curve.at(t).is_at(row[0], 1e-9)


@repeatable
@given(gentle_cubics(), numbers(0.001, 0.999))
def test_the_direction_is_the_slope_of_the_points(curve, t):
    step = 1e-4
    slope = (curve.at(t + step) - curve.at(t - step)) * (1 / (2 * step))
    assert curve.direction(t).is_at(slope, 1e-3)


@repeatable
@given(gentle_cubics(), numbers(0.05, 0.95))
def test_split_keeps_the_length_and_the_points(curve, t):
    first, second = curve.split(t)
    assert first.start == curve.start
    assert second.end == curve.end
    assert first.end == second.start
    assert first.length() + second.length() == pytest.approx(curve.length(), abs=2 * NANOMETRES)
    for share in (0.0, 0.2, 0.5, 0.9, 1.0):
        assert first.at(share).is_at(curve.at(share * t), 1e-9)
        assert second.at(share).is_at(curve.at(t + share * (1 - t)), 1e-9)


@repeatable
@given(gentle_cubics(), numbers(0, 1))
def test_a_reversed_curve_runs_the_other_way_over_the_same_points(curve, t):
    back = curve.reversed()
    assert back.at(t).is_at(curve.at(1 - t), 1e-9)
    assert back.direction(t).is_at(-curve.direction(1 - t), 1e-6)
    assert back.length() == pytest.approx(curve.length(), abs=1e-9)


@repeatable
@given(gentle_cubics(), points(), numbers(-180, 180), numbers(0, 1))
def test_a_turned_and_slid_curve_keeps_its_length_and_carries_its_points(curve, step, angle, t):
    def change(point):
        return point.turned(angle) + step

    assert curve.mapped(change).length() == pytest.approx(curve.length(), abs=NANOMETRES)
    assert curve.mapped(change).at(t).is_at(change(curve.at(t)), 1e-8)


def test_a_handle_of_no_length_gives_the_direction_of_the_next():
    curve = Cubic(Point(0, 0), Point(0, 0), Point(10, 10), Point(20, 10))
    assert curve.direction(0.0).angle_deg == pytest.approx(45)
    curve = Cubic(Point(0, 0), Point(10, 0), Point(20, 10), Point(20, 10))
    assert curve.direction(1.0).angle_deg == pytest.approx(45)


# Flattening


@repeatable
@given(st.one_of(gentle_cubics(largest=1200.0), hard_cubics(), straight_downs()))
def test_a_flattened_curve_is_within_a_tenth_of_its_true_length(curve):
    line = curve.flattened()
    short = true_length(curve) - polyline_length(line)
    assert -1e-6 < short < RESULT_FILE
    assert short < 1.5 * FLATTEN
    assert (line[0], line[-1]) == (curve.start, curve.end)


@repeatable
@given(gentle_cubics(largest=1200.0))
def test_the_points_of_a_flattened_curve_lie_on_it_at_even_parameters(curve):
    line = curve.flattened()
    for i, point in enumerate(line):
        assert point.is_at(curve.at(i / (len(line) - 1)), 1e-9)


def test_a_straight_curve_is_not_cut_fine():
    assert len(Cubic(Point(0, 0), Point(100, 0), Point(200, 0), Point(300, 0)).flattened()) <= 9
