"""The honest promise: by hand on an empty bench, and against trying every day on small benches."""

from dataclasses import replace
from datetime import date, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from orders.dates.bench import Bench, Closed
from orders.dates.promise import Load, days_from, honest, jobs_of, kept, pushed, worked_out
from orders.dates.schedule import quarters
from tests.orders.book import DAY
from tests.orders.dates.test_schedule import tried

ONE_HAND = Bench(lead_weeks=0)
TINY = {"hours": 1, "free_days": 0, "lead_weeks": 0}


def ahead(number: int) -> date:
    return DAY + timedelta(days=number)


def test_forty_hours_on_an_empty_bench_of_one_pair_of_hands():
    # Thursday 12 March, seven hours a day, closed on Sundays: 12, 13, 14, 16, 17 and 18 March; a day free; the 19th.
    assert honest([quarters(40)], [], DAY, ONE_HAND).bench == date(2026, 3, 19)


def test_more_hands_do_not_sew_one_garment_sooner_but_two_at_once():
    bench = Bench(lead_weeks=0, hands=2)
    assert honest([quarters(40)], [], DAY, bench).bench == date(2026, 3, 19)
    assert honest([quarters(40), quarters(40)], [], DAY, bench).bench == date(2026, 3, 19)
    assert honest([quarters(40), quarters(40)], [], DAY, ONE_HAND).bench == date(2026, 3, 26)


def test_a_holiday_and_new_year_push_the_promise():
    fair = Closed(date(2026, 3, 16), date(2026, 3, 18), "Harbour fair")
    assert honest([quarters(40)], [], DAY, Bench(lead_weeks=0, closed=(fair,))).bench == date(2026, 3, 23)
    new_year = Closed(date(2025, 12, 24), date(2026, 1, 2), "New Year", yearly=True)
    eve = date(2026, 12, 23)
    assert honest([quarters(14)], [], eve, Bench(lead_weeks=0, closed=(new_year,))).bench == date(2027, 1, 5)


def test_a_closed_month_gets_no_promise():
    bench = Bench(lead_weeks=0, full_months=frozenset({(2026, 3)}))
    assert honest([quarters(40)], [], DAY, bench).bench == date(2026, 4, 1)


def test_usual_is_four_weeks_or_more_as_workshops_say():
    # 4 to 12 weeks a garment: larapeters.co.uk/pages/faq; a gown of the usual hours on an empty bench is within them.
    usual = honest([quarters(Bench().hours_of("bustier-gown"))], [], DAY, Bench()).usual
    assert timedelta(weeks=4) <= usual - DAY <= timedelta(weeks=12)


def test_an_answer_kept_in_memory_is_of_that_work_bench_and_day_only():
    load = Load("a", ahead(7), (quarters(40),))
    answer = kept([load], DAY, ONE_HAND)
    assert kept([replace(load)], DAY, replace(ONE_HAND)) is answer
    fair = Closed(ahead(1), ahead(5), "Harbour fair")
    others = [
        ([replace(load, quarters=(quarters(48),))], DAY, ONE_HAND), ([replace(load, collect_on=ahead(6))], DAY, ONE_HAND),
        ([load], DAY, replace(ONE_HAND, closed=(fair,))), ([load], DAY, replace(ONE_HAND, hours=5)), ([load], ahead(2), ONE_HAND),
    ]  # fmt: skip
    for loads, day, bench in others:
        assert kept(loads, day, bench) == worked_out(loads, day, bench) != answer


def test_an_order_before_another_pushes_it_and_says_until_when():
    standing = Load("a", ahead(7), (quarters(40),))
    assert kept([standing], DAY, ONE_HAND).is_well
    put = Load("new", ahead(6), (quarters(14),))
    found = pushed([standing], put, DAY, ONE_HAND)
    assert [(each.promised, each.could, each.can) for each in found] == [(ahead(7), ahead(7), date(2026, 3, 21))]


def test_an_order_that_is_moved_may_keep_the_place_that_it_has_on_a_full_bench():
    full = [Load("a", ahead(5), (quarters(40),)), Load("own", ahead(12), (quarters(40),)), Load("b", ahead(13), (quarters(14),))]
    now = kept(full, DAY, ONE_HAND)
    assert not now.is_well
    others = [load for load in full if load.key != "own"]
    assert honest([quarters(40)], others, DAY, ONE_HAND, now=now).bench <= now.by_key["own"]
    assert honest([quarters(40)], others, DAY, ONE_HAND).bench > now.by_key["own"]


def test_a_later_order_pushes_nothing():
    standing = Load("a", ahead(7), (quarters(40),))
    assert pushed([standing], Load("new", ahead(30), (quarters(14),)), DAY, ONE_HAND) == []


def test_an_order_that_is_late_already_does_not_stop_a_new_promise():
    late = Load("late", ahead(-3), (quarters(14),))
    assert not kept([late], DAY, ONE_HAND).is_well
    assert kept([late], DAY, ONE_HAND).by_key == {"late": date(2026, 3, 14)}
    assert honest([quarters(14)], [late], DAY, ONE_HAND).bench == date(2026, 3, 17)


closures = st.lists(st.integers(0, 5), max_size=2).map(
    lambda found: tuple(Closed(ahead(day), ahead(day), "closed") for day in found)
)
benches = st.builds(lambda hands, closed: Bench(**TINY, hands=hands, closed=closed, open_weekdays=frozenset(range(7))), st.integers(1, 2), closures)
standing_work = st.lists(st.tuples(st.integers(0, 4), st.integers(1, 6)), max_size=2)


@given(standing_work, benches, st.integers(1, 6))
@settings(max_examples=200)
def test_the_promise_is_the_first_day_that_trying_every_way_finds(work, bench, new):
    loads = [Load(place, ahead(day), (size,)) for place, (day, size) in enumerate(work)]
    days = days_from(DAY, 14, bench)
    if not tried(jobs_of(loads, DAY, bench), days):
        return
    found = honest([new], loads, DAY, bench).bench
    works = [
        ahead(number)
        for number in range(14)
        if bench.is_open(ahead(number)) and tried(jobs_of([*loads, Load("new", ahead(number), (new,))], DAY, bench), days)
    ]
    assert found == works[0]


@given(standing_work, benches)
def test_all_is_well_exactly_when_some_way_keeps_every_promise(work, bench):
    loads = [Load(place, ahead(day), (size,)) for place, (day, size) in enumerate(work)]
    can = kept(loads, DAY, bench)
    assert can.is_well == tried(jobs_of(loads, DAY, bench), days_from(DAY, 14, bench))
    assert all(can.by_key[load.key] >= load.collect_on for load in loads)
