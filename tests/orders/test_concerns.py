"""What puts a promise at risk: each with its reason and the step that this person can take."""

from datetime import date, timedelta

import pytest
from django.utils import timezone

from orders.booking import book_fitting
from orders.concern import Eyes, Known
from orders.concerns import concerns_of
from orders.day import todays

from orders.models import Order
from orders.stages import Stage
from tests.clients.book import make_client, measured
from tests.orders.book import DAY, days, make_order
from tests.orders.test_today import OWNER, at, flags


def near(hester, **changes):
    given = {"booked_on": DAY - days(30), "cut_on": DAY + days(9), "collect_on": DAY + days(14), "deposit": None}
    return make_order(hester, changes.pop("client", None), **given | changes)


def cut(order, on: date) -> Order:
    Order.objects.filter(pk=order.pk).update(stage=Stage.CUT, was_cut_on=on)
    return order


def test_no_fitting_ahead_is_told_two_weeks_before_collection(hester):
    assert flags(near(hester)) == ["no fitting booked"]
    assert flags(near(hester, collect_on=DAY + days(15))) == []
    booked = near(hester)
    book_fitting(order=booked, at=at(DAY + days(3), 10), booked_by=hester)
    assert flags(booked) == []


def test_a_cut_garment_that_was_tried_on_needs_none_unless_the_client_comes_again(hester):
    order = cut(near(hester), DAY - days(5))
    before = book_fitting(order=order, at=at(DAY - days(8), 10), booked_by=hester)
    before.mark_done(by=hester, today=DAY - days(8))
    assert flags(order) == ["no fitting booked"]  # the toile was tried on, not the gown
    after = book_fitting(order=order, at=at(DAY - days(1), 10), booked_by=hester)
    assert flags(order) == ["fitting not noted"]
    after.mark_done(by=hester, today=DAY, ended="again")
    assert flags(order) == ["no fitting booked"]
    after.ended = "finish"
    after.keep("ended", by=hester)
    assert flags(order) == []


def test_a_missed_fitting_is_no_fitting(hester):
    order = near(hester)
    fitting = book_fitting(order=order, at=at(DAY - days(1), 10), booked_by=hester)
    fitting.missed_on = DAY
    fitting.keep("missed_on", by=hester)
    assert flags(order) == ["no fitting booked"]


@pytest.mark.parametrize("taken, said", [(91, []), (92, ["measures old"])])
def test_measures_too_old_on_the_cutting_day_are_told_a_week_before(hester, taken, said):
    order = near(hester, cut_on=DAY + days(7), collect_on=DAY + days(30))
    assert flags(order, measured_on=order.cut_on - days(taken), good_for_days=91) == said
    assert flags(order, measured_on=order.cut_on - days(taken), good_for_days=91, newer=DAY) == []


def test_a_childs_measures_are_old_after_four_weeks(hester):
    child = make_client("Lotte Varrow", born_on=DAY - timedelta(days=9 * 365))
    order = near(hester, client=child, cut_on=DAY + days(7), collect_on=DAY + days(30))
    assert flags(order, measured_on=order.cut_on - days(28)) == []
    assert flags(order, measured_on=order.cut_on - days(29)) == ["measures old"]


def test_a_collection_after_the_occasion_and_a_cutting_day_that_is_past(hester):
    assert flags(near(hester, collect_on=DAY + days(20), occasion_on=DAY + days(19))) == ["after the occasion"]
    assert "not cut yet" in flags(near(hester, cut_on=DAY - days(1), collect_on=DAY + days(20)))


def test_a_bench_too_full_names_the_day_that_it_can_keep(hester):
    client = make_client()
    for _ in range(3):
        near(hester, client=client, cut_on=DAY + days(10), collect_on=DAY + days(16))
    near(hester, client=client, cut_on=DAY + days(10), collect_on=DAY + days(60))
    rows = todays(DAY, OWNER).in_hand
    # 120 hours at seven a day are 18 open days: from the 12th, without Sundays, to 1 April; collected the day after.
    assert [[concern.flag for concern in row.concerns] for row in rows] == [[], [], ["bench too full"], []]
    assert "the bench has work promised before it" in rows[2].concern.text
    assert "It would be ready on 2\u00a0April" in rows[2].concern.text


def test_an_order_that_is_too_much_by_itself_blames_no_other(hester):
    order = near(hester, cut_on=DAY + days(10), collect_on=DAY + days(16))
    order.garments.update(hours_planned=200)
    (row,) = todays(DAY, OWNER).in_hand
    (concern,) = row.concerns
    assert concern.flag == "bench too full" and "it alone wants 200 hours more" in concern.text


def test_each_has_a_step_and_nobody_is_sent_where_they_may_not_go(hester):
    order = near(hester)
    pupil = Eyes(sees_money=False, signs_off=False, may=lambda capability: capability in ("see_work", "tick_work"))
    asked = Order.objects.get(pk=order.pk)
    assert [(c.step.label, c.step.to) for c in concerns_of(asked, DAY, OWNER)] == [("Book a fitting", "/orders/S-001/fitting/")]
    assert [c.step for c in concerns_of(asked, DAY, pupil)] == [None]


def test_every_step_leads_to_a_page(as_owner, hester):
    today = timezone.localdate()
    order = make_order(hester, booked_on=today - days(40), cut_on=today - days(1), collect_on=today - days(2), occasion_on=today - days(3))
    book_fitting(order=order, at=timezone.now() - days(1), booked_by=hester)
    asked = Order.objects.get()
    known = Known(measured_on=today - days(300), can=today + days(9))
    steps = {concern.step.to for concern in concerns_of(asked, today, OWNER, known)}
    assert len(steps) >= 5
    for address in steps:
        assert as_owner.get(address).status_code == 200, address


def test_the_orders_page_and_today_say_the_reason_and_lead_on(as_owner, hester):
    client = make_client()
    measured(client, hester, on=timezone.localdate() - days(120))
    today = timezone.localdate()
    order = make_order(hester, client, booked_on=today - days(9), cut_on=today + days(5), collect_on=today + days(20), deposit=None)
    for address in ("/", order.get_absolute_url()):
        page = as_owner.get(address).content.decode()
        assert "measures old" in page
        assert "125 days before cutting; they are good for 90. Measure again." in page
        assert f"/clients/{client.pk}/measure/" in page
