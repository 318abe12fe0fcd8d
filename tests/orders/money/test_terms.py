"""The workshop's terms, applied: what is not collected, what stays once cut, what half is; and what done orders cost."""

from decimal import Decimal

import pytest
from django.utils import timezone

from orders.calling_off import usually_kept
from orders.concerns import concerns_of
from orders.in_hand import eyes_of
from orders.models import Order
from orders.money import rules
from orders.money.done import by_kind, done_lately
from orders.money.payments import take
from orders.texts import READY, filled, values_of
from tests.orders.book import days, make_order

pytestmark = pytest.mark.django_db


def hanging(by, late: int) -> Order:
    """An order that hangs ready, promised so many days ago."""
    today = timezone.localdate()
    order = make_order(by, collect_on=today - days(late), booked_on=today - days(200), cut_on=None)
    Order.objects.filter(pk=order.pk).update(stage="ready")
    return Order.objects.with_client().with_work().get(pk=order.pk)


def flags(order, person) -> list:
    return [each for each in concerns_of(order, timezone.localdate(), eyes_of(person)) if each.flag.startswith("not collected")]


@pytest.mark.parametrize(("late", "text"), [(6, None), (7, "first"), (29, "first"), (30, "second"), (89, "second"), (90, "last")])
def test_what_is_not_collected_is_told_by_the_terms_days(hester, late, text):
    found = flags(hanging(hester, late), hester)
    assert [each.step.to.rsplit("-", 1)[1] for each in found] == ([text] if text else [])


def test_the_days_are_a_house_rule_and_money_is_not_told_to_an_apprentice(hester, pim):
    rules.change(uncollected=(3, 5, 8))
    (found,) = flags(hanging(hester, 6), pim)
    assert "£" not in found.text and "cost" not in found.text and found.step is None


def test_the_text_for_it_names_what_keeping_it_costs(hester):
    rules.change(storage=Decimal("4.50"))
    order = hanging(hester, 40)
    text = next(each for each in READY if each.key == "uncollected-second")
    assert "£4.50 a week" in filled(text.text, values_of(order, timezone.localdate()))


def test_nothing_goes_back_once_cut_unless_the_house_says_so(hester):
    order = make_order(hester)
    take(order=order, kind="part", amount=Decimal(400), method="cash", by=hester, taken_on=timezone.localdate())
    order.refresh_from_db()
    assert usually_kept(order) == 240  # the deposit
    order.stage = "cut"
    assert usually_kept(order) == 400
    rules.change(keeps_once_cut=False)
    assert usually_kept(order) == 240


def test_half_is_asked_for_where_no_deposit_is_written(as_owner, hester):
    client = make_order(hester).client
    today = timezone.localdate()
    given = {"kind": "skirt", "collect_on": (today + days(40)).isoformat(), "price": "333.33"}
    as_owner.post(f"/orders/add/{client.pk}/", given)
    as_owner.post(f"/orders/add/{client.pk}/", given | {"deposit": "0"})
    assert list(Order.objects.order_by("serial").values_list("deposit", flat=True)[1:]) == [Decimal("166.67"), 0]


def test_done_orders_are_held_against_the_hours_that_they_took(as_owner, hester, django_assert_max_num_queries):
    rules.change(hourly=Decimal(10))
    for price, hours in ((500, Decimal(30)), (300, None)):
        order = make_order(hester, price=Decimal(price))
        order.garments.update(hours_taken=hours)
        order.cloths.all().delete()
        Order.objects.filter(pk=order.pk).update(stage="collected", is_open=False, closed_on=timezone.localdate())
    second, first = done_lately()
    assert (first.cost, first.left, first.is_noted, first.an_hour) == (300, 200, True, Decimal(500) / 30)
    assert (second.cost, second.left, second.is_noted) == (400, -100, False)  # 40 h, as its kind usually takes
    assert [(row.kind, row.number, row.price, row.cost) for row in by_kind([first, second])] == [("bustier gown", 2, 800, 700)]
    with django_assert_max_num_queries(8):
        assert "£100 lost" in as_owner.get("/money/done/").content.decode()
