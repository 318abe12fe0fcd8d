"""One sum for several orders: what somebody hands over at once for all that they pay for. One entry an order, one receipt."""

import uuid
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from django.db import transaction
from django.db.models import F, Q

from clients.models import Client
from orders.models import Order, Payment
from orders.money import payments
from orders.money.payments import Other, printed
from orders.stages import NotNow, Stage
from workshop.money import rounded

NOTHING = Decimal(0)


@dataclass(frozen=True)
class Share:
    """What of the sum is for one order."""

    order: Order
    amount: Decimal


def unpaid_by(payer: Client):
    """The orders with something to pay that are hers to pay, by collection: those she is named on, a party's, and her own."""
    hers = Q(paid_by=payer) | Q(paid_by=None, party__payer=payer) | Q(paid_by=None, party__payer=None, client=payer)
    return Order.objects.filter(hers, price__gt=F("paid")).exclude(stage=Stage.CALLED_OFF).with_client().with_garments().by_collection()


def spread(orders: Iterable[Order], amount: Decimal) -> list[Share]:
    """A sum over orders: deposits first, by the day of cutting, then balances, by collection. Raises NotNow above them all."""
    orders, left = list(orders), amount
    found = dict.fromkeys((order.pk for order in orders), NOTHING)
    by_cutting = sorted(orders, key=lambda order: (order.cut_on or date.max, order.serial))
    by_collection = sorted(orders, key=lambda order: (order.collect_on or date.max, order.serial))
    for order, most in [*((order, order.deposit_missing) for order in by_cutting), *((order, order.balance) for order in by_collection)]:
        part = min(left, max(most - found[order.pk], NOTHING))
        found[order.pk] += part
        left -= part
    if left:
        whole = sum((order.balance for order in orders), NOTHING)
        raise NotNow(f"{printed(whole)} is left to pay for all of them, so {printed(amount)} is too much.")
    return [Share(order, found[order.pk]) for order in by_collection if found[order.pk]]


@transaction.atomic
def take(
    *, payer: Client, amount: Decimal, shares: Mapping[int, Decimal], method: str, by, taken_on: date, key: uuid.UUID, other: Other | None = None,
    among: Iterable[int] = (),
) -> Payment:  # fmt: skip
    """One entry for each order; gives the first, which has the receipt for all. Raises NotNow.

    `shares` says by the orders' keys what is for which; empty, it is spread over all that she pays for, or those `among`.
    `other` is what all of it was in another currency.
    """
    if earlier := entered_with(key, amount, shares, method, taken_on):
        return earlier
    orders = list(Order.objects.select_for_update().filter(pk__in=shares or among or unpaid_by(payer).order_by().values("pk")).order_by("pk"))
    parts = [Share(order, shares[order.pk]) for order in orders] if shares else spread(orders, amount)
    if sum((share.amount for share in parts), NOTHING) != amount or not parts:
        raise NotNow(f"The parts do not come to {printed(amount)}.")
    first, why = None, f"of {printed(amount)} from {payer.name}" if len(parts) > 1 else ""
    for share, part in zip(parts, parts_of_other(other, parts), strict=True):
        payment = payments.take(
            order=share.order, kind=None, amount=share.amount, method=method, by=by, taken_on=taken_on, why=why,
            other=part, key=uuid.uuid5(key, str(share.order.pk)) if first else key, taken_with=first,
        )  # fmt: skip
        first = first or payment
    return first


def entered_with(key: uuid.UUID, amount: Decimal, shares: Mapping[int, Decimal], method: str, taken_on: date) -> Payment | None:
    """What this form entered already. Raises NotNow where the form says anything else now."""
    first = Payment.objects.filter(key=key).first()
    if first is None:
        return None
    parts = {part.order_id: part.amount for part in first.in_one_sum()}
    entered = sum(parts.values(), NOTHING)
    if (entered, first.method, first.taken_on) != (amount, method, taken_on) or shares and parts != shares:
        raise NotNow(f"This form has entered {printed(entered)} already. Nothing more was entered. Open a new form for another payment.")
    return first


def parts_of_other(other: Other | None, shares: list[Share]) -> list[Other | None]:
    """The amount in another currency, shared as the sum is: to its smallest part, and together the whole of it. Raises NotNow."""
    if other is None:
        return [None] * len(shares)
    whole, so_far, given, parts = sum((share.amount for share in shares), NOTHING), NOTHING, NOTHING, []
    for share in shares:
        so_far += share.amount
        upto = rounded(other.amount * so_far / whole, other.currency) if so_far < whole else other.amount
        parts.append(Other(other.currency, upto - given, other.rate))
        given = upto
    if any(part.amount <= 0 for part in parts):
        raise NotNow(f"A share is less than the smallest part of {other.currency}. Leave that order out.")
    return parts


@transaction.atomic
def strike(*, payment: Payment, by, taken_on: date, why: str) -> None:
    """Strike every entry of the sum that one entry is part of, those not struck yet; all or none. Raises NotNow."""
    for part in payment.in_one_sum():
        if not part.is_reversed:
            payments.reverse(payment=part, by=by, taken_on=taken_on, why=why)
