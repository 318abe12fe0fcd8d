"""The calendar by week and by month, a fitting moved from it, and one that was missed."""

from datetime import UTC, date, datetime, timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from orders.booking import book_fitting
from orders.dates.calendar import month_of, week_of
from orders.dates.missing import miss_fitting
from orders.models import Fitting
from orders.stages import NotNow
from tests.clients.book import make_client
from tests.orders.book import DAY, cut_order, fresh, make_order


NINE = datetime(2026, 3, 12, 9, 30, tzinfo=UTC)


def url(name: str, *args) -> str:
    return reverse(f"orders:{name}", args=args)


def text(answer) -> str:
    return answer.content.decode()


def booked(hester, **changes):
    given = {"booked_on": date(2026, 3, 1), "cut_on": date(2026, 3, 14), "collect_on": date(2026, 3, 28), "deposit": None}
    return make_order(hester, changes.pop("client", None), **given | changes)


def on(calendar, day: date):
    return next(each for each in calendar.days if each.day == day)


def test_a_week_has_its_fittings_cuttings_and_collections(hester):
    order = booked(hester)
    book_fitting(order=order, at=NINE, booked_by=hester)
    book_fitting(order=order, at=NINE + timedelta(days=14), booked_by=hester)
    week = week_of(DAY, DAY)
    assert [len(each.fittings) for each in week.days] == [0, 0, 0, 1, 0, 0, 0]
    assert [each.number for each in on(week, date(2026, 3, 14)).to_cut] == ["S-001"]
    assert on(week, date(2026, 3, 15)).why_closed == "Sunday"
    assert on(week_of(date(2026, 3, 28), DAY), date(2026, 3, 28)).said == "1 to collect"


def test_a_cut_order_stands_in_the_calendar_until_it_is_collected(hester, as_seamstress):
    order = cut_order(hester, booked_on=DAY - timedelta(days=9), cut_on=DAY + timedelta(days=2), collect_on=date(2026, 3, 28))
    book_fitting(order=order, at=NINE + timedelta(days=7), booked_by=hester)
    month, cut_on = month_of(DAY, DAY), fresh(order).was_cut_on
    stands = [(each.day, each.said) for each in (*month.days, *month_of(cut_on, DAY).days) if each.fittings or each.to_cut or each.cut or each.to_collect]
    assert dict(stands) == {date(2026, 3, 19): "1 fitting", date(2026, 3, 28): "1 to collect", cut_on: "1 cut"}
    assert f'#mark-cut"/></svg>{order.number}' in text(as_seamstress.get(url("month", f"{cut_on:%Y-%m}")))
    assert '#mark-cut"/></svg>Cut: ' in text(as_seamstress.get(url("week", f"{cut_on}")))
    order.close("collected", DAY, hester)
    assert not any(each.cut or each.to_collect for each in (*month_of(DAY, DAY).days, *month_of(cut_on, DAY).days))


def test_a_month_is_whole_weeks_and_knows_which_days_are_not_its_own(hester):
    march = month_of(date(2026, 3, 12), DAY)
    assert (march.title, len(march.weeks), march.days[0].day, march.days[-1].day) == ("March 2026", 6, date(2026, 2, 23), date(2026, 4, 5))
    assert [each.day.day for each in march.days if each.is_other] == [*range(23, 29), 1, 2, 3, 4, 5]
    assert (march.before, march.after) == (date(2026, 2, 1), date(2026, 4, 1))


@pytest.mark.parametrize("at, day", [
    (datetime(2026, 3, 28, 23, 30, tzinfo=UTC), date(2026, 3, 28)),  # the last night of winter time
    (datetime(2026, 3, 29, 23, 30, tzinfo=UTC), date(2026, 3, 30)),  # an hour on, by summer time
    (datetime(2026, 10, 24, 23, 30, tzinfo=UTC), date(2026, 10, 25)),
    (datetime(2026, 10, 25, 23, 30, tzinfo=UTC), date(2026, 10, 25)),
    (datetime(2026, 12, 31, 23, 59, tzinfo=UTC), date(2026, 12, 31)),
    (datetime(2027, 1, 1, 0, 0, tzinfo=UTC), date(2027, 1, 1)),
])  # fmt: skip
def test_a_fitting_stands_on_the_day_that_the_workshops_clock_says(hester, at, day):
    book_fitting(order=booked(hester), at=at, booked_by=hester)
    for found in (week_of(day, DAY), month_of(day, DAY)):
        assert [each.day for each in found.days if each.fittings] == [day]


def test_the_week_over_new_year_is_one_week(hester):
    week = week_of(date(2026, 12, 31), DAY)
    assert [each.day for each in week.days][0] == date(2026, 12, 28)
    assert [each.day for each in week.days][-1] == date(2027, 1, 3)


def test_the_bench_says_how_much_of_a_week_is_taken_and_until_when(hester):
    booked(hester)
    week = week_of(DAY, DAY)
    # Forty hours from Thursday the 12th at seven a day: 21 of the 21 left of this week, 19 of the next 42.
    assert week.weeks[0].bench == "21 of 21 hours taken"
    assert week_of(DAY + timedelta(days=7), DAY).weeks[0].bench == "19 of 42 hours taken"
    assert week.bench.startswith("The bench has work until 18\u00a0March")


@pytest.mark.parametrize("name, written", [("week", "2026-02-30"), ("month", "2026-13"), ("month", "2026-3"), ("month", "9999-12"), ("week", "9999-12-31")])
def test_what_is_no_day_or_month_is_not_found(as_owner, name, written):
    assert as_owner.get(url(name, written)).status_code == 404


def test_the_pages_show_who_comes_and_lead_to_moving_it(as_seamstress, as_apprentice, hester):
    order = make_order(hester, make_client("Ọláyinká Adéfarẹ"))
    fitting = book_fitting(order=order, at=timezone.now() + timedelta(minutes=1), booked_by=hester)
    move = url("fitting", order.number, fitting.pk)
    assert "Ọláyinká Adéfarẹ" in text(as_seamstress.get(url("calendar")))
    assert move in text(as_seamstress.get(url("calendar")))
    assert move in text(as_seamstress.get(url("month", f"{timezone.localdate():%Y-%m}")))
    assert move not in text(as_apprentice.get(url("calendar")))


def test_a_touched_day_stands_in_the_form_of_the_fitting(as_seamstress, hester, dunya):
    order = make_order(hester)
    fitting = book_fitting(order=order, at=timezone.now() + timedelta(days=1), by=dunya, booked_by=hester)
    page = as_seamstress.get(url("fitting", order.number, fitting.pk))
    day = next(each.day for each in page.context["days"] if each.day != fitting.day)
    touched = text(as_seamstress.get(url("fitting", order.number, fitting.pk), {"day": day.isoformat()}))
    assert f'name="day" value="{day.isoformat()}"' in touched
    sent = {"day": day.isoformat(), "time": "15:00", "by": dunya.pk, "note": "", "version": fitting.version}
    as_seamstress.post(url("fitting", order.number, fitting.pk), sent)
    assert Fitting.objects.get().day == day
    assert [(c.thing, c.label) for c in order.changes.all()] == [("fitting", "time")]


def test_two_fittings_of_one_person_at_once_and_a_closed_day_are_said_not_refused(as_seamstress, hester, dunya):
    first = make_order(hester, make_client("Bea Tollard"))
    sunday = timezone.localdate() + timedelta(days=(6 - timezone.localdate().weekday()) or 7)
    sent = {"day": sunday.isoformat(), "time": "14:00", "by": dunya.pk, "note": ""}
    as_seamstress.post(url("add-fitting", first.number), sent)
    page = text(as_seamstress.post(url("add-fitting", make_order(hester).number), sent | {"time": "14:30"}, follow=True))
    assert "The workshop is closed that day: Sunday." in page
    assert "Dunya fits Bea Tollard at 14:00 that day." in page
    assert Fitting.objects.count() == 2


def missed(order, fitting, by, *, days=7, moves=True, today=DAY):
    return miss_fitting(
        fitting=fitting, order=order, why="ill", next_at=NINE + timedelta(days=days) if days else None, moves=moves, by=by, today=today
    )


def test_a_missed_fitting_moves_the_promise_and_stays_on_record(hester, dunya):
    order = booked(hester)
    fitting = book_fitting(order=order, at=NINE, by=dunya, note="toile", booked_by=hester)
    moved = missed(order, fitting, dunya)
    order = fresh(order)
    assert (order.cut_on, order.collect_on) == (date(2026, 3, 21), date(2026, 4, 4))
    assert moved.collect_on == (date(2026, 3, 28), date(2026, 4, 4))
    old, new = Fitting.objects.order_by("at")
    assert (old.missed_on, new.day, new.by, new.note) == (DAY, date(2026, 3, 19), dunya, "toile")
    collection = order.changes.get(field="collect_on")
    assert (collection.before, collection.after, collection.by) == ("28 March 2026", "4 April 2026", dunya)
    assert collection.why.endswith("missed: ill")
    assert order.changes.get(field="missed_on").why == "ill"


def test_the_promise_moves_to_an_open_day_or_not_at_all(hester):
    order = booked(hester)
    missed(order, book_fitting(order=order, at=NINE, booked_by=hester), hester, days=8)
    assert fresh(order).collect_on == date(2026, 4, 6)  # eight days on is a Sunday
    other = booked(hester, client=make_client())
    missed(other, book_fitting(order=other, at=NINE, booked_by=hester), hester, moves=False)
    assert fresh(other).collect_on == date(2026, 3, 28)


def test_a_fitting_is_missed_once_and_not_before_its_day(hester):
    order = booked(hester)
    fitting = book_fitting(order=order, at=NINE, booked_by=hester)
    with pytest.raises(NotNow, match="has not come yet"):
        missed(order, fitting, hester, today=DAY - timedelta(days=1))
    missed(order, fitting, hester, days=0)
    with pytest.raises(NotNow, match="missed already"):
        missed(order, fitting, hester)
    with pytest.raises(NotNow, match="noted as missed"):
        fitting.mark_done(by=hester, today=DAY)


def test_a_missed_fitting_is_written_down_on_its_page(as_seamstress, hester):
    order = make_order(hester)
    fitting = book_fitting(order=order, at=timezone.now(), booked_by=hester)
    refused = as_seamstress.post(url("fitting-missed", order.number, fitting.pk), {"why": "", "day": "2026-99-01", "time": "10:00"})
    assert refused.status_code == 422
    assert "2026-99-01" in text(refused)
    day = (timezone.localdate() + timedelta(days=7)).isoformat()
    sent = {"why": "ill", "day": day, "time": "10:00", "moves": "on"}
    page = text(as_seamstress.post(url("fitting-missed", order.number, fitting.pk), sent, follow=True))
    assert "The fitting is noted as missed. It moves collection" in page
    assert "Fitting, missed" in page
    assert "1st fitting" in page and "2nd fitting" not in page


def test_touching_a_day_keeps_what_is_typed_and_books_nothing(as_seamstress, hester, dunya):
    order = make_order(hester)
    taken = book_fitting(order=make_order(hester, make_client("Bea Tollard")), at=timezone.now() + timedelta(days=3), booked_by=hester)
    touched = {"touched": "2031-03-12", "day": "", "time": "15:20", "by": dunya.pk, "note": "bring the shoes", "is_toile": "on"}
    page = as_seamstress.post(url("add-fitting", order.number), touched)
    form = page.context["form"]
    assert [str(form[name].value()) for name in ("day", "time", "by", "note", "is_toile")] == ["2031-03-12", "15:20", str(dunya.pk), "bring the shoes", "on"]
    assert "taken: " in text(page) and Fitting.objects.get() == taken


def test_a_fitting_on_the_day_before_collection_is_said_not_refused(as_seamstress, hester):
    order = make_order(hester)
    sent = {"day": (order.collect_on - timedelta(days=1)).isoformat(), "time": "14:00", "by": "", "note": ""}
    assert "no day is left to put anything right" in text(as_seamstress.post(url("add-fitting", order.number), sent, follow=True))
    sent["day"] = (order.collect_on - timedelta(days=2)).isoformat()
    assert "no day is left" not in text(as_seamstress.post(url("add-fitting", order.number), sent, follow=True))


def test_a_promise_sooner_than_usual_stays_said_on_the_orders_page(as_seamstress, hester):
    soon = make_order(hester, booked_on=timezone.localdate())
    assert "urgent: sooner than 4 weeks" in text(as_seamstress.get(soon.get_absolute_url()))
    assert "urgent: sooner" not in text(as_seamstress.get(make_order(hester).get_absolute_url()))


def test_the_month_does_not_say_sunday_in_every_sundays_cell(as_seamstress):
    page = text(as_seamstress.get(url("month", "2031-03")))
    assert "is-closed" in page and '<span class="soft">Sunday</span>' not in page
