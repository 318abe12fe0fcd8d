"""What is a client's own and still lies here after her order is over: asked in Today's own question, once for the page."""

import json
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from django.db.models import QuerySet, Subquery, TextField
from django.db.models.functions import JSONObject
from django.urls import reverse

from orders.beside import HERS_HERE, AllRows, one
from orders.models import Order, ShelfCloth
from orders.models.cloth import cloth_shown
from orders.models.over import LEFT_HERE
from orders.stages import Stage


@dataclass(frozen=True)
class Behind:
    """A length of her cloth on the shelf, or what else was noted as left over of hers."""

    number: str
    client: str
    what: str
    stage: str
    closed_on: date
    place: str = ""
    length_mm: Decimal | None = None
    shelf: int | None = None  # the key of the length

    @property
    def said(self) -> str:
        """“rose crepe, ¾ yd, blue box”."""
        return ", ".join(filter(None, (self.what, cloth_shown(self.length_mm) if self.length_mm else "", self.place)))

    @property
    def ended(self) -> str:
        return Stage(self.stage).label

    @property
    def address(self) -> str:
        """Where it is given back, or taken over."""
        return reverse("orders:shelf-card", args=[self.shelf]) if self.shelf else reverse("orders:leftovers", args=[self.number])


def lengths() -> QuerySet:
    of_order = {"number": "order__number", "stage": "order__stage", "closed_on": "order__closed_on"}
    told = JSONObject(shelf="pk", client="client__name", what="name", place="place", length_mm="length_mm", **of_order)
    return ShelfCloth.objects.filter(**HERS_HERE, order__is_open=False).order_by().values("whose").annotate(rows=AllRows(told)).values("rows")


def leftovers() -> QuerySet:
    told = JSONObject(number="number", client="client__name", what="leftovers", stage="stage", closed_on="closed_on")
    return Order.objects.filter(LEFT_HERE).order_by().values("is_open").annotate(rows=AllRows(told)).values("rows")


def with_behind(orders: QuerySet) -> QuerySet:
    """The orders, each with all of it as texts, which the database finds once for all of them: `behind` reads the first's."""
    return orders.annotate(**{name: Subquery(asked(), output_field=TextField()) for name, asked in ASKED.items()})


def behind(orders: list[Order]) -> list[Behind]:
    """The longest here first; asked for by itself where no order is in hand."""
    told = [getattr(orders[0], name) if orders else next(iter(asked().values_list("rows", flat=True)), None) for name, asked in ASKED.items()]
    rows = [row for text in told for row in (json.loads(text) if isinstance(text, str) else text or ())]
    return sorted((one(Behind, row) for row in rows), key=lambda each: (each.closed_on, each.number, each.what))


ASKED = {"lengths_behind": lengths, "leftovers_behind": leftovers}
