"""Paths: walking along them, splitting them, finding levels, turning and mirroring them."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import brentq
from shapely.geometry import LineString, MultiPoint

from drafting.engine.curve import Cubic, Line, arc, straight_down
from drafting.engine.errors import DraftingError
from drafting.engine.path import Path
from drafting.engine.point import ORIGIN, Point
from drafting.engine.tolerance import TOUCHING

from .shapes import gentle_cubics, numbers, pairs, paths, points, repeatable, straight_downs, true_length

QUARTER_TURN = Path(arc(Point(0, 0), 0.0, 90.0, 100 * math.pi / 2))
"""A quarter of a circle of radius 100 about (0, 100), walked from its top down to (100, 100)."""


def on_circle(distance: float) -> Point:
    angle = distance / 100
    return Point(100 * math.sin(angle), 100 - 100 * math.cos(angle))


def test_a_path_through_points_is_as_long_as_its_lines():
    path = Path.through(Point(0, 0), Point(3, 4), Point(3, 10))
    assert path.length() == 11
    assert (path.start, path.end) == (Point(0, 0), Point(3, 10))


@repeatable
@given(paths())
def test_a_path_is_as_long_as_scipy_says_its_strokes_are(path):
    lengths = [true_length(s) if isinstance(s, Cubic) else s.start.distance(s.end) for s in path.strokes]
    assert path.length() == pytest.approx(sum(lengths), abs=1e-5)


@repeatable
@given(paths(), paths())
def test_paths_are_joined_end_to_end(first, second):
    moved = second.moved(first.end.x - second.start.x, first.end.y - second.start.y)
    joined = first + moved
    assert joined.length() == pytest.approx(first.length() + second.length(), abs=1e-6)
    assert (joined.start, joined.end) == (first.start, moved.end)


# Walking


@pytest.mark.parametrize("distance", [0, 1, 20, 26.18, 50, 78.5, 120, 157])
def test_on_a_circle_points_and_directions_are_where_trigonometry_puts_them(distance):
    assert QUARTER_TURN.at(distance).is_at(on_circle(distance), 1e-5)
    assert QUARTER_TURN.direction_at(distance).angle_deg == pytest.approx(math.degrees(distance / 100), abs=1e-5)


def test_on_lines_points_and_directions_are_where_one_can_count_them():
    path = Path.through(Point(0, 0), Point(10, 0), Point(10, 20))
    assert path.at(4) == Point(4, 0)
    assert path.at(15) == Point(10, 5)
    assert path.direction_at(4) == Point(1, 0)
    assert path.direction_at(15) == Point(0, 1)


def test_beyond_its_ends_a_path_stands_still():
    path = Path.through(Point(0, 0), Point(10, 0), Point(10, 20))
    assert path.at(-5) == Point(0, 0)
    assert path.at(99) == Point(10, 20)


@repeatable
@given(paths())
def test_it_leaves_and_arrives_along_its_first_and_last_strokes(path):
    first, last = path.strokes[0], path.strokes[-1]
    step = 1e-5
    assert path.leaves().is_at((first.at(step) - first.start).unit(), 1e-3)
    assert path.arrives().is_at((last.end - last.at(1 - step)).unit(), 1e-3)
    assert path.leaves().size == pytest.approx(1)


@repeatable
@given(paths(), numbers(0, 1))
def test_a_reversed_path_is_walked_from_the_other_end(path, share):
    distance = share * path.length()
    assert path.reversed().at(path.length() - distance).is_at(path.at(distance), 1e-4)
    assert path.reversed().reversed() == path


# Splitting


@repeatable
@given(paths(), numbers(0.01, 0.99))
def test_split_keeps_the_length_the_points_and_the_ends(path, share):
    distance = share * path.length()
    first, second = path.split_at(distance)
    assert first.length() == pytest.approx(distance, abs=2 * TOUCHING)
    assert second.length() == pytest.approx(path.length() - distance, abs=1e-5)
    assert (first.start, second.end) == (path.start, path.end)
    assert first.end.is_at(second.start, TOUCHING)
    for part in (0.25, 0.75):
        assert first.at(part * distance).is_at(path.at(part * distance), 1e-4)
        beyond = part * second.length()
        assert second.at(beyond).is_at(path.at(distance + beyond), 1e-4)


def test_split_at_a_joint_cuts_no_stroke():
    path = Path.through(Point(0, 0), Point(10, 0), Point(10, 20))
    first, second = path.split_at(10)
    assert first == Path.of(Line(Point(0, 0), Point(10, 0)))
    assert second == Path.of(Line(Point(10, 0), Point(10, 20)))


@pytest.mark.parametrize("off", [-5e-7, 5e-7])
def test_split_within_a_rounding_error_of_a_joint_leaves_no_crumb(off):
    path = Path.through(Point(0, 0), Point(10, 0), Point(10, 20))
    first, second = path.split_at(10 + off)
    assert (len(first.strokes), len(second.strokes)) == (1, 1)


@pytest.mark.parametrize("distance", [-1.0, 30.5, 100.0])
def test_split_beyond_an_end_is_refused_with_both_lengths(distance):
    path = Path.through(Point(0, 0), Point(10, 0), Point(10, 20))
    with pytest.raises(DraftingError, match=rf"{distance:.3f} mm.* 30\.000 mm"):
        path.split_at(distance)


# Levels


@repeatable
@given(straight_downs(), numbers(0.02, 0.98))
def test_the_distance_at_a_level_agrees_with_scipy(curve, share):
    level = curve.start.y + share * (curve.end.y - curve.start.y)
    t = brentq(lambda t: curve.at(t).y - level, 0, 1, xtol=1e-14)
    # The crossing's parameter is solved to 1e-7, which on a curve of a metre is a ten-thousandth of a millimetre.
    assert Path.of(curve).distance_at_level(level) == pytest.approx(true_length(curve, 0, t), abs=5e-4)


@pytest.mark.parametrize("level", [1, 13.4, 50, 99])
def test_the_distance_at_a_level_of_a_circle_is_an_arc_cosine(level):
    assert QUARTER_TURN.distance_at_level(level) == pytest.approx(100 * math.acos(1 - level / 100), abs=1e-4)


def test_a_level_is_found_at_the_start_at_a_joint_and_at_the_end():
    path = Path.through(Point(0, 0), Point(0, 10), Point(5, 30))
    assert path.distance_at_level(0) == 0
    assert path.distance_at_level(10) == 10
    assert path.distance_at_level(30) == pytest.approx(path.length())


def test_of_two_crossings_the_first_is_told():
    path = Path.through(Point(0, 0), Point(0, 10), Point(5, 10), Point(5, 0))
    assert path.distance_at_level(4) == 4
    assert path.reversed().distance_at_level(4) == 4


def test_a_level_that_is_never_reached_is_nowhere():
    assert Path.through(Point(0, 0), Point(0, 10)).distance_at_level(10.1) is None


@repeatable
@given(paths(), points(300), numbers(-180, 180))
def test_where_a_line_crosses_a_path_shapely_finds_a_crossing_too(path, through, angle):
    along = Point(1, 0).turned(angle)
    distance = path.distance_where(lambda p: along.cross(p - through))
    line = LineString(pairs([through - along * 5000, through + along * 5000]))
    crossing = LineString(pairs(path.polyline())).intersection(line)
    if distance is None:
        # A line that only just touches an end may lie on either side of it by a rounding error.
        ends = MultiPoint(pairs([path.start, path.end]))
        assert crossing.is_empty or crossing.distance(ends) < TOUCHING
    else:
        assert along.cross(path.at(distance) - through) == pytest.approx(0, abs=1e-4)
        assert not crossing.is_empty or line.distance(LineString(pairs(path.polyline()))) < TOUCHING


# Moving


@repeatable
@given(paths(), numbers(-500, 500), numbers(-500, 500), numbers(0, 1))
def test_a_slid_path_is_the_same_path_elsewhere(path, x, y, share):
    moved = path.moved(x, y)
    distance = share * path.length()
    assert moved.length() == pytest.approx(path.length(), abs=1e-6)
    assert moved.at(distance).is_at(path.at(distance) + Point(x, y), 1e-4)


@repeatable
@given(numbers(-180, 180), numbers(1, 156))
def test_a_turned_circle_is_found_at_the_turned_angle(angle, distance):
    turned = QUARTER_TURN.mapped(lambda p: p.turned(angle, Point(0, 100)))
    bearing = math.radians(angle - 90) + distance / 100
    assert turned.at(distance).is_at(Point(100 * math.cos(bearing), 100 + 100 * math.sin(bearing)), 1e-5)


@repeatable
@given(numbers(1, 156))
def test_a_circle_mirrored_in_the_fold_is_its_other_quarter(distance):
    mirrored = QUARTER_TURN.mapped(lambda p: p.mirrored(ORIGIN, Point(0, 1)))
    there = on_circle(distance)
    assert mirrored.at(distance).is_at(Point(-there.x, there.y), 1e-5)
    assert mirrored.length() == pytest.approx(QUARTER_TURN.length(), abs=1e-9)


# Drawing and slant


@repeatable
@given(paths())
def test_the_polyline_starts_and_ends_with_the_path_and_repeats_no_joint(path):
    line = path.polyline()
    assert (line[0], line[-1]) == (path.start, path.end)
    assert all(p != q for p, q in zip(line, line[1:], strict=False))
    assert path.length() - LineString(pairs(line)).length < 0.1


@pytest.mark.parametrize(("step", "slant"), [((0, 5), 0), ((0, -5), 0), ((5, 5), 45), ((-5, 5), 45), ((5, 0), 90)])
def test_the_slant_of_a_line_is_told_from_straight_down(step, slant):
    assert Path.through(Point(7, 7), Point(7, 7) + Point(*step)).greatest_slant_deg() == pytest.approx(slant)


@pytest.mark.parametrize("slant", [5, 25, 35, 45])
def test_the_greatest_slant_of_a_straight_down_curve_is_that_of_its_middle(slant):
    # Derived in the curves' tests: the tangent of the greatest slant is 0.5/0.325 times across over height.
    height = 320.0
    across = height * math.tan(math.radians(slant)) * 0.325 / 0.5
    path = Path.of(straight_down(Point(0, 0), Point(across, height)))
    assert path.greatest_slant_deg() == pytest.approx(slant, abs=1e-6)


@repeatable
@given(st.lists(gentle_cubics(), min_size=1, max_size=3))
def test_the_greatest_slant_is_that_of_some_direction_and_of_no_steeper_one(curves):
    path = Path(tuple(curves))
    slants = [abs(90 - abs(curve.direction(i / 200).angle_deg)) for curve in curves for i in range(201)]
    assume(max(slants) > 0.1)
    # It looks at 33 places of each stroke, so it may miss the peak by what the curve turns between two of them.
    missed = 1e-9 + max(turn_deg(curve, i / 32, (i + 1) / 32) for curve in curves for i in range(32))
    assert max(slants) - missed <= path.greatest_slant_deg() <= max(slants) + missed


def turn_deg(curve: Cubic, t: float, u: float) -> float:
    first, second = curve.direction(t), curve.direction(u)
    return math.degrees(math.atan2(abs(first.cross(second)), first.dot(second)))
