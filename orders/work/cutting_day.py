"""A day at the cutting table: which orders, what speaks against each, what is cut alone, and the owner's word all the same."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from django.db import transaction

from orders.concern import Concern, Eyes
from orders.in_hand import NOT_AT_THE_TABLE, Row, brought, rows_for, rows_of
from orders.models import Order
from orders.stages import BEFORE_CUTTING
from orders.work.cutting_table import why_ask

#: Orders whose cutting day lies so near are offered for the day too. Common practice, no source.
OFFERED_DAYS = 14
NOT_A_REASON = (*NOT_AT_THE_TABLE, "sign-off")
#: Money and phone numbers are for others: what is printed lies on the table.
AT_THE_TABLE = Eyes(sees_money=False, signs_off=False, sees_phone=False)


@dataclass(frozen=True)
class ToCut:
    row: Row
    against: list[Concern]
    alone: list[str]  # cloths that are cut without asking
    ask: list[tuple[str, str]]  # the other cloths, each with why somebody is asked first

    @property
    def order(self) -> Order:
        return self.row.order

    @property
    def has_draft(self) -> bool:
        return any(garment.draft_id for garment in self.order.all_garments)

    @property
    def may_be_signed_off(self) -> bool:
        """Only a draft that passed its checks: a wrong piece is never let through."""
        garments = self.order.all_garments
        return not self.order.is_signed_off and bool(garments) and all(each.draft_id and each.draft_passed for each in garments)


@dataclass(frozen=True)
class CuttingDay:
    day: date
    chosen: list[ToCut]
    offered: list[Row]  # each as it would stand on that day; `order.set_for` is the day that it has


def cutting_day(day: date, today: date, eyes: Eyes) -> CuttingDay:
    """What is to be cut on that day (for today, also what was to be cut before), and what could be cut then too."""
    waiting = Order.objects.in_hand().filter(stage__in=BEFORE_CUTTING[1:]).prefetch_related("cloths")
    near = waiting.filter(cut_on__lte=day + timedelta(days=OFFERED_DAYS)) | waiting.filter(cut_on=None)
    orders = list(brought(near, with_owner=not eyes.sees_phone).without_what_no_row_shows().order_by("cut_on", "serial"))
    chosen = [order for order in orders if order.cut_on == day or day == today and order.cut_on and order.cut_on < day]
    for order in orders:
        order.set_for = order.cut_on
        if order not in chosen:
            order.cut_on = day  # never kept: the others are asked what would speak against them on this day
    rows = rows_for(orders, max(day, today), eyes)
    return CuttingDay(day, [to_cut(row) for row in rows if row.order in chosen], [row for row in rows if row.order not in chosen])


def to_cut(row: Row) -> ToCut:
    asked = [(cloth.name, why_ask(cloth)) for cloth in row.order.cloths.all()]
    return ToCut(row, reasons(row), [name for name, why in asked if not why], [(name, why) for name, why in asked if why])


def reasons(row: Row) -> list[Concern]:
    """What speaks against cutting it: not that it is late, or what comes after the cut."""
    return [concern for concern in row.concerns if concern.kind != "late" and concern.flag not in NOT_A_REASON]


def despite(order: Order, today: date) -> str:
    """The flags against cutting an order now, as they are kept and printed."""
    (row,) = rows_of(Order.objects.filter(pk=order.pk), max(today, order.cut_on or today), AT_THE_TABLE)
    return ", ".join(concern.flag for concern in reasons(row))


@transaction.atomic
def choose(numbers: Iterable[str], day: date, *, by) -> list[Order]:
    """Give these orders that day for cutting; those that are cut meanwhile stay as they are."""
    orders = list(Order.objects.in_hand().filter(number__in=numbers, stage__in=BEFORE_CUTTING[1:]).order_by("serial"))
    for order in orders:
        order.cut_on = day
        order.keep("cut_on", by=by)
    return orders
