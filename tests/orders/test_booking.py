"""Taking an order: its number, its garment, its cloths; and the database's own refusals."""

from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from decimal import Decimal

import pytest
from django.db import IntegrityError, connection, transaction
from django.utils import timezone

from drafting.engine.garments import KINDS
from orders.booking import book_fitting, settle_lining
from orders.garment.options import defaults
from orders.models import Cloth, Order
from orders.stages import NotNow, Stage
from orders.versions import ChangedMeanwhile
from tests.clients.book import make_client
from tests.orders.book import fresh, garment_of, make_order
from workshop.models import Person


def test_numbers_run_on(hester):
    client = make_client()
    assert [make_order(hester, client).number for _ in range(3)] == ["S-001", "S-002", "S-003"]


@pytest.mark.django_db(transaction=True)
def test_eight_people_booking_at_once_get_eight_numbers_without_a_gap(hester):
    client = make_client()

    def book(_):
        try:
            return make_order(Person.objects.get(pk=hester.pk), client).serial
        finally:
            connection.close()

    with ThreadPoolExecutor(8) as pool:
        serials = list(pool.map(book, range(8)))
    assert sorted(serials) == list(range(1, 9))


def test_a_booked_order_needs_price_and_collection_else_it_is_asked_about(hester):
    client = make_client()
    assert make_order(hester, client).stage == Stage.BOOKED
    assert make_order(hester, client, price=None).stage == Stage.ASKED
    assert make_order(hester, client, collect_on=None).stage == Stage.ASKED


def test_a_new_garment_has_every_choice_of_its_kind(hester):
    order = make_order(hester)
    garment = garment_of(order)
    assert garment.title == KINDS["bustier-gown"].title
    assert garment.options == defaults(KINDS["bustier-gown"])
    assert set(garment.options) == {option.key for option in KINDS["bustier-gown"].options}


def test_usual_cloths_stand_there_as_not_in(hester):
    cloths = list(make_order(hester).cloths.all())
    assert {use for cloth in cloths for use in cloth.used_for} == {"shell", "lining", "stay", "wadding"}
    assert not any(cloth.is_in for cloth in cloths)


def uses_of(order: Order) -> set[str]:
    return {use for cloth in order.cloths.all() for use in cloth.used_for}


def test_no_garment_waits_for_a_cloth_that_nothing_is_cut_from(hester):
    client = make_client()
    assert uses_of(make_order(hester, client, kind="skirt")) == {"shell"}
    assert uses_of(make_order(hester, client, kind="fitted-dress")) == {"shell", "stay"}
    assert "lining" not in uses_of(make_order(hester, client, options={"lined": "no"}))
    assert uses_of(make_order(hester, client, kind="skirt", options={"lined": "yes"})) == {"shell", "lining"}


def test_the_lining_comes_and_goes_with_the_choice_and_one_that_is_in_stays(hester):
    order = make_order(hester, kind="skirt")
    garment = garment_of(order)
    for lined, on_hand, expected in (("yes", None, True), ("no", None, False), ("yes", 900, True), ("no", 900, True)):
        garment.options = garment.options | {"lined": lined}
        garment.keep("options", by=hester)
        order.cloths.filter(name="lining").update(on_hand_mm=on_hand)
        settle_lining(garment_of(order), hester)
        assert ("lining" in uses_of(fresh(order))) is expected, lined


def test_a_fitting_is_not_booked_for_an_order_that_is_over(hester):
    order = make_order(hester)
    order.call_off(by=hester, today=timezone.localdate(), why="moved away")
    with pytest.raises(NotNow, match="called off"):
        book_fitting(order=order, at=timezone.now(), booked_by=hester)


def test_a_fitting_is_done_once_and_not_before_its_day(hester):
    order, today = make_order(hester), timezone.localdate()
    early = book_fitting(order=order, at=timezone.now() + timedelta(days=2), booked_by=hester)
    with pytest.raises(NotNow, match="has not come yet"):
        early.mark_done(by=hester, today=today)
    fitting = book_fitting(order=order, at=timezone.now(), booked_by=hester)
    fitting.mark_done(by=hester, today=today, note="let out ¼")
    with pytest.raises(NotNow, match="done already"):
        fitting.mark_done(by=hester, today=today)


SPOILED = [
    ({"price": Decimal(-1)}, "order_price_not_negative"),
    ({"deposit": Decimal(-1)}, "order_deposit_not_negative"),
    ({"deposit": Decimal(581)}, "order_deposit_within_price"),
    ({"is_open": False}, "order_open_unless_over"),
    ({"stage": "collected"}, "order_open_unless_over"),
    ({"stage": "lost"}, "order_stage_known|order_open_unless_over"),
]


@pytest.mark.parametrize("values, constraint", SPOILED)
def test_the_database_refuses_what_no_order_can_be(hester, values, constraint):
    order = make_order(hester)
    with pytest.raises(IntegrityError, match=constraint), transaction.atomic():
        Order.objects.filter(pk=order.pk).update(**values)


@pytest.mark.parametrize("values", [{"width_mm": 0}, {"on_hand_mm": -1}, {"shrink_percent": 31}, {"price": -1}])
def test_the_database_refuses_what_no_cloth_can_be(hester, values):
    make_order(hester)
    with pytest.raises(IntegrityError, match="cloth_"), transaction.atomic():
        Cloth.objects.update(**values)


def test_who_saves_second_is_told(hester, dunya):
    order = make_order(hester)
    mine, theirs = fresh(order), fresh(order)
    theirs.note = "hers"
    theirs.keep("note", by=dunya)
    mine.note = "mine"
    with pytest.raises(ChangedMeanwhile):
        mine.keep("note", by=hester)
    assert (fresh(order).note, fresh(order).changed_by) == ("hers", dunya)


def test_open_orders_are_found_by_the_partial_index(hester):
    """SQLite uses it only for a bare boolean (measured on 50,000 orders: 58 ms without, 0.1 ms with)."""
    make_order(hester)
    plan = Order.objects.in_hand().order_by("collect_on", "serial").explain()
    assert "order_open_by_collection" in plan
    assert "order_open_by_cutting" in Order.objects.to_cut(timezone.localdate()).order_by().explain()
