"""The garment's form in a real browser: a skirt is asked only what belongs to its kind, and trousers are drafted from it."""

import pytest
from playwright.sync_api import expect

from tests.clients.book import make_client, measured
from tests.orders.book import make_order

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

LOWER = {"waist": "30", "hip": "41", "waist_to_hip": "8 1/2", "height": "66", "knee": "15", "waist_to_knee": "23 1/2", "body_rise": "11",
         "inside_leg": "30"}  # fmt: skip


def order_of(kind: str, by):
    client = make_client("Thea Marlow")
    measured(client, by, **LOWER)
    return make_order(by, client, kind=kind)


def asked(page) -> set[str]:
    names = ("skirt_fraction", "skirt_panels", "skirt_fullness", "skirt_gores", "skirt_godets", "skirt_sweep")
    return {name for name in names if page.locator(f"[name={name}]").first.is_visible()}


def test_a_skirt_is_asked_only_what_belongs_to_its_kind(phone, hester, let_in, accessible):
    order = order_of("skirt", hester)
    page = let_in(phone, hester)
    page.goto(f"/orders/{order.number}/")
    for kind, wanted in (
        ("gored", {"skirt_gores", "skirt_sweep"}), ("circle", {"skirt_fraction", "skirt_panels"}), ("gathered", {"skirt_fullness"}),
        ("mermaid", {"skirt_gores", "skirt_godets", "skirt_sweep"}), ("straight", {"skirt_sweep"}),
    ):  # fmt: skip
        page.locator(f"label:has([name=skirt_kind][value={kind}])").click()
        assert asked(page) == wanted, kind
    page.locator("label:has([name=skirt_kind][value=mermaid])").click()
    page.locator("[name=skirt_length]").fill("42")
    page.locator("[name=skirt_sweep]").fill("90")
    page.locator(".order-head").get_by_role("button", name="Draft it").click()
    expect(page.locator("main")).to_contain_text("2 skirt side front, 3 skirt side back")
    accessible(page)


def test_trousers_are_ordered_drafted_and_marked_for_a_toile(desk, hester, let_in):
    order = order_of("trousers", hester)
    page = let_in(desk, hester)
    page.goto(f"/orders/{order.number}/")
    page.locator("[name=trousers_hem]").fill("18")
    page.locator(".order-head").get_by_role("button", name="Draft it").click()
    expect(page.locator("main")).to_contain_text("Make a toile first")
    expect(page.locator("[name=trousers_hem]")).to_have_value("18")
