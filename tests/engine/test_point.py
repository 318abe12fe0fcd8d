"""Points and steps, against complex numbers, closed forms and Shapely."""

import cmath
import math

import pytest
from hypothesis import assume, given
from shapely.geometry import LineString

from drafting.engine.point import ORIGIN, Point, meet

from .shapes import numbers, points, repeatable


def as_complex(point: Point) -> complex:
    return complex(point.x, point.y)


def test_a_step_of_three_and_four_is_five_long():
    assert Point(3, 4).size == 5.0
    assert Point(10, 20).distance(Point(13, 24)) == 5.0


@pytest.mark.parametrize(("step", "angle"), [((1, 0), 0), ((0, 1), 90), ((-1, 0), 180), ((0, -1), -90), ((1, 1), 45)])
def test_angles_run_from_away_from_the_fold_toward_straight_down(step, angle):
    assert Point(*step).angle_deg == pytest.approx(angle)


@repeatable
@given(points(), points(), numbers(-5, 5))
def test_steps_add_and_stretch_as_complex_numbers_do(p, q, factor):
    assert as_complex(p + q) == as_complex(p) + as_complex(q)
    assert as_complex(p - q) == as_complex(p) - as_complex(q)
    assert as_complex(p * factor) == pytest.approx(as_complex(p) * factor)
    assert as_complex(-p) == -as_complex(p)


@repeatable
@given(points(), points())
def test_dot_and_cross_are_the_two_parts_of_a_complex_product(p, q):
    product = as_complex(p).conjugate() * as_complex(q)
    assert p.dot(q) == pytest.approx(product.real, abs=1e-6)
    assert p.cross(q) == pytest.approx(product.imag, abs=1e-6)


@repeatable
@given(points(), points(), numbers(-360, 360))
def test_turning_is_multiplying_by_a_complex_number(p, about, angle):
    turned = as_complex(about) + (as_complex(p) - as_complex(about)) * cmath.exp(1j * math.radians(angle))
    assert as_complex(p.turned(angle, about)) == pytest.approx(turned, abs=1e-9)


def test_a_quarter_turn_takes_away_from_the_fold_to_straight_down():
    assert Point(1, 0).turned(90).is_at(Point(0, 1), 1e-15)
    assert Point(5, 2).turned(90, Point(4, 2)).is_at(Point(4, 3), 1e-15)


@repeatable
@given(points(), points(), numbers(-180, 180))
def test_mirroring_is_conjugation_about_the_line(p, through, angle):
    along = Point(1, 0).turned(angle)
    unit = cmath.exp(1j * math.radians(angle))
    mirrored = as_complex(through) + ((as_complex(p) - as_complex(through)) / unit).conjugate() * unit
    assert as_complex(p.mirrored(through, along * 7.5)) == pytest.approx(mirrored, abs=1e-8)


@repeatable
@given(points(), points(), points())
def test_mirroring_twice_comes_back_and_keeps_the_distance_to_the_line(p, through, along):
    assume(along.size > 1)
    once = p.mirrored(through, along)
    assert once.mirrored(through, along).is_at(p, 1e-8)
    assert along.unit().cross(once - through) == pytest.approx(-along.unit().cross(p - through), abs=1e-8)


def test_mirroring_in_the_fold_changes_only_the_side():
    assert Point(3, 8).mirrored(ORIGIN, Point(0, 1)) == Point(-3, 8)


def test_outward_is_up_from_a_top_edge_that_is_walked_away_from_the_fold():
    assert Point(5, 0).outward() == Point(0, -1)


@repeatable
@given(points())
def test_outward_is_square_and_of_unit_length(step):
    assume(step.size > 1e-3)
    assert step.outward().size == pytest.approx(1)
    assert step.unit().dot(step.outward()) == pytest.approx(0, abs=1e-12)
    # Out of a piece that is walked clockwise as drawn means to the left hand of the walker, who sees y grow down.
    assert step.cross(step.outward()) < 0


def test_toward_walks_by_shares():
    assert Point(0, 0).toward(Point(10, 20), 0.25) == Point(2.5, 5)
    assert Point(0, 0).toward(Point(10, 20), 1) == Point(10, 20)


def test_no_direction_has_no_unit():
    with pytest.raises(ZeroDivisionError):
        Point(0, 0).unit()


def test_points_are_equal_only_when_they_are_exactly_equal():
    assert Point(1, 2) == Point(1, 2)
    assert Point(1, 2) != Point(1, 2 + 1e-12)
    assert Point(1, 2).is_at(Point(1, 2 + 1e-12), 1e-9)


@repeatable
@given(points(), numbers(-180, 180), points(), numbers(10, 170))
def test_two_lines_meet_where_shapely_says(a, angle, b, between):
    along_a, along_b = Point(1, 0).turned(angle) * 3.0, Point(1, 0).turned(angle + between) * 0.5
    far = 40000
    one = LineString([(p.x, p.y) for p in (a - along_a * far, a + along_a * far)])
    two = LineString([(p.x, p.y) for p in (b - along_b * far, b + along_b * far)])
    crossing = one.intersection(two)
    assume(not crossing.is_empty)
    met = meet(a, along_a, b, along_b)
    assert met.is_at(Point(crossing.x, crossing.y), 1e-5)


@repeatable
@given(points(), points(), numbers(-180, 180))
def test_parallel_lines_do_not_meet(a, b, angle):
    along = Point(1, 0).turned(angle)
    assert meet(a, along * 2, b, along * -0.25) is None
