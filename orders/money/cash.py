"""Cash taken with a phone, with or without a network: a receipt with a number of the phone's own until it is in the book."""

import json
import uuid
from datetime import date
from decimal import Decimal

from django.utils import timezone

from clients.sending import Refused
from orders.fields import EARLIEST_YEAR
from orders.models import Order, Payment
from orders.money import payments
from orders.money.receipts import receipt_of
from orders.stages import NotNow
from workshop.models import Workshop
from workshop.money import UnreadableAmount, parse_money


def provisional(key: uuid.UUID) -> str:
    """The number on a receipt given before the book knew of it: the phone makes the same from the same key."""
    return f"P-{key.hex[:6].upper()}"


def keep(body: bytes, order: Order, *, key: uuid.UUID, by) -> dict:
    """Enter it, and answer what the phone's receipt needs. Raises Refused."""
    amount, day = read(body)
    try:
        payment = payments.take(
            order=order, kind=None, amount=amount, method=Payment.Method.CASH, by=by, taken_on=day, key=key,
            why=f"receipt {provisional(key)}", provisional=provisional(key),
        )  # fmt: skip
    except NotNow as refused:
        raise Refused(refused.reason) from refused
    left = Order.objects.get(pk=order.pk).balance
    return {
        "kept": {"cash": receipt_of(payment).number},
        "left": payments.printed(left),
        "at": timezone.now().isoformat(),
    }


def read(body: bytes) -> tuple[Decimal, date]:
    try:
        sent = json.loads(body)
        written, day = sent["amount"], date.fromisoformat(sent["taken_on"])
        if not isinstance(written, str):
            raise TypeError
    except (ValueError, KeyError, TypeError, RecursionError):
        raise Refused("I can't read what this phone sent.") from None
    try:
        amount = parse_money(written, Workshop.current().currency)
    except UnreadableAmount as refused:
        raise Refused(str(refused)) from None
    today = timezone.localdate()
    if day.year < EARLIEST_YEAR or (day - today).days > 1:
        raise Refused(f"This phone says that it is {day.isoformat()}. Set its clock, then enter the payment once more.")
    return amount, min(day, today)
