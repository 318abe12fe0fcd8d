"""A payment in a second currency keeps its amount and its rate; balances are in the workshop's own."""

import csv
from decimal import Decimal
from io import StringIO

import pytest
from django.db import IntegrityError, transaction
from django.utils import timezone

from orders.models import Payment
from orders.money import payments
from orders.money.payments import Other
from orders.money.year_csv import lines
from tests.orders.book import fresh, make_order

pytestmark = pytest.mark.django_db


def test_a_payment_form_in_another_currency_keeps_amount_rate_and_worth(as_seamstress, hester):
    order = make_order(hester)
    address = f"{order.get_absolute_url()}payment/"
    given = {
        "kind": "deposit", "amount": "120.50", "currency": "USD", "rate": "0.7913", "method": "cash",
        "taken_on": timezone.localdate().isoformat(), "key": "3f9a21c0-0000-4000-8000-000000000001",
    }  # fmt: skip
    refused = as_seamstress.post(address, given | {"rate": ""})
    assert refused.status_code == 422 and "Write what 1 USD is worth in GBP today" in refused.content.decode()
    assert as_seamstress.post(address, given).status_code == 302
    payment = Payment.objects.get()
    assert (payment.other_currency, payment.other_amount, payment.rate) == ("USD", Decimal("120.5"), Decimal("0.7913"))
    assert payment.amount == Decimal("95.35")  # 120.50 × 0.7913 = 95.35165
    assert as_seamstress.post(address, given).status_code == 302  # the same form once more
    assert Payment.objects.count() == 1
    assert "$120.50\xa0USD at 0.7913" in as_seamstress.get(order.get_absolute_url()).content.decode()


def test_the_other_currencys_own_smallest_part_is_what_is_read(as_seamstress, hester):
    given = {"kind": "part", "amount": "1200.5", "currency": "JPY", "rate": "0.005", "method": "cash", "taken_on": timezone.localdate().isoformat()}
    given["key"] = "3f9a21c0-0000-4000-8000-000000000002"
    answer = as_seamstress.post(f"{make_order(hester).get_absolute_url()}payment/", given)
    assert answer.status_code == 422 and "no smaller part" in answer.content.decode()


def test_a_refund_in_another_currency_and_a_struck_payment_mirror_what_changed_hands(hester):
    order, today = make_order(hester), timezone.localdate()
    dollars = Other("USD", Decimal(100), Decimal("0.80"))
    payment = payments.take(order=order, kind="part", amount=dollars.worth(), method="cash", by=hester, taken_on=today, other=dollars)
    back = Other("USD", Decimal(50), Decimal("0.90"))
    refund = payments.give_back(order=order, amount=back.worth(), method="cash", by=hester, taken_on=today, other=back)
    assert (refund.amount, refund.other_amount, refund.rate) == (-45, -50, Decimal("0.90"))
    assert fresh(order).paid == 35
    struck = payments.reverse(payment=refund, by=hester, taken_on=today, why="she kept it")
    assert struck.amount + refund.amount == 0 and struck.other_amount + refund.other_amount == 0
    assert payments.reverse(payment=payment, by=hester, taken_on=today, why="wrong order").other_amount == -100
    assert fresh(order).paid == 0
    rows = list(csv.DictReader(StringIO("".join(lines(today.year, "GBP")).removeprefix("\ufeff"))))
    assert [(row["in"], row["out"], row["other currency"], row["other amount"]) for row in rows] == [
        ("80.00", "", "USD", "100"), ("", "45.00", "USD", "50"), ("45.00", "", "USD", "50"), ("", "80.00", "USD", "100"),
    ]  # fmt: skip


def test_half_a_second_currency_is_refused_by_the_database(hester):
    order = make_order(hester)
    with pytest.raises(IntegrityError, match="payment_other_currency_whole"), transaction.atomic():
        payments.write(order=order, kind="part", amount=Decimal(5), method="cash", by=hester, taken_on=timezone.localdate(), other_currency="USD")
