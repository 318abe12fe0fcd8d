"""The orders of one client, for the client's page."""

from django.utils import timezone

from orders.in_hand import eyes_of, says
from orders.light import garments_told, telling_garments, with_fittings
from orders.models import Order

SHOWN = 12


def of_client(client, person) -> tuple[str, dict]:
    """The panel: newest first, two queries however many there are."""
    eyes, today = eyes_of(person), timezone.localdate()
    found = list(telling_garments(wanted(Order.objects.filter(client=client), eyes)).latest_first()[: SHOWN + 1])
    more = len(found) > SHOWN
    del found[SHOWN:]
    with_fittings(found)
    rows = []
    for order in found:
        order.client, order.all_garments = client, garments_told(order)
        rows.append({"order": order, "next": says(order, today, eyes), "balance": order.balance if eyes.sees_money else None})
    return "orders/_of_client.html", {"rows": rows, "today": today, "more": more, "may_add": person.may("edit_orders")}


def wanted(orders, eyes):
    """The owner's name is read by those alone who are told whom to ask: a column that others would pay for at each opening."""
    return orders if eyes.sees_phone else orders.with_owner_name()
