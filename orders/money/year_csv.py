"""A year's payments as a file for the bookkeeper: one entry a line, in the order written, streamed."""

from collections.abc import Iterator
from decimal import Decimal

from clients.csv_out import harmless, line
from orders.models import Payment
from orders.money.year import within
from workshop.money import rounded

HEAD = ("entry", "taken on", "order", "client", "paid by", "what", "how", "in", "out", "currency", "other currency", "other amount", "rate", "strikes entry", "why", "written by")


def lines(year: int, currency: str) -> Iterator[str]:
    """`in` less `out` is what the year left in the till: a struck entry stands in one, what strikes it in the other."""
    yield "\ufeff" + line(HEAD)
    people = within(year).select_related("order__client", "order__paid_by", "taken_by").only(
        "kind", "amount", "other_currency", "other_amount", "rate", "method", "taken_on", "reverses_id", "why", "order__number", "order__client__name",
        "order__paid_by__name", "taken_by__display_name", "taken_by__username",
    )  # fmt: skip
    for payment in people.order_by("taken_on", "pk").iterator(chunk_size=2000):
        yield line(harmless(cell) for cell in cells(payment, currency))


def cells(payment: Payment, currency: str) -> tuple[str, ...]:
    order, amount = payment.order, rounded(abs(payment.amount), currency)
    came_in = payment.amount > Decimal(0)
    what = payment.get_kind_display() + (", struck" if payment.reverses_id else "")
    return (
        str(payment.pk), payment.taken_on.isoformat(), order.number, order.client.name, (order.paid_by or order.client).name,
        what, payment.get_method_display(), f"{amount:f}" if came_in else "", "" if came_in else f"{amount:f}", currency,
        payment.other_currency or "", plain(payment.other_amount), plain(payment.rate), str(payment.reverses_id or ""), payment.why, str(payment.taken_by),
    )  # fmt: skip


def plain(amount: Decimal | None) -> str:
    return "" if amount is None else f"{abs(amount).normalize():f}"
