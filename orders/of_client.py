"""The orders of one client, for the client's page."""

from django.utils import timezone

from orders.in_hand import eyes_of
from orders.models import Order
from orders.next_act import in_words

SHOWN = 12


def of_client(client, person) -> tuple[str, dict]:
    """The panel: newest first, three queries however many there are."""
    eyes, today = eyes_of(person), timezone.localdate()
    found = list(Order.objects.filter(client=client).with_paid().with_work().latest_first()[: SHOWN + 1])
    rows = []
    for order in found[:SHOWN]:
        order.client = client
        says = in_words(order, today, sees_money=eyes.sees_money) if order.is_open else order.get_stage_display()
        rows.append({"order": order, "next": says, "balance": order.balance if eyes.sees_money else None})
    more = len(found) > SHOWN
    return "orders/_of_client.html", {"rows": rows, "today": today, "more": more, "may_add": person.may("edit_orders")}
