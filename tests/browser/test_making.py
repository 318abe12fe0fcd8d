"""The order of making and old over new, in a real browser: ticked by thumb, readable, and free of what axe objects to."""

import pytest
from django.utils import timezone

from orders.demo.cast import CLIENTS
from orders.models import Made
from tests.clients.book import measured
from tests.conftest import four_ways, sticks_out
from tests.orders.book import cut_order, garment_of

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


def fine(page, accessible) -> None:
    for way in four_ways(page):
        accessible(page)
        assert sticks_out(page) <= 0, way


def test_a_step_is_ticked_and_taken_back(phone, let_in, accessible, hester, pim):
    page, order = phone, cut_order(hester)
    let_in(page, pim).goto(f"/orders/{order.number}/making/")
    page.get_by_role("button", name="Step 1 is done").click()
    page.get_by_text("1 of ").wait_for()
    assert Made.objects.get().act == "mark"
    page.get_by_role("button", name="Step 1 is not done after all").click()
    page.get_by_text("0 of ").wait_for()
    assert not Made.objects.exists()
    fine(page, accessible)


def test_old_over_new_is_reached_from_the_order_and_can_be_read(phone, let_in, accessible, hester):
    page, order = phone, cut_order(hester)
    taken = {**CLIENTS["ines"].written_before(), "waist": "29 1/4"}
    measured(garment_of(order).order.client, hester, on=timezone.localdate(), **taken)
    let_in(page, hester).goto(order.get_absolute_url())
    page.get_by_role("link", name="Pieces, old over new").click()
    page.get_by_text("The let-out takes it").wait_for()
    assert page.locator(".line-new").count() > 3
    fine(page, accessible)
