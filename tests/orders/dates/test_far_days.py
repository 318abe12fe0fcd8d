"""A day with a slip in its year must not take Today, the list of orders or the printer away from everybody."""

from datetime import UTC, date, datetime

import pytest

from drafting.dates_tape import marks_of, tape_image
from drafting.order_section import Section
from orders.booking import book_fitting
from orders.models import Fitting
from orders.tape import tape_of
from tests.orders.book import DAY, make_order

FAR = "31/12/9999"


@pytest.mark.parametrize("address", ["/", "/orders/", "/orders/S-001/"])
def test_pages_open_with_a_fitting_in_the_last_year_there_is(hester, as_owner, address):
    order = make_order(hester, collect_on=None)
    book_fitting(order=order, at=datetime(9999, 12, 31, 10, tzinfo=UTC), booked_by=hester)
    as_owner.raise_request_exception = False
    assert as_owner.get(address).status_code == 200


def test_a_fitting_in_a_far_year_is_refused_and_said(hester, as_seamstress, dunya):
    order = make_order(hester)
    sent = {"day": FAR, "time": "10:00", "by": "", "note": ""}
    answer = as_seamstress.post(f"/orders/{order.number}/fitting/", sent)
    assert answer.status_code == 422 and not Fitting.objects.exists()
    assert "I read 31 December 9999. An order’s days lie between 2000 and" in answer.content.decode().replace("&#x27;", "’")


@pytest.mark.parametrize("name", ["collect_on", "cut_on", "occasion_on"])
def test_a_promise_for_a_far_year_is_refused_too(hester, as_owner, name):
    order = make_order(hester)
    answer = as_owner.post(f"/orders/{order.number}/promise/", {name: FAR, "price": "580", "version": order.version})
    assert answer.status_code == 422 and name in answer.context["form"].errors


@pytest.mark.parametrize("written", ["9999-12-31", "1899-12-31", "20261125", "2026-W48-3"])
def test_a_day_out_of_reach_or_written_in_another_way_is_no_page(as_owner, written):
    for page in ("", "sheets.pdf"):
        assert as_owner.get(f"/orders/day/{written}/{page}").status_code == 404


@pytest.mark.parametrize("days", [{"collect_on": date(9999, 12, 31)}, {"collect_on": None, "cut_on": date(9999, 12, 31)}])
def test_a_far_day_that_is_in_the_book_already_is_drawn_at_the_end_of_the_tape(hester, days):
    drawn = tape_of(make_order(hester, **days), DAY)
    assert len(drawn.ticks) < 500
    assert all(-1 <= float(x.rstrip("%")) <= 101 for x in (drawn.tip, drawn.bead, drawn.run, drawn.rest))


@pytest.mark.parametrize("booked", [date(1, 1, 1), date(9999, 12, 31)])
def test_nor_does_a_booking_day_with_a_slip_break_it(hester, booked):
    assert tape_of(make_order(hester, booked_on=booked, collect_on=None, cut_on=None), DAY).tip


def test_the_tape_on_paper_stays_small_whatever_the_days():
    for collect in ("2027-02-20", "2029-03-28", "2206-03-28", "9999-12-31"):
        days = {"booked": "2026-02-20", "cut": "2026-03-13", "collect": collect}
        assert len(tape_image(marks_of(days))) < 50_000


@pytest.mark.parametrize("day", ["1899-12-31", "2201-01-01", "9999-12-31", "0001-01-01"])
def test_an_order_file_of_another_age_is_refused_with_its_years(day):
    problems = []
    assert Section({"collect": day}, "dates", "in", problems).day("collect") is None
    assert problems == [f"dates.collect: I read “{day}”. Give a year from 1900 to 2200."]
