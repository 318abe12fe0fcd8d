"""Cash taken on a phone without a network: a receipt at once, one payment in the book when it returns."""

import pytest
from playwright.sync_api import expect

from orders.models import Payment
from tests.browser.off_line import SENDING, at_hand, until
from tests.conftest import PHONE
from tests.orders.book import cut_order, make_order

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def page(open_page, salt_lane, hester, dunya, let_in):
    """The work at hand on a phone that keeps it."""
    make_order(hester)
    page = open_page(PHONE, has_touch=True, is_mobile=True)
    let_in(page, dunya).goto("/orders/at-hand/")
    at_hand(page)
    return page


def take(page, amount: str) -> None:
    page.get_by_role("textbox", name="Cash taken").fill(amount)
    page.get_by_role("button", name="Take cash").tap()


def test_cash_taken_off_line_has_its_receipt_and_is_in_the_book_once(page, dunya, accessible):
    page.context.set_offline(True)
    page.reload()
    take(page, "40.50")
    receipt = page.get_by_role("dialog")
    expect(receipt.get_by_role("heading")).to_contain_text("Receipt P-")
    number = receipt.get_by_role("heading").inner_text().removeprefix("Receipt ")
    for fact in ("Salt Lane Sewing Room", "Ines Varga", "£40.50, cash", "Dunya", "until it is in the book"):
        expect(receipt).to_contain_text(fact)
    accessible(page)
    receipt.get_by_role("button", name="Close").tap()
    page.reload()
    expect(page.locator("[data-receipts]")).to_contain_text(f"{number}. On this phone, waiting to send.")
    expect(page.locator("body > .tray")).to_contain_text("1 waiting to send")
    assert not Payment.objects.exists()
    page.context.set_offline(False)
    expect(page.locator("[data-receipts]")).to_contain_text("In the book as R-", timeout=SENDING)
    payment = Payment.objects.get()
    assert (str(payment.amount), payment.method, payment.taken_by, payment.why) == ("40.500", "cash", dunya, f"receipt {number}")
    expect(page.locator("[data-cash]")).to_contain_text("£539.50 to pay.", timeout=SENDING)


def test_a_lost_reply_pays_nothing_twice(open_page, salt_lane, hester, dunya, let_in, wire):
    make_order(hester)
    page = open_page(PHONE, has_touch=True, is_mobile=True)
    let_in(page, dunya).goto(f"{wire.url}/orders/at-hand/")
    at_hand(page)
    wire.replies_to_lose = 1
    take(page, "240")
    expect(page.locator("[data-receipts]")).to_contain_text("In the book as R-", timeout=SENDING)
    assert (wire.posts, Payment.objects.count()) == (2, 1)


def test_a_payment_that_is_too_much_by_now_waits_for_somebody_and_is_never_dropped(page, hester):
    """£580 was owed when the phone lost the network; meanwhile all of it was paid at the desk."""
    from django.utils import timezone

    from orders.models import Order
    from orders.money import payments

    page.context.set_offline(True)
    take(page, "580")
    page.get_by_role("dialog").get_by_role("button", name="Close").tap()
    payments.take(order=Order.objects.get(), kind="balance", amount=580, method="card", by=hester, taken_on=timezone.localdate())
    page.context.set_offline(False)
    expect(page.locator("body > .tray")).to_have_text("1 needs you", timeout=SENDING)
    expect(page.locator("[data-receipts]")).to_contain_text("is paid in full; £580 more would be too much.")
    assert Payment.objects.count() == 1


def test_what_is_no_amount_is_refused_on_the_phone_and_stays_to_be_put_right(page):
    take(page, "forty")
    expect(page.get_by_role("alert")).to_contain_text("I can’t read “forty” as an amount.")
    expect(page.get_by_role("textbox", name="Cash taken")).to_have_value("forty")
    expect(page.get_by_role("dialog")).to_have_count(0)


def test_an_apprentice_reads_the_work_off_line_without_phones_or_money(open_page, salt_lane, hester, pim, let_in):
    order = cut_order(hester)
    page = open_page(PHONE, has_touch=True, is_mobile=True)
    let_in(page, pim).goto("/")
    until(page, lambda: page.evaluate("caches.match('/orders/at-hand/').then(Boolean)"))
    page.context.set_offline(True)
    page.goto("/clients/add/")
    page.get_by_role("link", name="Work at hand").tap()
    expect(page.get_by_role("heading", name="Work that can go on by hand now")).to_be_visible()
    expect(page.get_by_role("link", name=order.number)).to_be_visible()
    expect(page.locator("a[href^='tel:']")).to_have_count(0)
    expect(page.locator("main")).not_to_contain_text("£")
