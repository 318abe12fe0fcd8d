"""A cutting day: what speaks against each order, the owner's word all the same, and both on the printed sheet."""

from datetime import timedelta

from django.urls import reverse
from django.utils import timezone

from drafting.sheet_page import sheet_page
from orders.in_hand import eyes_of
from orders.models import Change
from orders.paper.printing import said_beside
from orders.work import cutting_day
from tests.clients.book import make_client
from tests.orders.book import drafted_order, fresh, garment_of, make_order


def page(browser, day) -> str:
    return browser.get(reverse("orders:cutting-day", args=[day.isoformat()])).content.decode()


def all_the_same(browser, order, **sent):
    address = reverse("orders:all-the-same", args=[order.cut_on.isoformat(), order.number])
    return browser.post(address, {"draft": garment_of(order).draft_id} | sent, follow=True)


def printed(order) -> str:
    order, draft = fresh(order), garment_of(order).draft
    extra = said_beside(order, garment_of(order))
    return sheet_page(draft.order_file, draft.result, workshop_name="Salt Lane", draft_number=1, extra=extra).signed_off


def test_the_owner_lets_it_be_cut_all_the_same_with_a_reason_that_is_printed(as_owner, as_apprentice, hester):
    order = drafted_order(hester)
    assert "Don&#x27;t cut before it is in" in page(as_owner, order.cut_on)
    shown = page(as_apprentice, order.cut_on)
    assert "ask first" in shown and "£" not in shown and "Sign off" not in shown
    refused = all_the_same(as_owner, order, why=" … ").content.decode()
    assert "Say in a few words why" in refused and not fresh(order).is_signed_off
    all_the_same(as_owner, order, why="She pays at  the fitting")
    kept = garment_of(order)
    assert kept.is_signed_off and kept.cut_despite.startswith("ask first, ") and kept.why_cut == "She pays at the fitting"
    assert printed(order).endswith(f"all the same. Against it: {kept.cut_despite}. Why: She pays at the fitting")
    assert "She pays at the fitting" in page(as_apprentice, order.cut_on)
    assert Change.objects.filter(order=order, field="why_cut", after="She pays at the fitting").exists()
    kept.withdraw_sign_off(by=hester)
    assert (garment_of(order).cut_despite, garment_of(order).why_cut) == ("", "")


def test_an_order_with_nothing_against_it_is_signed_off_without_a_reason(as_owner, hester):
    order = drafted_order(hester, deposit=None)
    order.cloths.update(on_hand_mm=90_000, on_hand_written="90 m")
    all_the_same(as_owner, order, why="left over from another")
    assert fresh(order).is_signed_off and garment_of(order).why_cut == ""
    assert printed(order).startswith("Signed off for cutting by") and "all the same" not in printed(order)


def test_what_has_no_draft_or_a_newer_one_than_was_looked_at_is_not_let_through(as_owner, hester):
    bare = make_order(hester)
    assert "No draft yet." in page(as_owner, bare.cut_on) and "all the same" not in page(as_owner, bare.cut_on)
    order = drafted_order(hester)
    assert "drafted again after this page" in all_the_same(as_owner, order, why="in a hurry", draft=0).content.decode()
    assert not fresh(order).is_signed_off


def test_orders_are_chosen_for_the_day_and_the_apprentice_may_not_choose(as_owner, as_apprentice, hester):
    today = timezone.localdate()
    soon = make_order(hester, cut_on=today + timedelta(days=5))
    address = reverse("orders:cutting-day", args=[today.isoformat()])
    assert as_apprentice.post(address, {"order": soon.number}).status_code == 403
    assert "Could be cut that day too" in page(as_owner, today)
    assert "No order is ticked." in as_owner.post(address, follow=True).content.decode()
    as_owner.post(address, {"order": soon.number})
    assert fresh(soon).cut_on == today
    assert f'id="cut-{soon.number}"' in page(as_owner, today)


def test_what_could_be_cut_too_stands_as_it_would_on_that_day(as_owner, hester):
    today = timezone.localdate()
    undated, later = make_order(hester, cut_on=None), make_order(hester, make_client("Marit Solheim"), cut_on=today + timedelta(days=13))
    found = cutting_day.cutting_day(today, today, eyes_of(hester))
    assert {row.order: (row.at_the_table.flag, row.order.cut_on) for row in found.offered} == {
        undated: ("deposit not in", None), later: ("deposit not in", later.cut_on),
    }  # fmt: skip
    assert "to be cut" in page(as_owner, today) and (fresh(undated).cut_on, fresh(later).cut_on) == (None, later.cut_on)
