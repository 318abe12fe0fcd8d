"""An order's verbs: the way from asked to collected, and every step that is refused with its reason."""

from decimal import Decimal

import pytest
from django.utils import timezone

from orders.garment.making_draft import make_draft
from orders.models import Garment, Order
from orders.money import payments
from orders.stages import NotNow, Stage
from orders.work import cutting
from tests.orders.book import cut_order, drafted_order, fresh, garment_of, make_order, measured_order, signed_order

TODAY = timezone.localdate


def pay(order: Order, amount, by, kind="balance"):
    return payments.take(order=order, kind=kind, amount=Decimal(amount), method="cash", by=by, taken_on=TODAY())


def test_an_order_goes_from_asked_to_collected(hester, dunya, pim):
    order = measured_order(hester, price=None, collect_on=None)
    assert order.stage == Stage.ASKED
    order.price, order.collect_on = Decimal(580), TODAY()
    order.keep("price", "collect_on", by=hester)
    order.book(by=dunya)
    make_draft(garment=garment_of(order), by=dunya)
    order = fresh(order)
    assert order.stage == Stage.MEASURED
    cutting.sign_off(order=order, by=hester)
    cutting.cut(order=order, by=pim, today=TODAY())
    order.finish_sewing(by=dunya)
    order.hang_ready(by=dunya)
    pay(order, 580, dunya)
    order = fresh(order)
    order.hand_over(by=dunya, today=TODAY())
    order = fresh(order)
    assert (order.stage, order.is_open, order.was_cut_on, order.closed_on) == (Stage.COLLECTED, False, TODAY(), TODAY())
    assert (order.balance, garment_of(order).signed_off_by) == (0, hester)


def test_an_enquiry_that_is_drafted_and_then_booked_can_be_signed_off(hester):
    order = measured_order(hester, price=None, collect_on=None)
    make_draft(garment=garment_of(order), by=hester)
    order = fresh(order)
    assert order.stage == Stage.ASKED
    with pytest.raises(NotNow, match="not booked yet"):
        cutting.sign_off(order=order, by=hester)
    order.price, order.collect_on = Decimal(580), TODAY()
    order.keep("price", "collect_on", by=hester)
    order.book(by=hester)
    assert fresh(order).stage == Stage.MEASURED
    cutting.sign_off(order=order, by=hester)
    assert fresh(order).is_signed_off


def test_an_order_that_stands_as_booked_with_a_good_draft_can_be_signed_off(hester):
    """Books from before an enquiry's draft counted hold such orders."""
    order = drafted_order(hester)
    Order.objects.filter(pk=order.pk).update(stage=Stage.BOOKED)
    cutting.sign_off(order=fresh(order), by=hester)
    cutting.cut(order=fresh(order), by=hester, today=TODAY())
    assert fresh(order).stage == Stage.CUT


def test_an_order_without_price_or_day_is_not_booked(hester):
    order = make_order(hester, price=None)
    with pytest.raises(NotNow, match="no price yet"):
        order.book(by=hester)
    order = make_order(hester, order_client(hester), collect_on=None)
    with pytest.raises(NotNow, match="no collection date yet"):
        order.book(by=hester)
    assert fresh(order).stage == Stage.ASKED


def order_client(by):
    return Order.objects.first().client


def test_it_is_not_cut_before_it_is_drafted(hester):
    order = measured_order(hester)
    with pytest.raises(NotNow, match="S-001 is not measured and drafted yet"):
        cutting.cut(order=order, by=hester, today=TODAY())
    with pytest.raises(NotNow, match="not measured and drafted"):
        cutting.sign_off(order=order, by=hester)


def test_it_is_not_cut_without_the_owners_word(hester, dunya):
    order = drafted_order(hester)
    with pytest.raises(NotNow, match="not signed off"):
        cutting.cut(order=order, by=hester, today=TODAY())
    with pytest.raises(NotNow, match="Only the owner"):
        cutting.sign_off(order=order, by=dunya)
    assert fresh(order).stage == Stage.MEASURED
    assert garment_of(order).cut_draft is None


def test_it_is_not_cut_from_a_draft_that_is_not_for_cutting(hester):
    order = signed_order(hester)
    garment = garment_of(order)
    spoiled = type(garment.draft)(
        order_ref=order.number, number=9, made_at=timezone.now(), made_by=hester, digest="0" * 64,
        order_file=garment.draft.order_file,
        result=garment.draft.result | {"checks": [{"check": "cup seam", "pass": False, "figure": 3, "limit": 0.5, "unit": "mm"}]},
    )  # fmt: skip
    spoiled.save(force_insert=True)
    Garment.objects.filter(pk=garment.pk).update(draft=spoiled, draft_passed=False)
    with pytest.raises(NotNow, match="NOT FOR CUTTING"):
        cutting.cut(order=order, by=hester, today=TODAY())
    with pytest.raises(NotNow, match="NOT FOR CUTTING"):
        cutting.sign_off(order=order, by=hester)


def test_it_is_not_cut_from_a_draft_of_other_choices(hester):
    order = signed_order(hester)
    garment = garment_of(order)
    garment.rules = {"let_out": "1 1/4"}
    garment.keep("rules", by=hester)
    with pytest.raises(NotNow, match="choices or house rules changed after the draft"):
        cutting.cut(order=order, by=hester, today=TODAY())


def test_a_redraft_takes_the_sign_off_back(hester):
    order = signed_order(hester)
    garment = garment_of(order)
    garment.options = garment.options | {"skirt.length": "30"}
    garment.keep("options", by=hester)
    make_draft(garment=garment, by=hester)
    assert not fresh(order).is_signed_off


def test_what_was_cut_is_pinned_and_stays(hester):
    order = cut_order(hester)
    garment = garment_of(order)
    assert garment.cut_draft == garment.draft == garment.sheet_draft
    with pytest.raises(NotNow, match="S-001 Bustier gown is cut"):
        make_draft(garment=garment, by=hester)
    with pytest.raises(NotNow, match="S-001 is cut already"):
        cutting.cut(order=order, by=hester, today=TODAY())


@pytest.mark.parametrize("verb, becoming", [("finish_sewing", "sewn"), ("hang_ready", "ready")])
def test_steps_are_not_skipped(hester, verb, becoming):
    order = make_order(hester)
    with pytest.raises(NotNow, match=f"S-001 is booked; only an order that is .+ can be {becoming}"):
        getattr(order, verb)(by=hester)
    with pytest.raises(NotNow, match="only an order that is ready can be collected"):
        order.hand_over(by=hester, today=TODAY())


def test_it_is_not_handed_over_unpaid_unless_the_owner_says_so(hester, dunya):
    order = cut_order(hester)
    order.finish_sewing(by=hester)
    order.hang_ready(by=hester)
    with pytest.raises(NotNow, match="not paid in full. Take the balance"):
        order.hand_over(by=hester, today=TODAY())
    with pytest.raises(NotNow, match="Only the owner"):
        order.hand_over(by=dunya, today=TODAY(), with_balance_due=True)
    order.hand_over(by=hester, today=TODAY(), with_balance_due=True)
    assert (fresh(order).stage, fresh(order).balance) == (Stage.COLLECTED, 580)


def test_calling_off_says_why_and_is_once(hester):
    order = make_order(hester)
    with pytest.raises(NotNow, match="Say in a few words"):
        order.call_off(by=hester, today=TODAY(), why="  ")
    order.call_off(by=hester, today=TODAY(), why="the wedding is off")
    with pytest.raises(NotNow, match="called off already"):
        order.call_off(by=hester, today=TODAY(), why="again")
    assert not fresh(order).is_open


def test_a_refusal_names_no_money(hester):
    """An apprentice presses these buttons too."""
    order = cut_order(hester)
    order.finish_sewing(by=hester)
    order.hang_ready(by=hester)
    with pytest.raises(NotNow) as refused:
        order.hand_over(by=hester, today=TODAY())
    assert not any(character.isdigit() for character in refused.value.reason.replace(order.number, ""))
