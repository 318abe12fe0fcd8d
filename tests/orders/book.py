"""Orders that tests write into the book."""

from datetime import date, timedelta
from decimal import Decimal

from django.utils import timezone

from clients.models import Client
from orders.booking import take_order
from orders.demo.cast import CLIENTS
from orders.garment.making_draft import make_draft
from orders.models import Garment, Order
from orders.whole_order import whole_order
from orders.work import cutting
from tests.clients.book import make_client, measured

#: A Thursday, for what is asked of a day that is passed in.
DAY = date(2026, 3, 12)


def days(number: int) -> timedelta:
    return timedelta(days=number)


def make_order(by, client: Client | None = None, **changes) -> Order:
    """A booked order of a strapless gown at £580, £240 to be put down."""
    today = timezone.localdate()
    given = {
        "kind": "bustier-gown",
        "booked_on": today - days(20),
        "cut_on": today + days(1),
        "collect_on": today + days(16),
        "price": Decimal(580),
        "deposit": Decimal(240),
    }
    return take_order(client=client or make_client(), by=by, **given | changes)


def measured_order(by, **changes) -> Order:
    """The same for a client whose measures agree, taken before the order."""
    client = make_client()
    measured(client, by, **CLIENTS["ines"].written_before())
    return make_order(by, client, **changes)


def drafted_order(by, **changes) -> Order:
    order = measured_order(by, **changes)
    make_draft(garment=garment_of(order), by=by)
    return fresh(order)


def signed_order(owner, **changes) -> Order:
    order = drafted_order(owner, **changes)
    cutting.sign_off(order=order, by=owner)
    return fresh(order)


def cut_order(owner, **changes) -> Order:
    order = signed_order(owner, **changes)
    cutting.cut(order=order, by=owner, today=timezone.localdate())
    return fresh(order)


def garment_of(order: Order) -> Garment:
    return Garment.objects.select_related("order__client", "measuring", "draft", "cut_draft").get(order=order)


def fresh(order: Order) -> Order:
    return Order.objects.get(pk=order.pk)


def whole(order: Order, *, with_money: bool = True):
    return whole_order(order.number, with_money=with_money)
