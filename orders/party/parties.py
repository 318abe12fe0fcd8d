"""A party's acts and its sheet: one occasion, many clients, each with measures, a garment and payments of their own."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from django.db import transaction

from clients.models import Client
from orders.booking import take_order
from orders.models import Order, Party
from orders.stages import BEFORE_CUTTING, Stage

SHARED_DAYS = ("cut_on", "collect_on", "occasion_on")


@dataclass(frozen=True)
class Member:
    """One client of the party, as the group's sheet shows them. Money is None for whoever may not see it."""

    order: Order
    payer: Client
    is_measured: bool
    is_cut: bool
    deposit_missing: Decimal
    balance: Decimal | None

    @property
    def is_out(self) -> bool:
        return self.order.stage == Stage.CALLED_OFF

    @property
    def is_unpaid(self) -> bool:
        return bool(self.deposit_missing) or bool(self.balance and self.balance > 0)


@dataclass(frozen=True)
class Payer:
    client: Client
    of: int
    price: Decimal
    balance: Decimal


@dataclass(frozen=True)
class GroupSheet:
    party: Party
    members: list[Member]
    payers: list[Payer]
    sees_money: bool = True

    @property
    def staying(self) -> list[Member]:
        return [member for member in self.members if not member.is_out]

    @property
    def said(self) -> str:
        """“5 orders: 2 unmeasured, 1 deposit missing, 5 uncut.”"""
        staying = self.staying
        if not staying:
            return "Nobody yet."
        parts = [
            (sum(not member.is_measured for member in staying), "unmeasured"),
            (sum(bool(member.deposit_missing) for member in staying), "without deposit" if self.sees_money else "to ask about first"),
            (sum(not member.is_cut for member in staying), "uncut"),
        ]
        told = ", ".join(f"{number} {what}" for number, what in parts if number) or "all measured and cut"
        return f"{len(staying)} {'order' if len(staying) == 1 else 'orders'}: {told}."


def sheet_of(party: Party, *, with_money: bool) -> GroupSheet:
    orders = party.orders.select_related("client", "paid_by").with_work().order_by("serial")
    members = [member_of(order, party, with_money) for order in orders]
    return GroupSheet(party, members, payers_of(members) if with_money else [], with_money)


def member_of(order: Order, party: Party, with_money: bool) -> Member:
    garments = order.all_garments
    return Member(
        order=order,
        payer=order.paid_by or party.payer or order.client,
        is_measured=bool(garments) and all(garment.measuring_id for garment in garments),
        is_cut=order.stage not in BEFORE_CUTTING and order.stage != Stage.CALLED_OFF,
        deposit_missing=order.deposit_missing,
        balance=order.balance if with_money else None,
    )


def payers_of(members: list[Member]) -> list[Payer]:
    """Who owes what for whom, the largest first. Somebody who dropped out owes what is kept."""
    found: dict[int, Payer] = {}
    for member in members:
        price = (member.order.kept or Decimal(0)) if member.is_out else (member.order.price or Decimal(0))
        known = found.get(member.payer.pk) or Payer(member.payer, 0, Decimal(0), Decimal(0))
        found[member.payer.pk] = Payer(member.payer, known.of + 1, known.price + price, known.balance + (member.balance or Decimal(0)))
    return sorted(found.values(), key=lambda payer: -payer.balance)


@transaction.atomic
def join(
    *, party: Party, client: Client, kind: str, price: Decimal | None, deposit: Decimal | None, pays_own: bool, by, today: date
) -> Order:
    """One more order of the party, also a latecomer's: with the shared days, and the shared cloth for its outside."""
    order = take_order(
        client=client, kind=kind, by=by, booked_on=today, collect_on=party.collect_on, cut_on=later(party.cut_on, today),
        occasion_on=party.occasion_on, price=price, deposit=deposit,
    )  # fmt: skip
    order.party, order.paid_by = party, client if pays_own else None
    order.keep("party", "paid_by", by=by)
    put_shared_cloth(order, party, by)
    return order


def later(day: date | None, today: date) -> date | None:
    """The shared cutting day, unless it has been: a latecomer's is still to be set."""
    return day if day and day >= today else None


def put_shared_cloth(order: Order, party: Party, by) -> None:
    """The outside cloth by the party's name and width, so that all may be laid together."""
    if not party.cloth:
        return
    outside = next((cloth for cloth in order.cloths.all() if "shell" in cloth.used_for), None)
    if outside is None or order.cloths.exclude(pk=outside.pk).filter(name=party.cloth).exists():
        return
    outside.name = party.cloth
    if party.width_mm:
        outside.width_written, outside.width_mm = party.width_written, party.width_mm
    outside.keep("name", "width_written", "width_mm", by=by)


@transaction.atomic
def change(*, party: Party, values: dict, by) -> list[Order]:
    """Change what is shared; each order that still stands before its cutting follows. Gives those that did."""
    before = {name: getattr(party, name) for name in SHARED_DAYS}
    cloth_before = (party.cloth, party.width_mm)
    for name, value in values.items():
        setattr(party, name, value)
    party.keep(*values, by=by)
    moved = [name for name in SHARED_DAYS if before[name] != getattr(party, name)]
    followed = []
    for order in party.orders.filter(is_open=True, stage__in=BEFORE_CUTTING):
        follows = [name for name in moved if getattr(order, name) == before[name]]  # one with a day of its own keeps it
        for name in follows:
            setattr(order, name, getattr(party, name))
        if follows:
            order.keep(*follows, by=by, why=f"{party.name}: changed for all")
            followed.append(order)
        if cloth_before != (party.cloth, party.width_mm):
            put_shared_cloth(order, party, by)
    return followed


