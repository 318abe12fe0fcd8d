"""The order that an address names."""

from django.shortcuts import get_object_or_404

from orders.models import Order


def order_of(number: str, *brings: str, **which) -> Order:
    """With its client, and what else it brings along: "work", "garments", "cloths". Raises Http404 where there is none, or it is not `which`."""
    found = Order.objects.with_client()
    for each in brings:
        found = getattr(found, f"with_{each}")()
    return get_object_or_404(found, number=number, **which)
