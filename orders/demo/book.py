"""The demo workshop's book: all invented, and set round the day on which it is looked at."""

from datetime import date, datetime, time, timedelta
from decimal import Decimal

from django.db import transaction
from django.db.models import F
from django.utils import timezone

from clients.models import Client, Measuring
from orders.booking import book_fitting, take_order
from orders.demo.beside import bring_along, put_beside
from orders.demo.cast import CLIENTS, DEMO_SIGN_INS, WORKSHOP
from orders.demo.in_the_book import ORDERS, Wanted
from orders.demo.prices import move_days, put_prices
from orders.garment.making_draft import keep_old_measures, make_draft
from orders.models import Cloth, Fitting, Order
from orders.money import payments
from orders.stages import Stage
from orders.work import cutting
from workshop.length import parse_length
from workshop.models import Person, Workshop

__all__ = ["DEMO_SIGN_INS", "load"]

KIND = "bustier-gown"
SUNDAY = 6


def load(today: date) -> None:
    """Make the demo workshop, or bring one that is there already to today. Run again, it changes nothing."""
    with transaction.atomic(), Workshop.kept():
        if Order.objects.exists():
            bring_to(today)
            return
        Workshop.objects.get_or_create(pk=1, defaults=WORKSHOP)
        people = make_people()
        clients = {key: make_client(sitter, people["hester"], today) for key, sitter in CLIENTS.items()}
        for wanted in ORDERS:
            make_order(wanted, clients[wanted.client], people, today)
        put_beside(clients, people, today, lambda days: open_day(today, days))
        put_prices(people, today)


def make_people() -> dict[str, Person]:
    people = {}
    for name, password, shown, role in DEMO_SIGN_INS:
        person = Person.objects.filter(username=name).first()
        people[name] = person or Person.objects.create_user(name, password=password, display_name=shown, role=role)
    return people


def make_client(sitter, by, today: date) -> Client:
    first_seen = today - timedelta(days=max(sitter.days_ago, sitter.earlier_days_ago))
    client = Client.objects.create(
        name=sitter.name, phone=sitter.phone, note=sitter.note, since=first_seen, consent_on=first_seen
    )
    if sitter.earlier:
        measure(client, sitter.written_before(), sitter, today - timedelta(days=sitter.earlier_days_ago), by)
    measure(client, sitter.written(), sitter, today - timedelta(days=sitter.days_ago), by)
    return client


def measure(client, written: dict[str, str], sitter, taken_on: date, by) -> Measuring:
    measuring = Measuring.objects.create(
        client=client, taken_on=taken_on, taken_by=by, worn=sitter.worn, shoes="in stockings", posture="upright"
    )
    measuring.write_down(written, "in", by=by)
    return measuring


def make_order(wanted: Wanted, client, people, today: date) -> None:
    """Walk the order through the workshop's own acts, so that its book holds together."""

    def on(days: int | None) -> date | None:
        return None if days is None else open_day(today, days)

    hester, dunya = people["hester"], people["dunya"]
    order = take_order(
        client=client,
        kind=KIND,
        title=wanted.title,
        by=hester,
        booked_on=today + timedelta(days=wanted.booked),
        collect_on=on(wanted.collect),
        cut_on=on(wanted.cut),
        occasion_on=on(wanted.occasion),
        price=wanted.price,
        deposit=wanted.deposit,
        note=wanted.note,
        options=wanted.options,
        cloths=False,
    )
    put_cloths(order, wanted)
    for fitting in wanted.fittings:
        day = on(fitting.day)
        at = timezone.make_aware(datetime.combine(day, time(*fitting.at)))
        booked = book_fitting(order=order, at=at, by=people[fitting.by], note=fitting.note, booked_by=dunya)
        if fitting.day < 0:
            booked.mark_done(by=dunya, today=day, note=fitting.note)
    for kind, amount, method, days in wanted.payments:
        payments.take(order=order, kind=kind, amount=Decimal(amount), method=method, by=dunya, taken_on=on(days))
    work_on(order, wanted, people, on)


def work_on(order: Order, wanted: Wanted, people, on) -> None:
    """Draft, sign off, cut, sew and hand over, as far as this order has come."""
    hester, dunya, pim = people["hester"], people["dunya"], people["pim"]
    if not wanted.is_drafted:
        return
    garment = order.garments.get()
    measurings = order.client.measurings.order_by("taken_on")
    garment.order = order
    make_draft(garment=garment, by=dunya, measuring=measurings.first() if wanted.from_earlier else measurings.last())
    if wanted.from_earlier and wanted.keeps_old:
        keep_old_measures(garment=garment, measuring=measurings.last(), by=dunya)
    if wanted.is_signed_off:
        cutting.sign_off(order=order, by=hester)
    way = [Stage.CUT, Stage.SEWN, Stage.READY, Stage.COLLECTED]
    reached = way.index(wanted.stage) if wanted.stage in way else -1
    if reached >= 0:
        cutting.cut(order=order, by=pim, today=order.cut_on)
    if reached >= 1:
        order.finish_sewing(by=dunya)
    if reached >= 2:
        order.hang_ready(by=dunya)
    if reached >= 3:
        order.hand_over(by=hester, today=on(wanted.collect))


def put_cloths(order: Order, wanted: Wanted) -> None:
    for name, used_for, width, on_hand, one_way in wanted.cloths:
        Cloth.objects.create(
            order=order,
            name=name,
            used_for=used_for,
            width_written=width,
            width_mm=parse_length(width, "in"),
            on_hand_written=on_hand,
            on_hand_mm=parse_length(on_hand, "in") if on_hand else None,
            one_way=one_way,
        )


def open_day(today: date, days: int) -> date:
    """That many days from today, moved off a Sunday, when the room is closed; today stays today."""
    day = today + timedelta(days=days)
    if day.weekday() != SUNDAY or not days:
        return day
    return day + timedelta(days=1 if days > 0 else -1)


def bring_to(today: date) -> None:
    """Move every promise by as many days as have passed since the demo was made; nothing written is lost.

    Payments and measurings stay where they are: they say what was, and are never changed.
    """
    oldest = Order.objects.order_by("serial").first()
    passed = (today - oldest.booked_on).days + ORDERS[0].booked
    if passed <= 0:
        return
    by = timedelta(days=passed)
    days = ("booked_on", "cut_on", "collect_on", "occasion_on", "was_cut_on", "closed_on")
    Order.objects.update(**{name: F(name) + by for name in days})
    move_days(by)
    bring_along(by)
    Fitting.objects.filter(done_on__isnull=True).update(at=F("at") + by)
    Fitting.objects.filter(done_on__isnull=False).update(at=F("at") + by, done_on=F("done_on") + by)
