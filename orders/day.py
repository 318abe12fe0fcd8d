"""Today, and any other day: what must happen, what is in danger, and the fortnight ahead."""

from dataclasses import dataclass, field
from datetime import date, timedelta
from itertools import islice

from orders.after.behind import Behind, behind
from orders.concern import Eyes
from orders.dates.bench import Bench
from orders.in_hand import Row, rows_in_hand, rows_of
from orders.light import Fitted, LightFitting
from orders.models import Order
from orders.models.naming import address_of_day
from orders.stages import BEFORE_CUTTING, Stage

FORTNIGHT = 14
SHOWN_AT_FIRST = 25
COLLECT_AHEAD_DAYS = 2
AT_ONCE = 3
"""So many orders' sheets are made while one waits, about 0.7 s each; more go into a job."""


@dataclass(frozen=True)
class FittingRow:
    fitting: LightFitting
    order: Order
    count: str  # 1st, 2nd…


@dataclass
class DayMarks:
    """One day of the fortnight, with what is marked under it."""

    day: date
    is_today: bool
    is_closed: bool
    fittings: list[Fitted] = field(default_factory=list)
    to_cut: list[Order] = field(default_factory=list)
    to_collect: list[Order] = field(default_factory=list)

    @property
    def address(self) -> str:
        return address_of_day(self.day)

    @property
    def said(self) -> str:
        """All its marks in words."""
        return counts_of(self) or ("closed" if self.is_closed else "nothing yet")


@dataclass(frozen=True)
class Day:
    day: date
    fittings: list[FittingRow]
    to_cut: list[Row]
    to_collect: list[Row]
    first: list
    fortnight: list[DayMarks]
    in_hand: list[Row]
    open_count: int
    behind: list[Behind] = field(default_factory=list)
    shows_all: bool = True

    @property
    def collect_first(self) -> list[Row]:
        """Those to collect that are drawn; the rest are a link away."""
        return self.to_collect if self.shows_all else self.to_collect[:SHOWN_AT_FIRST]

    @property
    def behind_first(self) -> list[Behind]:
        """What of clients' own still lies here that is drawn; the rest is a link away."""
        return self.behind if self.shows_all else self.behind[:SHOWN_AT_FIRST]

    @property
    def is_printed_at_once(self) -> bool:
        """Whether the day's sheets are few enough to be made while one waits."""
        return len(self.to_cut) <= AT_ONCE

    @property
    def counts(self) -> str:
        """One line: “2 fittings, 1 to cut, 2 to collect by Saturday.”"""
        said = counts_of(self)
        return f"{said}." if said else "Nothing is set for this day."


def todays(today: date, eyes: Eyes, *, show_all: bool = False) -> Day:
    rows = rows_in_hand(today, eyes)
    rows.sort(key=lambda row: -row.order.days_late(today))  # late first; the rest keep their order by collection
    pressing = islice((row for row in rows if row.concern), SHOWN_AT_FIRST)
    return Day(
        day=today,
        fittings=fittings_on(today, rows),
        to_cut=[row for row in rows if is_to_cut(row.order, today)],
        to_collect=[row for row in rows if is_to_collect(row.order, today)],
        first=list(pressing),
        fortnight=fortnight(today, rows),
        in_hand=rows if show_all else rows[:SHOWN_AT_FIRST],
        open_count=len(rows),
        behind=behind([row.order for row in rows[:1]]),
        shows_all=show_all,
    )


def one_day(day: date, today: date, eyes: Eyes) -> Day:
    """What is set for a day, and nothing else."""
    rows = rows_of(Order.objects.in_hand().set_for(day).by_collection(), today, eyes)
    return Day(
        day=day,
        fittings=fittings_on(day, rows),
        to_cut=[row for row in rows if row.order.cut_on == day and row.order.stage in BEFORE_CUTTING],
        to_collect=[row for row in rows if row.order.collect_on == day],
        first=[],
        fortnight=[],
        in_hand=[],
        open_count=len(rows),
    )


def is_to_cut(order: Order, today: date) -> bool:
    return order.cut_on is not None and order.cut_on <= today and order.stage in BEFORE_CUTTING[1:]


def is_to_collect(order: Order, today: date) -> bool:
    soon = order.collect_on is not None and order.collect_on <= today + timedelta(days=COLLECT_AHEAD_DAYS)
    return order.stage == Stage.READY or soon and order.stage != Stage.ASKED


def fittings_on(day: date, rows: list[Row]) -> list[FittingRow]:
    found = [
        FittingRow(fitting, row.order, ordinal(place))
        for row in rows
        for place, fitting in enumerate(row.order.held_fittings, 1)
        if fitting.day == day
    ]
    return sorted(found, key=lambda row: row.fitting.at)


def fortnight(today: date, rows: list[Row]) -> list[DayMarks]:
    days = [today + timedelta(days=ahead) for ahead in range(FORTNIGHT)]
    bench = Bench.current()
    marks = {day: DayMarks(day, day == today, not bench.is_open(day)) for day in days}
    for row in rows:
        order = row.order
        for fitting in order.held_fittings:
            if fitting.day in marks:
                marks[fitting.day].fittings.append((fitting, order))
        if order.cut_on in marks and order.is_before_cutting:
            marks[order.cut_on].to_cut.append(order)
        if order.collect_on in marks:
            marks[order.collect_on].to_collect.append(order)
    for mark in marks.values():
        mark.fittings.sort(key=lambda fitted: fitted[0].at)
    return list(marks.values())


def ordinal(number: int) -> str:
    tail = "th" if 10 <= number % 100 <= 20 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{tail}"


def counts_of(day, *more: str) -> str:
    """“2 fittings, 1 to cut, 2 to collect”, and what else is said; of anything that holds these three."""
    fittings = len(day.fittings)
    parts = [
        f"{fittings} {'fitting' if fittings == 1 else 'fittings'}" if fittings else "",
        f"{len(day.to_cut)} to cut" if day.to_cut else "",
        f"{len(day.to_collect)} to collect" if day.to_collect else "",
    ]
    return ", ".join(filter(None, (*parts, *more)))
