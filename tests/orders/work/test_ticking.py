"""The order of making, ticked step by step."""

import pytest
from django.urls import reverse

from orders.models import Made
from orders.stages import NotNow
from orders.work import ticking
from tests.orders.book import cut_order, drafted_order, garment_of, make_order


def address(order, name: str = "making", *more) -> str:
    return reverse(f"orders:{name}", args=[order.number, *more])


def keys(garment) -> list[str]:
    return [step["key"] for step in garment.sheet_draft.result["making"]]


def test_the_page_lists_every_step_of_the_draft_with_its_figures(as_apprentice, hester):
    order = cut_order(hester)
    page = as_apprentice.get(address(order)).content.decode()
    steps = garment_of(order).sheet_draft.result["making"]
    assert page.count('<li id="step-') == len(steps)
    assert "Cup seams: centre cup to side cup" in page
    assert "0 of" in page and "Lay ready" in page


def test_an_apprentice_ticks_a_step_and_it_is_kept_with_who_and_when(as_apprentice, hester, pim):
    order = cut_order(hester)
    garment = garment_of(order)
    answer = as_apprentice.post(address(order, "tick", garment.pk), {"step": keys(garment)[0], "done": "yes"})
    assert answer.status_code == 302 and answer.url.endswith(f"#step-{garment.pk}-1")
    made = Made.objects.get()
    assert (made.garment, made.act, made.by) == (garment, "mark", pim)
    page = as_apprentice.get(address(order)).content.decode()
    assert "1 of" in page and str(pim) in page


def test_with_scripts_only_the_list_is_answered(as_seamstress, hester):
    order = cut_order(hester)
    garment = garment_of(order)
    answer = as_seamstress.post(address(order, "tick", garment.pk), {"step": "mark", "done": "yes"}, headers={"HX-Request": "true"})
    assert answer.status_code == 200 and b"<html" not in answer.content and b"1 of" in answer.content


def test_two_who_tick_the_same_step_leave_the_first_ones_name(hester, pim):
    garment = garment_of(cut_order(hester))
    ticking.tick(garment=garment, key="mark", by=pim)
    ticking.tick(garment=garment, key="mark", by=hester)
    assert Made.objects.get().by == pim


def test_a_tick_can_be_taken_back(as_apprentice, hester):
    order = cut_order(hester)
    garment = garment_of(order)
    ticking.tick(garment=garment, key="mark", by=hester)
    as_apprentice.post(address(order, "tick", garment.pk), {"step": "mark", "done": "no"})
    assert not Made.objects.exists()


def test_the_first_step_that_is_not_done_is_next(hester):
    order = cut_order(hester)
    garment = garment_of(order)
    ticking.tick(garment=garment, key=keys(garment)[1], by=hester)
    shown = ticking.making_shown(garment, order, hester, "in")
    assert [step.number for step in shown.steps if step.is_next] == [1]


def test_a_step_that_the_draft_has_not_is_refused(as_owner, hester):
    order = cut_order(hester)
    garment = garment_of(order)
    with pytest.raises(NotNow):
        ticking.tick(garment=garment, key="stitch: third sleeve", by=hester)
    answer = as_owner.post(address(order, "tick", garment.pk), {"step": "x"}, follow=True)
    assert "drafted again" in answer.content.decode()


def test_nothing_is_ticked_once_the_order_is_over(hester):
    order = drafted_order(hester)
    order.call_off(by=hester, today=order.booked_on, why="Moved away")
    with pytest.raises(NotNow):
        ticking.tick(garment=garment_of(order), key="mark", by=hester)


def test_before_a_draft_the_page_says_so(as_owner, hester):
    order = make_order(hester)
    assert "No draft yet" in as_owner.get(address(order)).content.decode()


def test_the_list_costs_the_same_however_much_is_ticked(as_apprentice, hester, django_assert_max_num_queries):
    order = cut_order(hester)
    garment = garment_of(order)
    for key in keys(garment):
        ticking.tick(garment=garment, key=key, by=hester)
    with django_assert_max_num_queries(8):
        as_apprentice.get(address(order))
