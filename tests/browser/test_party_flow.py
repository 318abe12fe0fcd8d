"""A party of five by somebody new: every page is reached by a link that she can see, no address is typed."""

from datetime import timedelta

import pytest
from django.utils import timezone
from playwright.sync_api import Page, expect

from orders.models import Order, Payment, Receipt, ShelfCloth

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]
NAMES = ("Maud Ferring", "Lotte Ferring", "Wren Achterby", "Bea Tollard", "Josefin Lundmere")
MEASURES = {"waist": "28", "hip": "38", "waist_to_hip": "8"}


def in_days(number: int) -> str:
    return (timezone.localdate() + timedelta(days=number)).isoformat()


def follow(page: Page, *names: str) -> None:
    for name in names:
        page.get_by_role("link", name=name).first.click()


def press(page: Page, name: str, **more) -> None:
    """Sends the form, and waits for the page that answers: a link of the old one would be taken for one of the new."""
    with page.expect_navigation():
        page.get_by_role("button", name=name, **more).first.click()


def fill(page: Page, **fields: str) -> None:
    for label, value in fields.items():
        page.get_by_label(label.replace("_", " ")).first.fill(value)


def open_order(page: Page, name: str) -> None:
    page.get_by_role("navigation", name="Main").get_by_role("link", name="Orders").click()
    page.locator(".tape-row").get_by_role("link", name=name).click()


def begin(page: Page) -> None:
    """Five orders of £300 each, the first client to pay for all of them."""
    follow(page, "Orders", "Parties", "Begin a party")
    fill(page, The_occasion="Wedding Ferring", Its_day=in_days(60), Collection=in_days(56), Cutting_day=in_days(20), Cloth_for_all="rose crepe", Its_width="60")
    press(page, "Save")
    for name in NAMES:
        follow(page, "Add somebody")
        fill(page, Name=name, Price="300")
        page.locator(".choice", has_text="Skirt").first.click()
        press(page, "Add to the party")
    follow(page, "What all share")
    page.get_by_label("Who pays").select_option(label=NAMES[0])
    press(page, "Save")


def pay_deposits_and_agree_the_rest(page: Page) -> None:
    follow(page, "Take a payment from Maud")
    fill(page, Amount="750")
    press(page, "Write it down")
    expect(page.get_by_role("heading", name="Receipt R-00001")).to_be_visible()
    expect(page.locator(".receipt")).to_contain_text("Josefin Lundmere")
    open_order(page, NAMES[0])
    follow(page, "Instalments")
    fill(page, Day_1=in_days(0), Amount_1="150", Day_2=in_days(20), Amount_2="75", Day_3=in_days(56), Amount_3="75")
    press(page, "Keep")
    open_order(page, NAMES[1])
    follow(page, "Take a payment")
    page.get_by_text("In another currency").click()
    page.get_by_label("In", exact=True).select_option("USD")
    fill(page, Amount="100", What_1="0.785")
    press(page, "Write it down")
    expect(page.locator(".money-balance")).to_have_text("£71.50")


def cut_for_one_who_drops_out(page: Page) -> None:
    open_order(page, NAMES[3])
    follow(page, "It came in")
    fill(page, How_much="3")
    page.locator(".choice", has_text="the client").click()
    press(page, "It is in")
    press(page, "Keep the check")
    open_order(page, NAMES[3])
    page.locator("main").get_by_role("link", name="Take measures").first.click()
    for key, written in MEASURES.items():
        page.locator(f"#m-{key}").fill(written)
    press(page, "Keep these measures")
    open_order(page, NAMES[3])
    for label in ("Draft it", "Sign off for cutting", "Cut"):
        press(page, label, exact=True)


def close_the_books(page: Page) -> None:
    follow(page, "Orders", "Cloth shelf", "Rose crepe")
    fill(page, Left="3/4")
    press(page, "Write down what is left")
    open_order(page, NAMES[3])
    follow(page, "Call the order off")
    expect(page.get_by_label("We keep")).to_have_value("150")  # nothing back once cut
    fill(page, Why="no wedding for her")
    press(page, "Call it off")
    follow(page, "Orders", "Parties", "Wedding Ferring", "Take a payment from Maud")
    press(page, "Write it down")
    expect(page.locator(".receipt-amount")).to_have_text("£521.50")
    follow(page, "Orders", "Cloth shelf")
    expect(page.get_by_text("goes back to Bea")).to_be_visible()
    follow(page, "Rose crepe")
    press(page, "It is given back")
    follow(page, "Orders", "Money")
    expect(page.get_by_text("Nothing is owed")).to_be_visible()


def test_a_party_of_five_with_one_payer_dollars_and_one_who_drops_out(desk, hester, let_in):
    page = let_in(desk, hester)
    page.context.add_init_script("localStorage.setItem('chalk-view', 'list')")
    page.goto("/")
    begin(page)
    pay_deposits_and_agree_the_rest(page)
    cut_for_one_who_drops_out(page)
    close_the_books(page)
    assert [order.balance for order in Order.objects.order_by("serial")] == [0] * 5
    assert sum(order.paid for order in Order.objects.all()) == 300 * 4 + 150
    assert list(Receipt.objects.values_list("serial", flat=True)) == [1, 2, 3] and Payment.objects.filter(other_currency="USD").count() == 1
    assert ShelfCloth.objects.get().state == "back"
