"""Before the order and until the first cut: an enquiry is written down, the look agreed, a later change priced."""

from datetime import date
from decimal import Decimal

from django.db import transaction

from clients.models import Client
from orders import photos
from orders.booking import take_order
from orders.models import Garment, Look, Order, OrderPhoto, PricedChange
from orders.stages import OVER, NotNow
from workshop.templatetags.workshop_tags import day_of_year


@transaction.atomic
def write_enquiry(
    *, client: Client, kind: str, wish: str, collect_on: date | None, occasion_on: date | None, budget: Decimal | None,
    photo: bytes | None, by, today: date,
) -> Order:  # fmt: skip
    """An order that is only asked about, with what was wished for; its date, if there is one, is held for a while."""
    order = take_order(
        client=client, kind=kind, by=by, booked_on=today, collect_on=collect_on, occasion_on=occasion_on, wish=wish, budget=budget
    )
    if photo:
        photos.keep(order=order, jpeg=photo, shows=OrderPhoto.Shows.WISH, by=by, on=today)
    return order


@transaction.atomic
def agree(*, look: Look, values: dict, agreed_on: date | None, agreed_how: str, by) -> None:
    """Write the look down, with the client's yes or still without it. What has a yes is not written over."""
    if look.pk and Look.objects.values_list("agreed_on", flat=True).get(pk=look.pk):
        raise NotNow("This look has the client's yes. Write a later change below, with what it costs.")
    for name, value in values.items():
        setattr(look, name, value)
    look.agreed_on, look.agreed_how = agreed_on, agreed_how
    if look.pk:
        look.keep(*values, "agreed_on", "agreed_how", by=by)
        return
    look.changed_by = by
    look.save()
    if agreed_on:
        look.note_changes([{"field": "agreed_on", "label": "agreed", "before": "", "after": day_of_year(agreed_on)}], by=by)


@transaction.atomic
def change_look(*, order: Order, what: str, price: Decimal | None, by, today: date, garment: Garment) -> PricedChange:
    """A change of this garment's look after the yes: it is added to the price, and the owner looks again before it is cut."""
    if order.stage in OVER:
        raise NotNow(f"{order.number} is {order.get_stage_display()} already.")
    if price and order.price is None:
        raise NotNow(f"{order.number} has no price yet. Agree one, then price the change.")
    change = PricedChange.objects.create(order=order, what=what, price=price or 0, asked_on=today, by=by)
    if price:
        order.price += price
        order.keep("price", by=by, why=what)
    garment.withdraw_sign_off(by=by)
    return change
