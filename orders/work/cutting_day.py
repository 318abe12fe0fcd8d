"""A day at the cutting table: which orders, what speaks against each garment, what is cut alone, and the owner's word all the same."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from django.db import transaction

from orders.concern import Concern, Eyes
from orders.in_hand import NOT_AT_THE_TABLE, Row, brought, row_shown, rows_for
from orders.light import LightGarment
from orders.models import Garment, Order
from orders.stages import BEFORE_CUTTING
from orders.whole_order import WholeOrder
from orders.work.cutting_table import why_ask

#: Orders whose cutting day lies so near are offered for the day too. Common practice, no source.
OFFERED_DAYS = 14
NOT_A_REASON = (*NOT_AT_THE_TABLE, "sign-off")
#: Money and phone numbers are for others: what is printed lies on the table.
AT_THE_TABLE = Eyes(sees_money=False, signs_off=False, sees_phone=False)


@dataclass(frozen=True)
class GarmentToCut:
    """One garment that is not cut yet, and what speaks against cutting it."""

    garment: LightGarment
    against: list[Concern]
    despite: str = ""  # what spoke against it when it was signed off all the same, and the owner's reason
    why: str = ""

    @property
    def may_be_signed_off(self) -> bool:
        return self.garment.may_be_signed_off


@dataclass(frozen=True)
class ToCut:
    row: Row
    against: list[Concern]  # what speaks against every garment of it
    garments: list[GarmentToCut]  # those that are left to cut, each with what speaks against it alone
    alone: list[str]  # cloths that are cut without asking
    ask: list[tuple[str, str]]  # the other cloths, each with why somebody is asked first

    @property
    def order(self) -> Order:
        return self.row.order

    @property
    def has_several(self) -> bool:
        return len(self.order.all_garments) > 1

    @property
    def has_draft(self) -> bool:
        return any(garment.draft_id for garment in self.order.all_garments)

    @property
    def to_sign(self) -> list[GarmentToCut]:
        return [each for each in self.garments if each.may_be_signed_off]

    @property
    def signed_at_once(self) -> list[GarmentToCut]:
        """Those that one press signs off: all that are not signed off, where each of them may be."""
        waiting = [each for each in self.garments if not each.garment.is_signed_off]
        return waiting if waiting == self.to_sign else []

    @property
    def needs_reason(self) -> bool:
        return bool(self.against) or any(each.against for each in self.signed_at_once)


@dataclass(frozen=True)
class CuttingDay:
    day: date
    chosen: list[ToCut]
    offered: list[Row]  # each as it would stand on that day


def cutting_day(day: date, today: date, eyes: Eyes) -> CuttingDay:
    """What is to be cut on that day (for today, also what was to be cut before), and what could be cut then too."""
    waiting = Order.objects.in_hand().filter(stage__in=BEFORE_CUTTING[1:]).prefetch_related("cloths")
    near = waiting.filter(cut_on__lte=day + timedelta(days=OFFERED_DAYS)) | waiting.filter(cut_on=None)
    orders = list(brought(near, with_owner=not eyes.sees_phone).without_what_no_row_shows().order_by("cut_on", "serial"))
    chosen = {order.pk for order in orders if order.cut_on == day or day == today and order.cut_on and order.cut_on < day}
    # the others are asked what would speak against them on this day
    rows = rows_for(orders, max(day, today), eyes, cut_on=lambda order: order.cut_on if order.pk in chosen else day)
    said = {pk: told for pk, *told in Garment.objects.filter(order__in=chosen).exclude(cut_despite="").values_list("pk", "cut_despite", "why_cut")}
    return CuttingDay(day, [to_cut(row, said) for row in rows if row.order.pk in chosen], [row for row in rows if row.order.pk not in chosen])


def to_cut(row: Row, said: Mapping[int, list[str]]) -> ToCut:
    asked = [(cloth.name, why_ask(cloth)) for cloth in row.order.cloths.all()]
    each = [GarmentToCut(garment, reasons(row, garment)) for garment in row.order.not_cut]
    of_all = [concern for concern in each[0].against if all(concern in other.against for other in each)] if each else []
    garments = [GarmentToCut(one.garment, [concern for concern in one.against if concern not in of_all], *said.get(one.garment.pk, ())) for one in each]
    return ToCut(row, of_all, garments, [name for name, why in asked if not why], [(name, why) for name, why in asked if why])


def reasons(row: Row, garment: Garment) -> list[Concern]:
    """What speaks against cutting it: not that it is late, or what comes after the cut."""
    return [concern for concern in row.concerns_of([garment]) if concern.kind != "late" and concern.flag not in NOT_A_REASON]


def against_each(whole: WholeOrder, today: date, eyes: Eyes) -> dict[int, list[str]]:
    """By garment that is not cut, in flags, what speaks against cutting it, and which of its lengths were not checked."""
    order = whole.order
    day = max(today, order.cut_on or today)
    row, is_for = row_shown(whole, day, eyes, day), {cloth.pk: cloth.garment_id for cloth in whole.cloths}
    return {
        garment.pk: [concern.flag for concern in reasons(row, garment)]
        + not_checked(length for length in order.unchecked if is_for.get(length["cloth"]) in (None, garment.pk))
        for garment in order.not_cut
    }


def not_checked(lengths: Iterable[dict]) -> list[str]:
    return [f"{name} not checked" for name in sorted({length["name"] for length in lengths})]


def despite(order: Order, garments: Collection[Garment], today: date) -> dict[int, str]:
    """By garment, the flags against cutting it on its day, or now where that is past or open: as they are kept and printed."""
    day = max(today, order.cut_on or today)
    found = brought(Order.objects.filter(pk=order.pk).with_cloths(), with_owner=True).without_what_no_row_shows()
    (row,) = rows_for(found, day, AT_THE_TABLE, cut_on=lambda _: day)
    return {garment.pk: ", ".join(concern.flag for concern in reasons(row, garment)) for garment in garments}


@transaction.atomic
def choose(numbers: Iterable[str], day: date, *, by) -> list[Order]:
    """Give these orders that day for cutting; those that are cut meanwhile stay as they are."""
    orders = list(Order.objects.in_hand().filter(number__in=numbers, stage__in=BEFORE_CUTTING[1:]).order_by("serial"))
    for order in orders:
        order.cut_on = day
        order.keep("cut_on", by=by)
    return orders
