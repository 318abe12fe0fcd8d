"""A phone that is slow to store what is read off the tape, in a real browser."""

import pytest

from clients.models import Measuring
from tests.browser.off_line import in_the_book

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]
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


def test_a_newer_page_that_comes_while_a_reading_is_being_stored_leaves_one_measuring(desk, ines, dunya, let_in):
    desk.add_init_script(SLOW_STORE)
    desk.context.add_init_script("localStorage.setItem('chalk-view', 'list')")
    page = let_in(desk, dunya)
    page.goto(f"/clients/{ines.pk}/measure/")
    page.fill("#m-bust", "36")
    page.press("#m-bust", "Tab")
    page.evaluate("newerFirst()")
    page.fill("#m-waist", "28")
    page.get_by_role("button", name="Keep these measures").click()
    page.wait_for_url(f"**/clients/{ines.pk}/")
    assert in_the_book() == {"bust": "36", "waist": "28"}
    assert Measuring.objects.count() == 2
