"""Working a price out for an order, setting lines of it by hand, and making quotes of it."""

from collections.abc import Mapping
from datetime import date, timedelta
from decimal import Decimal

from django.db import transaction
from django.db.models import Count, OuterRef, QuerySet, Subquery, Sum

from orders.dates.bench import Bench
from orders.models import Cloth, Counter, Fitting, Garment, Order, PricedChange, PriceLine, Quote
from orders.money.costing import CLOTH, OWN, Asked, Costing, Line, costing
from orders.money.rules import PriceRules, terms_of, usual_deposit
from orders.stages import OVER, NotNow
from workshop.asked_often import RowsAskedOften
from workshop.models import Workshop
from workshop.money import print_money
from workshop.templatetags.workshop_tags import plain_day

MOST_OWN = 30


def priced_orders() -> QuerySet[Order]:
    """Orders with what their prices are worked out from beside garments, cloths and lines by hand."""
    fittings = Fitting.objects.filter(order=OuterRef("pk"), missed_on=None).order_by().values("order").annotate(number=Count("pk"))
    changes = PricedChange.objects.filter(order=OuterRef("pk")).order_by().values("order").annotate(sum=Sum("price"))
    return Order.objects.annotate(fitting_count=Subquery(fittings.values("number")), changes_sum=Subquery(changes.values("sum")))


_garments = RowsAskedOften(lambda order: Garment.objects.filter(order=order).defer("options", "rules").order_by("pk"))
_cloths = RowsAskedOften(lambda order: Cloth.objects.filter(order=order).order_by("pk"))
_lines = RowsAskedOften(lambda order: PriceLine.objects.filter(order=order).order_by("pk"))


def asked_of(order: Order) -> Asked:
    """Everything that the price of one of `priced_orders` is worked out from, in three queries; no drawing is read."""
    order.all_garments = _garments(order.pk)
    by_hand = {line.key: line for line in _lines(order.pk)}
    return Asked(order, order.all_garments, _cloths(order.pk), order.fitting_count or 0, order.changes_sum or Decimal(0), by_hand)


def costing_of(order: Order) -> Costing:
    workshop = Workshop.current()
    return costing(asked_of(order), PriceRules.current(), Bench.current(), unit=workshop.unit, currency=workshop.currency)


@transaction.atomic
def set_lines(*, order: Order, amounts: Mapping[str, Decimal | None], by) -> None:
    """Set lines by hand, by their keys; with no amount a line is worked out again, and one of the owner's own goes.

    Those that are as they were written are left alone. Raises NotNow.
    """
    order = open_order(order)
    found = {line.key: line for line in costing_of(order).lines}
    if any(amount is not None and key not in found for key, amount in amounts.items()):
        raise NotNow("A line is not in the price any more: the garment or its cloths were changed. Look at it, then write.")
    for key, amount in amounts.items():
        line = found.get(key)
        if line is not None and amount != (line.by_hand.set_to if line.by_hand else None):
            set_line(order, line, amount, by)


def set_line(order: Order, line: Line, amount: Decimal | None, by) -> None:
    known = line.by_hand
    if amount is None:
        after = "taken out" if line.is_own else "worked out again"
        known.note_changes([told(f"{known.set_to.normalize():f}", after)], by=by)
        known.delete()
    elif known:
        known.set_to, known.worked_out = amount, line.worked_out
        known.keep("set_to", "worked_out", by=by)
    else:
        values = {"part": line.part, "label": line.label, "worked_out": line.worked_out, "set_to": amount}
        made = PriceLine.objects.create(order=order, key=line.key, changed_by=by, **values)
        made.note_changes([told("" if line.worked_out is None else f"{line.worked_out.normalize():f}", f"{amount.normalize():f}")], by=by)


@transaction.atomic
def add_own(*, order: Order, label: str, amount: Decimal, by, part: str = OWN) -> PriceLine:
    """A line of the owner's own: of the cloth money, or besides."""
    order = open_order(order)
    taken = set(order.price_lines.filter(key__startswith="own-").values_list("key", flat=True))
    if len(taken) >= MOST_OWN:
        raise NotNow(f"{MOST_OWN} lines stand beside the worked-out ones already. Put two together.")
    key = next(f"own-{number}" for number in range(1, MOST_OWN + 2) if f"own-{number}" not in taken)
    line = PriceLine.objects.create(order=order, key=key, part=part, label=label, set_to=amount, changed_by=by)
    line.note_changes([told("", f"{amount.normalize():f}")], by=by)
    return line


def told(before: str, after: str) -> dict:
    return {"field": "set_to", "label": PriceLine.told_as["set_to"], "before": before, "after": after}


@transaction.atomic
def make_quote(*, order: Order, last_day: date, deposit: Decimal | None, by, today: date) -> Quote:
    """Write the price as it is worked out now into a quote with the next number; an open one of the order is taken back."""
    order = open_order(order)
    found = costing_of(order)
    if found.missing:
        names = ", ".join(line.label for line in found.missing)
        raise NotNow(f"Something has no price yet: {names}. Write it by hand, 0 if it costs nothing, or into the price list.")
    if found.price <= 0:
        raise NotNow("The price comes to nothing. Look at its lines.")
    asked_for = usual_deposit(found.price) if deposit is None else deposit
    if asked_for > found.price:
        raise NotNow(f"The deposit is more than the price, {printed(found.price)}.")
    for earlier in order.quotes.filter(agreed_on=None, cancelled_on=None):
        take_back(quote=earlier, by=by, today=today, why="a newer quote")
    return Quote.objects.create(
        order=order, serial=Counter.next_of("quote"), made_on=today, made_by=by, last_day=last_day, currency=Workshop.current().currency,
        price=found.price, deposit=asked_for, says=said_of(order, found), changed_by=by,
    )  # fmt: skip


def said_of(order: Order, found: Costing) -> dict:
    """What the client reads: cloth by its lines, all else as one sum of making, so that the two are the price."""
    payer = order.paid_by or (order.party.payer if order.party else None) or order.client
    cloths = [[line.label, how_told(line.how), str(line.amount)] for line in found.lines if line.part == CLOTH]
    return {
        "client": order.client.name, "payer": payer.name, "garments": [garment.title for garment in order.garments.all()],
        "cloths": cloths, "cloth": str(found.cloth_money), "making": str(found.price - found.cloth_money),
        "terms": terms_of(PriceRules.current(), printed), "collect_on": order.collect_on.isoformat() if order.collect_on else "",
        "instalments": order.instalments, "paid": str(order.paid),
    }  # fmt: skip


def how_told(how: str) -> str:
    """“2 yd by the lay”: of how a cloth's line was worked out, what a client reads. No price a yard, and no note to ourselves."""
    return "" if how.startswith("no lay yet") else how.split(", at ")[0].split("; ")[0]


def beside_agreed(order: Order, price: Decimal) -> str:
    """What a price means for an order that has one already, or for what is paid of it; nothing where they are the same."""
    if order.price is None or order.price == price:
        return ""
    by = f"{printed(abs(order.price - price))} {'less' if price < order.price else 'more'}"
    over = f" {printed(order.paid)} is paid already: {printed(order.paid - price)} would go back." if order.paid > price else ""
    return f"{order.number} is agreed at {printed(order.price)}: this is {by}. Agreed, it takes its place.{over}"


@transaction.atomic
def agree(*, quote: Quote, by, today: date) -> None:
    """The client said yes: its price and deposit are the order's. After its last day it is made anew first."""
    order = open_order(quote.order)
    if quote.cancelled_on or quote.agreed_on:
        raise NotNow(f"{quote.number} is {'taken back' if quote.cancelled_on else 'agreed'} already.")
    if quote.last_day < today:
        raise NotNow(f"{quote.number} was good until {plain_day(quote.last_day)}. Make a new one at today's prices.")
    if order.paid > quote.price:
        raise NotNow(f"{printed(order.paid)} is paid already, more than this price. Give back the difference first.")
    quote.agreed_on = today
    quote.keep("agreed_on", by=by)
    order.price, order.deposit = quote.price, quote.deposit
    order.keep("price", "deposit", by=by, why=f"quote {quote.number}")


@transaction.atomic
def take_back(*, quote: Quote, by, today: date, why: str) -> None:
    """It keeps its number and stays in the book as taken back."""
    if quote.agreed_on:
        raise NotNow(f"{quote.number} is agreed. Change the order's price instead.")
    if quote.cancelled_on:
        raise NotNow(f"{quote.number} is taken back already.")
    quote.cancelled_on, quote.why_cancelled = today, why
    quote.keep("cancelled_on", "why_cancelled", by=by, why=why)


def usual_last_day(today: date) -> date:
    return today + timedelta(days=PriceRules.current().quote_days)


def open_order(order: Order) -> Order:
    order = priced_orders().select_for_update().get(pk=order.pk)
    if order.stage in OVER:
        raise NotNow(f"{order.number} is {order.get_stage_display()} already. Its price stays as it was.")
    return order


def printed(amount: Decimal) -> str:
    return print_money(amount, Workshop.current().currency)
