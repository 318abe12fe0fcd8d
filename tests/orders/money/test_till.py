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
from orders.money import instalments, payments, several
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
        self.beside = make_order(self.owner, self.order.client, price=Decimal(300), deposit=Decimal(100))  # paid for by the same client
        self.paid_beside, self.sums = Decimal(0), {}

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

    @rule(amount=AMOUNTS, here=AMOUNTS | st.none(), rate=RATES | st.none())
    def one_sum_for_both(self, amount, here, rate):
        """`here` is what of it is for the first order; None where that is left open."""
        other = Other("USD", amount, rate) if rate else None
        whole = other.worth() if other else amount
        shares = {} if here is None else {pk: part for pk, part in ((self.order.pk, min(here, whole)), (self.beside.pk, whole - min(here, whole))) if part}
        how = {"payer": self.order.client, "amount": whole, "shares": shares, "method": "cash", "by": self.owner, "taken_on": self.today, "key": uuid.uuid4(), "other": other}
        room, room_beside = Decimal(0) if self.kept is not None else self.price - self.paid, Decimal(300) - self.paid_beside
        fits = whole <= room + room_beside and shares.get(self.order.pk, 0) <= room and shares.get(self.beside.pk, 0) <= room_beside
        if not fits or whole <= 0:
            with pytest.raises(NotNow):
                several.take(**how)
            return
        try:
            first = several.take(**how)
        except NotNow as refused:
            assert "smallest part of USD" in refused.reason
            return
        parts = {part.order_id: part for part in first.in_one_sum()}
        assert sum(part.amount for part in parts.values()) == whole and (not other or sum(part.other_amount for part in parts.values()) == amount)
        for order, part in parts.items():
            if order == self.order.pk:
                self.live[part.pk] = part.amount
                self.paid += part.amount
            else:
                self.sums[part.pk] = part.amount
                self.paid_beside += part.amount
        self.receipts += 1

    @rule(which=st.integers(0, 50))
    def strike_a_whole_sum(self, which):
        if not self.sums:
            return
        payment = Payment.objects.get(pk=sorted(self.sums)[which % len(self.sums)])
        parts = [part for part in payment.in_one_sum() if not part.is_reversed]
        here, beside = ([part for part in parts if part.order_id == order.pk] for order in (self.order, self.beside))
        how = {"payment": payment, "by": self.owner, "taken_on": self.today, "why": "the transfer came back"}
        if here and self.paid - here[0].amount < 0:
            with pytest.raises(NotNow):
                several.strike(**how)
            return
        several.strike(**how)
        for part in here:
            self.paid -= self.live.pop(part.pk)
        for part in beside:
            self.paid_beside -= self.sums.pop(part.pk)

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
        assert fresh(self.beside).paid == self.paid_beside >= 0

    @invariant()
    def what_is_written_on_an_order_is_what_its_payments_come_to(self):
        assert not Order.objects.paid_otherwise().exists()
        for order in (self.order, self.beside):
            assert fresh(order).paid == sum((payment.amount for payment in order.payments.all()), Decimal(0))

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
        mine = Receipt.objects.filter(payment__order__in=[self.order, self.beside]).count()
        serials = list(Receipt.objects.order_by("serial").values_list("serial", flat=True))
        assert mine == self.receipts and serials == list(range(1, len(serials) + 1))
        assert not serials or Counter.objects.get(name="receipt").last == serials[-1]


class TestTill(Till.TestCase, TestCase):
    settings = settings(max_examples=10, stateful_step_count=12)
