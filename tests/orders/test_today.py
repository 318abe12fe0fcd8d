"""Today: what it lists, in what order, and what stands in the way, each with its reason."""

from datetime import timedelta
from decimal import Decimal

import pytest
from django.urls import reverse
from django.utils import timezone

from orders.booking import book_fitting
from orders.concern import Eyes, Known
from orders.concerns import concerns_of
from orders.day import fortnight, todays
from orders.in_hand import rows_of
from orders.models import Order
from orders.stages import Stage
from tests.clients.book import make_client, measured
from tests.orders.book import DAY, days, drafted_order, make_order, signed_order
from workshop.models import Workshop

OWNER = Eyes(sees_money=True, signs_off=True, money=lambda amount: f"£{amount:.0f}")
PUPIL = Eyes(sees_money=False, signs_off=False)


def flags(order, today=DAY, eyes=OWNER, **known) -> list[str]:
    return [concern.flag for concern in concerns_of(Order.objects.get(pk=order.pk), today, eyes, Known(**known))]


def at(day, hour: int):
    return timezone.make_aware(timezone.datetime(day.year, day.month, day.day, hour))


def test_late_orders_come_first_then_the_soonest(hester):
    client = make_client()
    for number, collect in enumerate((9, 2, -1, -4, None), 1):
        promised = collect if collect is None else DAY + days(collect)
        make_order(hester, client, collect_on=promised, cut_on=None, booked_on=DAY - days(30), deposit=None)
    day = todays(DAY, OWNER)
    assert [row.order.number for row in day.in_hand] == ["S-004", "S-003", "S-002", "S-001", "S-005"]
    assert [row.concern.flag if row.concern else "" for row in day.in_hand[:3]] == ["4 days late", "1 day late", "bench too full"]


def test_whoever_sees_no_number_asks_the_owner_to_ring(hester, as_owner, as_apprentice):
    order = make_order(hester, collect_on=DAY - days(4), booked_on=DAY - days(30), cut_on=None)
    Order.objects.filter(pk=order.pk).update(stage=Stage.READY)
    for address in ("/", "/orders/", order.get_absolute_url()):
        assert "Ring about collection" in as_owner.get(address).content.decode()
        pupils = as_apprentice.get(address).content.decode()
        assert "Ask Hester to ring" in pupils
        assert "Ring about collection" not in pupils


def test_25_are_shown_and_the_rest_by_link(hester, as_owner):
    client = make_client()
    for _ in range(27):
        make_order(hester, client, collect_on=timezone.localdate() + days(1))
    page, whole = as_owner.get("/").content.decode(), as_owner.get("/?all=1").content.decode()
    assert [each.count('class="tape-row"') for each in (page, whole)] == [25, 27]
    assert "All 27 open orders" in page
    collected = [each.partition('id="to-collect"')[2].partition("</section>")[0] for each in (page, whole)]
    assert [each.count("row-link") for each in collected] == [25, 27]
    assert "All 27 to collect" in collected[0] and "to collect</a>" not in collected[1]


def test_what_is_to_cut_is_due_today_or_was(hester):
    client = make_client()
    for cut in (-2, 0, 1):
        make_order(hester, client, cut_on=DAY + days(cut), booked_on=DAY - days(30), collect_on=DAY + days(20))
    assert [row.order.number for row in todays(DAY, OWNER).to_cut] == ["S-001", "S-002"]


def test_todays_fittings_stand_by_their_hour(hester):
    order = make_order(hester, booked_on=DAY - days(30), collect_on=DAY + days(20))
    for day, hour in ((DAY, 14), (DAY, 9), (DAY + days(1), 8), (DAY - days(3), 8)):
        book_fitting(order=order, at=at(day, hour), booked_by=hester)
    found = todays(DAY, OWNER).fittings
    assert [(timezone.localtime(row.fitting.at).hour, row.count) for row in found] == [(9, "2nd"), (14, "3rd")]


def test_a_fitting_late_at_night_belongs_to_its_own_day(hester, settings):
    """Midnight is the workshop's, not Greenwich's."""
    with timezone.override("America/New_York"):
        order = make_order(hester, booked_on=DAY - days(9), collect_on=DAY + days(20))
        book_fitting(order=order, at=at(DAY, 23), booked_by=hester)
        assert len(todays(DAY, OWNER).fittings) == 1
        assert len(list(Order.objects.set_for(DAY))) == 1
        assert not list(Order.objects.set_for(DAY + days(1)))


def test_the_fortnight_has_fourteen_days_each_with_its_marks(hester):
    order = make_order(hester, booked_on=DAY - days(9), cut_on=DAY + days(1), collect_on=DAY + days(13))
    book_fitting(order=order, at=at(DAY + days(2), 11), booked_by=hester)
    marks = fortnight(DAY, rows_of(Order.objects.in_hand(), DAY, OWNER))
    assert len(marks) == 14
    assert [mark.said for mark in marks if mark.said not in ("closed", "nothing yet")] == ["1 to cut", "1 fitting", "1 to collect"]
    assert [mark.day.isoformat() for mark in marks if mark.is_closed] == ["2026-03-15", "2026-03-22"]


def test_a_year_end_is_a_day_like_others(hester):
    from datetime import date

    new_years_eve = date(2026, 12, 31)
    make_order(hester, booked_on=new_years_eve - days(9), cut_on=new_years_eve + days(1), collect_on=new_years_eve + days(2))
    marks = fortnight(new_years_eve, rows_of(Order.objects.in_hand(), new_years_eve, OWNER))
    assert [len(mark.to_cut) for mark in marks[:3]] == [0, 1, 0]


@pytest.mark.parametrize("cut, said", [(7, ["deposit not in"]), (8, ["date not held"]), (0, ["deposit not in", "not measured", "cloths not in"])])
def test_a_missing_deposit_is_told_a_week_before_cutting(hester, cut, said):
    order = make_order(hester, booked_on=DAY - days(9), cut_on=DAY + days(cut), collect_on=DAY + days(20))
    assert flags(order) == said


def test_each_concern_says_what_to_do(hester):
    order = drafted_order(hester, booked_on=DAY - days(9), cut_on=DAY, collect_on=DAY + days(20), deposit=None)
    order.cloths.exclude(name="lining").update(on_hand_mm=4000)
    found = concerns_of(Order.objects.get(), DAY, OWNER, Known(newer=DAY - days(1)))
    assert [(concern.flag, concern.text) for concern in found] == [
        ("measures changed", "Measured again on 11\u00a0March. Redraft, or keep the old measures."),
        ("lining not in", "Not on the shelf yet: lining. Cutting is on Thu 12\u00a0Mar."),
        ("sign-off", "Drafted, to be cut Thu 12\u00a0Mar. Look the draft over and sign it off."),
    ]


def test_the_apprentice_is_told_to_ask_and_not_why(hester):
    order = make_order(hester, booked_on=DAY - days(9), cut_on=DAY + days(6), collect_on=DAY + days(20))
    (concern,) = concerns_of(Order.objects.get(pk=order.pk), DAY, PUPIL)
    assert (concern.flag, concern.text) == ("ask first", "Cutting is on Wed 18\u00a0Mar. Ask the owner before you cut.")


def test_newer_measures_are_seen_on_today(as_owner, hester):
    order = drafted_order(hester, deposit=None)
    measured(order.client, hester)
    assert "measures changed" in as_owner.get("/").content.decode()


def test_an_empty_workshop_has_one_sentence_and_one_way_on(as_owner):
    page = as_owner.get("/").content.decode()
    assert "No orders in hand." in page
    assert "Needs you first" not in page
    assert reverse("clients:list") in page


def test_balances_are_shown(as_owner, hester):
    make_order(hester, price=Decimal("580"), collect_on=timezone.localdate() + timedelta(days=1))
    assert "£580" in as_owner.get("/").content.decode()


def test_what_was_drawn_before_is_not_shown_for_another_order_language_or_person(hester, as_owner, as_apprentice):
    today = timezone.localdate()
    order = make_order(hester, price=Decimal("580"), collect_on=today + timedelta(days=40))
    book_fitting(order=order, at=at(today + timedelta(days=3), 9), booked_by=hester)

    def page(browser) -> str:
        return browser.get("/").content.decode()

    before = page(as_owner)
    assert page(as_apprentice).count("£580") == 0 < before.count("£580")
    assert ("2 days late" in before, "9:00 Ines" in before, "lundi" in before, "samedi" in before) == (False, True, False, False)
    Order.objects.filter(pk=order.pk).update(collect_on=today - timedelta(days=2))
    order.fittings.update(at=at(today + timedelta(days=4), 11))
    assert "2 days late" in page(as_owner) and "9:00 Ines" not in page(as_owner) and "11:00 Ines" in page(as_owner)
    Workshop.objects.update(days_in="fr", currency="EUR")
    assert "lundi" in page(as_owner) and "samedi" in page(as_owner) and "£580" not in page(as_owner)


def test_a_day_ahead_shows_only_what_is_set_for_it(as_owner, hester):
    signed_order(hester, cut_on=timezone.localdate() + timedelta(days=3))
    asked = (timezone.localdate() + timedelta(days=3)).isoformat()
    page = as_owner.get(reverse("orders:day", args=[asked])).content.decode()
    assert "1 to cut." in page
    assert reverse("orders:day-sheets", args=[asked]) in page
