"""Stages as a state machine: whatever is pressed in whatever order, no order is stuck and no sign-off is skipped."""

from datetime import date
from decimal import Decimal

import pytest
from django.db import transaction
from hypothesis import HealthCheck, settings
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule, run_state_machine_as_test
from hypothesis.strategies import booleans, integers

from orders.after.complaints import take_back
from orders.garment.making_draft import make_draft
from orders.garment.several import add_garment, put_away, take_up
from orders.mending import tickets
from orders.models import Complaint, Garment, Order
from orders.money import payments
from orders.stages import BEFORE_CUTTING, MADE_WAY, OVER, REPAIR_WAY, NotNow, Stage
from orders.work import cutting
from tests.clients.book import make_client
from tests.orders.book import fresh, measured_order

DAY = date(2026, 3, 12)
WAY = list(MADE_WAY)


def machine(owner, pupil, drafted: Order):
    """All steps on one order of two garments, which begins asked about, with drafts kept to be pinned again."""
    drafts = dict(drafted.garments.values_list("pk", "draft_id"))
    gone: set[tuple] = set()

    class Steps(RuleBasedStateMachine):
        def __init__(self):
            super().__init__()
            drafted.stage, drafted.is_open = Stage.ASKED, True
            Order.objects.filter(pk=drafted.pk).update(
                stage=Stage.ASKED, is_open=True, closed_on=None, why_called_off="", was_cut_on=None, price=Decimal(580), collect_on=DAY, version=1,
            )  # fmt: skip
            Garment.everything.filter(order=drafted).update(
                draft=None, draft_passed=False, cut_draft=None, was_cut_on=None, put_away_on=None, version=1, **dict.fromkeys(("signed_off_by", "signed_off_at"))
            )
            Complaint.objects.filter(order=drafted).delete()
            self.before, self.stood = Stage.ASKED, []
            self.looked_at: Order | None = None

        @property
        def order(self) -> Order:
            """As it is kept; read once after each step, for whoever only looks at it."""
            if self.looked_at is None:
                self.looked_at = fresh(drafted)
            return self.looked_at

        def press(self, act) -> None:
            """A step that is refused changes nothing."""
            order, self.looked_at = self.order, None
            self.before, self.stood = order.stage, signed_and_cut(drafted)
            try:
                act(order)
            except NotNow:
                assert (self.order.stage, signed_and_cut(drafted)) == (self.before, self.stood)

        @rule()
        def book(self):
            self.press(lambda order: order.book(by=owner))

        @rule()
        def draft(self):
            def pin(order):
                if order.is_before_cutting:
                    pin_drafts(order, drafts)
                    if order.stage == Stage.BOOKED:
                        order.stage = Stage.MEASURED
                        order.keep("stage", by=owner)

            self.press(pin)

        @rule()
        def owner_signs(self):
            self.press(lambda order: cutting.sign_off(order=order, by=owner))

        @rule(place=integers(0, 1))
        def owner_signs_one(self, place):
            self.press(lambda order: cutting.sign_off(order=order, only=garment(place), by=owner))
            assert signed_and_cut(drafted)[1 - place] == self.stood[1 - place]

        @rule()
        def pupil_signs(self):
            self.press(lambda order: cutting.sign_off(order=order, by=pupil))
            assert signed_and_cut(drafted) == self.stood

        @rule(place=integers(0, 1))
        def one_is_changed(self, place):
            self.press(lambda order: garment(place).withdraw_sign_off(by=owner))
            assert signed_and_cut(drafted)[1 - place] == self.stood[1 - place]

        @rule()
        def cut(self):
            self.press(lambda order: cutting.cut(order=order, by=pupil, today=DAY))

        @rule(place=integers(0, 1))
        def cut_one(self, place):
            self.press(lambda order: cutting.cut(order=order, only=garment(place), by=pupil, today=DAY))

        @rule(place=integers(0, 1))
        def put_one_away(self, place):
            self.press(lambda order: put_away(garment=garment(place), by=owner, today=DAY))

        @rule(place=integers(0, 1))
        def take_one_up(self, place):
            self.press(lambda order: take_up(garment=garment(place), by=owner))

        @rule()
        def sew(self):
            self.press(lambda order: order.finish_sewing(by=owner))

        @rule()
        def hang(self):
            self.press(lambda order: order.hang_ready(by=owner))

        @rule()
        def hand_over(self):
            self.press(lambda order: order.hand_over(by=owner, today=DAY, with_balance_due=True))

        @rule()
        def comes_back(self):
            self.press(lambda order: take_back(order=order, why="ours", words="a seam", to_do="sew it", by_when=DAY, by=owner, today=DAY))

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
            if Stage.IN_WORK in (now, self.before):  # it came back, and hangs ready again
                assert (self.before, now) in ((Stage.COLLECTED, Stage.IN_WORK), (Stage.IN_WORK, Stage.READY))
                return
            skipped = WAY[WAY.index(self.before) + 1 : WAY.index(now)]
            assert WAY.index(now) > WAY.index(self.before)
            assert skipped in ([], [Stage.BOOKED], [Stage.MEASURED])  # drafted before it was booked, or at once

        @invariant()
        def nothing_is_cut_without_its_sign_off(self):
            order = self.order
            assert all(signed for signed, cut in signed_and_cut(drafted) if cut)
            assert all(garment.cut_draft_id == garment.draft_id for garment in Garment.everything.filter(order=drafted) if garment.cut_draft_id)
            if order.stage not in BEFORE_CUTTING and order.stage != Stage.CALLED_OFF:
                assert order.is_signed_off and order.was_cut_on
                assert all(each.cut_draft_id and each.was_cut_on for each in order.garments.all())

        @invariant()
        def an_order_is_cut_with_the_last_of_its_garments(self):
            if self.order.stage in BEFORE_CUTTING:
                assert self.order.garments.filter(cut_draft=None).exists()

        @invariant()
        def what_is_over_is_closed_and_nothing_else(self):
            order = self.order
            assert order.is_open == (order.stage not in OVER) == (order.closed_on is None)

        @invariant()
        def there_is_always_a_way_on(self):
            """From wherever it stands, the plain way leads to collected; gone once from each place, because it depends on nothing else."""
            order = self.order
            stands = standing(order)
            if order.stage in OVER or stands in gone:
                return
            gone.add(stands)
            with transaction.atomic():
                go_on(fresh(drafted), owner, pupil, drafts)
                assert fresh(order).stage == Stage.COLLECTED
                transaction.set_rollback(True)

    def garment(place: int) -> Garment:
        return Garment.everything.select_related("order").filter(order=drafted).order_by("pk")[place]

    return Steps


def standing(order: Order) -> tuple:
    """All that the way on asks about."""
    garments = Garment.everything.filter(order=order).order_by("pk")
    garments = garments.values_list("draft", "draft_passed", "signed_off_by", "cut_draft", "was_cut_on", "put_away_on")
    return (order.stage, order.was_cut_on, order.price, order.paid, order.complaints.filter(settled_on=None).exists(), *garments)


def signed_and_cut(order: Order) -> list[tuple[bool, bool]]:
    """Of each garment, in the order in which they came."""
    garments = Garment.everything.filter(order=order).order_by("pk").values_list("signed_off_by", "cut_draft")
    return [(signed is not None, cut is not None) for signed, cut in garments]


def pin_drafts(order: Order, drafts: dict[int, int]) -> None:
    for garment in order.garments.filter(cut_draft=None):
        Garment.objects.filter(pk=garment.pk).update(draft=drafts[garment.pk], draft_passed=True)


def go_on(order: Order, owner, pupil, drafts: dict[int, int]) -> None:
    if order.stage == Stage.ASKED:
        order.book(by=owner)
    if order.is_before_cutting:
        pin_drafts(order, drafts)
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
    add_garment(order=order, kind="skirt", by=hester)
    for garment in order.garments.select_related("order__client", "measuring"):
        make_draft(garment=garment, by=hester)
    payments.take(order=fresh(order), kind="part", amount=Decimal(100), method="cash", by=hester, taken_on=DAY)
    quick = settings(max_examples=6, stateful_step_count=steps, deadline=None, suppress_health_check=list(HealthCheck))
    run_state_machine_as_test(machine(hester, pim, fresh(order)), settings=quick)


def repair_machine(owner, pupil, ticket: Order):
    """All steps on a ticket of two jobs: one way through its stages, and jobs are done only while it is in work."""

    class Steps(RuleBasedStateMachine):
        def __init__(self):
            super().__init__()
            Order.objects.filter(pk=ticket.pk).update(stage=Stage.BROUGHT_IN, is_open=True, closed_on=None, version=1)
            ticket.mendings.update(done_at=None, done_by=None, version=1)
            self.before = Stage.BROUGHT_IN

        def press(self, act) -> None:
            self.before = fresh(ticket).stage
            try:
                act(fresh(ticket))
            except NotNow:
                assert fresh(ticket).stage == self.before

        @rule(place=integers(0, 1), done=booleans())
        def tick(self, place, done):
            self.press(lambda order: tickets.tick(job=order.mendings.select_related("order").order_by("pk")[place], done=done, by=pupil))

        @rule()
        def begin(self):
            self.press(lambda order: order.begin_work(by=owner))

        @rule()
        def hang(self):
            self.press(lambda order: order.hang_ready(by=owner))

        @rule()
        def hand_over(self):
            self.press(lambda order: order.hand_over(by=owner, today=DAY, with_balance_due=True))

        @rule()
        def what_is_made_new_is_refused(self):
            self.press(lambda order: cutting.sign_off(order=order, by=owner))
            self.press(lambda order: order.finish_sewing(by=owner))
            self.press(lambda order: add_garment(order=order, kind="skirt", by=owner))
            assert not ticket.garments.exists()

        @invariant()
        def stages_go_one_step_on(self):
            now = fresh(ticket).stage
            assert REPAIR_WAY.index(now) - REPAIR_WAY.index(self.before) in (0, 1)

    return Steps


def test_a_repair_goes_its_own_way_and_no_other(hester, pim):
    order = tickets.take_in(client=make_client(), brought_in="Coat", collect_on=DAY, note="", photo=None, by=hester, today=DAY)
    for what in ("hem", "pocket"):
        tickets.add_job(order=order, values={"on_what": "coat", "what": what, "price": Decimal(10), "minutes": 30}, by=hester)
    quick = settings(max_examples=5, stateful_step_count=8, deadline=None, suppress_health_check=list(HealthCheck))
    run_state_machine_as_test(repair_machine(hester, pim, fresh(order)), settings=quick)
