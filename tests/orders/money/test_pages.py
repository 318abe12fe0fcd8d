"""The pages on which money is taken, given back and put right."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from orders.models import Payment
from tests.orders.book import fresh, make_order


def url(name: str, *args) -> str:
    return reverse(f"orders:{name}", args=args)


def text(answer) -> str:
    return answer.content.decode()


def in_days(number: int) -> str:
    return (timezone.localdate() + timedelta(days=number)).isoformat()


def test_a_payment_is_taken_and_shown(as_seamstress, hester):
    order = make_order(hester)
    page = text(as_seamstress.get(url("payment", order.number)))
    assert 'value="240"' in page  # the deposit that was asked for
    sent = {"kind": "deposit", "amount": "£240", "method": "card", "taken_on": in_days(0), "key": "0b8f1f5e-7a49-4d39-9d31-2f5d8bfb2f10"}
    as_seamstress.post(url("payment", order.number), sent)
    as_seamstress.post(url("payment", order.number), sent)
    assert Payment.objects.count() == 1
    page = text(as_seamstress.get(url("show", order.number)))
    assert "−£240" in page
    assert "£340" in page


@pytest.mark.parametrize("spoiled, said", [
    ({"amount": "six"}, "I can&#x27;t read “six”"),
    ({"amount": "581"}, "£580 is left to pay, so £581 is too much."),
    ({"amount": ""}, "Amount is empty."),
    ({"amount": "0"}, "An amount is more than nothing."),
    ({"taken_on": in_days(3)}, "That day has not come yet."),
    ({"kind": "refund"}, "choose one"),
])  # fmt: skip
def test_a_payment_that_cannot_stand_is_shown_again(as_owner, hester, spoiled, said):
    order = make_order(hester)
    sent = {"kind": "part", "amount": "50", "method": "cash", "taken_on": in_days(0), "key": "0b8f1f5e-7a49-4d39-9d31-2f5d8bfb2f11"}
    answer = as_owner.post(url("payment", order.number), sent | spoiled)
    assert answer.status_code == 422
    assert said in text(answer)
    assert not Payment.objects.exists()


def test_money_is_given_back_and_a_wrong_entry_struck(as_owner, as_seamstress, hester):
    order = make_order(hester)
    sent = {"kind": "deposit", "amount": "240", "method": "cash", "taken_on": in_days(0), "key": "0b8f1f5e-7a49-4d39-9d31-2f5d8bfb2f12"}
    as_seamstress.post(url("payment", order.number), sent)
    deposit = Payment.objects.get()
    answer = as_seamstress.post(url("reverse", order.number, deposit.pk), {"why": ""})
    assert answer.status_code == 422
    as_seamstress.post(url("reverse", order.number, deposit.pk), {"why": "it was 200"})
    assert fresh(order).paid == 0
    assert "Struck: it was 200" in text(as_owner.get(url("show", order.number)))
    back = {"amount": "5", "method": "cash", "taken_on": in_days(0), "key": "0b8f1f5e-7a49-4d39-9d31-2f5d8bfb2f13"}
    answer = as_owner.post(url("refund", order.number), back)
    assert answer.status_code == 422
    assert "£0 is paid, so £5 can&#x27;t be given back." in text(answer)


def test_a_price_below_what_is_paid_is_refused(as_owner, hester):
    order = make_order(hester)
    Payment.objects.create(order=order, kind="part", amount=300, taken_on=timezone.localdate(), taken_by=hester)
    sent = {"collect_on": in_days(16), "price": "299", "version": order.version}
    answer = as_owner.post(url("promise", order.number), sent)
    assert answer.status_code == 422
    assert "More than that is paid already." in text(answer)
