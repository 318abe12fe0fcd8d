"""A client who did not come: the fitting stands as missed, another takes its place, and the promise moves with it."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from django.db import transaction
from django.utils import timezone

from orders.booking import book_fitting
from orders.dates.bench import Bench
from orders.models import Fitting, Order
from orders.stages import NotNow
from workshop.templatetags.workshop_tags import day as in_words
from workshop.templatetags.workshop_tags import weekday


@dataclass(frozen=True)
class Moved:
    """What a missed fitting moved: the days before and after, where they changed."""

    collect_on: tuple[date, date] | None = None
    cut_on: tuple[date, date] | None = None

    def in_words(self) -> str:
        parts = [f"collection from {in_words(self.collect_on[0])} to {weekday(self.collect_on[1])}"] if self.collect_on else []
        parts += [f"cutting to {weekday(self.cut_on[1])}"] if self.cut_on else []
        return f"It moves {' and '.join(parts)}." if parts else "The promise stays."


@transaction.atomic
def miss_fitting(
    *, fitting: Fitting, order: Order, why: str, next_at: datetime | None, moves: bool, by, today: date
) -> Moved:
    """Note it as missed. With a new time, book that; with `moves`, the days ahead move by as many days."""
    if not fitting.is_to_come:
        raise NotNow(f"This fitting is noted as {'done' if fitting.is_done else 'missed'} already.")
    if fitting.day > today:
        raise NotNow("This fitting has not come yet. If it is put off, move it to another day.")
    if next_at and timezone.localdate(next_at) < today:
        raise NotNow("The new day is past already. Write one that is to come.")
    fitting.missed_on = today
    fitting.keep("missed_on", by=by, why=why)
    if not next_at:
        return Moved()
    book_fitting(order=order, at=next_at, by=fitting.by, note=fitting.note, booked_by=by)
    if not moves:
        return Moved()
    return move_on(order, timezone.localdate(next_at) - fitting.day, by=by, why=f"fitting of {in_words(fitting.day)} missed: {why}", since=fitting.day)


def move_on(order: Order, gap: timedelta, *, by, why: str, since: date) -> Moved:
    """Collection, and cutting where it is to come after that fitting, by so many days and then to an open one."""
    bench, before = Bench.current(), (order.collect_on, order.cut_on)
    if order.collect_on:
        order.collect_on = bench.next_open(order.collect_on + gap)
    if order.cut_on and order.is_before_cutting and order.cut_on >= since:
        order.cut_on = bench.next_open(order.cut_on + gap)
    order.keep("collect_on", "cut_on", by=by, why=why)
    after = (order.collect_on, order.cut_on)
    return Moved(*((old, new) if old != new else None for old, new in zip(before, after, strict=True)))
