"""Days and hours, what the bench answers while a promise is written, closed months, hours learned from done orders."""

from datetime import date, timedelta
from decimal import Decimal

import pytest
from django.urls import reverse
from django.utils import timezone

from orders.dates import keeping_days
from orders.dates.bench import Bench, Closed
from orders.models import Order
from tests.clients.book import make_client
from tests.orders.book import cut_order, fresh, garment_of, make_order
from workshop.models import Workshop


def url(name: str, *args) -> str:
    return reverse(f"orders:{name}", args=args)


def text(answer) -> str:
    return answer.content.decode()


def in_days(number: int) -> date:
    return timezone.localdate() + timedelta(days=number)


WELL = {
    "open": ["0", "1", "2", "3", "4"], "hours": "6,5", "hands": "1.5", "free_days": "2", "lead_weeks": "6", "urgent_percent": "30",
    "hold_days": "10", "kept_share": "50", "hours_skirt": "6",
}  # fmt: skip


def test_the_owner_writes_the_days_and_hours(as_owner):
    answer = as_owner.post(url("days-and-hours"), WELL)
    assert answer.status_code == 302
    bench = Bench.current()
    assert (bench.open_weekdays, bench.hours, bench.hands, bench.free_days) == (frozenset(range(5)), Decimal("6.5"), Decimal("1.5"), 2)
    assert (bench.lead_weeks, bench.urgent_percent, bench.hold_days, bench.kept_share) == (6, 30, 10, 50)
    assert (bench.hours_of("skirt"), bench.hours_of("bodice")) == (6, 14)
    assert 'value="6.5"' in text(as_owner.get(url("days-and-hours")))


@pytest.mark.parametrize("spoiled, said", [
    ({"hours": "six"}, "I can&#x27;t read “six”. Write a number such as 1.5."),
    ({"hours": "17"}, "“17” is outside 0.5 to 16."),
    ({"hands": "0"}, "“0” is outside 0.25 to 12."),
    ({"free_days": "1.5"}, "I can&#x27;t read “1.5”."),
    ({"open": []}, "Open on: choose one."),
    ({"hours_skirt": "-3"}, "I can&#x27;t read “-3”."),
])  # fmt: skip
def test_a_rule_that_cannot_stand_is_shown_again_as_typed(as_owner, spoiled, said):
    answer = as_owner.post(url("days-and-hours"), WELL | spoiled)
    assert answer.status_code == 422
    assert said in text(answer)
    assert Workshop.objects.get().bench == {}


def test_a_holiday_is_added_shown_and_taken_out(as_owner):
    sent = {"name": "Harbour fair", "first": in_days(10).isoformat(), "last": in_days(12).isoformat()}
    as_owner.post(url("close"), sent)
    as_owner.post(url("close"), sent)
    assert Bench.current().closed == (Closed(in_days(10), in_days(12), "Harbour fair"),)
    page = text(as_owner.get(url("days-and-hours")))
    assert page.count("<b>Harbour fair</b>") == 1
    mark = f"{in_days(10).isoformat()} {in_days(12).isoformat()} Harbour fair"
    as_owner.post(url("open-again"), {"closed": mark})
    assert Bench.current().closed == ()


def test_a_holiday_that_ends_before_it_begins_is_shown_again(as_owner):
    answer = as_owner.post(url("close"), {"name": "Fair", "first": in_days(10).isoformat(), "last": in_days(9).isoformat()})
    assert answer.status_code == 422
    assert "That is before the first day." in text(answer)
    assert 'value="Fair"' in text(answer)


@pytest.mark.parametrize("day, is_closed", [
    (date(2026, 12, 24), True), (date(2026, 12, 31), True), (date(2027, 1, 2), True), (date(2027, 1, 4), False), (date(2026, 12, 23), False),
])  # fmt: skip
def test_a_yearly_holiday_over_new_year(day, is_closed):
    bench = Bench(closed=(Closed(date(2020, 12, 24), date(2021, 1, 2), "New Year", yearly=True),))
    assert bench.is_open(day) != is_closed


def test_today_marks_a_holiday_as_closed_and_says_its_name(as_owner):
    keeping_days.close(Closed(in_days(0), in_days(0), "Harbour fair"))
    assert "is-closed is-today" in text(as_owner.get("/"))
    assert "closed: Harbour fair" in text(as_owner.get(url("calendar")))


def test_the_bench_answers_while_an_order_is_written(as_seamstress, hester):
    make_order(hester, collect_on=in_days(12), deposit=None)
    answer = text(as_seamstress.get(url("earliest"), {"kind": "bustier-gown", "collect_on": in_days(11).isoformat()}))
    assert "The bench can keep" in answer
    assert "it pushes" in answer
    assert "S-001" in answer
    assert "Urgent: sooner than 4 weeks." in answer
    later = text(as_seamstress.get(url("earliest"), {"kind": "bustier-gown", "collect_on": in_days(60).isoformat()}))
    assert "it pushes" not in later


def test_without_scripts_the_form_asks_and_keeps_what_was_typed(as_owner):
    client = make_client()
    sent = {"kind": "skirt", "collect_on": in_days(60).isoformat(), "price": "420", "note": "own shoes", "ask": "1"}
    page = text(as_owner.post(url("add", client.pk), sent))
    assert "The bench can keep" in page
    assert 'value="420"' in page and "own shoes" in page
    assert not Order.objects.exists()


def test_moving_an_order_says_whom_it_pushes(as_owner, hester):
    make_order(hester, make_client("Bea Tollard"), collect_on=in_days(8), deposit=None)
    other = make_order(hester, make_client("Wren Achterby"), collect_on=in_days(40), deposit=None)
    answer = text(as_owner.get(url("moves", other.number), {"collect_on": in_days(7).isoformat()}))
    assert "Bea Tollard" in answer and "it pushes" in answer
    assert "it pushes" not in text(as_owner.get(url("moves", other.number), {"collect_on": in_days(35).isoformat()}))


def test_a_full_month_is_promised_only_when_it_is_said_twice(as_owner, as_seamstress):
    day, client = in_days(45), make_client()
    as_owner.post(url("full-month", day.year, day.month), {"full": "yes"})
    sent = {"kind": "skirt", "collect_on": day.isoformat()}
    answer = as_seamstress.post(url("add", client.pk), sent)
    assert answer.status_code == 422
    assert "is full. Choose another month" in text(answer)
    assert 'name="all_the_same"' in text(answer)
    as_seamstress.post(url("add", client.pk), sent | {"all_the_same": "yes"})
    assert Order.objects.get().collect_on == day
    as_owner.post(url("full-month", day.year, day.month), {"full": "no"})
    assert not Bench.current().is_full(day)


def test_an_urgent_fee_is_part_of_the_price_and_said(as_owner):
    as_owner.post(url("add", make_client().pk), {"kind": "skirt", "collect_on": in_days(9).isoformat(), "price": "200", "urgent": "on"})
    order = Order.objects.get()
    assert (order.price, order.urgent_fee) == (250, 50)
    assert "of which £50 for urgent work" in text(as_owner.get(order.get_absolute_url()))


def test_a_fee_above_the_price_is_refused_and_a_share_of_it_worked_out(as_owner, hester):
    order = make_order(hester)
    sent = {"collect_on": in_days(16).isoformat(), "price": "580", "deposit": "240", "urgent_fee": "600", "version": order.version}
    answer = as_owner.post(url("promise", order.number), sent)
    assert answer.status_code == 422
    assert "That is more than the price." in text(answer)
    as_owner.post(url("promise", order.number), sent | {"urgent_fee": "25 %"})
    assert Order.objects.get().urgent_fee == 145  # a quarter of £580
    assert "I can" in text(as_owner.post(url("promise", order.number), sent | {"urgent_fee": "a lot %"}))


def test_hours_are_learned_from_done_orders_as_they_come(as_apprentice, hester):
    for taken in ("30", "31", "50"):
        order = cut_order(hester)
        assert Bench.current().hours_of("bustier-gown") == 40
        as_apprentice.post(url("hours", order.number, garment_of(order).pk), {"planned": "", "taken": taken})
    assert Bench.current().learned == {"bustier-gown": (31, 3)}
    assert Bench.current().hours_of("bustier-gown") == 31
    keeping_days.change(lambda bench: Bench(kind_hours={"bustier-gown": Decimal(36)}, learned=bench.learned))
    assert Bench.current().hours_of("bustier-gown") == 36


def test_hours_that_cannot_be_read_are_said_and_not_kept(as_owner, hester):
    order = make_order(hester)
    page = text(as_owner.post(url("hours", order.number, garment_of(order).pk), {"planned": "a lot"}, follow=True))
    assert "I can&#x27;t read “a lot”." in page
    assert garment_of(fresh(order)).hours_planned is None
