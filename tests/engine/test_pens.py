"""Pens: what is drawn is read back by other people's code."""

import math

import pytest
from fontTools.pens.recordingPen import RecordingPen
from fontTools.svgLib.path.parser import parse_path
from hypothesis import given
from shapely.geometry import LineString

from drafting.engine.curve import Cubic, arc
from drafting.engine.path import Path
from drafting.engine.pens import BoundsPen, LengthPen, SvgPen
from drafting.engine.point import Point

from .shapes import paths, repeatable

HALF_A_MICRON = 0.0005 + 1e-9
"""Three decimals of a millimetre, rounded."""


def svg_of(path: Path) -> str:
    pen = SvgPen()
    path.draw(pen)
    return pen.path_text()


def read_back(text: str) -> list:
    """Return what fontTools' SVG parser makes of the path `text`."""
    pen = RecordingPen()
    parse_path(text, pen)
    return [step for step in pen.value if step[0] not in ("endPath", "closePath")]


def dense(path: Path) -> LineString:
    return LineString([(p.x, p.y) for stroke in path.strokes for p in (stroke.at(i / 400) for i in range(401))])


def test_the_svg_of_a_line_and_a_curve_is_as_one_would_write_it():
    path = Path.through(Point(0, 0), Point(10, 0)) + Path.of(
        Cubic(Point(10, 0), Point(12.5, 0), Point(15, 2.25), Point(15, 1 / 3))
    )
    assert svg_of(path) == "M0.000 0.000L10.000 0.000C12.500 0.000 15.000 2.250 15.000 0.333"


@repeatable
@given(paths())
def test_svg_is_read_back_stroke_by_stroke(path):
    steps = read_back(svg_of(path))
    assert steps[0][0] == "moveTo"
    assert steps[0][1][0] == pytest.approx((path.start.x, path.start.y), abs=HALF_A_MICRON)
    assert len(steps) == 1 + len(path.strokes)
    for (verb, read), stroke in zip(steps[1:], path.strokes, strict=True):
        wanted = (stroke.out, stroke.into, stroke.end) if isinstance(stroke, Cubic) else (stroke.end,)
        assert verb == ("curveTo" if isinstance(stroke, Cubic) else "lineTo")
        for have, want in zip(read, wanted, strict=True):
            assert have == pytest.approx((want.x, want.y), abs=HALF_A_MICRON)


def test_svg_holds_no_exponents_at_the_sizes_of_a_room_or_of_a_grain_of_dust():
    text = svg_of(Path.through(Point(1e-9, 123456.789), Point(-0.0004, 98765.4321)))
    assert "e" not in text
    assert read_back(text)[1][1][0] == pytest.approx((0, 98765.432), abs=1e-3)


@repeatable
@given(paths())
def test_bounds_are_shapelys(path):
    pen = BoundsPen()
    path.draw(pen)
    # Shapely's box is round a polyline of 400 steps a stroke, whose steps of half a millimetre lie inside the curve.
    assert (pen.left, pen.top, pen.right, pen.bottom) == pytest.approx(dense(path).bounds, abs=1e-3)


def test_the_box_of_a_circle_reaches_its_radius():
    pen = BoundsPen()
    Path(arc(Point(0, 200), 10.0, 360.0, 2 * math.pi * 100)).draw(pen)
    centre = Point(0, 200) + Point(100, 0).turned(100)
    box = (centre.x - 100, centre.y - 100, centre.x + 100, centre.y + 100)
    assert (pen.left, pen.top, pen.right, pen.bottom) == pytest.approx(box, abs=1e-6)


@repeatable
@given(paths())
def test_the_length_pen_agrees_with_the_path_and_with_shapely(path):
    pen = LengthPen()
    path.draw(pen)
    assert pen.length == pytest.approx(path.length(), abs=1e-9)
    assert pen.length == pytest.approx(dense(path).length, abs=0.01)


def test_lifting_the_pen_adds_no_length():
    pen = LengthPen()
    Path.through(Point(0, 0), Point(3, 4)).draw(pen)
    Path.through(Point(100, 100), Point(100, 101)).draw(pen)
    assert pen.length == 6


def test_bounds_take_in_every_path_that_is_drawn():
    pen = BoundsPen()
    Path.through(Point(0, 0), Point(3, 4)).draw(pen)
    Path.through(Point(-7, 2), Point(1, 9)).draw(pen)
    assert (pen.left, pen.top, pen.right, pen.bottom) == (-7, 0, 3, 9)
