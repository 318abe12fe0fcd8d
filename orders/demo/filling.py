"""A thick book of invented people, to see how the pages bear it: clients, measures, orders, fittings, payments.

Everything follows from the numbers asked for, so that two runs make the same book. Telephone numbers are from the
range that Ofcom keeps for drama (07700 900000 to 900999).
"""

import random
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import NamedTuple
from uuid import UUID

from django.db import transaction
from django.utils import timezone

from clients.folding import digits, fold
from clients.models import Client, Measuring, Reading
from drafting.engine.garments import KINDS
from orders.demo.plain_rows import PlainRows, go_on_counting
from orders.garment.options import defaults
from orders.models import Cloth, Fitting, Garment, Order, Payment
from orders.money import receipts
from orders.stages import BEFORE_CUTTING, Stage

OPEN_ORDERS = 200
ORDERS_EACH, FITTINGS_EACH = 5, 2
DEPOSIT = Decimal(100)
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
#: As a bustier's draft says it.
MATERIALS = (
    {"item": "waist stay ribbon", "amount": 831.8, "unit": "mm"}, {"item": "hooks and bars for the waist stay", "amount": 2}, {"item": "thread", "amount": 2, "unit": "reels"},
    {"item": "bone", "amount": 2079.1, "unit": "mm", "count": 13}, {"item": "bone tips", "amount": 26}, {"item": "casing strip, length", "amount": 2574, "unit": "mm"},
    {"item": "hook and eye above the zip", "amount": 1},
)  # fmt: skip
ZIPS_MM = (177.8, 203.2, 228.6, 304.8, 355.6, 406.4, 457.2, 558.8)


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
        put_clients(chance, clients, today)
        put_measures(chance, clients, today, by)
        orders = [numbered(chance, serial, clients, today) for serial in range(1, clients * ORDERS_EACH + 1)]
        put_orders(orders)
        put_garments(chance, orders)
        put_materials(orders)
        put_cloths(orders)
        fittings = put_fittings(chance, orders, today, by)
        payments = put_payments(chance, orders, by)
        Order.objects.add_up_paid()
        receipts.number_all()
        go_on_counting(Client, Measuring, Order)
    return Filled(clients, len(orders), fittings, payments)


def put_clients(chance: random.Random, clients: int, today: date) -> None:
    rows = PlainRows(Client, "id", "name", "name_folded", "phone", "phone_digits", "since")
    rows.write(client(chance, pk, today) for pk in range(1, clients + 1))


def client(chance: random.Random, pk: int, today: date) -> tuple:
    name = f"{chance.choice(FIRST)}{chance.choice(SECOND)} {chance.choice(FAMILY)}{chance.choice(END)}"
    phone = f"07700 900{chance.randrange(1000):03d}"
    return pk, name, fold(name), phone, digits(phone), today - timedelta(days=chance.randrange(3000))


def put_measures(chance: random.Random, clients: int, today: date, by) -> None:
    """Of each client, once."""
    measurings = PlainRows(Measuring, "id", "client_id", "taken_on", "token", taken_by=by)
    measurings.write((pk, pk, today - timedelta(days=chance.randrange(400)), any_uuid(chance)) for pk in range(1, clients + 1))
    readings = PlainRows(Reading, "measuring_id", "key", "written", "mm", written_by=by)
    readings.write((pk, key, *reading(chance, inches)) for pk in range(1, clients + 1) for key, inches in BODY.items())


def reading(chance: random.Random, inches: int) -> tuple[str, Decimal]:
    eighths = inches * 8 + chance.randrange(17)
    return f"{eighths / 8:g}", Decimal(eighths) * Decimal("3.175")


class Numbered(NamedTuple):
    """An order, by its columns."""

    id: int
    serial: int
    number: str
    client_id: int
    stage: Stage
    is_open: bool
    booked_on: date
    cut_on: date
    collect_on: date
    closed_on: date | None
    was_cut_on: date | None
    price: Decimal


def numbered(chance: random.Random, serial: int, clients: int, today: date) -> Numbered:
    """The oldest first; the last two hundred are open."""
    number = clients * ORDERS_EACH
    is_open, client = serial > number - OPEN_ORDERS, 1 + chance.randrange(clients)
    booked = today - timedelta(days=chance.randrange(1, 40) if is_open else 60 + (number - serial) * 2000 // number)
    stage = chance.choice(OPEN_STAGES) if is_open else Stage.COLLECTED
    ahead = chance.randrange(14, 75) if stage in BEFORE_CUTTING else chance.randrange(-4, 21)
    collect = today + timedelta(days=ahead) if is_open else booked + timedelta(days=42)
    return Numbered(
        serial, serial, f"S-{serial:03d}", client, stage, is_open, booked,
        cut_on=max(booked, collect - timedelta(days=16)), collect_on=collect, closed_on=None if is_open else collect,
        was_cut_on=booked if stage in (Stage.CUT, Stage.SEWN, Stage.READY, Stage.COLLECTED) else None,
        price=Decimal(chance.randrange(12, 80) * 10),
    )  # fmt: skip


def put_orders(orders: list[Numbered]) -> None:
    PlainRows(Order, *Numbered._fields, deposit=DEPOSIT).write(orders)


def put_garments(chance: random.Random, orders: list[Numbered]) -> None:
    made: dict[str, list[int]] = {name: [] for name in KINDS}
    for order in orders:
        made[chance.choice(list(made))].append(order.id)
    for name, keys in made.items():
        PlainRows(Garment, "order_id", kind=name, title=KINDS[name].title, options=defaults(KINDS[name])).write((pk,) for pk in keys)


def put_materials(orders: list[Numbered]) -> None:
    """What drafts of those in hand ask for, so that the market list and prices have something to add."""
    in_hand = [order.id for order in orders if order.is_open]
    for place, zip_mm in enumerate(ZIPS_MM):
        Garment.objects.filter(order__in=in_hand[place :: len(ZIPS_MM)]).update(materials=[{"item": "zip", "amount": zip_mm, "unit": "mm"}, *MATERIALS])


def put_cloths(orders: list[Numbered]) -> None:
    for name, use in (("outside cloth", "shell"), ("lining", "lining")):
        rows = PlainRows(Cloth, "order_id", "on_hand_mm", name=name, used_for=[use], width_written="54 in", width_mm=Decimal("1371.6"))
        rows.write((order.id, Decimal(4000) if order.serial % 3 else None) for order in orders)


def put_fittings(chance: random.Random, orders: list[Numbered], today: date, by) -> int:
    return PlainRows(Fitting, "order_id", "at", "done_on", by=by).write(fittings_of(chance, orders, today))


def fittings_of(chance: random.Random, orders: list[Numbered], today: date) -> Iterator[tuple]:
    zone = timezone.get_current_timezone()
    for order in orders:
        span = max((order.collect_on - order.booked_on).days, 2)
        for place in range(FITTINGS_EACH):
            day = order.booked_on + timedelta(days=(place + 1) * span // (FITTINGS_EACH + 1))
            at = datetime.combine(day, time(9 + chance.randrange(8), 30 * chance.randrange(2)), zone)
            yield order.id, at, day if day < today else None


def put_payments(chance: random.Random, orders: list[Numbered], by) -> int:
    """The deposit of each, and what was left; of those that are open, a part of it."""
    deposits = ((each, DEPOSIT) for each in orders)
    parts = ((each, Decimal(10) if each.is_open else each.price - DEPOSIT) for each in orders)
    return sum(
        PlainRows(Payment, "order_id", "taken_on", "key", "amount", kind=kind, taken_by=by).write(
            (each.id, each.booked_on, any_uuid(chance), amount) for each, amount in amounts
        )
        for kind, amounts in (("deposit", deposits), ("part", parts))
    )


def any_uuid(chance: random.Random) -> UUID:
    return UUID(int=chance.getrandbits(128))
