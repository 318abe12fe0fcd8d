"""A day with a slip in its year must not take Today, the list of orders or the printer away from everybody."""

from datetime import UTC, datetime

import pytest

from drafting.dates_tape import marks_of, tape_image
from orders.booking import book_fitting
from orders.models import Fitting
from tests.orders.book import make_order

FAR = "31/12/9999"


@pytest.mark.xfail(strict=True, reason="orders/tape.py adds 7 days to the last fitting: date value out of range")
@pytest.mark.parametrize("address", ["/", "/orders/", "/orders/S-001/"])
def test_pages_open_with_a_fitting_in_the_last_year_there_is(hester, as_owner, address):
    order = make_order(hester, collect_on=None)
    book_fitting(order=order, at=datetime(9999, 12, 31, 10, tzinfo=UTC), booked_by=hester)
    as_owner.raise_request_exception = False
    assert as_owner.get(address).status_code == 200


@pytest.mark.xfail(strict=True, reason="orders/forms.py takes any year that a date can hold")
def test_a_fitting_in_a_far_year_is_refused_and_said(hester, as_seamstress, dunya):
    order = make_order(hester)
    sent = {"day": FAR, "time": "10:00", "by": "", "note": ""}
    answer = as_seamstress.post(f"/orders/{order.number}/fitting/", sent)
    assert answer.status_code == 422 and not Fitting.objects.exists()


@pytest.mark.xfail(strict=True, reason="orders/querysets.py asks for the day after the last day there is")
def test_the_last_day_there_is_holds_nothing_or_is_no_page(as_owner):
    as_owner.raise_request_exception = False
    assert as_owner.get("/orders/day/9999-12-31/").status_code in (200, 404)


@pytest.mark.xfail(strict=True, reason="drafting/dates_tape.py draws a tick a week for eight thousand years")
def test_the_tape_on_paper_stays_small_whatever_the_days():
    days = {"booked": "2026-02-20", "cut": "2026-03-13", "collect": "2206-03-28"}
    assert len(tape_image(marks_of(days))) < 50_000
