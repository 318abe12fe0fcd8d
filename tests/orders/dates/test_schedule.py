"""The bench's arithmetic against every way there is, on small cases, and against a maximum flow (SciPy) on larger ones."""

from functools import lru_cache
from itertools import product

import numpy as np
from hypothesis import example, given, settings
from hypothesis import strategies as st
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import maximum_flow

from orders.dates.schedule import Days, Job, earliest, fits, fits_backwards, in_turn, levelled, quarters


def tried(jobs: list[Job], days: Days) -> bool:
    """By trying every way: what each garment gets on each day, day by day."""

    @lru_cache(maxsize=None)
    def works(day: int, left: tuple[int, ...]) -> bool:
        if not any(left):
            return True
        if day == len(days) or any(each and job.due < day for each, job in zip(left, jobs, strict=True)):
            return False
        choices = [range(min(each, days.hand[day]) + 1) for each in left]
        return any(
            works(day + 1, tuple(a - b for a, b in zip(left, taken, strict=True)))
            for taken in product(*choices)
            if sum(taken) <= days.room[day]
        )

    return works(0, tuple(job.quarters for job in jobs))


def by_flow(jobs: list[Job], days: Days) -> bool:
    """By the largest flow from garments through days: it carries all the work, or it does not fit."""
    source, sink = len(jobs) + len(days), len(jobs) + len(days) + 1
    through = np.zeros((sink + 1, sink + 1), dtype=np.int32)
    for place, job in enumerate(jobs):
        through[source, place] = job.quarters
        for day in range(min(job.due + 1, len(days))):
            through[place, len(jobs) + day] = days.hand[day]
    for day, room in enumerate(days.room):
        through[len(jobs) + day, sink] = room
    carried = maximum_flow(csr_matrix(through), source, sink).flow_value
    return carried == sum(job.quarters for job in jobs)


def bench(most_days: int, most_hand: int, most_hands: int):
    """Days on which some are closed."""

    def made(opened: list[bool], hand: int, hands: int) -> Days:
        return Days([hand if is_open else 0 for is_open in opened], [hand * hands if is_open else 0 for is_open in opened])

    return st.builds(made, st.lists(st.booleans(), min_size=1, max_size=most_days), st.integers(1, most_hand), st.integers(1, most_hands))


def work(most: int, most_quarters: int, last_day: int):
    each = st.tuples(st.integers(0, most_quarters), st.integers(-1, last_day))
    return st.lists(each, max_size=most).map(lambda found: [Job(place, q, due) for place, (q, due) in enumerate(found)])


@given(work(3, 4, 3), bench(4, 2, 2))
@settings(max_examples=400)
@example([Job(0, 1, 1), Job(1, 1, 1), Job(2, 3, 2)], Days([1, 1, 1], [2, 2, 2]))  # in turn, the long one comes too late
def test_it_fits_exactly_when_some_way_of_working_keeps_every_day(jobs, days):
    assert fits(jobs, days) == tried(jobs, days)


@given(work(12, 40, 14), bench(15, 16, 4))
@settings(max_examples=300)
def test_it_fits_exactly_when_a_maximum_flow_carries_all_the_work(jobs, days):
    assert fits(jobs, days) == by_flow(jobs, days)


@given(work(8, 30, 10), bench(11, 8, 3))
def test_backwards_alone_says_the_same_as_with_the_short_cut(jobs, days):
    due = [job for job in jobs if job.due >= 0 and job.quarters]
    assert fits_backwards(due, days) == fits(due, days)


@given(work(2, 4, 3), bench(5, 2, 2), st.lists(st.integers(1, 4), min_size=1, max_size=2))
@settings(max_examples=300)
def test_the_earliest_day_is_the_first_on_which_some_way_keeps_every_other_day_too(jobs, days, new):
    if not tried(jobs, days):
        return
    works = [day for day in range(len(days)) if tried([*jobs, *(Job(("new", n), q, day) for n, q in enumerate(new))], days)]
    assert earliest(new, jobs, days) == (works[0] if works else None)


@given(work(6, 20, 9), bench(10, 8, 3))
def test_in_turn_spends_no_more_than_there_is_and_only_what_is_needed(jobs, days):
    done = in_turn(jobs, days)
    for job in jobs:
        if done[job.key] is not None and job.quarters:
            assert sum(days.hand[: done[job.key] + 1]) >= job.quarters
    through = max((day for day in done.values() if day is not None), default=0)
    finished = sum(job.quarters for job in jobs if done[job.key] is not None)
    assert finished <= sum(days.room[: through + 1])


def test_a_gown_of_forty_hours_takes_six_days_of_seven_hours_however_many_hands():
    days = Days([28] * 10, [28 * 3] * 10)
    assert earliest([quarters(40)], [], days) == 5


def test_a_day_levels_what_is_left_longest_first():
    assert levelled([10, 4, 4], hand=4, room=6) == [6, 3, 3]
    assert levelled([10, 4, 4], hand=4, room=5) == [6, 3, 4]
    assert levelled([3, 2], hand=8, room=8) == [0, 0]


def test_part_of_a_quarter_is_a_quarter():
    assert (quarters(0.1), quarters(2), quarters(2.26)) == (1, 8, 10)
