"""What a phone keeps of the orders in hand, and the cash that it takes for them."""

from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.gzip import gzip_page
from django.views.decorators.http import require_POST, require_safe

from clients.sending import Refused, answer
from orders.at_hand import at_hand
from orders.models import Order
from orders.money import cash
from orders.money.papers import receipt_shown
from orders.money.receipts import receipt_of, receipted
from workshop.access import needs
from workshop.models import Workshop
from workshop.money import CURRENCIES

LARGEST_BODY = 2000


@require_safe
@needs("see_work")
@gzip_page
def show(request: HttpRequest) -> HttpResponse:
    """All orders in hand: what can go on by hand, the steps, whom to ring, and a form for cash."""
    orders = at_hand(request.user, timezone.localdate())
    context = {
        "orders": orders, "work": [each for each in orders if each.has_work], "now": timezone.now(),
        "currency": CURRENCIES[Workshop.current().currency],
    }  # fmt: skip
    return render(request, "orders/at_hand.html", context)


@require_POST
@needs("take_payment")
def take_cash(request: HttpRequest, number: str) -> HttpResponse:
    """A payment from a phone, once: `Idempotency-Key` says which. 422 with a sentence for what can't be entered."""

    def keep(body: bytes, key: UUID) -> dict:
        order = Order.objects.filter(number=number).first()
        if order is None:
            raise Refused("This order is no longer in the book.")
        return cash.keep(body, order, key=key, by=request.user)

    return answer(request, keep, longest=LARGEST_BODY, too_long="I can't read what this phone sent.")


@require_safe
@needs("take_payment")
def receipt(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """A receipt for one payment, or for the sum that it is part of, to print."""
    payment = receipted(number, pk)
    return render(request, "orders/receipt.html", receipt_shown(receipt_of(payment), payment))
