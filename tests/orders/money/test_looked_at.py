"""Rows that came into the book past the program: their receipts are numbered in order, and the doctor sees what does not add up."""

import pytest
from django.db import connection
from django.utils import timezone

from orders.models import Payment, Receipt
from orders.money import receipts
from orders.money.looked_at import finding
from tests.orders.book import fresh, make_order
from tests.orders.money.test_payments import struck, taken

pytestmark = pytest.mark.django_db


def brought_in(order, by, *amounts) -> list[Payment]:
    given = {"order": order, "kind": "part", "taken_on": timezone.localdate(), "taken_by": by}
    return Payment.objects.bulk_create(Payment(amount=amount, **given) for amount in amounts)


def test_what_is_brought_in_together_is_on_the_orders_and_numbered_in_its_order_after_what_was_there(hester):
    order = make_order(hester)
    struck(taken(order, 10, hester), hester)
    brought_in(order, hester, 20, 30, 40)
    assert fresh(order).paid == 90 and "3 payments have no receipt number yet" in finding()[1]
    assert receipts.number_all() == 3 and receipts.number_all() == 0
    taken(order, 50, hester)
    numbered = Receipt.objects.order_by("serial").values_list("serial", "payment__amount")
    assert list(numbered) == [(1, 10), (2, 20), (3, 30), (4, 40), (5, 50)]
    assert finding() == ("Money", "what is paid is the sum of the payments on every order; every payment has its receipt's number", True)


def test_one_that_is_looked_at_before_has_the_next_number_and_keeps_it(as_owner, hester):
    order = make_order(hester)
    first, second = brought_in(order, hester, 20, 30)
    for _ in range(2):
        assert "Receipt R-00001" in as_owner.get(f"/orders/{order.number}/payment/{second.pk}/receipt/").content.decode()
    receipts.number_all()
    assert [receipts.receipt_of(Payment.objects.get(pk=each.pk)).serial for each in (first, second)] == [2, 1]


def test_the_doctor_names_the_order_on_which_anything_else_is_written(hester):
    order, other = make_order(hester), make_order(hester)
    taken(other, 5, hester)
    with connection.cursor() as cursor:
        cursor.execute("UPDATE orders_order SET paid = 7 WHERE id = %s", [order.pk])
    name, said, is_in_order = finding()
    assert (name, is_in_order) == ("Money", False) and order.number in said and other.number not in said
