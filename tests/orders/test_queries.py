"""How many questions a page asks the database: at most eight, and no more for 1,000 orders than for 10."""

from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from orders.booking import book_fitting
from orders.models import Cloth, Fitting, Garment, KeptLay, Order, Payment
from tests.orders.book import drafted_order, garment_of

MOST = 8


def many(by, count: int) -> Order:
    """Open orders as far as sign-off, each with a garment, four cloths, two fittings and two payments."""
    first = drafted_order(by)
    garment, today = garment_of(first), timezone.localdate()
    book_fitting(order=first, at=timezone.now(), booked_by=by)
    add_orders(first, garment, count - 1, by, today)
    return first


def add_orders(first, garment, count: int, by, today) -> None:
    start = Order.objects.order_by("-serial").first().serial + 1
    orders = Order.objects.bulk_create(
        Order(
            serial=serial, number=f"S-{serial:03d}", client=first.client, stage="measured", booked_on=today - timedelta(days=9),
            cut_on=today + timedelta(days=serial % 9 - 4), collect_on=today + timedelta(days=serial % 40 - 5),
            price=580, deposit=240,
        )
        for serial in range(start, start + count)
    )  # fmt: skip
    Garment.objects.bulk_create(
        Garment(order=order, kind=garment.kind, title=garment.title, options=garment.options, measuring=garment.measuring,
                draft=garment.draft, draft_passed=True)
        for order in orders
    )  # fmt: skip
    Cloth.objects.bulk_create(
        Cloth(order=order, name=name, used_for=[name], width_written="45", width_mm=1143)
        for order in orders
        for name in ("shell", "lining", "stay", "wadding")
    )
    at = timezone.now()
    Fitting.objects.bulk_create(Fitting(order=order, at=at + timedelta(days=order.serial % 19 - 5 + d), by=by) for order in orders for d in (0, 9))
    Payment.objects.bulk_create(
        Payment(order=order, kind="part", amount=20, taken_on=today, taken_by=by) for order in orders for _ in range(2)
    )


def know_the_database() -> None:
    """What Django asks SQLite once for each connection, not for a page: a savepoint, whether it reads JSON, the savepoint's end."""
    assert connection.features.supports_json_field


def asked(browser, address: str) -> int:
    with CaptureQueriesContext(connection) as asked:
        assert browser.get(address).status_code == 200
    return len(asked)


PAGES = ["/", "/orders/", "/orders/?which=all", "/orders/?q=ines+gown", "/orders/S-001/", "/orders/at-hand/", "/orders/calendar/"]


@pytest.mark.parametrize("role", ["owner", "apprentice"])
def test_a_page_asks_no_more_of_1000_orders_than_of_10(as_owner, as_apprentice, hester, role):
    browser, today = as_owner if role == "owner" else as_apprentice, timezone.localdate()
    pages = [*PAGES, f"/orders/day/{today.isoformat()}/", f"/orders/calendar/month/{today:%Y-%m}/"]
    first = many(hester, 10)
    know_the_database()
    few = {address: asked(browser, address) for address in pages}
    add_orders(first, garment_of(first), 990, hester, today)
    assert Order.objects.count() == 1000
    assert {address: asked(browser, address) for address in pages} == few
    assert max(few.values()) <= MOST


def test_a_clients_page_asks_eight_however_many_orders_she_has(as_owner, hester):
    first = many(hester, 2)
    page = f"/clients/{first.client_id}/"
    know_the_database()
    few = asked(as_owner, page)
    add_orders(first, garment_of(first), 20, hester, timezone.localdate())
    assert few == asked(as_owner, page) <= MOST


def test_an_order_with_much_in_it_asks_no_more(as_owner, hester):
    order = many(hester, 2)
    few = asked(as_owner, order.get_absolute_url())
    for _ in range(30):
        Payment.objects.create(order=order, kind="part", amount=1, taken_on=timezone.localdate(), taken_by=hester)
        book_fitting(order=order, at=timezone.now(), by=hester, booked_by=hester)
    assert asked(as_owner, order.get_absolute_url()) == few <= MOST


def test_today_reads_no_drawing(as_owner, hester):
    many(hester, 10)
    with CaptureQueriesContext(connection) as seen:
        as_owner.get("/")
    assert not [query["sql"] for query in seen if '"result"' in query["sql"] or '"order_file"' in query["sql"]]


def test_a_short_cloth_costs_today_no_question_and_no_lay(as_owner, hester):
    first = many(hester, 10)
    today = timezone.localdate()
    Order.objects.update(cut_on=today, deposit=None)
    few = asked(as_owner, "/")
    drafts = [garment_of(first).draft_id]
    for cloth in Cloth.objects.select_related("order"):
        told = {"needs_mm": 2000, "at_least_mm": 1000, "laid_for": cloth.laid_key(drafts)}
        Cloth.objects.filter(pk=cloth.pk).update(on_hand_mm=1500, on_hand_written="1.5 m", **told)
    for cloth in Cloth.objects.all():  # the key is of the cloth as it is now
        Cloth.objects.filter(pk=cloth.pk).update(laid_for=cloth.laid_key(drafts))
    with CaptureQueriesContext(connection) as seen:
        page = as_owner.get("/").content.decode()
    assert page.count("cloth short ⅝\u00a0yd") >= 10
    assert len(seen) == few <= MOST
    assert KeptLay.objects.count() == 0


def test_the_lays_page_asks_as_much_however_many_cloths(as_owner, hester):
    order = many(hester, 2)
    address = f"{order.get_absolute_url()}lays/"
    as_owner.get(address)  # the first time the lays are found and kept
    few = asked(as_owner, address)
    assert few <= 16
    for number in range(9):
        Cloth.objects.create(order=order, name=f"cloth {number}", used_for=["yoke"], width_written="45 in", width_mm=1143)
    as_owner.get(address)
    assert asked(as_owner, address) == few
