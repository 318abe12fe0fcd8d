"""Money: append-only rows, a balance that is always computed, nothing negative in silence."""

import uuid
from decimal import Decimal

import pytest
from django.db import IntegrityError, connection, transaction
from django.utils import timezone

from orders.models import Order, Payment
from orders.money import payments
from orders.stages import NotNow
from tests.orders.book import fresh, make_order


def taken(order, amount, by, kind="part", **more):
    given = {"kind": kind, "amount": Decimal(amount), "method": "cash", "taken_on": timezone.localdate()}
    return payments.take(order=order, by=by, **given | more)


def given_back(order, amount, by):
    return payments.give_back(
        order=order, amount=Decimal(amount), method="cash", by=by, taken_on=timezone.localdate(), why="too wide"
    )


def struck(payment, by, why="wrong order"):
    return payments.reverse(payment=payment, by=by, taken_on=timezone.localdate(), why=why)


def test_the_balance_is_the_price_less_what_was_paid(hester):
    order = make_order(hester)
    taken(order, "240", hester, "deposit")
    taken(order, "99.50", hester)
    assert fresh(order).balance == Decimal("240.50")
    assert Order.objects.get().balance == Decimal("240.50")


def test_more_than_the_balance_is_refused(hester):
    order = make_order(hester)
    with pytest.raises(NotNow, match="£580 is left to pay, so £600 is too much"):
        taken(order, 600, hester)
    taken(order, 580, hester)
    with pytest.raises(NotNow, match="paid in full"):
        taken(order, 1, hester)
    assert Payment.objects.count() == 1


def test_nothing_is_taken_without_a_price_or_of_nothing(hester):
    with pytest.raises(NotNow, match="no price yet"):
        taken(make_order(hester, price=None), 10, hester)
    with pytest.raises(NotNow, match="more than nothing"):
        taken(make_order(hester, Order.objects.get().client), 0, hester)


def test_only_the_owner_gives_money_back_and_no_more_than_was_paid(hester, dunya):
    order = make_order(hester)
    taken(order, 100, dunya)
    with pytest.raises(NotNow, match="Only the owner"):
        given_back(order, 40, dunya)
    with pytest.raises(NotNow, match="£100 is paid, so £140 can't be given back"):
        given_back(order, 140, hester)
    given_back(order, 40, hester)
    assert fresh(order).paid == 60


def test_a_wrong_entry_is_struck_by_a_second_one(hester, dunya):
    order = make_order(hester)
    wrong = taken(order, 100, dunya)
    with pytest.raises(NotNow, match="what was wrong"):
        struck(wrong, dunya, " ")
    second = struck(wrong, dunya)
    assert (second.amount, second.reverses, fresh(order).paid) == (-100, wrong, 0)
    with pytest.raises(NotNow, match="struck already"):
        struck(wrong, dunya)
    with pytest.raises(NotNow, match="can't be struck itself"):
        struck(second, dunya)


def test_a_deposit_that_was_given_back_is_not_struck_as_well(hester):
    order = make_order(hester)
    deposit = taken(order, 100, hester)
    back = given_back(order, 100, hester)
    with pytest.raises(NotNow, match="Strike the refund first"):
        struck(deposit, hester)
    struck(back, hester)
    struck(deposit, hester)
    assert fresh(order).paid == 0


def test_the_same_form_sent_twice_is_one_payment(hester):
    order, key = make_order(hester), uuid.uuid4()
    assert taken(order, 50, hester, key=key) == taken(order, 50, hester, key=key)
    assert fresh(order).paid == 50


def test_a_payment_is_never_changed_nor_deleted(hester):
    payment = taken(make_order(hester), 50, hester)
    for act in (payment.delete, Payment.objects.all().delete, lambda: Payment.objects.update(amount=1)):
        with pytest.raises(TypeError, match="Reverse it"):
            act()
    payment.amount = Decimal(5)
    with pytest.raises(IntegrityError, match="stands as it was written"), transaction.atomic():
        payment.save()
    with pytest.raises(IntegrityError), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute("UPDATE orders_payment SET amount = 1")


@pytest.mark.parametrize("kind, amount", [("deposit", -5), ("part", 0), ("refund", 5), ("balance", -1)])
def test_the_database_itself_refuses_an_amount_of_the_wrong_sign(hester, kind, amount):
    order = make_order(hester)
    with pytest.raises(IntegrityError, match="payment_sign_fits_kind"), transaction.atomic():
        payments.write(order=order, kind=kind, amount=amount, method="cash", by=hester, taken_on=timezone.localdate())
