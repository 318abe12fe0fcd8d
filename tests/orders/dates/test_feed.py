"""The feed, read back by icalendar (RFC 5545) and its recurrences by dateutil."""

import re
from datetime import UTC, date, datetime, timedelta

import pytest
from dateutil.rrule import rrulestr
from django.urls import reverse
from django.utils import timezone
from icalendar import Calendar

from orders.booking import book_fitting
from orders.dates import keeping_days
from orders.dates.bench import Bench, Closed
from orders.dates.feed import feed_of
from orders.models import CalendarLink, Fitting
from tests.cast import browser_of
from tests.clients.book import make_client
from tests.orders.book import DAY, make_order
from tests.orders.dates.test_calendar import NINE, booked, missed


def link_of(person, *, only_own=False) -> tuple[CalendarLink, str]:
    return CalendarLink.make(person=person, name="phone", only_own=only_own)


def read(person, today=DAY, **given) -> list:
    body = feed_of(link_of(person, **given)[0], today)
    calendar = Calendar.from_ical(body)
    assert not calendar.errors
    return calendar.walk("VEVENT")


def summaries(events) -> list[str]:
    return sorted(str(event["summary"]) for event in events)


def test_it_holds_fittings_cutting_and_collection(hester, dunya):
    order = booked(hester, client=make_client("Ọláyinká Adéfarẹ"))
    book_fitting(order=order, at=NINE, by=dunya, note="Toile; own shoes, 2 in\nheel", booked_by=hester)
    events = read(hester)
    assert summaries(events) == [
        "Collection: Ọláyinká Adéfarẹ, bustier gown",
        "Fitting: Ọláyinká Adéfarẹ, bustier gown",
        "To cut: Ọláyinká Adéfarẹ, bustier gown",
    ]
    fitting = next(event for event in events if "Fitting" in event["summary"])
    assert fitting.decoded("dtstart") == NINE
    assert str(fitting["description"]) == "S-001, 1st fitting. with Dunya. Toile; own shoes, 2 in\nheel"
    collection = next(event for event in events if "Collection" in event["summary"])
    assert (collection.decoded("dtstart"), collection.decoded("dtend")) == (date(2026, 3, 28), date(2026, 3, 29))


def test_every_event_has_what_rfc_5545_asks_for_and_lines_of_75_octets(hester):
    order = booked(hester, client=make_client("Ọláyinká " * 9))
    book_fitting(order=order, at=NINE, note="é" * 200, booked_by=hester)
    body = feed_of(link_of(hester)[0], DAY)
    assert body.startswith(b"BEGIN:VCALENDAR\r\n") and body.endswith(b"END:VCALENDAR\r\n")
    assert all(len(line) <= 75 for line in body.split(b"\r\n"))
    for event in Calendar.from_ical(body).walk("VEVENT"):
        assert {"UID", "DTSTAMP", "DTSTART", "SUMMARY"} <= set(event.keys())
    events = Calendar.from_ical(body).walk("VEVENT")
    assert len({str(event["uid"]) for event in events}) == len(events)


def test_a_moved_fitting_keeps_its_name_and_counts_on(hester):
    fitting = book_fitting(order=booked(hester), at=NINE, booked_by=hester)
    before = next(event for event in read(hester) if "Fitting" in event["summary"])
    fitting.at = NINE + timedelta(days=1)
    fitting.keep("at", by=hester)
    after = next(event for event in read(hester) if "Fitting" in event["summary"])
    assert before["uid"] == after["uid"]
    assert int(after["sequence"]) > int(before["sequence"])
    assert after.decoded("dtstart") == NINE + timedelta(days=1)


@pytest.mark.parametrize("at, local", [
    (datetime(2026, 3, 29, 0, 59, tzinfo=UTC), (0, 59)),
    (datetime(2026, 3, 29, 1, 0, tzinfo=UTC), (2, 0)),  # the hour that is not there
    (datetime(2026, 10, 25, 0, 30, tzinfo=UTC), (1, 30)),
    (datetime(2026, 10, 25, 1, 30, tzinfo=UTC), (1, 30)),  # the hour that comes twice: the second time
    (datetime(2026, 12, 31, 23, 45, tzinfo=UTC), (23, 45)),
])  # fmt: skip
def test_the_moment_survives_clock_changes_and_year_ends(hester, at, local):
    book_fitting(order=booked(hester, booked_on=date(2026, 1, 2)), at=at, booked_by=hester)
    event = next(event for event in read(hester) if "Fitting" in event["summary"])
    assert event.decoded("dtstart") == at
    seen = timezone.localtime(event.decoded("dtstart"))
    assert (seen.hour, seen.minute) == local


@pytest.mark.parametrize("closed", [
    Closed(date(2024, 12, 24), date(2025, 1, 2), "New Year", yearly=True),
    Closed(date(2026, 5, 1), date(2026, 5, 1), "May Day", yearly=True),
    Closed(date(2024, 2, 29), date(2024, 2, 29), "Leap day", yearly=True),
    Closed(date(2026, 8, 3), date(2026, 8, 14), "Summer"),
])  # fmt: skip
def test_dateutil_finds_a_holiday_on_the_days_on_which_the_bench_is_closed(hester, closed):
    keeping_days.close(closed)
    event = next(event for event in read(hester) if "Closed" in event["summary"])
    start, length = event.decoded("dtstart"), event.decoded("dtend") - event.decoded("dtstart")
    until = datetime(2040, 1, 1)
    begins = datetime.combine(start, datetime.min.time())
    starts = [begins]
    if "rrule" in event:
        starts = list(rrulestr(event["rrule"].to_ical().decode(), dtstart=begins).between(begins, until, inc=True))
    by_feed = {(first + timedelta(days=day)).date() for first in starts for day in range(length.days)}
    bench = Bench(open_weekdays=frozenset(range(7)), closed=(closed,))
    days = [start + timedelta(days=number) for number in range((until.date() - start).days)]
    assert {day for day in days if not bench.is_open(day)} == {day for day in by_feed if day < until.date()}


def test_a_missed_fitting_and_a_called_off_order_are_not_in_it(hester):
    order = booked(hester)
    missed(order, book_fitting(order=order, at=NINE, booked_by=hester), hester, days=0)
    other = booked(hester, client=make_client())
    book_fitting(order=other, at=NINE, booked_by=hester)
    other.call_off(by=hester, today=DAY, why="moved away")
    assert "Fitting" not in " ".join(summaries(read(hester)))
    assert len(read(hester)) == 2


def test_own_fittings_only_are_ones_own_and_those_nobody_has_taken(hester, dunya):
    order = booked(hester)
    for by in (dunya, hester, None):
        book_fitting(order=order, at=NINE, by=by, note=str(by), booked_by=hester)
    told = sorted(str(event["description"]).rsplit(" ", 1)[1] for event in read(dunya, only_own=True))
    assert told == ["Dunya", "None"]


def test_no_number_goes_out(hester, pim):
    book_fitting(order=make_order(hester, make_client(phone="07700 900418")), at=timezone.now(), booked_by=hester)
    for person in (hester, pim):
        body = feed_of(link_of(person)[0], timezone.localdate()).decode()
        assert "900418" not in body and not re.search(r"\b580\b", body)


def test_a_phone_reads_it_without_signing_in_until_it_is_revoked(as_apprentice, as_owner, as_nobody, pim, hester):
    book_fitting(order=make_order(hester), at=timezone.now(), booked_by=hester)
    page = as_apprentice.post(reverse("orders:calendar-links"), {"name": "Pim’s phone"})
    address = page.context["address"].removeprefix("http://testserver")
    answer = as_nobody.get(address)
    assert answer.status_code == 200
    assert answer["Content-Type"] == "text/calendar; charset=utf-8"
    assert b"Fitting: Ines" in answer.content
    assert as_nobody.get(address, headers={"if-none-match": answer["ETag"]}).status_code == 304
    assert address not in as_apprentice.get(reverse("orders:calendar-links")).content.decode()
    link = CalendarLink.objects.get()
    assert link.read_on == timezone.localdate()
    assert address.split("/")[-1].removesuffix(".ics") not in link.digest
    as_owner.post(reverse("orders:revoke-link", args=[link.pk]))
    assert as_nobody.get(address).status_code == 404


def test_who_has_left_reads_nothing_and_nobody_revokes_anothers_link(as_nobody, as_apprentice, dunya):
    link, secret = link_of(dunya)
    assert as_apprentice.post(reverse("orders:revoke-link", args=[link.pk])).status_code == 403
    assert as_nobody.get(reverse("orders:feed", args=[secret])).status_code == 200
    dunya.is_active = False
    dunya.save()
    assert as_nobody.get(reverse("orders:feed", args=[secret])).status_code == 404
    assert browser_of(None).get(reverse("orders:feed", args=["x" * 43])).status_code == 404


def test_a_link_needs_a_name(as_seamstress):
    answer = as_seamstress.post(reverse("orders:calendar-links"), {"name": ""})
    assert answer.status_code == 422
    assert not CalendarLink.objects.exists() and not Fitting.objects.exists()
