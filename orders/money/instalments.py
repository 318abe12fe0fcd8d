"""Instalments: the days on which parts of the price are paid, what is due of them, and what is late."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from itertools import accumulate

from django.db import transaction

from orders.models import Order
from orders.money.costing import shares
from orders.stages import OVER, NotNow, Stage
from workshop.models import Workshop
from workshop.money import print_money

MOST = 12
WEEK = timedelta(days=6)  # today and six more
NOTHING = Decimal(0)


@dataclass(frozen=True)
class Instalment:
    """One part of the price. `left` is what of it is not paid: payments fill the oldest first."""

    on: date
    amount: Decimal
    left: Decimal

    @property
    def is_paid(self) -> bool:
        return self.left == 0

    def is_late(self, today: date) -> bool:
        return self.left > 0 and self.on < today

    def is_due(self, today: date) -> bool:
        return self.left > 0 and self.on <= today + WEEK


def plan_of(order: Order) -> list[Instalment]:
    """The order's instalments, with what is paid of each; needs what is paid of the order, and asks nothing itself."""
    if not order.instalments:
        return []
    paid, amounts = max(order.paid, NOTHING), [Decimal(each["amount"]) for each in order.instalments]
    return [
        Instalment(date.fromisoformat(each["on"]), amount, min(max(so_far - paid, NOTHING), amount))
        for each, amount, so_far in zip(order.instalments, amounts, accumulate(amounts), strict=True)
    ]


def due_of(order: Order, today: date) -> list[Instalment]:
    """Those not paid whose day is past or within the week; none of an order that is called off."""
    return [] if order.stage == Stage.CALLED_OFF else [each for each in plan_of(order) if each.is_due(today)]


def is_off(order: Order) -> bool:
    """Whether the price was changed after the instalments were agreed: they no longer come to it."""
    return bool(order.instalments) and sum((Decimal(each["amount"]) for each in order.instalments), NOTHING) != order.price


def less_than_deposit(order: Order) -> str:
    """What the parts up to the cutting day leave missing of the deposit; nothing where they come to it, or none is asked for."""
    if not order.instalments or not order.deposit or not order.is_before_cutting:
        return ""
    upto = order.cut_on.isoformat() if order.cut_on else order.instalments[0]["on"]
    by_then = sum((Decimal(each["amount"]) for each in order.instalments if each["on"] <= upto), NOTHING)
    if by_then >= order.deposit:
        return ""
    when = "The parts up to the cutting day come" if order.cut_on else "The first part comes"
    less = f"{printed(order.deposit - by_then)} less than the deposit of {printed(order.deposit)}"
    return f"{when} to {printed(by_then)}, {less}. Until that is in, the order says not to cut: ask for less to be put down, or for more of it by then."


@transaction.atomic
def agree(*, order: Order, parts: Sequence[tuple[date, Decimal]], by) -> None:
    """Write the plan, in place of an earlier one; no parts: all is paid at collection. Raises NotNow."""
    order = Order.objects.select_for_update().get(pk=order.pk)
    if order.stage in OVER:
        raise NotNow(f"{order.number} is {order.get_stage_display()} already.")
    if parts and order.price is None:
        raise NotNow(f"{order.number} has no price yet. Agree one, then its instalments.")
    if len(parts) > MOST:
        raise NotNow(f"At most {MOST} instalments. Put two together.")
    parts = sorted(parts)
    if any(amount <= 0 for _, amount in parts):
        raise NotNow("An instalment is more than nothing.")
    if len({day for day, _ in parts}) < len(parts):
        raise NotNow("Two instalments have the same day. Write them as one.")
    total = sum((amount for _, amount in parts), NOTHING)
    if parts and total != order.price:
        rest, way = abs(order.price - total), "more" if total < order.price else "less"
        raise NotNow(f"They come to {printed(total)}, and the price is {printed(order.price)}: {printed(rest)} {way} makes it even.")
    order.instalments = [{"on": day.isoformat(), "amount": f"{amount.normalize():f}"} for day, amount in parts]
    order.keep("instalments", by=by)


def evenly(amount: Decimal, number: int, first: date, last: date) -> list[tuple[date, Decimal]]:
    """So many like parts from the first day to the last, in even steps; what can't be shared is in the first ones."""
    step = (last - first) / max(number - 1, 1)
    amounts = shares(amount, number, Workshop.current().currency)
    return [(first + step * place if place else first, each) for place, each in enumerate(amounts)]


def printed(amount: Decimal) -> str:
    return print_money(amount, Workshop.current().currency)
