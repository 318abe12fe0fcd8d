"""Open orders as rows: for Today, for one day and for the list. All is brought along in a fixed number of queries."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import Decimal
from functools import cache, cached_property, lru_cache, partial
from typing import NamedTuple

from clients.models import Measuring
from orders.after.behind import with_behind
from orders.concern import Concern, Eyes, Known, page_of
from orders.concerns import concerns_of, is_cut_soon
from orders.cutting_concerns import Cut
from orders.dates.bench import Bench
from orders.dates.promise import Load, is_well_alone, kept, loads_of
from orders.garment.after_cut import AfterCut, Asked, is_measured_since
from orders.light import with_fittings, with_garments
from orders.models import Cloth, Order
from orders.models.cloth import AMISS
from orders.next_act import in_words
from workshop.asked_often import RowsAskedOften, together
from workshop.models import Workshop
from workshop.money import print_money
from workshop.templatetags.workshop_tags import hours as print_hours

NOT_AT_THE_TABLE = ("instalment late", "instalment due", "bench too full", "no fitting booked", "after the occasion", "not cut yet", "to cut again", "cloth to buy")


@dataclass(frozen=True)
class Row:
    """An order as a list shows it; worked out when asked for, because Today draws some of the rows it counts."""

    order: Order
    today: date
    eyes: Eyes
    beside: Beside
    cut_on: date | None  # the day of its cut that is asked about: its own, unless another is thought of

    @cached_property
    def known(self) -> Known:
        return self.beside.known_of(self.order)

    @cached_property
    def next(self) -> str:
        return says(self.order, self.today, self.eyes)

    @cached_property
    def concerns(self) -> list[Concern]:
        return concerns_of(self.order, self.today, self.eyes, self.known, self.cut_of(self.order.not_cut, self.order.cloths_to_come))

    def concerns_of(self, garments: list) -> list[Concern]:
        """What stands in the way of cutting these garments alone; needs the order's cloths."""
        newer, measured_on = measures_known(garments, self.beside.newest.get(self.order.client_id))
        known = replace(self.known, newer=newer, measured_on=measured_on, after_cut=nothing)
        return concerns_of(self.order, self.today, self.eyes, known, self.cut_of(garments, self.order.cloths.all()))

    def cut_of(self, garments: list, cloths: Iterable[Cloth] = ()) -> Cut | None:
        return Cut(self.order, self.cut_on, garments, cloths) if self.cut_on else None

    @property
    def balance(self) -> Decimal | None:
        """None for whoever may not see money."""
        return self.order.balance if self.eyes.sees_money else None

    @property
    def concern(self) -> Concern | None:
        return self.concerns[0] if self.concerns else None

    @property
    def at_the_table(self) -> Concern | None:
        """The first that speaks against cutting; the bench and the fittings ahead do not."""
        return next((concern for concern in self.concerns if concern.flag not in NOT_AT_THE_TABLE), None)

    @property
    def also(self) -> str:
        """The flags besides the first, for the line below it."""
        return ", ".join(concern.flag for concern in self.concerns[1:])


def eyes_of(person) -> Eyes:
    workshop = Workshop.current()
    return Eyes(
        sees_money=person.may("see_money"),
        signs_off=person.may("sign_off"),
        money=lambda amount: print_money(amount, workshop.currency),
        sees_phone=person.may("see_phone"),
        may=person.may,
    )


def says(order: Order, today: date, eyes: Eyes) -> str:
    """What a list says of an order: what comes next, or how it ended. The query brings `owner_name`."""
    if not order.is_open:
        return order.get_stage_display()
    return in_words(order, today, sees_money=eyes.sees_money, rings="" if eyes.sees_phone else order.owner_name)


def brought(orders, *, with_owner: bool):
    """The query with what a row needs of the order itself; with whom those ask who may not see a client's number."""
    found = orders.with_client().with_out().with_spoiled()
    return found.with_owner_name() if with_owner else found


def rows_of(orders, today: date, eyes: Eyes) -> list[Row]:
    return rows_for(brought(orders, with_owner=not eyes.sees_phone).without_what_no_row_shows(), today, eyes)


def rows_in_hand(today: date, eyes: Eyes) -> list[Row]:
    """All open orders, the soonest promised first, and of each whether the bench can keep its promise."""
    return rows_for(_in_hand(with_owner=not eyes.sees_phone)(), today, eyes, all_in_hand=True)


def rows_on_page(today: date, eyes: Eyes, start: int, stop: int, *, of_all: bool) -> list[Row]:
    """Some of the orders in hand, the soonest promised first; or of all there are, the newest first."""
    return rows_for(_on_page(of_all, start, stop, with_owner=not eyes.sees_phone)(), today, eyes)


@cache
def _in_hand(*, with_owner: bool) -> RowsAskedOften:
    return RowsAskedOften(lambda: with_behind(brought(Order.objects.in_hand().by_collection(), with_owner=with_owner)).without_what_no_row_shows())


@lru_cache(maxsize=16)
def _on_page(of_all: bool, start: int, stop: int, *, with_owner: bool) -> RowsAskedOften:
    found = Order.objects.latest_first() if of_all else Order.objects.in_hand().by_collection()
    return RowsAskedOften(lambda: brought(found[start:stop], with_owner=with_owner).without_what_no_row_shows())


def own_day(order: Order) -> date | None:
    return order.cut_on


def rows_for(orders: Iterable[Order], today: date, eyes: Eyes, *, all_in_hand: bool = False, cut_on: Callable[[Order], date | None] = own_day) -> list[Row]:
    """`cut_on` is the day of an order's cut that is asked about, where that is not its own."""
    orders = with_garments(orders)
    with_fittings(orders)
    with_cloths_to_come(orders, today, cut_on)
    newest = newest_measurings(orders)
    later = later_than_promised(orders, today) if all_in_hand else {}
    beside = Beside(newest, later, Workshop.current().good_for_days if orders else 0)
    return [Row(order, today, eyes, beside, cut_on(order)) for order in orders]


def with_cloths_to_come(orders: list[Order], today: date, cut_on: Callable[[Order], date | None]) -> None:
    """The cloths that are amiss, in one query, of the orders whose cutting is near: of others nobody asks yet."""
    held: dict[int, list[Cloth]] = {order.id: [] for order in orders if is_cut_soon(order, cut_on(order), today)}
    for cloth in _amiss_of(together(held)) if held else ():
        held[cloth.order_id].append(cloth)
    for order in orders:
        order.cloths_to_come = held.get(order.id, [])


_amiss_of = RowsAskedOften(lambda orders: Cloth.objects.filter(AMISS, order__among=orders).order_by("pk").defer("price", "changed_at", "changed_by"))


class Later(NamedTuple):
    can: date | None = None
    alone: Callable[[], str] = str


ON_TIME = Later()


def later_than_promised(orders: list[Order], today: date) -> dict[int, Later]:
    """For orders that the bench can't have ready by their day, the day by which it can, and whether that is their own work."""
    bench = Bench.current()
    loads = loads_of(orders, bench, today)
    can = kept(loads, today, bench).by_key
    late = [load for load in loads if can[load.key] and can[load.key] > max(load.collect_on, today)]
    return {load.key: Later(can[load.key], partial(hours_alone, load, today, bench)) for load in late}


def hours_alone(load: Load, today: date, bench: Bench) -> str:
    """The hours left to do of an order, where even a bench with nothing else on it could not keep its day; else nothing."""
    return "" if is_well_alone(load, today, bench) else print_hours(Decimal(sum(load.quarters)) / 4)


class Newest(NamedTuple):
    """A client's newest measuring, and the days of all of them by their keys."""

    pk: int
    taken_on: date
    days: dict[int, date]


def newest_measurings(orders: list[Order]) -> dict[int, Newest]:
    """The measurings of each client whose order is in hand, in one query."""
    clients = {order.client_id for order in orders if order.is_open}
    if not clients:
        return {}
    newest: dict[int, Newest] = {}
    for client, pk, taken_on in _measurings_of(together(clients)):
        newest.setdefault(client, Newest(pk, taken_on, {})).days[pk] = taken_on
    return newest


_measurings_of = RowsAskedOften(lambda clients: Measuring.objects.filter(client__among=clients).newest_first().values_list("client", "pk", "taken_on"))


@dataclass(frozen=True)
class Beside:
    """What rows know together of what does not stand on their orders."""

    newest: dict[int, Newest]  # by client
    later: dict[int, Later]  # by order
    good_for: int
    asked: Asked = field(default_factory=Asked)
    asks_after_cut: bool = True  # whether what was measured after a cut is said too

    def known_of(self, order: Order) -> Known:
        newest, later = self.newest.get(order.client_id), self.later.get(order.id, ON_TIME)
        if newest is None:
            return Known(**later._asdict())
        after_cut = partial(said_after_cut, order, newest, self.asked) if order.is_open and self.asks_after_cut else nothing
        if not order.is_before_cutting:
            return Known(**later._asdict(), after_cut=after_cut)
        return Known(*measures_known(order.not_cut, newest), self.good_for, *later, after_cut)


def nothing() -> None:
    return None


def said_after_cut(order: Order, newest: Newest, asked: Asked) -> AfterCut | None:
    """What the client's newest measuring means for those of the order's garments that are cut."""
    if not any(is_measured_since(garment, newest.pk) for garment in order.all_garments):
        return None
    return asked.of(order, Measuring.objects.get(pk=newest.pk), newest.taken_on)


def measures_known(garments: list, newest: Newest | None) -> tuple[date | None, date | None]:
    """Of garments that are not cut: the day of a measuring that a draft does not know and nobody has decided about, and of the oldest in use."""
    if newest is None:
        return None, None
    undecided = any(g.draft_id and newest.pk not in (g.measuring_id, g.kept_past_id) for g in garments)
    used = [newest.days.get(garment.measuring_id) for garment in garments]
    return newest.taken_on if undecided else None, min(filter(None, used), default=None)


SAID_ABOVE = ("measures changed", "sign-off")  # the order's own page says these with their buttons


def row_shown(whole, today: date, eyes: Eyes, cut_on: date | None) -> Row:
    """One order with all that was brought along for its own page; asks the database nothing."""
    order, newest = whole.order, {}
    order.cloths_to_come = [cloth for cloth in whole.cloths if cloth.is_amiss]
    if whole.newest:
        used = {each.measuring_id: each.measuring.taken_on for each in whole.garments if each.measuring}
        newest[order.client_id] = Newest(whole.newest.pk, whole.newest.taken_on, used)
    return Row(order, today, eyes, Beside(newest, {}, Workshop.current().good_for_days, asks_after_cut=False), cut_on)


def concerns_shown(whole, today: date, eyes: Eyes) -> list[Concern]:
    """What is in the way of one order, for its own page: all of it, but what the page says elsewhere."""
    order = whole.order
    found = [concern for concern in row_shown(whole, today, eyes, order.cut_on).concerns if concern.flag not in SAID_ABOVE]
    return [replace(each, step=None) if each.step and each.step.to == page_of(order) else each for each in found]
