"""Whose readings wait on a phone, who may send them, and what stays when somebody signs out; in a real Chromium."""

import pytest
from django.contrib.sessions.models import Session
from playwright.sync_api import expect

from clients.models import Client, Reading
from tests.browser.off_line import SENDING, at_hand, kept_pages, new_readings, tap, tray, until
from tests.cast import PASSWORD
from tests.clients.book import make_client
from tests.conftest import PHONE

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


def test_a_session_that_ends_off_line_costs_a_sign_in_and_nothing_else(card, dunya, ines):
    card.context.set_offline(True)
    for text in ("36 1/2", "34 1/2"):
        tap(card, text)
    Session.objects.all().delete()
    card.context.set_offline(False)
    expect(tray(card)).to_contain_text("Sign in to send 2", timeout=SENDING)
    assert new_readings() == 0
    tray(card).get_by_role("button").tap()
    card.get_by_role("link", name="Sign in").tap()
    card.get_by_label("Sign-in name").fill("dunya")
    card.get_by_label("Password").fill(PASSWORD)
    card.get_by_role("button", name="Sign in").tap()
    card.wait_for_url(f"**/clients/{ines.pk}/measure/")
    expect(tray(card)).to_have_text("All sent", timeout=SENDING)
    assert new_readings() == 2


def test_nobody_else_sends_what_one_person_measured(card, hester, dunya, let_in, ines):
    # People change while the network is away: an answer on its way for the one before would sign the next one out.
    card.context.set_offline(True)
    tap(card, "36 1/2")
    let_in(card, hester)
    card.context.set_offline(False)
    expect(tray(card)).to_contain_text("Sign in to send 1", timeout=SENDING)
    card.goto("/clients/")
    until(card, lambda: card.evaluate("Boolean(window.chalk)"))
    card.evaluate("async () => { await chalk.count(); await chalk.drain(); }")  # as it does by itself every few seconds
    assert new_readings() == 0
    card.context.set_offline(True)
    let_in(card, dunya)
    card.context.set_offline(False)
    card.goto("/clients/")
    expect(card.locator("body > .tray")).to_be_hidden()
    until(card, new_readings)
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
    expect(tray(page)).to_have_text("1 needs you", timeout=SENDING)
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
    until(card, new_readings)
    assert new_readings() == 1


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
    expect(card.locator("[data-shows-book]")).to_contain_text("36½", timeout=SENDING)
    assert new_readings() == 1
