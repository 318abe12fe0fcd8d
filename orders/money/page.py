"""What is owed, held and taken: the owner's page of money. Every figure is in the workshop's own currency."""

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from typing import NamedTuple

from django.db.models import F, Q

from clients.querysets import name_of
from orders.beside import rows_along
from orders.models import Garment, Order, OutWork, Payment
from orders.models.naming import address_of
from orders.models.over import UNSETTLED
from orders.money.instalments import due_of
from orders.stages import Stage
from workshop.asked_often import RowsAskedOften

WEEK = timedelta(days=6)  # today and six more
LATELY = 25
NOTHING = Decimal(0)
#: Of an order, what this page shows or reckons with.
FIELDS = (
    "serial", "number", "stage", "is_open", "cut_on", "collect_on", "closed_on", "price", "deposit", "paid", "kept", "held_until", "instalments",
    "brought_in",
)  # fmt: skip


@dataclass(frozen=True)
class Owed:
    """One order with something to pay; `late` when it was promised, and not collected, before today, or is gone already."""

    order: Order
    whole: Decimal  # what its payments are to come to
    balance: Decimal
    share_paid: str  # of the bar's width, as an SVG attribute
    days_late: int
    is_gone: bool


@dataclass(frozen=True)
class PartDue:
    """What is to be paid of an order's instalments this week; `late` is what of it was to be paid before today."""

    order: Order
    amount: Decimal
    on: date
    late: Decimal


class Taken(NamedTuple):
    """An entry of the book, with what it strikes and what struck it."""

    number: str
    client: str
    kind: str
    method: str
    amount: Decimal
    taken_on: date
    taken_by: str
    why: str
    strikes: Decimal | None
    strikes_of: date | None
    struck_on: date | None

    @property
    def address(self) -> str:
        return address_of(self.number)


class Unpaid(NamedTuple):
    """Work that others do, and that is not paid for."""

    number: str
    client: str
    what: str
    to_whom: str
    due_back: date
    back_on: date | None
    cost: Decimal

    @property
    def address(self) -> str:
        return address_of(self.number)

    def is_due(self, today: date) -> bool:
        """It is back, or should be within the week."""
        return self.back_on is not None or self.due_back <= today + WEEK


@dataclass(frozen=True)
class MoneyShown:
    owed: list[Owed]
    deposits: list[Order]
    due_this_week: list[Owed]
    deposits_this_week: list[Order]
    instalments: list[PartDue]
    to_give_back: list[Owed]
    out_work: list[Unpaid]
    total_out_due: Decimal
    unpriced: int
    held: Decimal
    held_orders: int
    lately: list[Taken]

    @property
    def total_owed(self) -> Decimal:
        return sum((each.balance for each in self.owed), NOTHING)

    @property
    def total_deposits(self) -> Decimal:
        return sum((order.deposit_missing for order in self.deposits), NOTHING)

    @property
    def total_due(self) -> Decimal:
        """What this week should bring: balances of what is collected, and deposits of what is cut and collected later."""
        deposits = (order.deposit_missing for order in self.deposits_this_week)
        parts = (part.amount for part in self.instalments)
        return sum((each.balance for each in self.due_this_week), NOTHING) + sum(deposits, NOTHING) + sum(parts, NOTHING)

    @property
    def total_to_give_back(self) -> Decimal:
        return -sum((each.balance for each in self.to_give_back), NOTHING)

    @property
    def total_out(self) -> Decimal:
        return sum((out.cost for out in self.out_work), NOTHING)


def money_shown(today: date) -> MoneyShown:
    """The page, in four queries however many orders there are."""
    in_hand, gone = titled(_in_hand()), titled(_gone())
    priced = [order for order in in_hand if order.price is not None and (order.stage != Stage.ASKED or order.paid)]
    owed = [row_of(order, today) for order in (*gone, *priced) if order.balance > 0]
    before = [order for order in in_hand if order.is_before_cutting and order.paid > 0]
    missing = [order for order in in_hand if order.deposit_missing and order.stage != Stage.ASKED]
    missing.sort(key=lambda order: (order.cut_on is None, order.cut_on or today, order.serial))
    due = [each for each in owed if not each.is_gone and each.order.collect_on and each.order.collect_on <= today + WEEK]
    whole = {each.order.pk for each in due}  # whose deposit and instalments are in the balance that is due already
    parts = [part for order in priced if order.instalments and order.pk not in whole and (part := part_due(order, today))]
    in_parts = whole | {part.order.pk for part in parts}
    out_work = [Unpaid._make(row) for row in _out_work()]
    return MoneyShown(
        owed=owed,
        deposits=missing,
        due_this_week=due,
        deposits_this_week=[each for each in missing if each.cut_on and each.cut_on <= today + WEEK and each.pk not in in_parts],
        instalments=sorted(parts, key=lambda part: part.on),
        to_give_back=[row_of(order, today) for order in (*gone, *priced) if order.balance < 0],
        out_work=out_work,
        total_out_due=sum((out.cost for out in out_work if out.is_due(today)), NOTHING),
        unpriced=sum(order.price is None and order.stage != Stage.ASKED for order in in_hand),
        held=sum((order.paid for order in before), NOTHING),
        held_orders=len(before),
        lately=[Taken._make(row) for row in _lately()],
    )


def shown(orders):
    """The query with the client's name and the garments' titles in it, and nothing that the page does not show."""
    return orders.only(*FIELDS).annotate(client_name=F("client__name"), titles=rows_along(Garment, "title"))


def gone_unsettled():
    """Orders that are over and not settled: collected with a balance due, or called off with money to pay or to give back."""
    collected = Q(stage=Stage.COLLECTED, price__isnull=False) & ~Q(price=F("paid"))
    called_off = Q(stage=Stage.CALLED_OFF, kept__isnull=False) & ~Q(kept=F("paid"))
    over = Order.objects.filter(UNSETTLED, is_open=False).filter(collected | called_off)
    return shown(over).order_by(F("closed_on").asc(nulls_last=True), "serial")


def taken_lately():
    return (
        Payment.objects.annotate(by=name_of("taken_by"))
        .order_by("-taken_on", "-pk")
        .values_list(
            "order__number", "order__client__name", "kind", "method", "amount", "taken_on", "by", "why", "reverses__amount", "reverses__taken_on",
            "reversed_by__taken_on",
        )[:LATELY]
    )  # fmt: skip


def out_work_unpaid():
    """What is to be paid for work given out, in the order in which it comes back."""
    unpaid = OutWork.objects.filter(paid_on=None, cost__isnull=False).exclude(cost=0).order_by("due_back", "pk")
    return unpaid.values_list("order__number", "order__client__name", "what", "to_whom", "due_back", "back_on", "cost")


_in_hand = RowsAskedOften(lambda: shown(Order.objects.in_hand()).by_collection())
_gone = RowsAskedOften(gone_unsettled)
_lately = RowsAskedOften(taken_lately)
_out_work = RowsAskedOften(out_work_unpaid)


class Titled(NamedTuple):
    pk: int
    title: str


def titled(orders: list[Order]) -> list[Order]:
    """Each with its garments, of which their titles are known."""
    for order in orders:
        order.all_garments = sorted(Titled(**row) for row in order.titles or ())
    return orders


def part_due(order: Order, today: date) -> PartDue | None:
    due = due_of(order, today)
    if not due:
        return None
    late = sum((each.left for each in due if each.is_late(today)), NOTHING)
    return PartDue(order, sum((each.left for each in due), NOTHING), due[0].on, late)


def row_of(order: Order, today: date) -> Owed:
    whole = order.kept if order.stage == Stage.CALLED_OFF else order.price
    share = min(max(order.paid / whole, NOTHING), Decimal(1)) if whole else NOTHING
    return Owed(order, whole, order.balance, f"{share * 100:.2f}%", order.days_late(today), not order.is_open)
