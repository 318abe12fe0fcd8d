"""The owner's page of money: what is owed, due, held and to give back, and the bookkeeper's file."""

import csv
from datetime import date
from decimal import Decimal
from io import StringIO

import pytest
from django.db import connection
from django.utils import timezone

from orders.models import Order
from orders.money.page import gone_unsettled, money_shown
from orders.money.payments import give_back, reverse, take
from orders.money.year import REPAIRS, SEVERAL, year_shown
from orders.money.year_csv import lines
from tests.clients.book import make_client
from tests.orders.book import days, fresh, garment_of, make_order
from tests.orders.test_queries import MOST, add_orders, asked, many

pytestmark = pytest.mark.django_db


@pytest.fixture
def today() -> date:
    return timezone.localdate()


def paid(order, by, amount, kind="deposit", on=None):
    return take(order=order, by=by, kind=kind, amount=Decimal(amount), method="cash", taken_on=on or timezone.localdate())


def test_what_is_owed_comes_by_collection_day(hester, today):
    later = make_order(hester, make_client("Ines Vale"), collect_on=today + days(30))
    sooner = make_order(hester, make_client("Dunya Marsh"), collect_on=today + days(3))
    paid(later, hester, 240)
    shown = money_shown(today)
    assert [row.order.pk for row in shown.owed] == [sooner.pk, later.pk]
    assert [row.balance for row in shown.owed] == [580, 340]
    assert shown.owed[1].share_paid == "41.38%"  # 240 of 580
    assert shown.total_owed == 920
    assert [row.order.pk for row in shown.due_this_week] == [sooner.pk]


def test_a_deposit_that_is_due_before_cutting_is_not_counted_twice_where_the_whole_balance_is(hester, today):
    make_order(hester, cut_on=today + days(1), collect_on=today + days(4))
    make_order(hester, cut_on=today + days(1), collect_on=today + days(40))
    shown = money_shown(today)
    assert shown.total_due == 580 + 240
    assert shown.total_deposits == 480


def test_what_was_taken_lately_comes_by_its_day_though_it_was_entered_later(hester, today):
    order = make_order(hester)
    for amount, ago in (("30", 0), ("10", 3), ("20", 1)):
        paid(order, hester, amount, on=today - days(ago))
    assert [taken.amount for taken in money_shown(today).lately] == [30, 20, 10]


def test_only_what_is_paid_for_work_not_cut_is_held(hester, today):
    paid(make_order(hester), hester, 240)
    cut = make_order(hester)
    paid(cut, hester, 580, "balance")
    Order.objects.filter(pk=cut.pk).update(stage="cut")
    shown = money_shown(today)
    assert (shown.held, shown.held_orders) == (240, 1)


def test_an_order_that_left_unpaid_stays_owed(hester, today):
    order = make_order(hester)
    paid(order, hester, 240)
    Order.objects.filter(pk=order.pk).update(stage="collected", is_open=False, closed_on=today - days(90))
    (row,) = money_shown(today).owed
    assert (row.order.pk, row.balance, row.is_gone) == (order.pk, 340, True)


def test_an_order_that_left_paid_does_not(hester, today):
    order = make_order(hester)
    paid(order, hester, 580, "balance")
    Order.objects.filter(pk=order.pk).update(stage="collected", is_open=False, closed_on=today)
    shown = money_shown(today)
    assert shown.owed == [] and shown.to_give_back == []


def test_what_a_called_off_order_paid_too_much_is_to_give_back(hester, today):
    order = make_order(hester)
    paid(order, hester, 240)
    Order.objects.filter(pk=order.pk).update(stage="called_off", is_open=False, closed_on=today, kept=100)
    shown = money_shown(today)
    assert shown.owed == []
    assert shown.total_to_give_back == 140
    give_back(order=fresh(order), by=hester, amount=Decimal(140), method="cash", taken_on=today)
    assert money_shown(today).to_give_back == []


def test_a_struck_entry_and_what_strikes_it_are_both_shown(as_owner, hester, today):
    payment = paid(make_order(hester), hester, 75)
    reverse(payment=payment, by=hester, taken_on=today, why="typed 75 for 57")
    page = as_owner.get("/money/").content.decode()
    assert "typed 75 for 57" in page and 'class="struck"' in page and "strikes £75" in page


def test_the_year_adds_up_by_month_and_by_kind(hester):
    gown, skirt = make_order(hester, booked_on=date(2025, 1, 2)), make_order(hester, kind="skirt", booked_on=date(2025, 1, 2))
    paid(gown, hester, "100.10", on=date(2025, 2, 28))
    paid(gown, hester, "200.20", "part", on=date(2025, 3, 1))
    struck = paid(skirt, hester, "50", on=date(2025, 3, 31))
    reverse(payment=struck, by=hester, taken_on=date(2025, 4, 1), why="wrong order")
    paid(skirt, hester, "30", on=date(2026, 1, 1))
    shown = year_shown(2025)
    assert shown.kinds == ["bustier gown", "skirt"]
    sums = {row.name: row.by_kind for row in shown.months}
    assert sums["February"] == [Decimal("100.1"), 0]
    assert sums["March"] == [Decimal("200.2"), 50]
    assert sums["April"] == [0, -50]
    assert shown.total == Decimal("300.3") == sum(shown.totals)


def test_an_order_of_two_kinds_is_not_split(hester):
    order = make_order(hester)
    order.garments.create(kind="skirt", title="Skirt")
    paid(order, hester, 240)
    assert year_shown(timezone.localdate().year).kinds == [SEVERAL]


def test_a_repair_counts_as_one(hester):
    order = make_order(hester)
    Order.objects.filter(pk=order.pk).update(brought_in="Grey coat")
    order.garments.all().delete()
    paid(order, hester, 18, "part")
    assert year_shown(timezone.localdate().year).kinds == [REPAIRS]


def test_the_bookkeepers_file_runs_nothing_and_adds_up(hester, today):
    order = make_order(hester, make_client("=HYPERLINK(\"x\")"))
    paid(order, hester, 240)
    wrong = paid(order, hester, "57.05", "part")
    for start in "+-@":
        wrong_again = paid(order, hester, 1, "part")
        reverse(payment=wrong_again, by=hester, taken_on=today, why=f"{start}1+1")
    reverse(payment=wrong, by=hester, taken_on=today, why="=1+1")
    rows = list(csv.DictReader(StringIO("".join(lines(today.year, "GBP")).removeprefix("\ufeff"))))
    assert len(rows) == 9
    for row in rows:
        assert not any(cell.startswith(("=", "+", "-", "@")) for cell in row.values())
    total = {way: sum(Decimal(row[way] or 0) for row in rows) for way in ("in", "out")}
    assert total["in"] - total["out"] == fresh(order).paid == 240
    assert [row["receipt"] for row in rows[:2]] == ["R-00001", "R-00002"] and rows[-1]["receipt"] == ""
    assert rows[1]["in"] == "57.05" and rows[-1]["out"] == "57.05" and rows[-1]["strikes entry"] == rows[1]["entry"]


@pytest.mark.parametrize("address", ["/money/", "/money/2026/"])
def test_the_pages_ask_as_often_for_200_orders_as_for_10(as_owner, hester, address):
    first = many(hester, 10)
    few = asked(as_owner, address)
    add_orders(first, garment_of(first), 190, hester, timezone.localdate())
    assert asked(as_owner, address) == few <= MOST


def test_a_year_that_is_none_is_not_found(as_owner):
    assert as_owner.get("/money/20260/").status_code == 404


@pytest.mark.skipif(connection.vendor != "sqlite", reason="the plan is SQLite's")
def test_the_few_that_are_not_settled_are_found_by_their_index_and_not_among_all_that_are_over(db):
    assert "order_over_unsettled" in gone_unsettled().explain()
    assert "order_done_lately" in Order.objects.filter(is_open=False, price__isnull=False).order_by("-closed_on", "-serial").explain()
