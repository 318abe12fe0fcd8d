"""Open orders as rows: for Today, for one day and for the list. All is brought along in a fixed number of queries."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from clients.models import Measuring
from orders.concerns import Concern, Eyes, concerns_of
from orders.models import Order
from orders.next_act import in_words
from workshop.models import Workshop
from workshop.money import print_money


@dataclass(frozen=True)
class Row:
    """An order as a list shows it. `balance` is None for whoever may not see money."""

    order: Order
    next: str
    concerns: list[Concern]
    balance: Decimal | None

    @property
    def concern(self) -> Concern | None:
        return self.concerns[0] if self.concerns else None


def eyes_of(person) -> Eyes:
    workshop = Workshop.current()
    return Eyes(
        sees_money=person.may("see_money"),
        signs_off=person.may("sign_off"),
        money=lambda amount: print_money(amount, workshop.currency),
        sees_phone=person.may("see_phone"),
    )


def says(order: Order, today: date, eyes: Eyes) -> str:
    """What a list says of an order: what comes next, or how it ended. The query brings `owner_name`."""
    if not order.is_open:
        return order.get_stage_display()
    return in_words(order, today, sees_money=eyes.sees_money, rings="" if eyes.sees_phone else order.owner_name)


def brought(orders):
    """The query with everything that a row needs."""
    return orders.with_client().with_paid().with_work().with_owner_name().with_cloths_to_come()


def rows_of(orders, today: date, eyes: Eyes) -> list[Row]:
    orders = list(orders)
    newest = newest_measurings(orders)
    return [row_of(order, today, eyes, newest.get(order.client_id)) for order in orders]


def row_of(order: Order, today: date, eyes: Eyes, newest) -> Row:
    return Row(
        order=order,
        next=says(order, today, eyes),
        concerns=concerns_of(order, today, eyes, newer_day(order, newest)),
        balance=order.balance if eyes.sees_money else None,
    )


def newest_measurings(orders: list[Order]) -> dict[int, tuple[int, date]]:
    """The newest measuring of each client whose order is not cut, as its key and its day."""
    clients = {order.client_id for order in orders if order.is_before_cutting}
    if not clients:
        return {}
    found = Measuring.objects.filter(client__in=clients).newest_first()
    newest: dict[int, tuple[int, date]] = {}
    for client, pk, taken_on in found.values_list("client", "pk", "taken_on"):
        newest.setdefault(client, (pk, taken_on))
    return newest


def newer_day(order: Order, newest) -> date | None:
    """The day of a measuring that a draft of the order does not know and nobody has decided about."""
    if newest is None:
        return None
    pk, taken_on = newest
    undecided = any(g.draft_id and pk not in (g.measuring_id, g.kept_past_id) for g in order.all_garments)
    return taken_on if undecided else None
