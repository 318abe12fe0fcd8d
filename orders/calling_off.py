"""Calling an order off, with what the workshop keeps of the money; and making the same again for another occasion."""

from datetime import date
from decimal import Decimal

from django.db import transaction

from orders.booking import take_order
from orders.dates.bench import Bench
from orders.models import Cloth, Order
from orders.money import payments
from orders.money.rules import PriceRules
from orders.stages import NotNow
from workshop.models import Workshop
from workshop.money import print_money, rounded


def usually_kept(order: Order) -> Decimal:
    """The house's share of the deposit that is in; what was paid beyond goes back, unless the cloth is cut and the terms keep it."""
    if not order.is_before_cutting and PriceRules.current().keeps_once_cut:
        return order.paid
    in_hand = min(order.paid, order.deposit) if order.deposit is not None else Decimal(0)
    return rounded(in_hand * Bench.current().kept_share / 100, Workshop.current().currency)


@transaction.atomic
def call_off(*, order: Order, why: str, by, today: date, kept: Decimal | None = None, method: str = "cash") -> Decimal:
    """Call it off. The owner says what is kept, and the rest is given back as a payment of its own; gives that rest."""
    if kept is None or not by.may("refund"):
        order.call_off(by=by, today=today, why=why)
        return Decimal(0)
    order.refresh_from_db(fields=["paid"])  # a payment may have come in since the order was read
    paid = order.paid
    if kept > paid:
        currency = Workshop.current().currency
        raise NotNow(f"{print_money(paid, currency)} is paid, so {print_money(kept, currency)} can't be kept.")
    order.kept = kept
    order.keep("kept", by=by, why=why)
    order.call_off(by=by, today=today, why=why)
    if paid > kept:
        payments.give_back(order=order, amount=paid - kept, method=method, by=by, taken_on=today, why=why)
    return paid - kept


@transaction.atomic
def copy(*, order: Order, by, today: date, collect_on: date | None, occasion_on: date | None) -> Order:
    """The same garments, choices and cloths in a new order, from today's measures; no price, days or drafts come along."""
    first, *others = order.garments.all()
    new = take_order(
        client=order.client, kind=first.kind, title=first.title, options=dict(first.options), by=by, booked_on=today,
        collect_on=collect_on, occasion_on=occasion_on, note=order.note, cloths=False,
    )  # fmt: skip
    made = new.garments.get()
    copied = {first.pk: made}
    made.rules, made.hours_planned = dict(first.rules), first.hours_planned
    made.keep("rules", "hours_planned", by=by)
    for garment in others:
        copied[garment.pk] = new.garments.create(
            kind=garment.kind, title=garment.title, options=dict(garment.options), rules=dict(garment.rules),
            hours_planned=garment.hours_planned, measuring=made.measuring, changed_by=by,
        )  # fmt: skip
    new.copied_from = order
    new.keep("copied_from", by=by)
    Cloth.objects.bulk_create(
        Cloth(
            order=new, garment=copied.get(cloth.garment_id), name=cloth.name, used_for=cloth.used_for, width_written=cloth.width_written, width_mm=cloth.width_mm,
            whose=cloth.whose, layout=cloth.layout, one_way=cloth.one_way, shrink_percent=cloth.shrink_percent, changed_by=by,
        )
        for cloth in order.cloths.all()
    )  # fmt: skip
    return new
