"""What a list needs of many orders, read as plain tuples: as models, the garments and fittings of 200 orders took longer than their pages."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, tzinfo
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from django.utils import timezone

from clients.models import first_of
from orders.beside import rows_along
from orders.models import Fitting, Garment, Order
from orders.models.naming import address_of
from workshop.asked_often import RowsAskedOften, together
from workshop.templatetags.workshop_tags import clock_of

FITTING = ("pk", "order_id", "told_at", "done_on", "missed_on", "ended", "is_toile", "fitter")
WITH_ORDER = (*FITTING, "order__number", "order__client__name")


class LightGarment(NamedTuple):
    """Named as the model's fields are, so that it can stand in a model's place."""

    pk: int
    order_id: int
    kind: str
    title: str
    hours_planned: Decimal | None
    measuring_id: int | None
    kept_past_id: int | None
    draft_id: int | None
    cut_draft_id: int | None
    draft_passed: bool
    signed_off_by_id: int | None

    is_signed_off = Garment.is_signed_off
    may_be_signed_off = Garment.may_be_signed_off


GARMENT = LightGarment._fields


class LightFitting(NamedTuple):
    """As `Fitting`, with who fits as a name, nothing where that is open; `day` and `clock` are by the workshop's clock."""

    pk: int
    order_id: int
    at: datetime
    day: date
    clock: str
    done_on: date | None
    missed_on: date | None
    ended: str
    is_toile: bool
    fitter: str | None

    @property
    def is_to_come(self) -> bool:
        return self.done_on is None and self.missed_on is None

    @property
    def is_done(self) -> bool:
        return self.done_on is not None


def with_garments(orders: Iterable[Order]) -> list[Order]:
    """The same orders, each with its garments, in one query unless theirs has told them (`telling_garments`)."""
    orders = list(orders)
    if orders and "garment_rows" in orders[0].__dict__:
        for order in orders:
            order.all_garments = garments_told(order)
        return orders
    # By `id` here and below: `pk` asks the model for the name of its key each time.
    held: dict[int, list[LightGarment]] = {order.id: [] for order in orders}
    for row in _garments_of(together(held)) if held else ():
        held[row[1]].append(LightGarment._make(row))
    for order in orders:
        order.all_garments = held[order.id]
    return orders


def telling_garments(orders):
    """The query with each order's garments in it, for a page that has no question left: `garments_told` reads them."""
    return orders.annotate(garment_rows=rows_along(Garment, *GARMENT[2:]))


def garments_told(order: Order) -> list[LightGarment]:
    rows = sorted(order.garment_rows or (), key=lambda row: row["pk"])
    return [LightGarment(order_id=order.pk, **row | {"draft_passed": bool(row["draft_passed"]), "hours_planned": hours_in(row)}) for row in rows]


def hours_in(row: dict) -> Decimal | None:
    """JSON has no decimal numbers."""
    return None if row["hours_planned"] is None else Decimal(str(row["hours_planned"]))


def with_fittings(orders: Collection[Order]) -> None:
    """Each with its fittings in the order of their times, in one query."""
    held: dict[int, list[LightFitting]] = {order.id: [] for order in orders}
    for fitting in lit(_fittings_of(together(held))) if held else ():
        held[fitting.order_id].append(fitting)
    for order in orders:
        order.all_fittings = held[order.id]


_garments_of = RowsAskedOften(lambda orders: Garment.objects.filter(order__among=orders).order_by("pk").values_list(*GARMENT))
_fittings_of = RowsAskedOften(lambda orders: Fitting.objects.filter(order__among=orders).order_by("at").with_fitter().with_told_at().values_list(*FITTING))


def lit(rows: Iterable[tuple]) -> list[LightFitting]:
    zone = timezone.get_current_timezone()
    return [LightFitting(pk, order, *moment_of(told, zone), *rest) for pk, order, told, *rest in rows]


@lru_cache(maxsize=4096)
def moment_of(told: str, zone: tzinfo) -> tuple[datetime, date, str]:
    """A moment as the database writes it, by UTC's clock; and its day and hour by the workshop's. A page has some hundred, most of them again."""
    at = datetime.fromisoformat(told)
    at = at if at.tzinfo else at.replace(tzinfo=UTC)
    local = at.astimezone(zone)
    return at, local.date(), clock_of(local)


@dataclass(frozen=True, slots=True)
class LightClient:
    name: str

    @property
    def first_name(self) -> str:
        return first_of(self.name)


@dataclass(frozen=True, slots=True)
class LightOrder:
    """Of an order no more than where it stands and whose it is."""

    number: str
    client: LightClient

    def get_absolute_url(self) -> str:
        return address_of(self.number)


Fitted = tuple[LightFitting, Order | LightOrder]
"""A fitting and what it is of. The fitting itself doesn't know: it lies in its order, and a circle would outlive the page."""


def light_with_orders(rows: list[tuple], known: Mapping[int, Order]) -> list[Fitted]:
    """Of rows of `WITH_ORDER`, fittings with their orders: those known already, or no more of them than a calendar shows."""
    found = lit(row[: len(FITTING)] for row in rows)
    return [
        (fitting, known.get(fitting.order_id) or LightOrder(number, LightClient(name)))
        for fitting, (*_, number, name) in zip(found, rows, strict=True)
    ]
