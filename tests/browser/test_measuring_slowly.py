"""A phone that is slow to begin, or to store what is read off the tape, in a real browser."""

import pytest
from playwright.sync_api import expect

from clients.models import Measuring
from tests.browser.off_line import in_the_book

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]
#: Once, and before our scripts have heard of anything.
TYPED_AT_ONCE = """
  new MutationObserver((_, watch) => {
    const [bust, high, shoes] = ["#m-bust", "#m-high_bust", "[name=shoes]"].map((each) => document.querySelector(each));
    if (sessionStorage.typed || !bust || !high || !shoes) return;
    [bust.value, high.value, shoes.value, sessionStorage.typed] = ["36 1/2", "34.5", "2 in heels", "yes"];
    watch.disconnect();
  }).observe(document, { childList: true, subtree: true });
"""
#: The phone's store and the newer page answer only when `newerFirst()` lets them, the page first.
SLOW_STORE = """
  let made = null;
  const held = {};
  const until = (name) => new Promise((resolve) => { held[name] = resolve; });
  const [pageMayCome, pageCame, storeMayAnswer] = ["page", "came", "store"].map(until);
  const keepPage = async (...asked) => {
    await pageMayCome;
    const text = await made.keepPage(...asked);
    setTimeout(held.came, 50);
    return text;
  };
  const add = async (...thing) => { await storeMayAnswer; return made.add(...thing); };
  window.newerFirst = async () => {
    document.dispatchEvent(new Event("chalk:ready"));
    held.page();
    await pageCame;
    held.store();
  };
  Object.defineProperty(window, "chalk", { get: () => window.slow, set: (all) => { made = all; window.slow = { ...all, keepPage, add }; } });
"""


@pytest.fixture
def desk_in_the_list(desk, dunya, let_in):
    desk.context.add_init_script("localStorage.setItem('chalk-view', 'list')")
    return let_in(desk, dunya)


def test_what_is_typed_before_the_scripts_are_ready_is_kept(desk_in_the_list, ines):
    page = desk_in_the_list
    page.add_init_script(TYPED_AT_ONCE)
    page.goto(f"/clients/{ines.pk}/measure/")
    expect(page.locator("#m-bust-said")).to_contain_text("in the book")
    page.reload()
    expect(page.locator("[name=shoes]")).to_have_value("2 in heels")
    page.get_by_role("button", name="Keep these measures").click()
    page.wait_for_url(f"**/clients/{ines.pk}/")
    assert in_the_book() == {"bust": "36 1/2", "high_bust": "34.5"}
    assert Measuring.objects.newest_first().first().shoes == "2 in heels"


def test_a_newer_page_that_comes_while_a_reading_is_being_stored_leaves_one_measuring(desk_in_the_list, ines):
    page = desk_in_the_list
    page.add_init_script(SLOW_STORE)
    page.goto(f"/clients/{ines.pk}/measure/")
    page.fill("#m-bust", "36")
    page.press("#m-bust", "Tab")
    page.evaluate("newerFirst()")
    page.fill("#m-waist", "28")
    page.get_by_role("button", name="Keep these measures").click()
    page.wait_for_url(f"**/clients/{ines.pk}/")
    assert in_the_book() == {"bust": "36", "waist": "28"}
    assert Measuring.objects.count() == 2
