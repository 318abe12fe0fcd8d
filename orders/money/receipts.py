"""Numbers of receipts: one for each payment that came in, without a gap, given in the payment's own transaction."""

from django.db import transaction

from clients.models import Client
from orders.models import Counter, Order, Payment, Receipt


@transaction.atomic
def issue(payment: Payment, provisional: str = "") -> Receipt:
    """The payment's receipt, under the next number; one that has a number keeps it."""
    known = Receipt.objects.filter(payment=payment).first()
    return known or Receipt.objects.create(payment=payment, serial=Counter.next_of("receipt"), provisional=provisional)


def receipt_of(payment: Payment) -> Receipt:
    """The receipt of a payment that came in; one that was put into the book without a number gets the next one."""
    return payment.receipt if hasattr(payment, "receipt") else issue(payment)


def payer_of(order: Order) -> Client:
    """Who pays: somebody named on the order, else the party's payer, else the client."""
    return order.paid_by or (order.party.payer if order.party_id and order.party.payer_id else None) or order.client
