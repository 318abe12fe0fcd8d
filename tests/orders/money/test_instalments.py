"""Instalments: parts that come to the price, what is due of them, and where that is told."""

from datetime import date, timedelta
from decimal import Decimal

import pytest
from django.utils import timezone

from orders.concerns import concerns_of
from orders.in_hand import eyes_of
from orders.models import Order
from orders.money import instalments
from orders.money.page import money_shown
from orders.money.payments import take
from orders.stages import NotNow
from tests.orders.book import DAY, days, fresh, make_order

pytestmark = pytest.mark.django_db


def planned(by, *parts, **changes) -> Order:
    order = make_order(by, **{"deposit": None} | changes)
    instalments.agree(order=order, parts=[(day, Decimal(amount)) for day, amount in parts], by=by)
    return Order.objects.with_client().with_work().get(pk=order.pk)


def paid(order, by, amount):
    take(order=order, kind="part", amount=Decimal(amount), method="cash", by=by, taken_on=timezone.localdate())
    return Order.objects.with_client().with_work().get(pk=order.pk)


@pytest.mark.parametrize(
    ("parts", "said"),
    [
        ([(DAY, "300")], "They come to £300, and the price is £580: £280 more makes it even"),
        ([(DAY, "300"), (DAY + days(9), "300")], "£20 less makes it even"),
        ([(DAY, "580"), (DAY + days(1), "0")], "more than nothing"),
        ([(DAY, "290"), (DAY, "290")], "the same day"),
    ],
)
def test_parts_that_do_not_come_to_the_price_are_refused(hester, parts, said):
    with pytest.raises(NotNow, match=said):
        planned(hester, *parts)


def test_what_is_paid_counts_for_the_earliest_part_first(hester):
    order = paid(planned(hester, (DAY + days(30), "280"), (DAY, "300")), hester, "350.50")
    assert [(part.on, part.left) for part in instalments.plan_of(order)] == [(DAY, 0), (DAY + days(30), Decimal("229.50"))]


def test_a_part_whose_day_is_past_is_late_and_one_of_this_week_is_due(hester):
    today = timezone.localdate()
    order = planned(hester, (today - days(2), "200"), (today + days(6), "200"), (today + days(7), "180"))
    assert [part.is_late(today) for part in instalments.due_of(order, today)] == [True, False]
    concern = next(each for each in concerns_of(order, today, eyes_of(hester)) if each.flag == "instalment late")
    assert "£200 was to be paid by" in concern.text and concern.step.to.endswith("/payment/")
    order = paid(order, hester, 200)
    assert "instalment due" in [each.flag for each in concerns_of(order, today, eyes_of(hester))]


def test_who_sees_no_money_is_told_of_no_instalment(hester, pim):
    today = timezone.localdate()
    order = planned(hester, (today - days(2), "580"))
    assert not [each for each in concerns_of(order, today, eyes_of(pim)) if "instalment" in each.flag]


def test_the_page_of_money_counts_what_is_due_of_parts_and_counts_nothing_twice(hester):
    today = timezone.localdate()
    later = planned(hester, (today + days(1), "100"), (today + days(30), "480"), collect_on=today + days(40), cut_on=None)
    planned(hester, (today, "80"), (today + days(2), "500"), collect_on=today + days(2), cut_on=None)  # its whole balance is due
    shown = money_shown(today)
    assert [(part.order.pk, part.amount) for part in shown.instalments] == [(later.pk, 100)]
    assert shown.total_due == 100 + 580


def test_a_price_that_changed_makes_the_parts_wrong_and_the_order_says_so(as_owner, hester):
    order = planned(hester, (timezone.localdate(), "580"))
    order.price = Decimal(600)
    order.keep("price", by=hester)
    assert instalments.is_off(fresh(order))
    assert "no longer come to the price" in as_owner.get(order.get_absolute_url()).content.decode()


def test_parts_that_come_to_less_than_the_deposit_by_the_cutting_are_kept_and_told_of(as_owner, hester):
    today = timezone.localdate()
    order = make_order(hester, price=Decimal(580), deposit=Decimal(180), cut_on=today + days(5))
    address = f"{order.get_absolute_url()}instalments/"
    given = {"on_1": today.isoformat(), "amount_1": "60", "on_2": (today + days(9)).isoformat(), "amount_2": "520"}
    told = as_owner.post(address, given, follow=True).content.decode()
    assert "come to £60, £120 less than the deposit of £180" in told and fresh(order).instalments
    assert "less than the deposit" in as_owner.get(address).content.decode()
    as_owner.post(address, given | {"amount_1": "180", "amount_2": "400"})
    assert instalments.less_than_deposit(fresh(order)) == ""


def test_a_deposit_of_which_nothing_is_in_is_missing_whole(as_owner, hester):
    order = make_order(hester, deposit=Decimal(240), cut_on=timezone.localdate() + days(1))
    assert "£240 is missing. Don’t cut." in as_owner.get(order.get_absolute_url()).content.decode()
    paid(order, hester, 40)
    page = as_owner.get(order.get_absolute_url()).content.decode()
    assert "£200 of its £240 is missing. Don’t cut." in page and "£200 of its £240 is missing. Cutting is" in page


def test_even_parts_run_from_the_first_day_to_the_last_and_lose_nothing(salt_lane):
    parts = instalments.evenly(Decimal("100.00"), 3, date(2026, 3, 1), date(2026, 3, 31))
    assert parts == [(date(2026, 3, 1), Decimal("33.34")), (date(2026, 3, 16), Decimal("33.33")), (date(2026, 3, 31), Decimal("33.33"))]


def test_the_form_fills_like_parts_in_keeps_what_was_typed_and_writes_history(as_seamstress, hester):
    order = make_order(hester, deposit=None)
    address = f"{order.get_absolute_url()}instalments/"
    today = timezone.localdate()
    page = as_seamstress.get(f"{address}?parts=3").content.decode()
    assert page.count('value="193.3') == 3
    given = {"on_1": today.isoformat(), "amount_1": "80.5", "on_2": (today + timedelta(days=9)).isoformat(), "amount_2": "499"}
    refused = as_seamstress.post(address, given)
    assert refused.status_code == 422 and 'value="80.5"' in refused.content.decode() and "£0.50 more makes it even" in refused.content.decode()
    assert as_seamstress.post(address, given | {"amount_2": "499.50"}).status_code == 302
    assert "80.5 on" in order.changes.get(field="instalments").after
    assert as_seamstress.post(address, given | {"amount_2": ""}).status_code == 422
