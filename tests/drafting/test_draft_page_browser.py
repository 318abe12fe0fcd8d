"""The Draft page in a real browser: lines to touch, one scale, nothing cut off, nothing broken by the policy."""

from datetime import UTC, datetime

import pytest

from drafting.brief import read_brief
from drafting.drawing import draw
from drafting.models import KeptDraft
from tests.conftest import four_ways, sticks_out
from tests.drafting.orders import example

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]
SIDE = '.touch[data-piece="side cup"][data-edge="side"]'


@pytest.fixture
def address(hester) -> str:
    at = datetime(2026, 3, 9, 12, 0, tzinfo=UTC)
    brief = read_brief(example())
    return KeptDraft.keep(order_file=brief.as_order_file(), result=draw(brief), made_by=hester, at=at).get_absolute_url()


def test_touching_a_line_says_its_length_and_marks_its_step(desk, let_in, hester, address):
    let_in(desk, hester).goto(address)
    desk.locator(SIDE).focus()
    said = desk.locator("[data-line-said]").inner_text()
    assert said.startswith("Side of the side cup: ") and " in. Step " in said
    marked = desk.locator("[data-step].is-touched")
    assert marked.count() >= 1
    assert marked.first.get_attribute("data-piece") == "side cup"
    assert desk.locator(".touched-length").text_content() in said


def test_a_second_line_takes_over_from_the_first(desk, let_in, hester, address):
    let_in(desk, hester).goto(address)
    desk.locator(SIDE).focus()
    desk.locator('.touch[data-piece="centre cup"][data-edge="cup seam"]').focus()
    assert desk.locator(".touch.is-touched").count() == 1
    assert desk.locator(".touched-length").count() == 1
    assert desk.locator("[data-line-said]").inner_text().startswith("Cup seam of the centre cup")


def test_lines_are_reached_with_tab_alone(desk, let_in, hester, address):
    let_in(desk, hester).goto(address)
    desk.locator(".draft-table").focus()
    desk.keyboard.press("Tab")
    assert desk.evaluate("document.activeElement.classList.contains('touch')")
    assert desk.locator("[data-line-said] b").count() == 1


def test_pieces_keep_one_scale_on_the_screen(desk, let_in, hester, address):
    let_in(desk, hester).goto(f"{address}?pieces=all")
    scales = desk.evaluate(
        "[...document.querySelectorAll('.piece-drawing')].map(d => d.getBoundingClientRect().width / d.viewBox.baseVal.width)"
    )
    assert len(scales) > 5
    assert max(scales) - min(scales) < 0.01 * min(scales)
    inch = desk.locator(".draft-bar-line").bounding_box()["width"] / 5
    assert inch / 25.4 == pytest.approx(scales[0], rel=0.01)


@pytest.mark.parametrize("query", ["", "?pieces=all"])
def test_anyone_can_use_it_and_nothing_lies_beyond_the_edge_of_the_screen(desk, let_in, hester, address, accessible, query):
    let_in(desk, hester).goto(address + query)
    for way in four_ways(desk):
        accessible(desk)
        assert sticks_out(desk) <= 0, way
    assert sticks_out(desk, 320) <= 0


def test_without_scripts_it_is_complete(open_page, let_in, hester, address):
    page = open_page({"width": 390, "height": 844}, java_script_enabled=False)
    let_in(page, hester).goto(address)
    page.get_by_role("link", name="Skirt", exact=True).click()
    assert page.get_by_role("heading", name="Skirt front", exact=False).count() >= 1
    assert page.locator("[data-step]").count() > 10
    assert page.locator(".touch title").count() > 3
