"""What the measure book asks of the orders: who comes today, and which measures the garments in hand need."""

from collections.abc import Iterator
from datetime import date

from clients.expected import Wanted
from clients.models import Client
from drafting.engine.garments import KINDS
from orders.models import Fitting, Garment


def clients_of(day: date) -> list[int]:
    """Clients with a fitting that day, by the clock."""
    fittings = Fitting.objects.on(day).filter(order__is_open=True).order_by("at")
    return list(fittings.values_list("order__client_id", flat=True))


def wanted_by(client: Client) -> Iterator[Wanted]:
    """The measures of each garment in hand that is not cut yet, the order promised first at the front."""
    garments = Garment.objects.filter(order__client=client, order__is_open=True, cut_draft=None)
    for kind, title in garments.order_by("order__collect_on", "pk").values_list("kind", "title"):
        if kind in KINDS:
            yield Wanted(title, (*KINDS[kind].measures, *KINDS[kind].optional_measures), KINDS[kind].optional_measures)
