"""Stages as a state machine: whatever is pressed in whatever order, no order is stuck and no sign-off is skipped."""

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import HealthCheck, settings
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule, run_state_machine_as_test

from orders.garment.making_draft import make_draft
from orders.models import Garment, Order
from orders.money import payments
from orders.stages import BEFORE_CUTTING, OVER, NotNow, Stage
from orders.work import cutting
from tests.orders.book import fresh, garment_of, measured_order

DAY = date(2026, 3, 12)
WAY = [stage for stage in Stage if stage != Stage.CALLED_OFF]


def machine(owner, pupil, drafted: Order):
    """All steps on one order, which begins asked about, with a draft kept to be pinned again."""
    draft = garment_of(drafted).draft

    class Steps(RuleBasedStateMachine):
        def __init__(self):
            super().__init__()
            drafted.stage, drafted.is_open = Stage.ASKED, True
            Order.objects.filter(pk=drafted.pk).update(
                stage=Stage.ASKED, is_open=True, closed_on=None, why_called_off="", signed_off_by=None, signed_off_at=None,
                was_cut_on=None, price=Decimal(580), collect_on=DAY, version=1,
            )  # fmt: skip
            Garment.objects.filter(order=drafted).update(draft=None, draft_passed=False, cut_draft=None)
            self.before, self.was_signed = Stage.ASKED, False

        @property
        def order(self) -> Order:
            return fresh(drafted)

        def press(self, act) -> None:
            """A step that is refused changes nothing."""
            order = self.order
            self.before, self.was_signed = order.stage, order.is_signed_off
            try:
                act(order)
            except NotNow:
                assert (self.order.stage, self.order.is_signed_off) == (self.before, self.was_signed)

        @rule()
        def book(self):
            self.press(lambda order: order.book(by=owner))

        @rule()
        def draft(self):
            def pin(order):
                if order.is_before_cutting:
                    Garment.objects.filter(order=order).update(draft=draft, draft_passed=True)
                    if order.stage == Stage.BOOKED:
                        order.stage = Stage.MEASURED
                        order.keep("stage", by=owner)

            self.press(pin)

        @rule()
        def owner_signs(self):
            self.press(lambda order: cutting.sign_off(order=order, by=owner))

        @rule()
        def pupil_signs(self):
            self.press(lambda order: cutting.sign_off(order=order, by=pupil))
            assert self.order.is_signed_off == self.was_signed

        @rule()
        def withdraw(self):
            self.press(lambda order: order.withdraw_sign_off(by=owner))

        @rule()
        def cut(self):
            self.press(lambda order: cutting.cut(order=order, by=pupil, today=DAY))

        @rule()
        def sew(self):
            self.press(lambda order: order.finish_sewing(by=owner))

        @rule()
        def hang(self):
            self.press(lambda order: order.hang_ready(by=owner))

        @rule()
        def hand_over(self):
            self.press(lambda order: order.hand_over(by=owner, today=DAY, with_balance_due=True))

        @precondition(lambda self: self.order.stage in (Stage.BOOKED, Stage.READY))
        @rule()
        def call_off(self):
            self.press(lambda order: order.call_off(by=owner, today=DAY, why="moved away"))
            assert self.order.stage == Stage.CALLED_OFF

        @invariant()
        def stages_go_one_step_on_and_never_back(self):
            now = self.order.stage
            if now == self.before or now == Stage.CALLED_OFF:
                return
            skipped = WAY[WAY.index(self.before) + 1 : WAY.index(now)]
            assert WAY.index(now) > WAY.index(self.before)
            assert skipped in ([], [Stage.BOOKED], [Stage.MEASURED])  # drafted before it was booked, or at once

        @invariant()
        def nothing_is_cut_without_the_sign_off(self):
            order = self.order
            if order.stage not in BEFORE_CUTTING and order.stage != Stage.CALLED_OFF:
                assert order.is_signed_off and order.was_cut_on and garment_of(order).cut_draft_id

        @invariant()
        def what_is_over_is_closed_and_nothing_else(self):
            order = self.order
            assert order.is_open == (order.stage not in OVER) == (order.closed_on is None)

        @invariant()
        def there_is_always_a_way_on(self):
            """From wherever it stands, the plain way leads to collected."""
            order = self.order
            if order.stage in OVER:
                return
            from django.db import transaction

            with transaction.atomic():
                go_on(order, owner, pupil, draft)
                assert fresh(order).stage == Stage.COLLECTED
                transaction.set_rollback(True)

    return Steps


def go_on(order: Order, owner, pupil, draft) -> None:
    if order.stage == Stage.ASKED:
        order.book(by=owner)
    if order.is_before_cutting:
        Garment.objects.filter(order=order).update(draft=draft, draft_passed=True)
        order = fresh(order)
        if not order.is_signed_off:
            cutting.sign_off(order=order, by=owner)
        cutting.cut(order=fresh(order), by=pupil, today=DAY)
        order = fresh(order)
    if order.stage == Stage.CUT:
        order.finish_sewing(by=owner)
    if order.stage == Stage.SEWN:
        order.hang_ready(by=owner)
    order.hand_over(by=owner, today=DAY, with_balance_due=True)


@pytest.mark.parametrize("steps", [10])
def test_no_path_leaves_an_order_stuck_or_skips_a_sign_off(hester, pim, steps):
    order = measured_order(hester, booked_on=DAY, collect_on=DAY, cut_on=None)
    make_draft(garment=garment_of(order), by=hester)
    payments.take(order=fresh(order), kind="part", amount=Decimal(100), method="cash", by=hester, taken_on=DAY)
    quick = settings(max_examples=6, stateful_step_count=steps, deadline=None, suppress_health_check=list(HealthCheck))
    run_state_machine_as_test(machine(hester, pim, fresh(order)), settings=quick)
