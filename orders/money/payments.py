"""Taking money, giving it back, and putting a wrong entry right. Every act is one new row; none is ever changed."""

import uuid
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from django.db import transaction

from orders.models import Order, Payment
from orders.money import receipts
from orders.stages import NotNow, Stage
from workshop.models import Workshop
from workshop.money import print_money, rounded
from workshop.templatetags.workshop_tags import plain_day


@dataclass(frozen=True)
class Other:
    """What changed hands in another currency, and what one of it is worth in the workshop's own on that day."""

    currency: str
    amount: Decimal
    rate: Decimal

    def worth(self) -> Decimal:
        return rounded(self.amount * self.rate, Workshop.current().currency)

    def fields(self, sign: int = 1) -> dict:
        return {"other_currency": self.currency, "other_amount": sign * self.amount, "rate": self.rate}


def fields_of(other: Other | None, sign: int = 1) -> dict:
    return other.fields(sign) if other else {"other_currency": None, "other_amount": None, "rate": None}


@transaction.atomic
def take(
    *, order: Order, kind: str | None, amount: Decimal, method: str, by, taken_on: date, key: uuid.UUID | None = None, why: str = "",
    other: Other | None = None, provisional: str = "", taken_with: Payment | None = None,
) -> Payment:  # fmt: skip
    """Money in, `amount` in the workshop's currency; `taken_with` is the first entry of one sum for several orders. Refused above the balance, so that nothing is overpaid unnoticed.

    Where no kind is said it is worked out, and not asked of an entry sent twice: the first may have paid the deposit.
    """
    said = fields_of(other)
    if earlier := with_key(key, order=order, amount=amount, method=method, taken_on=taken_on, **({"kind": kind} if kind else {}), **said):
        return earlier
    order = locked(order)
    kind = kind or kind_of(order, amount)
    refuse_if_called_off(order)
    refuse_unless_positive(amount)
    if kind == Payment.Kind.REFUND:
        raise NotNow("Money given back has its own form.")
    if order.price is None:
        raise NotNow(f"{order.number} has no price yet. Agree one, then take money for it.")
    if amount > order.balance:
        raise NotNow(over_balance(order, amount))
    return write(
        order=order, kind=kind, amount=amount, method=method, by=by, taken_on=taken_on, why=why, key=key, provisional=provisional,
        taken_with=taken_with, **said,
    )  # fmt: skip


@transaction.atomic
def give_back(
    *, order: Order, amount: Decimal, method: str, by, taken_on: date, why: str = "", key: uuid.UUID | None = None,
    other: Other | None = None,
) -> Payment:  # fmt: skip
    """Money out: the owner's act alone, and never more than was paid."""
    kind, said = Payment.Kind.REFUND, fields_of(other, -1)
    if earlier := with_key(key, order=order, kind=kind, amount=-amount, method=method, taken_on=taken_on, **said):
        return earlier
    if not by.may("refund"):
        raise NotNow("Only the owner gives money back.")
    order = locked(order)
    refuse_unless_positive(amount)
    if amount > order.paid:
        raise NotNow(f"{printed(order.paid)} is paid, so {printed(amount)} can't be given back.")
    if (payer := receipts.payer_of(order)) != order.client:
        why = "; ".join(filter(None, (f"to {payer.name}", why)))[:200]
    return write(
        order=order, kind=kind, amount=-amount, method=method, by=by, taken_on=taken_on, why=why, key=key, **said
    )


@transaction.atomic
def reverse(*, payment: Payment, by, taken_on: date, why: str) -> Payment:
    """Strike a wrong entry by a second one of the same size the other way; both stay in the book."""
    order = locked(payment.order)
    payment = Payment.objects.select_related("reverses", "reversed_by").get(pk=payment.pk)
    if payment.reverses_id:
        raise NotNow("This entry strikes another one, and can't be struck itself. Enter the payment again.")
    if payment.is_reversed:
        raise NotNow("This entry is struck already.")
    if payment.kind == Payment.Kind.REFUND and not by.may("refund"):
        raise NotNow("Only the owner strikes money given back.")
    if not why.strip():
        raise NotNow("Say in a few words what was wrong.")
    left = order.paid - payment.amount
    if left < 0:
        raise NotNow("Without this entry more would be given back than was paid. Strike the refund first.")
    if order.balance is not None and order.price - left < 0:
        paid = f"{printed(left)} would be paid of {printed(order.price)}"
        raise NotNow(f"Without this entry {paid}. Raise the price first.")
    return write(
        order=order,
        kind=payment.kind,
        amount=-payment.amount,
        method=payment.method,
        by=by,
        taken_on=taken_on,
        why=why.strip(),
        reverses=payment,
        other_currency=payment.other_currency,
        other_amount=None if payment.other_amount is None else -payment.other_amount,
        rate=payment.rate,
    )


def write(*, order, kind, amount, method, by, taken_on, why="", key=None, reverses=None, provisional="", taken_with=None, **other) -> Payment:
    """The row, and the number of its receipt where money came in; `other` is what changed hands in another currency."""
    payment = Payment.objects.create(
        order=order,
        kind=kind,
        amount=amount,
        method=method,
        taken_by=by,
        taken_on=taken_on,
        why=why,
        reverses=reverses,
        taken_with=taken_with,
        key=key or uuid.uuid4(),
        **other,
    )
    if amount > 0 and reverses is None and taken_with is None:
        receipts.issue(payment, provisional)
    return payment


def with_key(key: uuid.UUID | None, *, order: Order, **said) -> Payment | None:
    """The row that this form has written already. Raises NotNow where that row says anything else than the form does now."""
    earlier = Payment.objects.select_related("order").filter(key=key).first() if key else None
    if earlier is None or earlier.order_id == order.pk and all(getattr(earlier, name) == is_ for name, is_ in said.items()):
        return earlier
    of = "this order" if earlier.order_id == order.pk else earlier.order.number
    entered = f"{printed(abs(earlier.amount))} of {plain_day(earlier.taken_on)} for {of}"
    raise NotNow(f"This form has entered {entered} already. Nothing more was entered. Open a new form for another payment.")


def kind_of(order: Order, amount: Decimal) -> str:
    """A deposit as far as that is owed, the balance where it pays all, else a part."""
    if amount <= order.deposit_missing:
        return Payment.Kind.DEPOSIT
    return Payment.Kind.BALANCE if order.balance is not None and amount >= order.balance else Payment.Kind.PART


def refuse_if_called_off(order: Order) -> None:
    if order.stage == Stage.CALLED_OFF:
        raise NotNow(f"{order.number} is called off. Money for it can only be given back.")


def locked(order: Order) -> Order:
    """The order as it stands now, held until this act is written."""
    return Order.objects.select_for_update().get(pk=order.pk)


def refuse_unless_positive(amount: Decimal) -> None:
    if amount <= 0:
        raise NotNow("An amount is more than nothing.")


def over_balance(order: Order, amount: Decimal) -> str:
    if order.balance <= 0:
        return f"{order.number} is paid in full; {printed(amount)} more would be too much."
    left = f"{printed(order.balance)} is left to pay, so {printed(amount)} is too much."
    return f"{left} Take the balance, or raise the price first."


def printed(amount: Decimal) -> str:
    workshop = Workshop.current()
    return print_money(amount, workshop.currency if workshop else "GBP")
