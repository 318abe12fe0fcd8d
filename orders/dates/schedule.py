"""Whether a bench can do its work in time, and by when: arithmetic only, no database.

Days are counted from 0, today. Work is counted in quarters of an hour. A garment is sewn by one pair of hands at a
time, so on one day it takes up at most what one pair of hands does (`hand`), and all garments together at most what
all hands do (`room`). Work may be interrupted and taken up again.

`fits` is exact. All work can begin today and differs only in when it must be done; read backwards from the last day,
that is work which arrives over time and must be through by one end. Then it is best to keep level what is left of
each garment: the longest first (the level rule for interruptible work on equal hands; Muntz and Coffman 1969, with
arrivals Horn 1974; from memory). `tests/orders/dates/test_schedule.py` compares it with trying every way and with a
maximum flow.
"""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from math import ceil


@dataclass(frozen=True, slots=True)
class Job:
    """A garment's work still to do, in quarters of an hour, and the last day on which it may be done (-1: too late)."""

    key: Hashable
    quarters: int
    due: int


@dataclass(frozen=True)
class Days:
    """What each day from today holds: quarters of an hour for one garment, and for all of them."""

    hand: Sequence[int]
    room: Sequence[int]

    def __len__(self) -> int:
        return len(self.room)


def in_turn(jobs: Sequence[Job], days: Days) -> dict[Hashable, int | None]:
    """On which day each is done, if they are sewn in the order of their days, the longest first of those of one day.

    None for a garment that is not done within the days given. Work without a quarter to do is done on day 0.
    """
    return worked_through(jobs, days)[0]


def worked_through(jobs: Sequence[Job], days: Days) -> tuple[dict[Hashable, int | None], list[int]]:
    """As `in_turn`, and the quarters that each day then has left."""
    free, done, first_free = list(days.room), {}, 0
    for job in sorted(jobs, key=lambda job: (job.due, -job.quarters)):
        left, day = job.quarters, first_free
        while left and day < len(free):
            taken = min(left, days.hand[day], free[day])
            free[day] -= taken
            left -= taken
            day += 1
        done[job.key] = None if left else max(day - 1, 0)
        while first_free < len(free) and not free[first_free]:
            first_free += 1
    return done, free


def fits(jobs: Sequence[Job], days: Days) -> bool:
    """Whether there is any way at all in which each is done by its day."""
    wanted = [job for job in jobs if job.quarters]
    if any(job.due < 0 for job in wanted):
        return False
    done = in_turn(wanted, days)
    if all(done[job.key] is not None and done[job.key] <= job.due for job in wanted):
        return True
    return fits_backwards(wanted, days)


def fits_backwards(jobs: Sequence[Job], days: Days) -> bool:
    """From the last day to today: each day takes most from what is left longest."""
    waiting = sorted(jobs, key=lambda job: job.due)
    left: list[int] = []
    for day in range(len(days) - 1, -1, -1):
        while waiting and waiting[-1].due >= day:
            left.append(waiting.pop().quarters)
        left = [each for each in levelled(left, days.hand[day], days.room[day]) if each]
    return not left and not waiting


def levelled(left: list[int], hand: int, room: int) -> list[int]:
    """What is left of each after a day that takes `room` in all and at most `hand` of each, the longest first."""
    if not left or not room or not hand:
        return left
    if sum(min(hand, each) for each in left) <= room:
        return [each - min(hand, each) for each in left]
    low, high = 0, max(left)  # the lowest level to which the day's room reaches
    while low < high:
        level = (low + high) // 2
        if sum(min(hand, max(0, each - level)) for each in left) <= room:
            high = level
        else:
            low = level + 1
    taken = [min(hand, max(0, each - low)) for each in left]
    over = room - sum(taken)  # fewer quarters than would lower all of them by one more
    for place, each in enumerate(left):
        if over and taken[place] < hand and each - taken[place] == low:
            taken[place] += 1
            over -= 1
    return [each - less for each, less in zip(left, taken, strict=True)]


def earliest(new: Sequence[int], jobs: Sequence[Job], days: Days) -> int | None:
    """The first day by which new garments (quarters each) can be done with every other one done by its own day.

    `jobs` must fit by themselves. None where the days given are too few.
    """

    def can(day: int) -> bool:
        return fits([*jobs, *(Job(("new", place), quarters, day) for place, quarters in enumerate(new))], days)

    low, high = 0, len(days) - 1
    if high < 0 or not can(high):
        return None
    while low < high:
        middle = (low + high) // 2
        if can(middle):
            high = middle
        else:
            low = middle + 1
    return low


def quarters(hours) -> int:
    """Hours as whole quarters, rounded up: a bench is never promised more than it has."""
    return ceil(hours * 4)
