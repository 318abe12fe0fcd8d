"""The Papers page in a real browser."""

import os

import pytest

from tests.paper.drafts import keep

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.mark.parametrize("size", ["phone", "desk", "phone_dark", "desk_dark"])
def test_it_can_be_read_at_every_size_without_scrolling_sideways(request, size, let_in, accessible, hester):
    page = request.getfixturevalue(size)
    draft = keep(hester)
    let_in(page, hester).goto(f"/drafts/{draft.pk}/papers/?opened=on&layer=lining&square=9.9+cm")
    assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")
    accessible(page)
    if os.environ.get("SHOTS"):
        page.screenshot(path=f"{os.environ['SHOTS']}/papers-{size}.png", full_page=True)
    assert page.get_by_role("link", name="Pattern on A4").get_attribute("href").endswith("pattern-a4.pdf?opened=on&layer=lining")
