"""Numbers of receipts: one for each payment that came in, without a gap, given in the payment's own transaction."""

from django.db import transaction
from django.shortcuts import get_object_or_404

from clients.models import Client
from orders.models import Counter, Order, Payment, Receipt

RECEIPT = "receipt"
AT_ONCE = 5000


@transaction.atomic
def issue(payment: Payment, provisional: str = "") -> Receipt:
    """The payment's receipt, under the next number; one that has a number keeps it."""
    known = Receipt.objects.filter(payment=payment).first()
    return known or Receipt.objects.create(payment=payment, serial=Counter.next_of(RECEIPT), provisional=provisional)


def without_number():
    """Payments that came in, each first of its sum, that were put into the book past `payments.take`; in the order of their entry."""
    return Payment.objects.filter(amount__gt=0, reverses=None, taken_with=None, receipt=None).order_by("pk")


@transaction.atomic
def number_all() -> int:
    """Give all of these the next numbers, in the order of their entry; how many there were. What has a number keeps it."""
    Counter.objects.get_or_create(name=RECEIPT)
    counter = Counter.objects.select_for_update().get(name=RECEIPT)
    numbered = enumerate(list(without_number().values_list("pk", flat=True)), counter.last + 1)
    written = Receipt.objects.bulk_create((Receipt(payment_id=pk, serial=serial) for serial, pk in numbered), batch_size=AT_ONCE)
    counter.last += len(written)
    counter.save(update_fields=["last"])
    return len(written)


def receipt_of(payment: Payment) -> Receipt:
    """The receipt of a payment that came in, or of the sum that it is part of; one that is without a number gets the next one."""
    if payment.taken_with_id:
        payment = payment.taken_with
    return payment.receipt if hasattr(payment, "receipt") else issue(payment)


def receipted(number: str, pk: int) -> Payment:
    """A payment of that order that came in, with what its receipt says. Raises Http404."""
    rows = Payment.objects.select_related("order__client", "order__paid_by", "order__party__payer", "taken_by", "reversed_by", "receipt", "taken_with__receipt")
    return get_object_or_404(rows, pk=pk, order__number=number, reverses=None, amount__gt=0)


def payer_of(order: Order) -> Client:
    """Who pays: somebody named on the order, else the party's payer, else the client."""
    return order.paid_by or (order.party.payer if order.party_id and order.party.payer_id else None) or order.client
