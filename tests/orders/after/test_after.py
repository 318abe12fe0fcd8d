"""After collection: a complaint takes the order in again, leftovers go back, a card says how to keep the garment."""

import subprocess
from datetime import timedelta

import pytest
from django.utils import timezone

from orders.after.care_card import care_of
from orders.after.complaints import take_back
from orders.dates.bench import Bench
from orders.dates.promise import quarters_of
from orders.models import Cloth, ClothTest, Complaint, Order
from orders.stages import NotNow, Stage
from tests.orders.book import cut_order, fresh, make_order
from tests.orders.pages import text, url

TODAY = timezone.localdate


def collected(owner) -> Order:
    order = cut_order(owner)
    order.finish_sewing(by=owner)
    order.hang_ready(by=owner)
    order.hand_over(by=owner, today=TODAY(), with_balance_due=True)
    return fresh(order)


def said(**changes) -> dict:
    by = (TODAY() + timedelta(days=6)).isoformat()
    return {"words": "the left strap has come off", "why": "ours", "to_do": "sew it on through the stay", "by_when": by, "minutes": "30", "price": ""} | changes


def test_a_complaint_takes_the_order_in_again_with_its_day_and_its_hours(as_owner, hester):
    order = collected(hester)
    as_owner.post(url("came-back", order.number), said())
    order = fresh(order)
    assert (order.stage, order.is_open, order.closed_on) == (Stage.IN_WORK, True, None)
    assert order.collect_on == TODAY() + timedelta(days=6) and quarters_of(order, Bench()) == (1,)
    page = text(as_owner.get(order.get_absolute_url()))
    assert "the left strap has come off" in page and "our fault" in page and "sew it on through the stay" in page
    assert order.number in text(as_owner.get("/"))
    told = {(change.thing, change.label, change.after) for change in order.changes.all()}
    assert ("complaint", "whose", "our fault") in told and ("", "stage", "in work") in told


def test_it_is_settled_when_it_is_collected_again(as_owner, hester):
    order = collected(hester)
    as_owner.post(url("came-back", order.number), said(why="body", price="40"))
    assert fresh(order).price == 620
    as_owner.post(url("step", order.number, "ready"))
    as_owner.post(url("step", order.number, "collected"), {"with_balance_due": "yes"})
    assert fresh(order).stage == Stage.COLLECTED and Complaint.objects.get().settled_on == TODAY()
    as_owner.post(url("came-back", order.number), said())
    assert Complaint.objects.filter(settled_on=None).count() == 1


def test_only_what_was_collected_comes_back_and_the_owner_sets_what_it_costs(as_seamstress, hester):
    booked = make_order(hester)
    with pytest.raises(NotNow, match="Only what was collected comes back"):
        take_back(order=booked, why="ours", words="x", to_do="y", by_when=TODAY(), by=hester, today=TODAY())
    order = collected(hester)
    assert "What is asked for it" not in text(as_seamstress.get(url("came-back", order.number)))
    as_seamstress.post(url("came-back", order.number), said(price="40"))
    assert fresh(order).price == 580
    refused = as_seamstress.post(url("came-back", order.number), said(words="…", by_when="2020-01-01"))
    assert refused.status_code == 422


def test_leftovers_lie_here_until_they_are_given_back(as_seamstress, hester):
    order = collected(hester)
    as_seamstress.post(url("leftovers", order.number), {"leftovers": "⅝ yd of satin, 3 buttons", "leftovers_on": ""})
    assert "⅝ yd of satin" in text(as_seamstress.get(order.get_absolute_url()))
    as_seamstress.post(url("leftovers", order.number), {"leftovers": "⅝ yd of satin, 3 buttons", "leftovers_on": TODAY().isoformat()})
    assert "given back" in text(as_seamstress.get(order.get_absolute_url()))
    assert {"leftovers", "leftovers given back"} <= {change.label for change in order.changes.all()}


def test_the_card_says_what_the_scraps_told_and_guesses_nothing(as_apprentice, hester):
    order = collected(hester)
    cloth = order.cloths.get(name="outside cloth")
    ClothTest.objects.create(cloth=cloth, heat="cool", steam="dry", bleeds="yes", tested_on=TODAY(), by=hester)
    printed = as_apprentice.get(url("care-card", order.number))
    words = " ".join(subprocess.run(["pdftotext", "-layout", "-", "-"], input=printed.content, capture_output=True, check=True).stdout.decode().split())
    assert "Iron cool without steam." in words and "The colour runs" in words and "It is boned" in words
    assert "Not tested by us" in words  # the lining
    assert care_of(Cloth(name="net", used_for=["skirt"])).lines == ["Not tested by us: try water and iron on a seam allowance inside first."]
