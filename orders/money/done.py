"""What done orders cost against what they were sold for: the hours that were taken, the cloth and the things that went in."""

from collections import defaultdict
from dataclasses import dataclass
from decimal import Decimal

from orders.dates.bench import Bench
from orders.models import Order
from orders.money.costing import Asked, costing
from orders.money.rules import PriceRules
from orders.money.year import REPAIRS, SEVERAL, kind_title
from orders.stages import Stage
from workshop.models import Workshop

SHOWN = 50
NOTHING = Decimal(0)


@dataclass(frozen=True)
class Done:
    """One collected order. `cost` is at today's prices, `missing` what of it has none; `is_noted`: all hours were noted."""

    order: Order
    kind: str
    cost: Decimal
    hours: Decimal
    is_noted: bool
    missing: int
    work: Decimal

    @property
    def left(self) -> Decimal:
        return self.order.price - self.cost

    @property
    def an_hour(self) -> Decimal | None:
        """What an hour brought: the price less all but the work, by the hours that it took."""
        return (self.left + self.work) / self.hours if self.hours else None

@dataclass(frozen=True)
class OfKind:
    kind: str
    number: int
    price: Decimal
    cost: Decimal

    @property
    def left(self) -> Decimal:
        return self.price - self.cost


def done_lately() -> list[Done]:
    """The last fifty that were collected and had a price, newest first. Five queries."""
    orders = Order.objects.filter(is_open=False, stage=Stage.COLLECTED, price__isnull=False).with_client()
    found = list(orders.prefetch_related("garments", "cloths", "price_lines", "fittings").order_by("-closed_on", "-serial")[:SHOWN])
    rules, bench, workshop = PriceRules.current(), Bench.current(), Workshop.current()
    return [done_of(order, rules, bench, workshop) for order in found]


def done_of(order: Order, rules: PriceRules, bench: Bench, workshop: Workshop) -> Done:
    garments = list(order.garments.all())
    fittings = sum(each.done_on is not None for each in order.fittings.all())
    asked = Asked(order, garments, list(order.cloths.all()), fittings, NOTHING, {line.key: line for line in order.price_lines.all()})
    found = costing(asked, rules, bench, unit=workshop.unit, currency=workshop.currency, with_taken=True)
    kinds = {garment.kind for garment in garments}
    return Done(
        order=order, kind=REPAIRS if order.is_repair else kind_title(kinds.pop()) if len(kinds) == 1 else SEVERAL, cost=found.cost, hours=found.hours,
        is_noted=all(garment.hours_taken is not None for garment in garments), missing=len(found.missing), work=found.total_of("work"),
    )  # fmt: skip


def by_kind(done: list[Done]) -> list[OfKind]:
    rows: dict[str, list[Done]] = defaultdict(list)
    for each in done:
        rows[each.kind].append(each)
    return [
        OfKind(kind, len(all_of), sum((each.order.price for each in all_of), NOTHING), sum((each.cost for each in all_of), NOTHING))
        for kind, all_of in sorted(rows.items())
    ]
