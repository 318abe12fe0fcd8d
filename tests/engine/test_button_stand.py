"""The button stand: its width, its facing, and where the buttons sit. Common practice, no source, unless said otherwise."""

import pytest

from drafting.engine.blocks.button_stand import BUTTON_RULES, button_stand, lapped
from drafting.engine.curve import Cubic
from drafting.engine.errors import ImpossibleMeasure
from drafting.engine.path import Path
from drafting.engine.point import Point
from drafting.engine.rules import Rules
from drafting.engine.tolerance import INCH


def stand(top=3, bottom=17, *, through=(), **rules):
    given = {key: value * INCH for key, value in rules.items()}
    return button_stand(Rules(given, "standard", BUTTON_RULES), top * INCH, bottom * INCH, through=[level * INCH for level in through])


def test_a_stand_is_half_a_button_and_a_quarter_wide():
    assert stand(button=0.75).width == pytest.approx(0.625 * INCH)
    assert stand(button=0.25).width == pytest.approx(0.5 * INCH)
    assert stand(button=0.5, button_stand=1).width == pytest.approx(INCH)


def test_the_first_and_last_button_lie_as_far_from_their_edges_as_from_the_side():
    made = stand(button=0.75)
    assert made.places[0] == pytest.approx((3 + 0.625) * INCH)
    assert made.places[-1] == pytest.approx((17 - 0.625) * INCH)


def test_one_button_sits_on_the_bust_line_and_none_lie_further_apart_than_the_house_allows():
    made = stand(through=[10.3])
    assert any(place == pytest.approx(10.3 * INCH) for place in made.places)
    apart = [b - a for a, b in zip(made.places, made.places[1:], strict=False)]
    assert 0 < min(apart) and max(apart) <= 3 * INCH + 1e-6


def test_buttons_are_even_where_nothing_fixes_one():
    apart = {round(b - a, 6) for a, b in zip(stand().places, stand().places[1:], strict=False)}
    assert len(apart) == 1


def test_a_level_at_the_very_end_gets_no_button_of_its_own():
    assert stand(through=[16.6]).places == stand().places


def test_a_hole_begins_beyond_the_centre_line_and_holds_the_button():
    made = stand(button=0.5)
    hole = next(mark for mark in made.marks(0, 100) if mark.kind == "buttonhole")
    assert hole.start.x == pytest.approx(-INCH / 8)
    assert hole.end.x - hole.start.x == pytest.approx(0.625 * INCH)
    assert hole.start.y == hole.end.y == made.places[0]


def test_an_opening_too_short_for_two_buttons_is_refused():
    with pytest.raises(ImpossibleMeasure) as refused:
        stand(top=3, bottom=4, button=1)
    assert "smaller ones" in refused.value.sentence(lambda mm: f"{mm / INCH:g} in")


def test_a_neckline_is_carried_on_over_the_stand_the_way_it_came():
    level = Path.of(Cubic(Point(0, 70), Point(20, 70), Point(60, 30), Point(60, 0)))
    assert lapped(level, 12).start.is_at(Point(-12, 70), 1e-9)
    slanted = Path.through(Point(0, 100), Point(50, 0))
    assert lapped(slanted, 10).start.is_at(Point(-10, 120), 1e-9)


def test_big_buttons_keep_clear_of_one_another_even_where_the_house_wants_them_closer():
    made = stand(top=3, bottom=17, through=[10.3], button=1.8, button_spacing=1.5)
    apart = [b - a for a, b in zip(made.places, made.places[1:], strict=False)]
    assert min(apart) >= made.hole
