"""The calendar as other programs read it: iCalendar (RFC 5545), for one person by a secret link.

A fitting is written in universal time: on the night when the clocks go back an hour comes twice, and a time with the
zone's name beside it would not say which is meant. Telephone numbers never go out: a phone hands what it reads on to
whoever keeps its calendars.
"""

import uuid
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta

from django.conf import settings
from django.db.models import Prefetch, Q
from icalendar import Calendar, Event, vDuration

from orders.dates.bench import Bench
from orders.dates.fitting_days import APART
from orders.day import ordinal
from orders.models import CalendarLink, Fitting, Order
from orders.stages import Stage
from workshop.models import Workshop

#: How far back a feed reaches: what is older has been, and a phone need not load it every hour.
BACK_DAYS = 60
ASK_AGAIN = timedelta(hours=1)
DAY = timedelta(days=1)


def feed_of(link: CalendarLink, today: date) -> bytes:
    workshop = Workshop.current()
    calendar = Calendar()
    calendar.add("prodid", "-//Chalk & Calendar//EN")
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    calendar.add("name", workshop.name)  # RFC 7986; the next line is for programs that do not know it
    calendar.add("x-wr-calname", workshop.name)
    calendar.add("refresh-interval", vDuration(ASK_AGAIN), parameters={"VALUE": "DURATION"})
    own = link.person if link.only_own else None
    for event in fittings(today, own):
        calendar.add_component(event)
    if own is None:
        for event in [*days_of_orders(today), *closed_days(Bench.current())]:
            calendar.add_component(event)
    return calendar.to_ical()


def fittings(today: date, own) -> Iterator[Event]:
    """Fittings held lately and to come; with `own` only that person's, and those nobody has taken."""
    orders = {order.pk: order for order in orders_shown(today)}
    for order in orders.values():
        for place, fitting in enumerate(order.held_fittings, 1):
            if fitting.day < today - BACK_DAYS * DAY or own and fitting.by_id not in (None, own.pk):
                continue
            event = begun(f"fitting-{fitting.pk}", fitting.changed_at, fitting.version)
            event.add("summary", f"Fitting: {order.client.name}, {order.title.lower()}")
            event.add("dtstart", fitting.at.astimezone(UTC))
            event.add("dtend", (fitting.at + APART).astimezone(UTC))
            told = (f"{order.number}, {ordinal(place)} fitting", f"with {fitting.by}" if fitting.by else "", fitting.note)
            event.add("description", ". ".join(filter(None, told)))
            yield event


def orders_shown(today: date):
    """Orders in hand, and those closed lately."""
    lately = Q(is_open=True) | Q(stage=Stage.COLLECTED, closed_on__gte=today - BACK_DAYS * DAY)
    return Order.objects.filter(lately).with_client().with_garments().prefetch_related(
        Prefetch("fittings", Fitting.objects.select_related("by"))
    )


def days_of_orders(today: date) -> Iterator[Event]:
    """Cutting days and collections, each a whole day that leaves the time free."""
    for order in Order.objects.in_hand().exclude(stage=Stage.ASKED).with_client().with_garments():
        what = f"{order.client.name}, {order.title.lower()}"
        if order.cut_on and order.is_before_cutting:
            yield whole_day(f"cut-{order.pk}", f"To cut: {what}", order.cut_on, order.cut_on, order)
        if order.collect_on:
            yield whole_day(f"collect-{order.pk}", f"Collection: {what}", order.collect_on, order.collect_on, order)


def closed_days(bench: Bench) -> Iterator[Event]:
    """Holidays; one of every year recurs."""
    for closed in bench.closed:
        mark = f"closed-{closed.first}-{closed.last}-{closed.name}"
        event = whole_day(mark, f"Closed: {closed.name}", closed.first, closed.last)
        if closed.yearly:
            event.add("rrule", {"freq": "yearly"})
        yield event


def whole_day(mark: str, summary: str, first: date, last: date, order: Order | None = None) -> Event:
    changed = order.changed_at if order else datetime.combine(first, datetime.min.time(), UTC)
    event = begun(mark, changed, order.version if order else 0)
    event.add("summary", summary)
    event.add("dtstart", first)
    event.add("dtend", last + DAY)  # the first day that is no longer part of it
    event.add("transp", "TRANSPARENT")
    if order:
        event.add("description", order.number)
    return event


def begun(mark: str, changed_at: datetime, version: int) -> Event:
    """An event with a name that stays the same however often it is moved, and that no other workshop has."""
    event = Event()
    event.add("uid", str(uuid.uuid5(uuid.uuid5(uuid.NAMESPACE_OID, settings.SECRET_KEY), mark)))
    event.add("dtstamp", changed_at.astimezone(UTC))
    event.add("last-modified", changed_at.astimezone(UTC))
    event.add("sequence", version)
    return event
