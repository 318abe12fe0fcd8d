"""The owner's page of money in a real Chromium: axe and reflow, phone and desk, light and dark."""

from datetime import date
from decimal import Decimal

import pytest
from django.utils import timezone

from orders.models import Order
from orders.money.payments import reverse, take
from tests.clients.book import make_client
from tests.conftest import four_ways, sticks_out
from tests.orders.book import days, make_order

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def book(hester):
    """Owed, late, gone without paying, to give back, and a struck entry."""
    today = timezone.localdate()

    def paid(order, amount):
        return take(order=order, by=hester, kind="deposit", amount=Decimal(amount), method="cash", taken_on=today)

    paid(make_order(hester, make_client("Ines Varga"), cut_on=today + days(2), collect_on=today + days(5)), 100)
    paid(make_order(hester, make_client("Marit Okwuosa-Lindqvist"), kind="skirt", collect_on=today - days(3)), 240)
    gone, off = make_order(hester, make_client("Tam Ferr")), make_order(hester, make_client("Bea Hale"))
    paid(gone, "300.50"), paid(off, 240)
    Order.objects.filter(pk=gone.pk).update(stage="collected", is_open=False, closed_on=today - days(20))
    Order.objects.filter(pk=off.pk).update(stage="called_off", is_open=False, closed_on=today - days(2), kept=100)
    wrong = paid(make_order(hester, make_client("Sela Mar"), collect_on=None), 75)
    reverse(payment=wrong, by=hester, taken_on=today, why="typed 75 for 57")
    return today


def test_the_pages_of_money_are_accessible_and_fit(desk, book: date, hester, let_in, accessible):
    page = let_in(desk, hester)
    payer = Order.objects.first().client_id
    for address in ("/money/", f"/money/{book.year}/", f"/orders/paid-by/{payer}/", "/orders/market/", "/orders/shelf/add/"):
        page.goto(address)
        page.get_by_role("heading", level=1).wait_for()
        for way in four_ways(page):
            accessible(page)
            assert sticks_out(page) <= 0, (address, way)
