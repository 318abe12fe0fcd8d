"""The bench's answer while a promise is being written: a fragment for pages with scripts, part of the page without."""

from collections.abc import Mapping

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from drafting.engine.garments import KINDS
from orders.dates import asking
from orders.dates.bench import Bench
from orders.models import Order
from orders.views.finding import order_of
from workshop.access import needs


@require_safe
@needs("edit_orders")
def earliest(request: HttpRequest) -> HttpResponse:
    """The first day that the bench can keep for a garment of the kind asked about."""
    return fragment(request, asked_of_new(request, request.GET))


@require_safe
@needs("edit_orders")
def moves(request: HttpRequest, number: str) -> HttpResponse:
    """What moving an order to the day asked about pushes."""
    order = order_of(number, "garments")
    return fragment(request, asked_of(request, order, request.GET))


def asked_of_new(request: HttpRequest, typed: Mapping[str, str]) -> asking.Answer:
    kind = typed.get("kind", "")
    hours = Bench.current().hours_of(kind if kind in KINDS else next(iter(KINDS)))
    price = asking.price_asked(typed) if request.user.may("set_price") else None
    return asking.of_new([hours], asking.day_asked(typed), timezone.localdate(), price=price)


def asked_of(request: HttpRequest, order: Order, typed: Mapping[str, str]) -> asking.Answer:
    price = order.price if request.user.may("see_money") else None
    return asking.of_order(order, asking.day_asked(typed), timezone.localdate(), price=price)


def fragment(request: HttpRequest, answer: asking.Answer) -> HttpResponse:
    return render(request, "orders/_keeps.html", {"answer": answer})
