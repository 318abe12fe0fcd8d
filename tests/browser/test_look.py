"""The workshop's own pages in a real Chromium: axe, reflow, targets, keyboard; phone and desk, light and dark."""

import pytest

from tests.cast import PASSWORD

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

SIZES = {"phone": {"width": 390, "height": 844}, "desk": {"width": 1280, "height": 900}}
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
OVERFLOW = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"


@pytest.fixture(
    params=[(size, dark) for size in SIZES for dark in (False, True)],
    ids=lambda p: f"{p[0]}-{'dark' if p[1] else 'light'}",
)
def page(request, open_page):
    size, dark = request.param
    return open_page(SIZES[size], dark=dark)


def test_sign_in_is_accessible_before_and_after_a_wrong_password(page, hester, accessible):
    page.goto("/sign-in/")
    accessible(page)
    page.get_by_label("Sign-in name").fill("hester")
    page.get_by_label("Password").fill("wrong, wrong, wrong")
    page.get_by_role("button", name="Sign in").click()
    page.get_by_role("alert").wait_for()
    accessible(page)
    assert page.evaluate(SMALL_TARGETS) == []


def test_set_up_is_accessible_empty_and_refused(page, transactional_db, accessible):
    page.goto("/set-up/")
    accessible(page)
    page.get_by_role("button", name="Set up and begin").click()
    page.get_by_role("alert").wait_for()
    accessible(page)
    assert page.evaluate("() => document.activeElement.name") == "workshop_name"
    assert page.evaluate(SMALL_TARGETS) == []
    assert page.evaluate(OVERFLOW) <= 0


@pytest.mark.parametrize("address", OWNERS_PAGES)
def test_the_owners_pages_are_accessible_and_fit(page, hester, let_in, accessible, address):
    let_in(page, hester).goto(address.format(pk=hester.pk))
    accessible(page)
    assert page.evaluate(SMALL_TARGETS) == []
    assert page.evaluate(OVERFLOW) <= 0


@pytest.mark.parametrize("address", ["/sign-in/", *OWNERS_PAGES])
def test_pages_reflow_at_320_px(open_page, hester, let_in, address):
    page = open_page({"width": 320, "height": 640})
    if address != "/sign-in/":
        let_in(page, hester)
    page.goto(address.format(pk=hester.pk))
    assert page.evaluate(OVERFLOW) <= 0


def test_a_refused_setting_keeps_what_was_typed_and_takes_the_focus(page, hester, let_in, accessible):
    let_in(page, hester).goto("/settings/")
    page.get_by_label("Let-out at the side seams").fill("1 1/5")
    page.get_by_role("button", name="Save the settings").click()
    field = page.get_by_label("Let-out at the side seams")
    assert field.input_value() == "1 1/5"
    assert page.evaluate("() => document.activeElement.name") == "rule_let_out"
    described = field.evaluate(
        "e => e.getAttribute('aria-describedby').split(' ').map(i => document.getElementById(i).innerText).join(' ')"
    )
    assert "I can't read “1 1/5”. Use halves, quarters, eighths or sixteenths: 1 1/4." in described
    accessible(page)


def test_signing_in_and_out_works_with_the_keyboard_alone(open_page, hester):
    page = open_page(SIZES["desk"])
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
    page = open_page(SIZES["phone"], java_script_enabled=False)
    page.goto("/settings/")
    page.get_by_label("Sign-in name").fill("Hester")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    page.get_by_label("Hem", exact=True).fill("2 1/2")
    page.get_by_role("button", name="Save the settings").click()
    assert page.get_by_role("status").inner_text().startswith("Settings saved.")


def test_focus_shows_and_is_not_hidden_behind_the_bars(open_page, hester, let_in):
    page = open_page(SIZES["phone"])
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
    page = open_page(SIZES["desk"])
    let_in(page, hester).goto("/settings/")
    loaded = page.evaluate(
        "async () => { await document.fonts.ready; "
        "return [...document.fonts].filter(f => f.status === 'loaded').map(f => f.family + ' ' + f.weight).sort() }"
    )
    assert [name.replace('"', "") for name in loaded] == ["Besley 600", "Noto Sans 400", "Noto Sans 700"]
