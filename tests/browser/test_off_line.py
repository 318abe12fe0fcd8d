"""Measuring with the network cut, in a real Chromium: no reading is lost, and none is in the book twice.

Each test states how many readings were taken and how many stand in the book.
"""

import os
import signal
import subprocess
import time

import pytest
from playwright.sync_api import expect

from clients.measures import MEASURES
from clients.models import Measuring, Sent
from tests.browser.off_line import SENDING, at_hand, in_the_book, new_readings, tap, tray, until
from tests.clients.book import AGREEING
from tests.conftest import PHONE
from workshop import machine

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


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
    expect(tray(card)).to_have_text("All sent", timeout=SENDING)
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
    expect(tray(page)).to_have_text("All sent", timeout=SENDING)
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
    until(page, lambda: wire.turned_away >= 3)  # it has tried, and tried again
    expect(tray(page)).to_contain_text("4 waiting to send")
    assert new_readings() == 0
    wire.down = False
    expect(tray(page)).to_have_text("All sent", timeout=SENDING)
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
        expect(tray(page)).to_have_text("All sent", timeout=SENDING)
    assert new_readings() == 4 == Sent.objects.count()
    assert in_the_book() == {"bust": "36½", "high_bust": "34½", "under_bust": "31", "waist": "28"}


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
    expect(card.locator("#m-waist-said")).to_contain_text("28½ in the book", timeout=SENDING)
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
    expect(tray(page)).to_have_text("All sent", timeout=SENDING)
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
    expect(tray(card)).to_have_text("All sent", timeout=SENDING)
    assert time.monotonic() - begun < 180
    assert len(in_the_book()) == new_readings() == 20
    assert Measuring.objects.count() == 2
