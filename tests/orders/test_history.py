"""An order's history: who changed what, when, from what to what; and it stands."""

from datetime import date
from decimal import Decimal

import pytest
from django.db import DatabaseError, transaction
from django.utils import timezone

from orders.models import Change
from orders.noting import told
from orders.work import cutting
from tests.orders.book import drafted_order, fresh, garment_of, make_order


def told_of(order) -> list[tuple]:
    return [(c.thing, c.label, c.before, c.after, str(c.by)) for c in order.changes.order_by("pk")]


def test_a_changed_day_and_price_are_told_with_what_they_were(hester, dunya):
    order = make_order(hester, collect_on=date(2026, 3, 28), booked_on=date(2026, 3, 1), cut_on=None)
    order.collect_on, order.price = date(2026, 4, 4), Decimal(600)
    order.keep("collect_on", "price", "note", by=dunya, why="the wedding is later")
    assert told_of(order) == [
        ("", "collection", "28 March 2026", "4 April 2026", "Dunya"),
        ("", "price", "580", "600", "Dunya"),
    ]
    assert order.changes.first().why == "the wedding is later"


def test_what_did_not_change_is_not_told(hester):
    order = make_order(hester)
    order.keep("collect_on", "price", "note", by=hester)
    assert not Change.objects.exists()


def test_a_garments_choices_are_told_one_by_one(hester):
    garment = garment_of(make_order(hester))
    garment.options = garment.options | {"fit": "loose"}
    garment.rules = {"let_out": "1 1/4 in"}
    garment.keep("options", "rules", by=hester)
    assert told_of(garment.order) == [
        (garment.title, "choices: fit", "close", "loose", "Hester"),
        (garment.title, "house rules: let out", "", "1 1/4 in", "Hester"),
    ]


def test_each_stage_is_told_with_who_brought_it_there(hester, pim):
    order = drafted_order(hester)
    cutting.sign_off(order=order, by=hester)
    cutting.cut(order=fresh(order), by=pim, today=date(2026, 3, 13))
    stages = [line for line in told_of(order) if line[1] == "stage"]
    assert stages[-1] == ("", "stage", "measured", "cut", "Pim")


def test_nothing_is_told_of_a_change_that_was_not_saved(hester, dunya):
    order = make_order(hester)
    stale = fresh(order)
    order.keep("note", by=hester)
    stale.price = Decimal(1)
    with pytest.raises(Exception, match="changed meanwhile"):
        stale.keep("price", by=dunya)
    assert not Change.objects.filter(field="price").exists()


def test_history_is_never_rewritten(hester):
    order = make_order(hester)
    order.price = Decimal(600)
    order.keep("price", by=hester)
    with pytest.raises(DatabaseError, match="stands as it was written"), transaction.atomic():
        Change.objects.update(after="1")


@pytest.mark.parametrize("value, said", [(None, ""), (True, "yes"), (Decimal("42.500"), "42.5"), (date(2031, 1, 2), "2 January 2031"), ("a\n b", "a b")])
def test_values_are_told_as_they_are_read(value, said):
    assert told(value) == said


def test_a_sign_off_is_told_with_one_time_not_two(hester):
    order = drafted_order(hester)
    garment = garment_of(order)
    garment.note_sign_off(by=hester, at=timezone.now())
    garment.withdraw_sign_off(by=hester)
    assert [(change.before, change.after) for change in order.changes.filter(label="signed off")] == [("", "taken back"), ("", "yes")]
