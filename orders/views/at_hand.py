"""What a phone keeps of the orders in hand, and the cash that it takes for them."""

from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone
from django.views.decorators.gzip import gzip_page
from django.views.decorators.http import require_POST, require_safe

from clients.sending import Refused, answer
from orders.at_hand import at_hand
from orders.models import Order, Payment
from orders.money import cash
from orders.money.papers import in_other_currency
from orders.money.receipts import payer_of, receipt_of
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
    """A receipt for one payment, to print."""
    rows = Payment.objects.select_related("order__client", "order__paid_by", "order__party__payer", "taken_by", "reversed_by", "receipt")
    payment = get_object_or_404(rows, pk=pk, order__number=number, reverses=None, amount__gt=0)
    receipt = receipt_of(payment)
    context = {"payment": payment, "order": payment.order, "receipt": receipt, "payer": payer_of(payment.order), "other": in_other_currency(payment)}
    return render(request, "orders/receipt.html", context)
