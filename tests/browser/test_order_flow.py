"""From a new client to the printed sheet in a phone-sized browser; and the pages of orders under axe."""

from datetime import timedelta

import pytest
from django.utils import timezone
from playwright.sync_api import expect

from orders.demo.book import load
from orders.demo.cast import CLIENTS
from orders.models import Order
from tests.conftest import PHONE, sticks_out, two_ways
from tests.pdf_text import words_of
from workshop.models import Person

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

SMALL_TARGETS = """() => [...document.querySelectorAll('button, select, input:not([type=hidden]), summary, .nav a, .btn-main, .btn-plain, .btn-quiet, .choice, .tick')]
  .filter(e => e.checkVisibility() && !e.matches('.choice > input, .tick > input'))
  .filter(e => { const r = e.getBoundingClientRect(); return r.height < 43.5 || r.width < 43.5 })
  .map(e => e.outerHTML.slice(0, 90))"""


def in_days(number: int) -> str:
    return (timezone.localdate() + timedelta(days=number)).isoformat()


@pytest.mark.parametrize("scripts", [True, False], ids=["with-scripts", "without-scripts"])
def test_a_new_client_her_measures_an_order_a_deposit_and_the_printed_sheet(open_page, hester, let_in, scripts):
    page = let_in(open_page(PHONE, has_touch=True, is_mobile=True, java_script_enabled=scripts), hester)

    page.goto("/clients/add/")
    page.context.add_init_script("localStorage.setItem('chalk-view', 'list')")
    page.get_by_label("Name").fill("Ines Varrow")
    page.get_by_role("button", name="Add to the book").click()

    page.locator("main").get_by_role("link", name="Take measures").first.click()
    for key, written in CLIENTS["ines"].written().items():
        page.locator(f"#m-{key}").fill(written)
    if scripts:
        page.tap("h1")  # the measuring keys lie over the foot of the page
    page.get_by_role("button", name="Keep these measures").click()

    page.get_by_role("link", name="Begin an order").click()
    page.get_by_label("Collection").fill(in_days(24))
    page.get_by_label("Cutting day").fill(in_days(7))
    page.get_by_role("textbox", name="Price").fill("£580")
    page.get_by_label("Deposit to ask for").fill("240")
    page.get_by_role("button", name="Write it in the book").click()
    expect(page.get_by_role("status")).to_contain_text("S-001 is in the book.")

    page.get_by_role("link", name="Take a payment").click()
    expect(page.get_by_label("Amount")).to_have_value("240")
    page.get_by_role("button", name="Write it down").click()
    expect(page.locator(".money-balance")).to_have_text("£340")

    page.locator(".order-head").get_by_role("button", name="Draft it").click()
    expect(page.get_by_text("All seams meet").last).to_be_visible()
    expect(page.locator(".piece-drawing").first).to_be_visible()

    sheet = page.locator(".order-head").get_by_role("link", name="Job sheet").get_attribute("href")
    answer = page.request.get(sheet)
    assert answer.headers["content-type"] == "application/pdf"
    paper = words_of(answer.body())
    assert "S-001" in paper
    assert "Ines" in paper
    assert "36½" in paper  # her bust
    assert "£" not in paper


def test_from_the_draft_to_the_hanger(phone, hester, let_in):
    load(timezone.localdate())
    page = let_in(phone, Person.objects.get(username="hester"))
    page.goto("/orders/S-005/")
    page.locator(".note").get_by_role("button", name="Redraft with").click()
    expect(page.get_by_text("Draft 2 is kept. All seams meet.")).to_be_visible()
    for label in ("Sign off for cutting", "Cut", "Sewn", "Pressed and ready"):
        page.locator(".order-head").get_by_role("button", name=label, exact=True).click()
    page.get_by_role("link", name="Take the balance").click()
    page.get_by_role("button", name="Write it down").click()
    page.get_by_role("button", name="Collected").click()
    expect(page.get_by_text("S-005 is collected.")).to_be_visible()
    assert not Order.objects.get(number="S-005").is_open


def test_the_list_finds_while_one_types(desk, hester, let_in):
    load(timezone.localdate())
    page = let_in(desk, Person.objects.get(username="hester"))
    page.goto("/orders/")
    page.get_by_label("Name, garment or number").press_sequentially("tollard", delay=20)
    expect(page.locator(".tape-row")).to_have_count(2)
    page.wait_for_url("**/orders/?q=tollard")
    expect(page.get_by_label("Name, garment or number")).to_be_focused()


PAGES = (
    "/", "/orders/", "/orders/?q=nobody", "/orders/S-001/", "/orders/S-002/", "/orders/S-005/", "/orders/S-009/", "/orders/S-010/",
    "/orders/S-005/payment/", "/orders/S-005/refund/", "/orders/S-005/promise/", "/orders/S-005/fitting/", "/orders/S-005/cloth/",
    "/orders/S-005/call-off/", "/orders/add/1/", "/clients/5/",
)  # fmt: skip


@pytest.mark.parametrize("part", range(3))
def test_the_pages_of_orders_are_accessible_and_fit(desk, hester, let_in, accessible, part):
    load(timezone.localdate())
    page = let_in(desk, Person.objects.get(username="hester"))
    for turn, address in enumerate((*PAGES, f"/orders/day/{in_days(0)}/")[part::3]):
        page.goto(address)
        for way in two_ways(page, turn):
            accessible(page)
            assert sticks_out(page) <= 0, (address, way)
            assert page.evaluate(SMALL_TARGETS) == [], (address, way)
        assert sticks_out(page, 320) <= 0, address


def test_refusals_and_conflicts_are_accessible(phone, hester, let_in, accessible):
    load(timezone.localdate())
    page = let_in(phone, Person.objects.get(username="hester"))
    page.goto("/orders/S-005/payment/")
    page.get_by_label("Amount").fill("six")
    page.get_by_role("button", name="Write it down").click()
    expect(page.get_by_role("alert").first).to_be_visible()
    expect(page.get_by_label("Amount")).to_be_focused()
    accessible(page)
    page.goto("/orders/S-005/promise/")
    order = Order.objects.get(number="S-005")
    order.price = 700
    order.keep("price", by=Person.objects.get(username="dunya"))
    page.get_by_label("Notes for the sheet").fill("Own shoes")
    page.get_by_role("button", name="Save").click()
    expect(page.get_by_role("heading", name="Two people changed this")).to_be_visible()
    accessible(page)
    assert sticks_out(page) <= 0
    page.get_by_role("button", name="Save these").click()
    expect(page.get_by_text("Saved.")).to_be_visible()
    order.refresh_from_db()
    assert (order.price, order.note) == (700, "Own shoes")
