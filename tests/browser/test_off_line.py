"""Measuring with the network cut, in a real Chromium: no reading is lost, and none is in the book twice.

Each test states how many readings were taken and how many stand in the book.
"""

import os
import re
import signal
import subprocess
import time
from datetime import timedelta
from urllib.parse import urlsplit

import pytest
from django.contrib.sessions.models import Session
from django.utils import timezone
from playwright.sync_api import expect

from clients.measures import MEASURES
from clients.models import Client, Measuring, Reading, Sent
from tests.browser.wire import Wire
from tests.cast import PASSWORD, make_person
from tests.clients.book import AGREEING, make_client, measured
from tests.conftest import PHONE
from workshop import machine

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

SHORT = re.compile(r"(\d+)(?: (\d+)/(\d+))?")
EIGHTHS = {"1/8": "⅛", "1/4": "¼", "3/8": "⅜", "1/2": "½", "5/8": "⅝", "3/4": "¾", "7/8": "⅞"}


@pytest.fixture
def ines(dunya):
    ines = make_client()
    measured(ines, dunya, timezone.localdate() - timedelta(days=10))
    return ines


@pytest.fixture
def wire(live_server):
    wire = Wire((urlsplit(live_server.url).hostname, urlsplit(live_server.url).port))
    yield wire
    wire.close()


@pytest.fixture
def card(open_page, ines, dunya, let_in):
    """Ines's card on a phone, kept by it and ready to go on without a network."""
    page = open_page(PHONE, has_touch=True, is_mobile=True)
    let_in(page, dunya).goto(f"/clients/{ines.pk}/measure/")
    at_hand(page)
    return page


def at_hand(page) -> None:
    """Wait until the phone answers for us and has kept the page that it shows."""
    page.evaluate("""async () => {
      await navigator.serviceWorker.ready;
      for (let n = 0; n < 100; n += 1) {
        const name = (await caches.keys()).find((each) => each.startsWith('pages-'));
        if (name && (await (await caches.open(name)).match(location.pathname)) && sessionStorage.getItem('chalk-ahead')) return;
        await new Promise((resolve) => setTimeout(resolve, 50));
      }
      throw new Error('the phone did not keep the page');
    }""")


def tap(page, text: str) -> None:
    whole, fraction = (text.split(" ") + [""])[:2]
    for digit in whole:
        page.tap(f"[data-digit='{digit}']")
    if fraction:
        page.tap(f"[data-part='{EIGHTHS[fraction]}']")
    page.tap("[data-next]")


def tray(page):
    return page.locator("[data-one] [data-tray]")


def in_the_book() -> dict[str, str]:
    """The newest measures, as written."""
    return {key: reading.written for key, reading in Measuring.objects.newest_first().with_readings().first().current().items()}


def new_readings() -> int:
    """Readings of today: those of ten days ago are not counted."""
    return Reading.objects.filter(measuring__taken_on=timezone.localdate()).count()


def test_readings_taken_off_line_outlast_a_reload_and_are_sent_once(card, dunya):
    card.context.set_offline(True)
    for text in ("36 1/2", "34 1/2", "31"):
        tap(card, text)
    expect(tray(card)).to_contain_text("3 waiting to send")
    card.reload()
    expect(tray(card)).to_contain_text("3 waiting to send")
    expect(card.locator("[data-one-name]")).to_have_text("Waist")
    card.tap("[data-back]")
    expect(card.locator("[data-one-value]")).to_have_value("31")
    assert new_readings() == 0
    card.context.set_offline(False)
    expect(tray(card)).to_have_text("All sent", timeout=8000)
    assert new_readings() == 3
    assert in_the_book() == {"bust": "36½", "high_bust": "34½", "under_bust": "31"}
    assert Measuring.objects.count() == 2


def test_what_was_being_typed_is_there_after_a_reload(card):
    card.tap("[data-digit='3']")
    card.tap("[data-digit='6']")
    card.context.set_offline(True)
    card.reload()
    expect(card.locator("[data-one-value]")).to_have_value("36")


def test_a_lost_reply_writes_nothing_twice(open_page, ines, dunya, let_in, wire):
    page = open_page(PHONE, has_touch=True, is_mobile=True)
    let_in(page, dunya).goto(f"{wire.url}/clients/{ines.pk}/measure/")
    at_hand(page)
    wire.replies_to_lose = 2
    for text in ("36 1/2", "34 1/2"):
        tap(page, text)
    expect(tray(page)).to_have_text("All sent", timeout=15000)
    assert wire.replies_to_lose == 0
    assert wire.posts == 4
    assert new_readings() == 2 == Sent.objects.count()
    assert Measuring.objects.count() == 2


def test_a_server_that_is_down_loses_nothing(open_page, ines, dunya, let_in, wire):
    page = open_page(PHONE, has_touch=True, is_mobile=True)
    let_in(page, dunya).goto(f"{wire.url}/clients/{ines.pk}/measure/")
    at_hand(page)
    wire.down = True
    for text in ("36 1/2", "34 1/2", "31", "28"):
        tap(page, text)
    page.wait_for_timeout(7000)
    expect(tray(page)).to_contain_text("4 waiting to send")
    assert new_readings() == 0
    wire.down = False
    expect(tray(page)).to_have_text("All sent", timeout=8000)
    assert new_readings() == 4


def test_two_tabs_send_each_reading_once(card, ines):
    card.context.set_offline(True)
    for text in ("36 1/2", "34 1/2", "31"):
        tap(card, text)
    other = card.context.new_page()
    other.goto(f"/clients/{ines.pk}/measure/")
    expect(tray(other)).to_contain_text("3 waiting to send")
    tap(other, "28")
    expect(tray(card)).to_contain_text("4 waiting to send")
    card.context.set_offline(False)
    for page in (card, other):
        expect(tray(page)).to_have_text("All sent", timeout=8000)
    assert new_readings() == 4 == Sent.objects.count()
    assert in_the_book() == {"bust": "36½", "high_bust": "34½", "under_bust": "31", "waist": "28"}


def test_a_session_that_ends_off_line_costs_a_sign_in_and_nothing_else(card, dunya, ines):
    card.context.set_offline(True)
    for text in ("36 1/2", "34 1/2"):
        tap(card, text)
    Session.objects.all().delete()
    card.context.set_offline(False)
    expect(tray(card)).to_contain_text("Sign in to send 2", timeout=8000)
    assert new_readings() == 0
    tray(card).get_by_role("button").tap()
    card.get_by_role("link", name="Sign in").tap()
    card.get_by_label("Sign-in name").fill("dunya")
    card.get_by_label("Password").fill(PASSWORD)
    card.get_by_role("button", name="Sign in").tap()
    card.wait_for_url(f"**/clients/{ines.pk}/measure/")
    expect(tray(card)).to_have_text("All sent", timeout=8000)
    assert new_readings() == 2


def test_nobody_else_sends_what_one_person_measured(card, hester, dunya, let_in, ines):
    card.context.set_offline(True)
    tap(card, "36 1/2")
    card.context.set_offline(False)
    card.route("**/take/", lambda route: route.abort())
    let_in(card, hester)
    expect(tray(card)).to_contain_text("Sign in to send 1", timeout=8000)
    card.unroute("**/take/")
    card.goto("/clients/")
    card.wait_for_timeout(1500)
    assert new_readings() == 0
    let_in(card, dunya)
    card.goto("/clients/")
    expect(card.locator("body > .tray")).to_be_hidden()
    for _ in range(50):
        if new_readings():
            break
        card.wait_for_timeout(100)
    assert new_readings() == 1
    assert Reading.objects.order_by("-pk").first().written_by == dunya


def test_a_refused_reading_is_shown_and_stays_until_somebody_decides(open_page, let_in, dunya):
    gone = make_client("Marit Solheim")
    page = open_page(PHONE, has_touch=True, is_mobile=True)
    let_in(page, dunya).goto(f"/clients/{gone.pk}/measure/")
    at_hand(page)
    page.context.set_offline(True)
    tap(page, "36 1/2")
    Client.objects.filter(pk=gone.pk).delete()
    page.context.set_offline(False)
    expect(tray(page)).to_have_text("1 needs you", timeout=8000)
    page.goto("/clients/")
    page.locator("body > .tray").get_by_role("button").tap()
    box = page.get_by_role("dialog")
    expect(box).to_contain_text("Marit Solheim: bust 36½")
    expect(box).to_contain_text("This client is no longer in the book.")
    box.get_by_role("button", name="Leave it out").tap()
    box.get_by_role("button", name="Leave it out for good").tap()
    expect(page.locator("body > .tray")).to_be_hidden()


def test_signing_out_with_something_unsent_warns_and_keeps_it(card, dunya):
    card.context.set_offline(True)
    tap(card, "36 1/2")
    card.tap("[data-one-list]")
    card.get_by_role("button", name="Sign out").tap()
    expect(card.get_by_role("dialog")).to_contain_text("One thing is not in the book yet.")
    card.get_by_role("button", name="Stay, and send").tap()
    expect(card.get_by_role("dialog")).to_be_hidden()
    card.get_by_role("button", name="Sign out").tap()
    card.context.set_offline(False)
    card.route("**/take/", lambda route: route.abort())
    card.get_by_role("button", name="Sign out all the same").tap()
    card.wait_for_url("**/sign-in/")
    assert kept_pages(card) == 0
    card.unroute("**/take/")
    card.get_by_label("Sign-in name").fill("dunya")
    card.get_by_label("Password").fill(PASSWORD)
    card.get_by_role("button", name="Sign in").tap()
    for _ in range(50):
        if new_readings():
            break
        card.wait_for_timeout(100)
    assert new_readings() == 1


def kept_pages(page) -> int:
    return page.evaluate("async () => (await caches.keys()).filter((name) => name.startsWith('pages-')).length")


def test_signing_out_wipes_what_was_kept_to_read(card):
    assert kept_pages(card) == 1
    tap(card, "36 1/2")
    expect(tray(card)).to_be_visible()  # it shows once something was taken, and says so when that is in the book
    expect(tray(card)).to_have_text("All sent")
    card.tap("[data-one-list]")
    card.get_by_role("button", name="Sign out").tap()
    card.wait_for_url("**/sign-in/")
    assert kept_pages(card) == 0
    left = card.evaluate("""() => new Promise((resolve) => { indexedDB.open('chalk', 1).onsuccess = ({ target }) => {
      const store = target.result.transaction('cards').objectStore('cards').count(); store.onsuccess = () => resolve(store.result); } })""")
    assert left == 0


def test_pages_seen_today_open_without_a_network_and_others_say_what_is_at_hand(card, ines):
    card.goto("/clients/")
    card.goto(f"/clients/{ines.pk}/")
    at_hand(card)
    card.context.set_offline(True)
    card.goto("/clients/")
    expect(card.get_by_role("link", name="Ines Varga")).to_be_visible()
    card.goto(f"/clients/{ines.pk}/")
    expect(card.get_by_role("heading", name="Measures", exact=True)).to_be_visible()
    card.goto("/clients/add/")
    expect(card.get_by_role("heading", name="No network")).to_be_visible()
    card.get_by_role("link", name="Ines Varga").tap()
    expect(card.locator("[data-one-name]")).to_have_text("Bust")


def test_the_clients_page_shows_what_was_sent_from_it(card, ines):
    """Taken without a network, sent while her page is open: the page then has the figures."""
    card.goto(f"/clients/{ines.pk}/")
    card.goto(f"/clients/{ines.pk}/measure/")
    at_hand(card)
    expect(tray(card)).to_be_hidden()  # nothing was typed: there is nothing to say of sending
    card.context.set_offline(True)
    tap(card, "36 1/2")
    expect(tray(card)).to_contain_text("1 waiting to send")
    card.goto(f"/clients/{ines.pk}/")
    expect(card.locator("[data-shows-book]")).not_to_contain_text("36½")
    card.context.set_offline(False)
    expect(card.locator("[data-shows-book]")).to_contain_text("36½", timeout=8000)
    assert new_readings() == 1


def test_the_list_keeps_readings_off_line_too(card):
    card.tap("[data-one-list]")
    card.context.set_offline(True)
    card.locator("#m-waist").fill("28 1/2")
    card.locator("#m-hip").focus()
    expect(card.locator("#m-waist-said")).to_contain_text("28½ on this phone")
    card.reload()
    expect(card.locator("#m-waist")).to_have_value("28 1/2")
    expect(card.locator("body > .tray")).to_contain_text("1 waiting to send")
    card.context.set_offline(False)
    expect(card.locator("#m-waist-said")).to_contain_text("28½ in the book", timeout=8000)
    assert new_readings() == 1


def test_a_browser_that_is_killed_has_everything_when_it_is_opened_again(chromium, live_server, ines, dunya, client, settings, tmp_path):
    """The real process is killed (SIGKILL), not closed; a power cut of the phone is not what this shows."""
    client.force_login(dunya)
    cookie = client.cookies[settings.SESSION_COOKIE_NAME]
    options = {
        "executable_path": machine.find_chromium(), "base_url": live_server.url, "viewport": PHONE, "has_touch": True,
        "args": ["--no-sandbox"] if os.geteuid() == 0 else [],
    }  # fmt: skip
    context = chromium.browser_type.launch_persistent_context(str(tmp_path), **options)
    signed_in = [{"name": cookie.key, "value": cookie.value, "url": live_server.url}]
    context.add_cookies(signed_in)
    page = context.new_page()
    page.goto(f"/clients/{ines.pk}/measure/")
    at_hand(page)
    context.set_offline(True)
    for text in ("36 1/2", "34 1/2", "31"):
        tap(page, text)
    expect(tray(page)).to_contain_text("3 waiting to send")
    pids = subprocess.run(["pgrep", "-f", f"user-data-dir={tmp_path}"], capture_output=True, text=True, check=True).stdout.split()
    for pid in pids:
        os.kill(int(pid), signal.SIGKILL)
    assert new_readings() == 0

    context = chromium.browser_type.launch_persistent_context(str(tmp_path), **options, offline=True)
    page = context.new_page()
    page.goto(f"/clients/{ines.pk}/measure/")
    expect(tray(page)).to_contain_text("3 waiting to send")
    expect(page.locator("[data-one-name]")).to_have_text("Waist")
    # Chromium writes cookies down every half minute, so the sign-in may be lost where the readings are not.
    context.add_cookies(signed_in)
    context.set_offline(False)
    expect(tray(page)).to_have_text("All sent", timeout=8000)
    context.close()
    assert new_readings() == 3
    assert in_the_book() == {"bust": "36½", "high_bust": "34½", "under_bust": "31"}


def test_twenty_measures_in_under_three_minutes_with_the_network_cut_half_way(card):
    """The keys are pressed by the machine as fast as the page takes them: what is timed is the page, not the tape."""
    written = AGREEING | {"neck": "14 1/2", "upper_arm": "11", "elbow": "9 1/2", "wrist": "6 1/4", "knee": "14"}
    begun = time.monotonic()
    for number, key in enumerate([each.key for each in MEASURES][:20]):
        if number == 10:
            card.context.set_offline(True)
        tap(card, written.get(key, "9"))
    expect(tray(card)).to_contain_text("waiting to send")
    card.context.set_offline(False)
    expect(tray(card)).to_have_text("All sent", timeout=8000)
    assert time.monotonic() - begun < 180
    assert len(in_the_book()) == new_readings() == 20
    assert Measuring.objects.count() == 2
