"""The tape: where each mark lies, what it says in words, what is drawn of it."""

import re
from xml.etree import ElementTree

import pytest
from django.template import Context, Template
from django.utils import timezone
from hypothesis import given
from hypothesis import strategies as st

from orders.models import Fitting, Order
from orders.stages import Stage
from orders.tape import LEFT, RIGHT, tape_of
from tests.orders.book import DAY, days


def order(booked=-10, collect=10, cut=None, was_cut=None, fittings=(), **more) -> Order:
    """An order that is in no database; days are counted from DAY."""

    def on(number):
        return None if number is None else DAY + days(number)

    made = Order(number="S-014", booked_on=on(booked), collect_on=on(collect), cut_on=on(cut), was_cut_on=on(was_cut), **{"stage": Stage.BOOKED, **more})
    made.all_fittings = [
        Fitting(at=timezone.make_aware(timezone.datetime(*on(n).timetuple()[:3], 10)), done_on=on(n) if done else None)
        for n, done in fittings
    ]
    return made


def place(text: str) -> float:
    return float(text.removesuffix("%"))


def test_half_way_is_half_way():
    """Ten days of twenty: 1.2 % + half of 97.6 %, by hand."""
    drawn = tape_of(order(), DAY)
    assert (drawn.start, drawn.bead, drawn.tip) == ("1.20%", "50.00%", "98.80%")
    assert (drawn.run, drawn.rest, drawn.late) == ("48.80%", "48.80%", "")


def test_a_late_order_runs_on_past_its_tip():
    drawn = tape_of(order(collect=-4), DAY)
    assert place(drawn.bead) == RIGHT
    assert place(drawn.tip) == pytest.approx(LEFT + (RIGHT - LEFT) * 6 / 10, abs=0.01)
    assert place(drawn.late) == pytest.approx((RIGHT - LEFT) * 4 / 10, abs=0.01)
    assert place(drawn.rest) == 0


def test_mondays_are_tall_and_dated_but_not_near_the_ends():
    drawn = tape_of(order(), DAY)  # 2 to 22 March 2026; Mondays on 2, 9 and 16
    assert [tick.label for tick in drawn.ticks if tick.tall] == ["9 Mar", "16 Mar"]
    assert len(drawn.ticks) == 19
    near = tape_of(order(booked=-1, collect=6), DAY)  # the 16th is 2 days from the end
    assert [tick.label for tick in near.ticks if tick.tall] == [""]


def test_pins_and_nick():
    drawn = tape_of(order(cut=1, fittings=((-5, True), (5, False))), DAY)
    assert [done for _, done in drawn.pins] == [True, False]
    assert (drawn.is_cut, drawn.nick_on_tape) == (False, False)
    cut = tape_of(order(cut=1, was_cut=-1), DAY)
    assert (cut.is_cut, cut.nick_on_tape) == (True, True)
    assert place(cut.nick) < place(drawn.nick)


def test_an_enquiry_is_not_told_as_booked():
    assert tape_of(order(stage=Stage.ASKED), DAY).sentence.startswith("Enquiry 2 March, ")


def test_it_says_in_words_all_that_it_shows():
    drawn = tape_of(order(collect=-4, was_cut=-8, fittings=((-5, True), (5, False))), DAY)
    assert drawn.sentence == (
        "Booked 2 March, fitting 7 March done, fitting 17 March to come, cut 4 March, collection 8 March, "
        "today is 12 March, 4 days late."
    )
    over = order(stage=Stage.COLLECTED, is_open=False, closed_on=DAY - days(2))
    assert tape_of(over, DAY).sentence.endswith("collected 10 March.")


@given(
    booked=st.integers(-800, 0), collect=st.none() | st.integers(-800, 800), cut=st.none() | st.integers(-900, 900),
    fittings=st.lists(st.tuples(st.integers(-900, 900), st.booleans()), max_size=4),
)  # fmt: skip
def test_every_mark_of_any_order_lies_on_the_strip(booked, collect, cut, fittings):
    drawn = tape_of(order(booked=booked, collect=collect, cut=cut, fittings=fittings), DAY)
    marks = [drawn.start, drawn.tip, drawn.bead, *(x for x, _ in drawn.pins), *(t.x for t in drawn.ticks), drawn.nick or "50%"]
    assert all(LEFT - 0.01 <= place(mark) <= RIGHT + 0.01 for mark in marks)
    assert place(drawn.run) >= 0 <= place(drawn.rest)


def drawing(made: Order, tag="tape") -> ElementTree.Element:
    svg = Template("{% load tape %}{% " + tag + " order %}").render(Context({"order": made, "today": DAY}))
    assert not re.search(r"\sstyle=", svg)
    return ElementTree.fromstring(svg)


def test_the_drawing_is_an_image_with_a_sentence_and_no_styles():
    svg = drawing(order(cut=1, fittings=((-5, True),)))
    assert svg.get("role") == "img"
    assert svg.get("aria-label").startswith("Booked 2 March, ")
    assert (svg.get("width"), svg.get("height")) == ("100%", "46")
    classes = [each.get("class") for each in svg.iter() if each.get("class")]
    assert {"tape-run", "tape-rest", "tape-tip", "tape-bead", "tape-ring", "tape-pin"} <= set(classes)
    assert "tape-nick to-cut" in classes
    assert "tape-stripes" not in classes


def test_only_a_late_order_is_striped():
    assert "tape-stripes" in {each.get("class") for each in drawing(order(collect=-1)).iter()}


def test_an_order_without_a_collection_day_has_no_tip_there():
    tips = [each for each in drawing(order(collect=None)).iter() if each.get("class") == "tape-tip"]
    assert len(tips) == 1


def test_the_thin_tape_is_for_the_eye_only():
    assert drawing(order(), "small_tape").get("aria-hidden") == "true"


def test_a_long_order_stays_readable():
    made = order(booked=-300, collect=300)
    drawn = tape_of(made, DAY)
    assert len([tick for tick in drawn.ticks if tick.label]) <= 12
