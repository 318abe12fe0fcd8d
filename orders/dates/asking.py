"""What the bench says to a promise that is about to be made: as the booking form asks while it is filled in."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from django.core.exceptions import ValidationError

from orders.dates.bench import Bench, month_in_words
from orders.dates.promise import Honest, Load, Pushed, honest, is_counted, kept, open_loads, pushed, quarters_of
from orders.dates.schedule import quarters
from orders.fields import DayField
from orders.models import Order
from workshop.forms import MoneyField
from workshop.models import Workshop
from workshop.money import print_money, rounded
from workshop.templatetags.workshop_tags import weekday


@dataclass(frozen=True)
class Answer:
    """`earliest` is the first day that the bench can keep; `notes` say what speaks against the day asked for."""

    honest: Honest
    asked: date | None
    notes: list[str]
    pushed: list[Pushed]
    can: date | None  # for the day asked for: when it would be ready, if that is later

    @property
    def is_kept(self) -> bool:
        return bool(self.asked and not self.can and not self.pushed and not self.notes)


def of_new(hours: Sequence[Decimal], asked: date | None, today: date, *, price: Decimal | None = None) -> Answer:
    """For an order that is not in the book yet, of garments of so many hours."""
    bench = Bench.current()
    loads = open_loads(bench, today)
    return answer(Load("new", asked, tuple(quarters(each) for each in hours)), loads, today, today, bench, price)


def of_order(order: Order, asked: date | None, today: date, *, price: Decimal | None = None) -> Answer:
    """For an order in the book that is moved to another day."""
    bench = Bench.current()
    loads = [load for load in open_loads(bench, today) if load.key != order.pk]
    own = Load(order.pk, order.collect_on, quarters_of(order, bench), order)
    standing = [*loads, own] if order.collect_on and is_counted(order, today) else loads
    moved = Load(order.pk, asked, own.quarters, order)
    return answer(moved, standing, today, order.booked_on, bench, price)


def answer(put: Load, loads: list[Load], today: date, asked_on: date, bench: Bench, price: Decimal | None) -> Answer:
    others = [load for load in loads if load.key != put.key]
    found = honest(put.quarters, others, today, bench, now=kept(loads, today, bench))
    if put.collect_on is None:
        return Answer(found, None, [], [], None)
    can = kept([*others, put], today, bench).by_key[put.key]
    urgent = bench.is_urgent(put.collect_on, asked_on)
    fee = print_money(fee_on(price, bench), Workshop.current().currency) if urgent and price else ""
    return Answer(
        honest=found,
        asked=put.collect_on,
        notes=notes(put.collect_on, asked_on, bench, fee),
        pushed=pushed(loads, put, today, bench),
        can=can if can and can > put.collect_on else None,
    )


def notes(asked: date, asked_on: date, bench: Bench, fee: str) -> list[str]:
    """What speaks against that day besides the bench's work."""
    found = []
    if closed := bench.why_closed(asked):
        on = weekday(asked)
        found.append(f"{on} is a closed day." if closed in on else f"{on} is a closed day: {closed}.")
    if bench.is_full(asked):
        found.append(f"{month_in_words(asked.year, asked.month)} is full: no new collections.")
    if bench.is_urgent(asked, asked_on):
        share = f" It costs {bench.urgent_percent.normalize():f}% more" if bench.urgent_percent else ""
        found.append(f"Urgent: sooner than {bench.lead_weeks} weeks.{share}{f', {fee}' if fee else ''}{'.' if share else ''}")
    return found


def fee_on(price: Decimal, bench: Bench) -> Decimal:
    """What is charged beside a price because the work is urgent."""
    return rounded(price * bench.urgent_percent / 100, Workshop.current().currency)


def day_asked(data: Mapping[str, str]) -> date | None:
    """The collection in a form that is still being filled in; nothing where it can't be read yet."""
    try:
        return DayField(required=False).clean(data.get("collect_on", ""))
    except ValidationError:
        return None


def price_asked(data: Mapping[str, str]) -> Decimal | None:
    try:
        return MoneyField(required=False).clean(data.get("price", ""))
    except ValidationError:
        return None
