"""Calendar, enquiry, party, messages and cutting day in a real Chromium, in one walk: axe and reflow, phone by day, desk by night."""

from decimal import Decimal

import pytest
from django.urls import reverse
from django.utils import timezone

from orders.booking import book_fitting
from orders.models import Party
from orders.party import parties
from tests.clients.book import make_client
from tests.conftest import DESK, PHONE, sticks_out
from tests.orders.book import days, make_order

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]
BY_NAME = ["calendar", "enquiry", "parties", "add-party", "texts", "days-and-hours", "together", "calendar-links"]


@pytest.fixture
def addresses(hester) -> list[str]:
    """A fitting today, an order to cut today with much against it, and a party of two."""
    today = timezone.localdate()
    order = make_order(hester, make_client("Marit Okwuosa-Lindqvist"), cut_on=today)
    book_fitting(order=order, at=timezone.now(), by=hester, booked_by=hester)
    party = Party.objects.create(
        name="Wedding Ferring", occasion_on=today + days(60), cut_on=today + days(20), collect_on=today + days(56), cloth="rose crepe",
        width_written="60 in", width_mm=Decimal(1524), dye_lot="417",
    )  # fmt: skip
    given = {"kind": "fitted-dress", "price": Decimal(300), "deposit": Decimal(150), "pays_own": True}
    for name in ("Maud Ferring", "Ọláyinká Adéfarẹ"):
        parties.join(party=party, client=make_client(name), by=hester, today=today, **given)
    day, month = today.isoformat(), f"{today:%Y-%m}"
    found = [("month", [month]), ("cutting-day", [day]), ("day", [day]), ("party", [party.pk]), ("message", [order.number]), ("hold", [order.number])]
    return [reverse(f"orders:{name}", args=args) for name, args in [*((name, []) for name in BY_NAME), *found]]


def test_the_pages_of_dates_and_parties_are_accessible_and_fit(addresses, open_page, hester, let_in, accessible):
    page = let_in(open_page(PHONE), hester)
    for address in addresses:
        page.emulate_media(color_scheme="light")
        page.set_viewport_size(PHONE)
        page.goto(address)
        page.get_by_role("heading", level=1).wait_for()
        accessible(page)
        assert sticks_out(page) <= 0, f"{address} is wider than a phone"
        page.emulate_media(color_scheme="dark")
        page.set_viewport_size(DESK)
        accessible(page)
        assert sticks_out(page) <= 0, f"{address} is wider than a desk's window"
