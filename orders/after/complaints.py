"""After collection: what comes back is taken in again, with what is to be done and by when; what is left is given back."""

from datetime import date
from decimal import Decimal

from django.db import transaction

from orders.models import Complaint, Order
from orders.stages import NotNow, Stage


@transaction.atomic
def take_back(
    *, order: Order, why: str, words: str, to_do: str, by_when: date, minutes: int = 0, price: Decimal | None = None, by, today: date
) -> Complaint:  # fmt: skip
    """The order is in work again, promised for `by_when`; what is asked for it is added to the price."""
    order = Order.objects.select_for_update().get(pk=order.pk)
    if order.stage != Stage.COLLECTED:
        raise NotNow(f"{order.number} is {order.get_stage_display()}. Only what was collected comes back.")
    given = {"why": why, "words": words, "to_do": to_do, "by_when": by_when, "price": price or 0, "told_on": today}
    complaint = Complaint.objects.create(order=order, changed_by=by, **given)
    told = [("words", "what is wrong", words), ("why", "whose", complaint.get_why_display()), ("to_do", "to do", to_do)]
    complaint.note_changes([{"field": field, "label": label, "before": "", "after": after} for field, label, after in told], by=by)
    order.stage, order.is_open, order.closed_on = Stage.IN_WORK, True, None
    order.collect_on, order.minutes = by_when, minutes
    fields = ["stage", "is_open", "closed_on", "collect_on", "minutes"]
    if price:
        order.price = (order.price or Decimal(0)) + price
        fields.append("price")
    order.keep(*fields, by=by, why=words)
    return complaint


def give_back(*, order: Order, leftovers: str, leftovers_on: date | None, by) -> None:
    """What is left of the client's cloth and notions, and the day on which it went back."""
    order.leftovers, order.leftovers_on = leftovers, leftovers_on
    order.keep("leftovers", "leftovers_on", by=by)
