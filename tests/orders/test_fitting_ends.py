"""A fitting ends with “it fits: finish” or with “fit again”, which books the next one."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from orders.booking import book_fitting
from orders.models import Fitting
from tests.orders.book import make_order


@pytest.fixture
def fitting(hester, dunya):
    order = make_order(hester)
    return book_fitting(order=order, at=timezone.now() - timedelta(minutes=5), by=dunya, booked_by=hester)


def ends(browser, fitting, **typed):
    url = reverse("orders:fitting-done", args=[fitting.order.number, fitting.pk])
    return browser.post(url, {"note": "", **typed}, follow=True)


def test_a_fitting_that_ends_with_finish_is_done_and_books_nothing(as_seamstress, fitting):
    page = ends(as_seamstress, fitting, ended="finish").content.decode()
    assert "The fitting is done, and it fits." in page
    assert "it fits: finish" in page
    fitting.refresh_from_db()
    assert (fitting.is_done, fitting.ended, Fitting.objects.count()) == (True, "finish", 1)


def test_fit_again_books_the_next_with_whoever_fits(as_seamstress, fitting, dunya):
    next_week = timezone.localdate() + timedelta(days=7)
    page = ends(as_seamstress, fitting, ended="again", note="gapes", day=str(next_week), time="15:30").content.decode()
    assert "The next is booked for" in page
    first, following = Fitting.objects.order_by("at")
    assert (first.ended, first.note) == ("again", "gapes")
    at = timezone.localtime(following.at)
    assert (at.date(), f"{at:%H:%M}", following.by, following.is_done) == (next_week, "15:30", dunya, False)


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({}, "How it ended: choose one."),
        ({"ended": "again"}, "Write the day of the next fitting."),
        ({"ended": "again", "day": "2031-02-30", "time": "15:00"}, "I can&#x27;t read “2031-02-30” as a day."),
        ({"ended": "again", "day": "2020-03-01", "time": "15:00"}, "That day has been."),
    ],
)
def test_what_is_missing_is_asked_for_and_nothing_is_noted(as_seamstress, fitting, typed, sentence):
    answer = ends(as_seamstress, fitting, **typed)
    assert answer.status_code == 422
    assert sentence in answer.content.decode()
    fitting.refresh_from_db()
    assert (fitting.is_done, Fitting.objects.count()) == (False, 1)


def test_an_order_that_is_over_gets_no_next_fitting_and_the_first_stays_open(as_seamstress, fitting, hester):
    fitting.order.call_off(by=hester, today=timezone.localdate(), why="moved away")
    following = timezone.localdate() + timedelta(days=3)
    answer = ends(as_seamstress, fitting, ended="again", day=str(following), time="10:00")
    assert "No fitting can be booked for it." in answer.content.decode()
    fitting.refresh_from_db()
    assert (fitting.is_done, Fitting.objects.count()) == (False, 1)


def test_an_apprentice_notes_that_it_must_be_fitted_again_and_asks_for_the_booking(as_apprentice, fitting):
    page = ends(as_apprentice, fitting, ended="again", day="2031-03-01", time="10:00").content.decode()
    assert "ask for the next one to be booked" in page
    assert Fitting.objects.count() == 1
