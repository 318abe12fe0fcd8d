"""What the bench can keep: the earliest day for a new promise, and which promises another one pushes."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from decimal import Decimal
from functools import cache, partial

from orders.dates import schedule
from orders.dates.bench import Bench
from orders.dates.schedule import Days, Job
from orders.light import with_garments
from orders.models import Order
from orders.stages import Stage
from workshop.few_kept import FewKept

#: What of its hours a garment still needs at each stage. Common practice, no source.
LEFT = {
    Stage.ASKED: Decimal(1),
    Stage.BOOKED: Decimal(1),
    Stage.MEASURED: Decimal(1),
    Stage.CUT: Decimal("0.85"),
    Stage.SEWN: Decimal("0.1"),
    Stage.BROUGHT_IN: Decimal(1),
    Stage.IN_WORK: Decimal("0.5"),
}
#: What is done to something that is there already takes the minutes of its jobs, not the hours of a garment.
BY_MINUTES = (Stage.BROUGHT_IN, Stage.IN_WORK)
#: Nothing is promised further ahead; a bench that is full for longer says so.
HORIZON_DAYS = 3 * 365


@dataclass(frozen=True)
class Load:
    """An order as the bench sees it: the day it is promised for, and what is left to do on each garment."""

    key: object
    collect_on: date
    quarters: tuple[int, ...]
    order: Order | None = field(default=None, compare=False)


@dataclass(frozen=True)
class Kept:
    """Which day each order can keep: its own where the bench is not too full, else a later one; None: out of reach."""

    by_key: dict[object, date | None]
    is_well: bool
    work_until: date | None = None
    free: Sequence[int] = ()  # quarters left on each day from today
    room: Sequence[int] = ()


@dataclass(frozen=True)
class Pushed:
    order: Order
    promised: date
    could: date | None
    can: date | None


@dataclass(frozen=True)
class Honest:
    """The earliest collection for a new order: as the bench stands, and with the time that a garment usually takes."""

    bench: date | None
    usual: date | None


def loads_of(orders: Iterable[Order], bench: Bench, today: date) -> list[Load]:
    """The work of booked orders and of dates that are held; what hangs ready, and a hold that lapsed, load nothing.

    Needs their garments and what is paid.
    """
    asked = cache(partial(quarters_left, bench))
    return [
        Load(order.id, order.collect_on, quarters_of(order, bench, asked=asked), order)
        for order in orders
        if order.is_open and order.collect_on and order.stage in LEFT and is_counted(order, today)
    ]


def is_counted(order: Order, today: date) -> bool:
    """An order asked about counts while its date is held; a booked one until its hold lapses without a deposit."""
    return order.held_until is not None and not order.is_lapsed(today) if order.stage == Stage.ASKED else not order.is_lapsed(today)


def quarters_of(order: Order, bench: Bench, stage: str = "", *, asked: Callable | None = None) -> tuple[int, ...]:
    """What is left to do of each of its garments; `asked` is `quarters_left` of that bench where the answers are kept."""
    stage, asked = stage or order.stage, asked or partial(quarters_left, bench)
    if stage in BY_MINUTES:
        return (schedule.quarters(Decimal(order.minutes) / 60 * LEFT[stage]),)
    return tuple([asked(stage, garment.kind, garment.hours_planned) for garment in order.all_garments])


def quarters_left(bench: Bench, stage: str, kind: str, planned: Decimal | None) -> int:
    return schedule.quarters(bench.hours_of(kind, planned) * LEFT.get(stage, Decimal(1)))


def days_from(today: date, number: int, bench: Bench) -> Days:
    hand, room = bench.hours * min(bench.hands, 1), bench.hours * bench.hands
    a_hand, a_day = int(hand * 4), int(room * 4)
    opened = [bench.is_open(today + timedelta(days=ahead)) for ahead in range(number)]
    return Days([a_hand if each else 0 for each in opened], [a_day if each else 0 for each in opened])


def jobs_of(loads: Sequence[Load], today: date, bench: Bench) -> list[Job]:
    due = {day: (bench.last_sewing_day(day) - today).days for day in {load.collect_on for load in loads}}
    return [Job((load.key, place), quarters, due[load.collect_on]) for load in loads for place, quarters in enumerate(load.quarters)]


def far_enough(jobs: Sequence[Job], today: date, bench: Bench) -> Days:
    """Days until all is done: twice as many as it takes if none were closed, and beyond the last promise."""
    work = sum(job.quarters for job in jobs)
    longest = max((job.quarters for job in jobs), default=0)
    a_day = max(int(bench.hours * bench.hands * 4), 1)
    a_hand = max(int(bench.hours * min(bench.hands, 1) * 4), 1)
    last = max((job.due for job in jobs), default=0)
    weekdays = max(len(bench.open_weekdays), 1)
    needed = (work // a_day + longest // a_hand + 2) * 7 // weekdays * 2
    return days_from(today, min(max(last, 0) + needed + 60, HORIZON_DAYS), bench)


def kept(loads: Sequence[Load], today: date, bench: Bench) -> Kept:
    """Whether all promises can be kept together; where they can't, by when each order is done, sewn in turn.

    The answers given last are kept by all that they come from: one book is asked by Today, by the calendar and by each promise.
    """
    asked = (today, bench, tuple((load.key, load.collect_on, load.quarters) for load in loads))
    return _answered(asked, lambda: worked_out(loads, today, bench))


_answered: FewKept[Kept] = FewKept(8)


def worked_out(loads: Sequence[Load], today: date, bench: Bench) -> Kept:
    jobs = jobs_of(loads, today, bench)
    days = far_enough(jobs, today, bench)
    done, free = schedule.worked_through(jobs, days)
    busy = [place for place, room in enumerate(days.room) if free[place] < room]
    until = today + timedelta(days=busy[-1]) if busy else None
    if all(done[job.key] is not None and done[job.key] <= job.due for job in jobs if job.quarters) or schedule.fits(jobs, days):
        return Kept({load.key: load.collect_on for load in loads}, True, until, free, days.room)
    by_key = {}
    collected = cache(lambda end: collection_after(today, end, bench))
    for load in loads:
        ends = [done[load.key, place] for place in range(len(load.quarters))]
        by_key[load.key] = None if None in ends else max(load.collect_on, collected(max(ends, default=0)))
    return Kept(by_key, False, until, free, days.room)


def is_well_alone(load: Load, today: date, bench: Bench) -> bool:
    """Whether a bench with nothing else on it can keep that promise: no day after it matters."""
    jobs = jobs_of([load], today, bench)
    return schedule.fits(jobs, days_from(today, min(max((job.due for job in jobs), default=-1) + 1, HORIZON_DAYS), bench))


def collection_after(today: date, done: int, bench: Bench) -> date:
    """The first day on which what is done on that day can be collected."""
    return bench.open_days_after(bench.next_open(today + timedelta(days=done)), bench.free_days)


def honest(quarters: Sequence[int], loads: Sequence[Load], today: date, bench: Bench, now: Kept | None = None) -> Honest:
    """The earliest promise for a new order that leaves every other one the day that it can keep now.

    `now` is how things stand where they are not as `loads` alone would have them: an order that is to be moved counts.
    """
    can = now or kept(loads, today, bench)
    standing = [replace(load, collect_on=can.by_key[load.key]) for load in loads if can.by_key[load.key]]
    jobs = jobs_of(standing, today, bench)
    days = far_enough([*jobs, *(Job(place, each, 0) for place, each in enumerate(quarters))], today, bench)
    done = schedule.earliest(list(quarters), eased(jobs, days), days)
    if done is None:
        return Honest(None, None)
    by_bench = promised_on(collection_after(today, done, bench), bench)
    by_lead = bench.next_open(max(by_bench, today + timedelta(weeks=bench.lead_weeks)))
    return Honest(by_bench, promised_on(by_lead, bench))


def eased(jobs: list[Job], days: Days) -> list[Job]:
    """The same jobs, each due no sooner than it can be done at all: what is late already is not asked for twice."""
    if schedule.fits(jobs, days):
        return jobs
    done = schedule.in_turn(jobs, days)
    return [replace(job, due=max(job.due, len(days) - 1 if done[job.key] is None else done[job.key])) for job in jobs]


def promised_on(day: date, bench: Bench) -> date:
    """That day, or the first open one after it in a month that takes promises."""
    for _ in range(HORIZON_DAYS):
        if bench.is_open(day) and not bench.is_full(day):
            return day
        day += timedelta(days=1)
    return day


def pushed(loads: Sequence[Load], put: Load, today: date, bench: Bench) -> list[Pushed]:
    """Which other orders could be ready later only, once `put` is promised for its day (or moved to it)."""
    others = [load for load in loads if load.key != put.key]
    before = kept([load for load in loads if load.key != put.key or load.collect_on], today, bench)
    after = kept([*others, put], today, bench)
    return [
        Pushed(load.order, load.collect_on, before.by_key[load.key], after.by_key[load.key])
        for load in sorted(others, key=lambda load: load.collect_on)
        if is_later(after.by_key[load.key], before.by_key[load.key])
    ]


def is_later(day: date | None, than: date | None) -> bool:
    return than is not None and (day is None or day > than)


def open_loads(bench: Bench, today: date) -> list[Load]:
    """The work of every order in hand, in two queries."""
    orders = Order.objects.in_hand().filter(stage__in=list(LEFT), collect_on__isnull=False)
    return loads_of(with_garments(orders.with_client().without_what_no_row_shows()), bench, today)
