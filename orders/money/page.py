"""What is owed, held and taken: the owner's page of money. Every figure is in the workshop's own currency."""

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from django.db.models import F, Q

from orders.models import Order, Payment
from orders.models.order import UNSETTLED
from orders.money.instalments import due_of
from orders.stages import Stage

WEEK = timedelta(days=6)  # today and six more
LATELY = 25
NOTHING = Decimal(0)


@dataclass(frozen=True)
class Owed:
    """One order with something to pay; `late` when it was promised, and not collected, before today, or is gone already."""

    order: Order
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


@dataclass(frozen=True)
class MoneyShown:
    owed: list[Owed]
    deposits: list[Order]
    due_this_week: list[Owed]
    deposits_this_week: list[Order]
    instalments: list[PartDue]
    to_give_back: list[Owed]
    unpriced: int
    held: Decimal
    held_orders: int
    lately: list[Payment]

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


def money_shown(today: date) -> MoneyShown:
    """The page, in four queries however many orders there are."""
    in_hand = list(Order.objects.in_hand().with_client().with_garments().defer("note", "wish").by_collection())
    gone = list(gone_unsettled())
    priced = [order for order in in_hand if order.price is not None and (order.stage != Stage.ASKED or order.paid)]
    owed = [row_of(order, today) for order in (*gone, *priced) if order.balance > 0]
    before = [order for order in in_hand if order.is_before_cutting and order.paid > 0]
    missing = [order for order in in_hand if order.deposit_missing and order.stage != Stage.ASKED]
    missing.sort(key=lambda order: (order.cut_on is None, order.cut_on or today, order.serial))
    due = [each for each in owed if not each.is_gone and each.order.collect_on and each.order.collect_on <= today + WEEK]
    whole = {each.order.pk for each in due}  # whose deposit and instalments are in the balance that is due already
    parts = [part for order in priced if order.instalments and order.pk not in whole and (part := part_due(order, today))]
    in_parts = whole | {part.order.pk for part in parts}
    return MoneyShown(
        owed=owed,
        deposits=missing,
        due_this_week=due,
        deposits_this_week=[each for each in missing if each.cut_on and each.cut_on <= today + WEEK and each.pk not in in_parts],
        instalments=sorted(parts, key=lambda part: part.on),
        to_give_back=[row_of(order, today) for order in (*gone, *priced) if order.balance < 0],
        unpriced=sum(order.price is None and order.stage != Stage.ASKED for order in in_hand),
        held=sum((order.paid for order in before), NOTHING),
        held_orders=len(before),
        lately=list(taken_lately()),
    )


def gone_unsettled():
    """Orders that are over and not settled: collected with a balance due, or called off with money to pay or to give back."""
    over = Order.objects.filter(UNSETTLED, is_open=False).with_client().with_garments().defer("note", "wish")
    collected = Q(stage=Stage.COLLECTED, price__isnull=False) & ~Q(price=F("paid"))
    called_off = Q(stage=Stage.CALLED_OFF, kept__isnull=False) & ~Q(kept=F("paid"))
    return over.filter(collected | called_off).order_by(F("closed_on").asc(nulls_last=True), "serial")


def part_due(order: Order, today: date) -> PartDue | None:
    due = due_of(order, today)
    if not due:
        return None
    late = sum((each.left for each in due if each.is_late(today)), NOTHING)
    return PartDue(order, sum((each.left for each in due), NOTHING), due[0].on, late)


def row_of(order: Order, today: date) -> Owed:
    whole = order.kept if order.stage == Stage.CALLED_OFF else order.price
    share = min(max(order.paid / whole, NOTHING), Decimal(1)) if whole else NOTHING
    return Owed(order, order.balance, f"{share * 100:.2f}%", order.days_late(today), not order.is_open)


def taken_lately():
    return Payment.objects.select_related("order__client", "taken_by", "reverses", "reversed_by").order_by("-pk")[:LATELY]
