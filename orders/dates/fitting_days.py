"""Which days a fitting could be moved to, and what stands on them already."""

from dataclasses import dataclass, field
from datetime import date, datetime, timedelta

from django.utils import timezone

from orders.dates.bench import Bench
from orders.models import Fitting
from workshop.templatetags.workshop_tags import clock, short_day

SHOWN = 12
#: Two fittings of one person closer than this stand in each other's way. Common practice, no source.
APART = timedelta(minutes=45)
#: What a fitting shows wants a day's work before the collection. Common practice, no source.
PUTTING_RIGHT = timedelta(days=1)


@dataclass
class FreeDay:
    day: date
    times: list[str] = field(default_factory=list)
    is_chosen: bool = False


def next_days(first: date, chosen: date | None) -> list[FreeDay]:
    """The next open days, each with the times that are taken by fittings; one query."""
    bench, days, day = Bench.current(), {}, first
    while len(days) < SHOWN:
        day = bench.next_open(day)
        days[day] = FreeDay(day, is_chosen=day == chosen)
        day += timedelta(days=1)
    for fitting in held(first, day):
        if fitting.day in days:
            days[fitting.day].times.append(clock(fitting.at))
    return list(days.values())


def held(first: date, last: date):
    fittings = Fitting.objects.between(first, last).filter(missed_on=None, order__is_open=True)
    return fittings.only("at", "by_id", "order_id").order_by("at")


def in_the_way(at: datetime, by, *, of: Fitting | None = None, collect_on: date | None = None) -> str:
    """What speaks against a time: a closed day, the collection so near, or the same person fitting somebody else; else empty."""
    day = timezone.localdate(at)
    said = []
    if closed := Bench.current().why_closed(day):
        said.append(f"The workshop is closed that day: {closed}.")
    if collect_on and day >= collect_on - PUTTING_RIGHT:
        said.append(f"Collection is on {short_day(collect_on)}: no day is left to put anything right.")
    if by:
        others = Fitting.objects.filter(by=by, at__gt=at - APART, at__lt=at + APART, missed_on=None, done_on=None, order__is_open=True)
        others = others.exclude(pk=of.pk) if of else others
        for other in others.select_related("order__client")[:1]:
            said.append(f"{by} fits {other.order.client.name} at {clock(other.at)} that day.")
    return " ".join(said)
