"""Money in by month and by kind of garment, over one year."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from django.db.models import Case, CharField, F, Max, Min, OuterRef, Subquery, Sum, Value, When
from django.db.models.functions import Cast, Coalesce, Substr

from drafting.engine.garments import KINDS
from orders.models import Garment, Payment
from workshop.days import month_name
from workshop.templatetags.workshop_tags import language_now

SEVERAL, NONE, REPAIRS = "several kinds", "no garment", "alterations and repairs"
SMALLEST = Decimal("0.001")


@dataclass(frozen=True)
class MonthRow:
    name: str
    by_kind: list[Decimal]
    total: Decimal


@dataclass(frozen=True)
class YearShown:
    year: int
    kinds: list[str]
    months: list[MonthRow]
    totals: list[Decimal]
    total: Decimal


def within(year: int):
    """The payments taken on that year's days."""
    return Payment.objects.filter(taken_on__gte=date(year, 1, 1), taken_on__lte=date(year, 12, 31))


def year_shown(year: int) -> YearShown:
    """What came in less what was given back or struck, each in the month of its own entry. One query."""
    month = Substr(Cast("taken_on", CharField()), 6, 2)
    sums = within(year).annotate(month=month, of_kind=kind_of_order()).order_by().values_list("month", "of_kind").annotate(taken=Sum("amount"))
    found = {(int(of_month), kind_title(kind)): taken.quantize(SMALLEST) for of_month, kind, taken in sums}
    kinds = sorted({kind for _, kind in found})
    months = [row_of(number, kinds, found) for number in range(1, 13)]
    totals = [sum((row.by_kind[at] for row in months), Decimal(0)) for at in range(len(kinds))]
    return YearShown(year, kinds, months, totals, sum(totals, Decimal(0)))


def row_of(number: int, kinds: list[str], found: dict) -> MonthRow:
    by_kind = [found.get((number, kind), Decimal(0)) for kind in kinds]
    return MonthRow(month_name(number, language_now()), by_kind, sum(by_kind, Decimal(0)))


def kind_of_order() -> Coalesce:
    """The kind that a payment's order is of; one with garments of more than one kind is not split, and a repair is of none."""
    garments = Garment.objects.filter(order=OuterRef("order")).order_by().values("order").annotate(first=Min("kind"), last=Max("kind"))
    made = Subquery(garments.annotate(one=Case(When(first=F("last"), then="first"), default=Value(SEVERAL))).values("one"))
    return Coalesce(made, Case(When(order__brought_in="", then=Value(NONE)), default=Value(REPAIRS)))


def kind_title(kind: str) -> str:
    return KINDS[kind].title.lower() if kind in KINDS else kind.replace("-", " ")
