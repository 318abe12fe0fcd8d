"""What the measure book asks of the orders: who comes today, and which measures the garments in hand need."""

from collections.abc import Iterator
from datetime import date

from clients.expected import Wanted
from clients.models import Client
from drafting.engine.garments import KINDS
from drafting.engine.garments.sleeve_part import SLEEVE_MEASURES, sleeve_asks
from drafting.engine.spec import Kind
from orders.models import Fitting, Garment


def clients_of(day: date) -> list[int]:
    """Clients with a fitting that day, by the clock."""
    fittings = Fitting.objects.on(day).filter(order__is_open=True).order_by("at")
    return list(fittings.values_list("order__client_id", flat=True))


def wanted_by(client: Client) -> Iterator[Wanted]:
    """The measures of each garment in hand that is not cut yet, the order promised first at the front."""
    garments = Garment.objects.filter(order__client=client, order__is_open=True, cut_draft=None)
    for kind, title, options in garments.order_by("order__collect_on", "pk").values_list("kind", "title", "options"):
        if kind in KINDS:
            yield Wanted(title, *asked_for(KINDS[kind], options))


def asked_for(kind: Kind, options: dict[str, str]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What the garment is drafted from, and what of it a rule could supply; of the arm only what its sleeve needs."""
    sleeve = sleeve_asks(options.get("sleeve.kind", "none"), length_given=bool(options.get("sleeve.length")))
    needed = (*kind.measures, *(key for key in kind.optional_measures if key in sleeve))
    spare = tuple(key for key in kind.optional_measures if key not in SLEEVE_MEASURES)
    return (*needed, *spare), spare
