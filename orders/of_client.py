"""The orders of one client, for the client's page."""

from django.utils import timezone

from orders.in_hand import eyes_of, says
from orders.models import Order

SHOWN = 12


def of_client(client, person) -> tuple[str, dict]:
    """The panel: newest first, three queries however many there are."""
    eyes, today = eyes_of(person), timezone.localdate()
    found = list(wanted(Order.objects.filter(client=client), eyes).with_work().latest_first()[: SHOWN + 1])
    rows = []
    for order in found[:SHOWN]:
        order.client = client
        rows.append({"order": order, "next": says(order, today, eyes), "balance": order.balance if eyes.sees_money else None})
    more = len(found) > SHOWN
    return "orders/_of_client.html", {"rows": rows, "today": today, "more": more, "may_add": person.may("edit_orders")}


def wanted(orders, eyes):
    """The owner's name is read by those alone who are told whom to ask: a column that others would pay for at each opening."""
    return orders.with_paid() if eyes.sees_phone else orders.with_paid().with_owner_name()
