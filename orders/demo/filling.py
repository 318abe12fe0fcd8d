"""A thick book of invented people, to see how the pages bear it: clients, measures, orders, fittings, payments.

Everything follows from the numbers asked for, so that two runs make the same book. Telephone numbers are from the
range that Ofcom keeps for drama (07700 900000 to 900999).
"""

import random
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from itertools import islice

from django.db import transaction
from django.utils import timezone

from clients.models import Client, Measuring, Reading
from drafting.engine.garments import KINDS
from orders.garment.options import defaults
from orders.models import Cloth, Fitting, Garment, Order, Payment
from orders.stages import BEFORE_CUTTING, Stage

AT_ONCE = 2000
OPEN_ORDERS = 200
ORDERS_EACH, PAYMENTS_EACH, FITTINGS_EACH = 5, 2, 2
FIRST = "An Bea Cor Dal Eli Fen Gwen Hil Ines Jos Kat Lot Mar Nor Ola Pri Ros Sel Tam Wren".split()
SECOND = "na lie tte ia dra ne sin ya ka ren ta la".split()
FAMILY = "Acher Bran Cul Drum Elver Ferr Gal Hale Iver Karr Lund Mand Nether Okw Pell Quill Row Stan Toll Varr".split()
END = "by dale ell field ing ley more ow stone ton wick worth".split()
#: A body in inches, from which each client's differs by up to two inches.
BODY = {
    "bust": 36, "waist": 28, "hip": 39, "under_bust": 31, "high_bust": 34, "shoulder": 15, "across_front": 14, "across_back": 14,
    "nape_to_waist": 15, "shoulder_to_waist": 17, "armhole_depth": 6, "waist_to_hip": 8,
}  # fmt: skip
OPEN_STAGES = (Stage.ASKED, Stage.BOOKED, Stage.BOOKED, Stage.MEASURED, Stage.CUT, Stage.SEWN, Stage.READY)


class NotEmpty(Exception):
    """There are clients in this book already: nothing invented is put among them."""


@dataclass(frozen=True)
class Filled:
    clients: int
    orders: int
    fittings: int
    payments: int


def fill(clients: int, *, today: date, by) -> Filled:
    """So many clients with five orders each. Raises NotEmpty where anybody is in the book."""
    if Client.objects.exists() or Order.objects.exists():
        raise NotEmpty
    chance = random.Random(clients)
    with transaction.atomic():
        people = made(Client, (client(chance, today) for _ in range(clients)))
        measured(chance, people, today, by)
        orders = made(Order, numbered(chance, people, today))
        made(Garment, garments(chance, orders))
        made(Cloth, cloths(orders))
        fittings = made(Fitting, fittings_of(chance, orders, by, today))
        payments = made(Payment, payments_of(orders, by))
    return Filled(len(people), len(orders), len(fittings), len(payments))


def made(model, rows: Iterator) -> list:
    """Written a few thousand at a time, so that no statement grows beyond what the database takes."""
    written = []
    while batch := list(islice(rows, AT_ONCE)):
        written += model.objects.bulk_create(batch)
    return written


def client(chance: random.Random, today: date) -> Client:
    name = f"{chance.choice(FIRST)}{chance.choice(SECOND)} {chance.choice(FAMILY)}{chance.choice(END)}"
    return Client(name=name, phone=f"07700 900{chance.randrange(1000):03d}", since=today - timedelta(days=chance.randrange(3000)))


def measured(chance: random.Random, people: list[Client], today: date, by) -> None:
    measurings = made(Measuring, (Measuring(client=each, taken_on=today - timedelta(days=chance.randrange(400)), taken_by=by) for each in people))
    made(Reading, (reading(chance, measuring, key, inches, by) for measuring in measurings for key, inches in BODY.items()))


def reading(chance: random.Random, measuring: Measuring, key: str, inches: int, by) -> Reading:
    eighths = inches * 8 + chance.randrange(17)
    return Reading(measuring=measuring, key=key, written=f"{eighths / 8:g}", mm=Decimal(eighths) * Decimal("3.175"), written_by=by)


def numbered(chance: random.Random, people: list[Client], today: date) -> Iterator[Order]:
    """The oldest first; the last two hundred are open."""
    number = len(people) * ORDERS_EACH
    for serial in range(1, number + 1):
        is_open = serial > number - OPEN_ORDERS
        yield order(chance, serial, people[chance.randrange(len(people))], today, is_open, number)


def order(chance: random.Random, serial: int, client: Client, today: date, is_open: bool, number: int) -> Order:
    booked = today - timedelta(days=chance.randrange(1, 40) if is_open else 60 + (number - serial) * 2000 // number)
    stage = chance.choice(OPEN_STAGES) if is_open else Stage.COLLECTED
    ahead = chance.randrange(14, 75) if stage in BEFORE_CUTTING else chance.randrange(-4, 21)
    collect = today + timedelta(days=ahead) if is_open else booked + timedelta(days=42)
    return Order(
        serial=serial, number=f"S-{serial:03d}", client=client, stage=stage, is_open=is_open, booked_on=booked,
        cut_on=max(booked, collect - timedelta(days=16)), collect_on=collect, closed_on=None if is_open else collect,
        was_cut_on=booked if stage in (Stage.CUT, Stage.SEWN, Stage.READY, Stage.COLLECTED) else None,
        price=Decimal(chance.randrange(12, 80) * 10), deposit=Decimal(100),
    )  # fmt: skip


def garments(chance: random.Random, orders: list[Order]) -> Iterator[Garment]:
    kinds = {name: (kind.title, defaults(kind)) for name, kind in KINDS.items()}
    for order in orders:
        name = chance.choice(list(kinds))
        title, options = kinds[name]
        yield Garment(order=order, kind=name, title=title, options=options)


def cloths(orders: list[Order]) -> Iterator[Cloth]:
    for order in orders:
        for name, use in (("outside cloth", "shell"), ("lining", "lining")):
            yield Cloth(order=order, name=name, used_for=[use], width_written="54 in", width_mm=Decimal("1371.6"), on_hand_mm=4000 if order.serial % 3 else None)


def fittings_of(chance: random.Random, orders: list[Order], by, today: date) -> Iterator[Fitting]:
    for order in orders:
        span = max((order.collect_on - order.booked_on).days, 2)
        for place in range(FITTINGS_EACH):
            day = order.booked_on + timedelta(days=(place + 1) * span // (FITTINGS_EACH + 1))
            at = timezone.make_aware(datetime.combine(day, time(9 + chance.randrange(8), 30 * chance.randrange(2))))
            yield Fitting(order=order, at=at, by=by, done_on=day if day < today else None)


def payments_of(orders: list[Order], by) -> Iterator[Payment]:
    for order in orders:
        for place in range(PAYMENTS_EACH):
            amount = order.deposit if place == 0 else (order.price - order.deposit if not order.is_open else Decimal(10))
            yield Payment(order=order, kind="deposit" if place == 0 else "part", amount=amount, taken_on=order.booked_on, taken_by=by)
