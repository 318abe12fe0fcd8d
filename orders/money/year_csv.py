"""A year's payments as a file for the bookkeeper: one entry a line, in the order written, streamed."""

from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from itertools import islice
from typing import NamedTuple

from django.db.models.functions import Coalesce

from clients.csv_out import harmless, line
from clients.querysets import name_of
from orders.models import Payment
from orders.models.pricing import number_of
from orders.money.year import within
from workshop.money import as_typed, rounded

HEAD = ("entry", "receipt", "taken on", "order", "client", "paid by or to", "what", "how", "in", "out", "currency", "other currency", "other amount", "rate", "strikes entry", "why", "written by")
KINDS, METHODS = dict(Payment.Kind.choices), dict(Payment.Method.choices)
AT_ONCE = 500


class Entry(NamedTuple):
    """A payment as the file tells of it."""

    pk: int
    receipt: int | None
    kind: str
    amount: Decimal
    other_currency: str | None
    other_amount: Decimal | None
    rate: Decimal | None
    method: str
    taken_on: date
    reverses: int | None
    why: str
    order: str
    client: str
    payer: str  # who paid it, or got it back
    taken_by: str


def lines(year: int, currency: str) -> Iterator[str]:
    """`in` less `out` is what the year left in the till: a struck entry stands in one, what strikes it in the other."""
    yield "\ufeff" + line(HEAD)
    for rows in batched(entries(year).iterator(chunk_size=AT_ONCE)):
        yield "".join(line(cells(Entry._make(row), currency)) for row in rows)


def entries(year: int):
    """As plain rows: as models, a year of ten thousand took twice as long."""
    payer = Coalesce("order__paid_by__name", "order__party__payer__name", "order__client__name")
    return (
        within(year)
        .annotate(by=name_of("taken_by"), payer=payer, numbered=Coalesce("receipt__serial", "taken_with__receipt__serial"))
        .order_by("taken_on", "pk")
        .values_list(
            "pk", "numbered", "kind", "amount", "other_currency", "other_amount", "rate", "method", "taken_on", "reverses_id", "why", "order__number",
            "order__client__name", "payer", "by",
        )
    )  # fmt: skip


def batched(rows: Iterator) -> Iterator[list]:
    while some := list(islice(rows, AT_ONCE)):
        yield some


def cells(entry: Entry, currency: str) -> tuple[str, ...]:
    amount, came_in = f"{rounded(abs(entry.amount), currency):f}", entry.amount > 0
    what = KINDS[entry.kind] + (", struck" if entry.reverses else "")
    return (
        str(entry.pk), number_of(entry.receipt) if entry.receipt else "", entry.taken_on.isoformat(), entry.order, harmless(entry.client), harmless(entry.payer),
        what, METHODS[entry.method], amount if came_in else "", "" if came_in else amount, currency,
        entry.other_currency or "", as_typed(entry.other_amount and abs(entry.other_amount)), as_typed(entry.rate), str(entry.reverses or ""), harmless(entry.why), harmless(entry.taken_by),
    )  # fmt: skip
