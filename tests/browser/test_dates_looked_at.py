"""Calendar, enquiry, party, messages, cutting day, repairs, work given out and complaints in a real Chromium, in one walk: axe and reflow, phone by day, desk by night."""

from decimal import Decimal

import pytest
from django.urls import reverse
from django.utils import timezone

from orders import photos
from orders.after import complaints
from orders.booking import book_fitting
from orders.mending import tickets
from orders.models import Order, OutWork, Party
from orders.party import parties
from tests.clients.book import jpeg, make_client
from tests.conftest import DESK, PHONE, sticks_out
from tests.orders.book import days, make_order

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]
BY_NAME = ["calendar", "enquiry", "parties", "add-party", "texts", "days-and-hours", "together", "calendar-links", "take-in", "repair-prices"]


def taken_in(client, by, today) -> Order:
    """A ticket with two photographs of how it came, and a job."""
    order = tickets.take_in(client=client, brought_in="Blue skirt", collect_on=today + days(9), note="", photo=jpeg(), by=by, today=today)
    photos.keep(order=order, jpeg=jpeg(), shows="arrived", caption="the torn hem", by=by, on=today)
    tickets.add_job(order=order, values={"on_what": "blue skirt", "what": "new zip", "price": Decimal(22), "minutes": 60}, by=by)
    return order


def collected(by) -> Order:
    order = make_order(by, price=None, deposit=None)
    Order.objects.filter(pk=order.pk).update(stage="collected", is_open=False, closed_on=order.booked_on)
    return order


def came_back(by, today) -> Order:
    """Back after it was collected, with beading that is given out and late."""
    order = collected(by)
    complaints.take_back(order=order, why="ours", words="The zip gives way.", to_do="A stronger zip.", by_when=today + days(7), price=Decimal(0), by=by, today=today)
    OutWork.objects.create(order=order, what="beading", to_whom="Quay Street", gone_on=today - days(9), due_back=today - days(2))
    return order


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
    ticket = taken_in(order.client, hester, today)
    back = came_back(hester, today)
    found = [("show", [ticket.number]), ("add-job", [ticket.number]), ("give-out", [order.number]), ("show", [back.number]), ("came-back", [collected(hester).number])]
    found += [("month", [month]), ("cutting-day", [day]), ("day", [day]), ("party", [party.pk]), ("message", [order.number]), ("hold", [order.number])]
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
