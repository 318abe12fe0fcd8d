"""Any row of acts with an order's money: balances, instalments, receipts and reversals hold together after each."""

import uuid
from datetime import timedelta
from decimal import Decimal

import pytest
from django.utils import timezone
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.extra.django import TestCase
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from orders.calling_off import call_off, usually_kept
from orders.models import Counter, Order, Payment, Receipt
from orders.money import instalments, payments
from orders.money.payments import Other
from orders.stages import NotNow
from tests.cast import make_person, make_workshop
from tests.orders.book import fresh, make_order
from workshop.models import Workshop

AMOUNTS = st.decimals("0.01", "700", places=2)
RATES = st.decimals("0.01", "3", places=4)


class Till(RuleBasedStateMachine):
    """The book's figures are those of a plain sum kept beside it."""

    @initialize(is_cut=st.booleans())
    def open_the_shop(self, is_cut):
        if not Workshop.objects.exists():
            make_workshop()
        self.owner = make_person(f"hester{uuid.uuid4().hex[:8]}", role="owner")
        self.order = make_order(self.owner, price=Decimal(500), deposit=None)
        if is_cut:
            Order.objects.filter(pk=self.order.pk).update(stage="cut")
        self.price, self.paid, self.live = Decimal(500), Decimal(0), {}
        self.kept, self.receipts, self.today = None, 0, timezone.localdate()

    def pay(self, amount, other=None):
        how = {"order": self.order, "kind": "part", "amount": amount, "method": "cash", "by": self.owner, "taken_on": self.today, "other": other}
        if self.kept is not None or amount <= 0 or self.paid + amount > self.price:
            with pytest.raises(NotNow):
                payments.take(**how)
            return
        self.live[payments.take(**how).pk] = amount
        self.paid += amount
        self.receipts += 1

    @rule(amount=AMOUNTS)
    def take(self, amount):
        self.pay(amount)

    @rule(amount=AMOUNTS, rate=RATES)
    def take_in_dollars(self, amount, rate):
        other = Other("USD", amount, rate)
        self.pay(other.worth(), other)

    @rule(amount=AMOUNTS)
    def give_back(self, amount):
        how = {"order": self.order, "amount": amount, "method": "cash", "by": self.owner, "taken_on": self.today}
        if amount > self.paid:
            with pytest.raises(NotNow):
                payments.give_back(**how)
            return
        self.live[payments.give_back(**how).pk] = -amount
        self.paid -= amount

    @rule(which=st.integers(0, 50))
    def strike(self, which):
        if not self.live:
            return
        pk = sorted(self.live)[which % len(self.live)]
        left = self.paid - self.live[pk]
        how = {"payment": Payment.objects.get(pk=pk), "by": self.owner, "taken_on": self.today, "why": "wrong order"}
        if left < 0 or left > self.price:
            with pytest.raises(NotNow):
                payments.reverse(**how)
            return
        payments.reverse(**how)
        self.paid = left
        del self.live[pk]

    @rule(number=st.integers(1, 5), short=st.sampled_from([Decimal(0), Decimal("0.01")]))
    def agree_instalments(self, number, short):
        parts = instalments.evenly(self.price, number, self.today, self.today + timedelta(days=40))
        parts[0] = (parts[0][0], parts[0][1] - short)
        if short or self.kept is not None:
            with pytest.raises(NotNow):
                instalments.agree(order=self.order, parts=parts, by=self.owner)
        else:
            instalments.agree(order=self.order, parts=parts, by=self.owner)

    @precondition(lambda self: self.kept is None)
    @rule()
    def call_it_off(self):
        order = fresh(self.order)
        usual = usually_kept(order)
        assert usual == (self.paid if order.stage == "cut" else 0)  # nothing back once cut; no deposit was asked for
        back = call_off(order=order, why="moved away", by=self.owner, today=self.today, kept=usual)
        assert back == self.paid - usual
        if back:
            self.live[Payment.objects.order_by("-pk")[0].pk] = -back
        self.paid, self.kept = usual, usual

    @invariant()
    def the_balance_is_the_price_less_the_sum(self):
        order = Order.objects.get(pk=self.order.pk)
        whole = self.price if self.kept is None else self.kept
        assert order.paid == self.paid >= 0
        assert order.balance == whole - self.paid == fresh(self.order).balance

    @invariant()
    def instalments_come_to_the_price_and_what_is_left_of_them_to_the_balance(self):
        order = fresh(self.order)
        plan = instalments.plan_of(order)
        if plan:
            assert sum(part.amount for part in plan) == self.price
            assert sum(part.left for part in plan) == self.price - self.paid

    @invariant()
    def what_is_struck_sums_to_nothing(self):
        for second in Payment.objects.exclude(reverses=None).select_related("reverses"):
            assert second.amount + second.reverses.amount == 0
            assert (second.other_amount or 0) + (second.reverses.other_amount or 0) == 0

    @invariant()
    def receipts_are_numbered_without_a_gap(self):
        mine = Receipt.objects.filter(payment__order=self.order).count()
        serials = list(Receipt.objects.order_by("serial").values_list("serial", flat=True))
        assert mine == self.receipts and serials == list(range(1, len(serials) + 1))
        assert not serials or Counter.objects.get(name="receipt").last == serials[-1]


class TestTill(Till.TestCase, TestCase):
    settings = settings(max_examples=10, stateful_step_count=12)
