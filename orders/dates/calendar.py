"""The calendar by week and by month: what is set for each day, and how full the bench is. Six queries, however much."""

from dataclasses import dataclass, field
from datetime import date, timedelta

from django.db.models import QuerySet

from orders.dates.bench import Bench, month_in_words
from orders.dates.promise import Kept, is_counted, kept, loads_of
from orders.day import counts_of
from orders.light import WITH_ORDER, Fitted, light_with_orders, with_garments
from orders.models import Fitting, Order
from orders.models.naming import address_of_day
from orders.querysets import midnight
from orders.stages import Stage
from workshop.asked_often import RowsAskedOften, moment_told
from workshop.templatetags.workshop_tags import day as in_words

WEEK = 7


@dataclass
class CalendarDay:
    day: date
    is_today: bool
    is_past: bool
    is_other: bool  # of the month before or after the one shown
    why_closed: str
    fittings: list[Fitted] = field(default_factory=list)
    to_cut: list[Order] = field(default_factory=list)
    cut: list[Order] = field(default_factory=list)  # and not collected yet
    to_collect: list[Order] = field(default_factory=list)
    held: list[Order] = field(default_factory=list)  # a date that is held for somebody until the deposit is in

    @property
    def address(self) -> str:
        return address_of_day(self.day)

    @property
    def is_empty(self) -> bool:
        return not (self.fittings or self.to_cut or self.cut or self.to_collect or self.held)

    @property
    def said(self) -> str:
        """All its marks in words."""
        cut, held = (f"{len(orders)} {word}" if orders else "" for orders, word in ((self.cut, "cut"), (self.held, "held")))
        return counts_of(self, cut, held, f"closed: {self.why_closed}" if self.why_closed else "") or "nothing yet"


@dataclass(frozen=True)
class CalendarWeek:
    days: list[CalendarDay]
    bench: str  # “28 of 42 hours taken”; nothing for a week that is past


@dataclass(frozen=True)
class Calendar:
    title: str
    weeks: list[CalendarWeek]
    first: date
    before: date
    after: date
    bench: str  # how far ahead the bench has work
    is_full: bool

    @property
    def days(self) -> list[CalendarDay]:
        return [day for week in self.weeks for day in week.days]

    @property
    def busy_days(self) -> list[CalendarDay]:
        """Days of this month that hold something, for a phone."""
        return [day for day in self.days if not day.is_other and (not day.is_empty or day.why_closed and day.day.weekday() < 6)]


def week_of(day: date, today: date) -> Calendar:
    first = monday(day)
    last = first + timedelta(days=WEEK - 1)
    title = f"{in_words(first)} to {in_words(last)}"
    return made(title, first, last, first, first - timedelta(days=WEEK), first + timedelta(days=WEEK), today, by_month=False)


def month_of(day: date, today: date) -> Calendar:
    first = day.replace(day=1)
    after = (first + timedelta(days=31)).replace(day=1)
    last = monday(after - timedelta(days=1)) + timedelta(days=WEEK - 1)
    title = month_in_words(first.year, first.month)
    return made(title, monday(first), last, first, (first - timedelta(days=1)).replace(day=1), after, today, by_month=True)


def monday(day: date) -> date:
    return day - timedelta(days=day.weekday())


def made(title: str, first: date, last: date, of: date, before: date, after: date, today: date, *, by_month: bool) -> Calendar:
    """`first` to `last` are the days shown, whole weeks; `of` is the first that belongs to what is asked for."""
    bench = Bench.current()
    orders = with_garments(_in_hand())
    can = kept(loads_of(orders, bench, today), today, bench)
    days = {}
    for number in range((last - first).days + 1):
        day = first + timedelta(days=number)
        other = by_month and day.month != of.month
        days[day] = CalendarDay(day, day == today, day < today, other, bench.why_closed(day))
    put_orders(days, orders, today)
    put_fittings(days, first, last, {order.pk: order for order in orders})
    shown = list(days.values())
    weeks = [shown[start : start + WEEK] for start in range(0, len(shown), WEEK)]
    return Calendar(
        title=title,
        weeks=[CalendarWeek(week, bench_of(week, can, today)) for week in weeks],
        first=of,
        before=before,
        after=after,
        bench=f"The bench has work until {in_words(can.work_until)}." if can.work_until else "The bench has no work promised.",
        is_full=bench.is_full(of),
    )


def put_orders(days: dict[date, CalendarDay], orders: list[Order], today: date) -> None:
    for order in orders:
        if order.cut_on in days and order.is_before_cutting and order.stage != "asked":
            days[order.cut_on].to_cut.append(order)
        if order.was_cut_on in days:
            days[order.was_cut_on].cut.append(order)
        if order.collect_on in days:
            on = days[order.collect_on]
            if order.stage != "asked":
                on.to_collect.append(order)
            elif is_counted(order, today):
                on.held.append(order)


def put_fittings(days: dict[date, CalendarDay], first: date, last: date, orders: dict[int, Order]) -> None:
    rows = _fittings_held(moment_told(midnight(first)), moment_told(midnight(last + timedelta(days=1))))
    for fitting, order in light_with_orders(rows, orders):
        if fitting.day in days:
            days[fitting.day].fittings.append((fitting, order))


def fittings_held(first: object, after: object) -> QuerySet:
    """Of both moments, as the database is told them: fittings that were held or are to come."""
    held = Fitting.objects.filter(at__not_before=first, at__before=after, missed_on=None).exclude(order__stage=Stage.CALLED_OFF)
    return held.order_by("at").with_fitter().with_told_at().values_list(*WITH_ORDER)


_in_hand = RowsAskedOften(lambda: Order.objects.in_hand().with_client().without_what_no_row_shows())
_fittings_held = RowsAskedOften(fittings_held)


def bench_of(week: list[CalendarDay], can: Kept, today: date) -> str:
    """Hours of the week that promised work takes, as sewn in turn; the part of the week that is past is past."""
    places = [(day.day - today).days for day in week]
    room = sum(can.room[place] for place in places if 0 <= place < len(can.room))
    if not room:
        return ""
    free = sum(can.free[place] for place in places if 0 <= place < len(can.room))
    return f"{(room - free) / 4:.3g} of {room / 4:.3g} hours taken"
