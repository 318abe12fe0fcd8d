"""The Papers page in a real browser."""

import os

import pytest

from tests.conftest import four_ways, sticks_out
from tests.paper.drafts import keep

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


def test_it_can_be_read_at_every_size_without_scrolling_sideways(desk, let_in, accessible, hester):
    page, draft = desk, keep(hester)
    let_in(page, hester).goto(f"/drafts/{draft.pk}/papers/?opened=on&layer=lining&square=9.9+cm")
    for way in four_ways(page):
        assert sticks_out(page) <= 0, way
        accessible(page)
        if os.environ.get("SHOTS"):
            page.screenshot(path=f"{os.environ['SHOTS']}/papers-{way}.png", full_page=True)
    assert page.get_by_role("link", name="Pattern on A4").get_attribute("href").endswith("pattern-a4.pdf?opened=on&layer=lining")
