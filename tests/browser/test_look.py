"""The workshop's own pages in a real Chromium: axe, reflow, targets, keyboard; phone and desk, light and dark."""

import pytest

from tests.cast import PASSWORD
from tests.conftest import DESK, PHONE, four_ways, sticks_out, two_ways

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

OWNERS_PAGES = [
    "/settings/",
    "/settings/people/",
    "/settings/people/add/",
    "/settings/people/{pk}/",
    "/you/",
    "/nothing/",
]

#: Boxes smaller than 44 px that a finger must hit; links in running text are excepted (WCAG 2.2, 2.5.8).
SMALL_TARGETS = """() => [...document.querySelectorAll(
    'button, select, input:not([type=hidden]), .nav a, .btn-main, .btn-plain, .btn-quiet, .choice, .tick')]
  .filter(e => e.checkVisibility() && !e.matches('.choice > input, .tick > input'))
  .filter(e => { const r = e.getBoundingClientRect(); return r.height < 43.5 || r.width < 43.5 })
  .map(e => e.outerHTML.slice(0, 80))"""


@pytest.fixture
def fine(accessible):
    """`fine(page)`: in all four ways axe has nothing to say, every target is large enough and nothing sticks out; nor at 320 px.

    Of a row of pages each with its `turn`, in two.
    """

    def check(page, turn=None):
        for way in four_ways(page) if turn is None else two_ways(page, turn):
            accessible(page)
            assert page.evaluate(SMALL_TARGETS) == [], way
            assert sticks_out(page) <= 0, way
        assert sticks_out(page, 320) <= 0

    return check


def test_sign_in_is_fine_before_and_after_a_wrong_password(desk, hester, fine):
    page = desk
    page.goto("/sign-in/")
    fine(page)
    page.get_by_label("Sign-in name").fill("hester")
    page.get_by_label("Password").fill("wrong, wrong, wrong")
    page.get_by_role("button", name="Sign in").click()
    page.get_by_role("alert").wait_for()
    fine(page)


def test_set_up_is_fine_empty_and_refused(desk, transactional_db, fine):
    page = desk
    page.goto("/set-up/")
    fine(page)
    page.get_by_role("button", name="Set up and begin").click()
    page.get_by_role("alert").wait_for()
    assert page.evaluate("() => document.activeElement.name") == "workshop_name"
    fine(page)


def test_the_owners_pages_are_fine(desk, hester, let_in, fine):
    let_in(desk, hester)
    for turn, address in enumerate(OWNERS_PAGES):
        desk.goto(address.format(pk=hester.pk))
        fine(desk, turn)


def test_a_refused_setting_keeps_what_was_typed_and_takes_the_focus(desk, hester, let_in, fine):
    page = let_in(desk, hester)
    page.goto("/settings/")
    page.get_by_label("Let-out at the side seams").fill("1 1/5")
    page.get_by_role("button", name="Save the settings").click()
    field = page.get_by_label("Let-out at the side seams")
    assert field.input_value() == "1 1/5"
    assert page.evaluate("() => document.activeElement.name") == "rule_let_out"
    described = field.evaluate(
        "e => e.getAttribute('aria-describedby').split(' ').map(i => document.getElementById(i).innerText).join(' ')"
    )
    assert "I can't read “1 1/5”. Use halves, quarters, eighths or sixteenths: 1 1/4." in described
    fine(page)


def test_signing_in_and_out_works_with_the_keyboard_alone(open_page, hester):
    page = open_page(DESK)
    page.goto("/you/")
    page.keyboard.type("hester")
    page.keyboard.press("Tab")
    page.keyboard.type(PASSWORD)
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="Your sign-in").wait_for()
    page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.innerText") == "To the page"
    page.get_by_role("button", name="Sign out").focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/sign-in/")


def test_pages_work_without_scripts(open_page, hester):
    page = open_page(PHONE, java_script_enabled=False)
    page.goto("/settings/")
    page.get_by_label("Sign-in name").fill("Hester")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    page.get_by_label("Hem", exact=True).fill("2 1/2")
    page.get_by_role("button", name="Save the settings").click()
    assert page.get_by_role("status").inner_text().startswith("Settings saved.")


def test_focus_shows_and_is_not_hidden_behind_the_bars(open_page, hester, let_in):
    page = open_page(PHONE)
    let_in(page, hester).goto("/settings/")
    hidden = """() => { const e = document.activeElement, r = e.getBoundingClientRect();
      const bar = document.querySelector('.nav').getBoundingClientRect();
      return e.closest('.nav') ? false : r.top >= bar.top && r.bottom <= bar.bottom }"""
    for _ in range(45):
        page.keyboard.press("Tab")
        assert not page.evaluate(hidden), page.evaluate("() => document.activeElement.outerHTML")
        shown = page.evaluate(
            """() => { const e = document.activeElement, t = e.matches('.choice > input') ? e.nextElementSibling : e;
            return getComputedStyle(t).outlineWidth }"""
        )
        assert shown == "3px"


def test_the_bundled_fonts_load_and_are_the_ones_used(open_page, hester, let_in):
    page = open_page(DESK)
    let_in(page, hester).goto("/settings/")
    loaded = page.evaluate(
        "async () => { await document.fonts.ready; "
        "return [...document.fonts].filter(f => f.status === 'loaded').map(f => f.family + ' ' + f.weight).sort() }"
    )
    assert [name.replace('"', "") for name in loaded] == ["Besley 600", "Noto Sans 400", "Noto Sans 700"]
