"""“The payment is in the book” is said only of a payment that is in the book."""

import uuid

import pytest
from django.utils import timezone

from orders.models import Payment
from tests.orders.book import days, make_order


def sent(key: str, amount: str) -> dict:
    today = timezone.localdate().isoformat()
    return {"kind": "part", "amount": amount, "method": "cash", "taken_on": today, "key": key}


def test_back_and_another_amount_is_kept_or_refused_but_not_claimed(hester, as_seamstress):
    order, key = make_order(hester), str(uuid.uuid4())
    address = f"/orders/{order.number}/payment/"
    assert as_seamstress.post(address, sent(key, "50")).status_code == 302
    again = as_seamstress.post(address, sent(key, "30"))
    kept = [int(payment.amount) for payment in Payment.objects.all()]
    assert kept == [50] and again.status_code == 422
    assert "This form has entered £50 of" in again.content.decode()
    assert 'value="30"' in again.content.decode()


def test_a_form_of_another_order_is_not_taken_for_paid(hester, as_seamstress):
    one, other, key = make_order(hester), make_order(hester), str(uuid.uuid4())
    as_seamstress.post(f"/orders/{one.number}/payment/", sent(key, "50"))
    answer = as_seamstress.post(f"/orders/{other.number}/payment/", sent(key, "50"))
    assert other.payments.count() == 0 and answer.status_code == 422
    assert f"for {one.number} already" in answer.content.decode()


@pytest.mark.parametrize(
    "changed", [{"kind": "deposit"}, {"method": "card"}, {"taken_on": (timezone.localdate() - days(1)).isoformat()}]
)
def test_back_and_any_other_word_is_not_claimed(hester, as_seamstress, changed):
    order, key = make_order(hester), str(uuid.uuid4())
    address = f"/orders/{order.number}/payment/"
    as_seamstress.post(address, sent(key, "50"))
    assert as_seamstress.post(address, sent(key, "50") | changed).status_code == 422
    assert Payment.objects.count() == 1


def test_money_given_back_is_claimed_only_as_it_was_entered(hester, as_owner):
    order, paid, key = make_order(hester), str(uuid.uuid4()), str(uuid.uuid4())
    as_owner.post(f"/orders/{order.number}/payment/", sent(paid, "50"))
    address = f"/orders/{order.number}/refund/"
    assert as_owner.post(address, sent(paid, "50")).status_code == 422
    assert as_owner.post(address, sent(key, "20")).status_code == 302
    assert as_owner.post(address, sent(key, "30")).status_code == 422
    assert as_owner.post(address, sent(key, "20")).status_code == 302
    assert [int(payment.amount) for payment in Payment.objects.all()] == [50, -20]


def test_no_money_is_taken_for_what_is_called_off_but_it_can_be_given_back(hester, as_owner):
    order = make_order(hester)
    as_owner.post(f"/orders/{order.number}/payment/", sent(str(uuid.uuid4()), "50"))
    order.call_off(by=hester, today=timezone.localdate(), why="moved away")
    refused = as_owner.post(f"/orders/{order.number}/payment/", sent(str(uuid.uuid4()), "10"))
    assert refused.status_code == 422
    assert "is called off. Money for it can only be given back." in refused.content.decode()
    assert as_owner.post(f"/orders/{order.number}/refund/", sent(str(uuid.uuid4()), "50")).status_code == 302


def test_the_same_form_twice_is_one_payment(hester, as_seamstress):
    order, key = make_order(hester), str(uuid.uuid4())
    for _ in range(2):
        assert as_seamstress.post(f"/orders/{order.number}/payment/", sent(key, "50")).status_code == 302
    assert Payment.objects.count() == 1
