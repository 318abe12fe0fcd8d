"""The apprentice sees neither money nor phone numbers: asserted on what every page and paper of orders holds."""

import re
from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from orders.demo.book import load
from orders.models import Order
from tests.pdf_text import words_of

MONEY = re.compile(r"£|deposit|balance|paid|price|\bowe|refund", re.IGNORECASE)
PHONE = re.compile(r"07700|900\d{3}|tel:|sms:")


@pytest.fixture
def demo(db):
    load(timezone.localdate())
    return Order.objects.all()


@pytest.fixture
def pim(demo, client):
    from workshop.models import Person

    client.force_login(Person.objects.get(role="apprentice"))
    return client


@pytest.fixture
def hester(demo):
    from django.test import Client

    from workshop.models import Person

    browser = Client()
    browser.force_login(Person.objects.get(role="owner"))
    return browser


def pages(orders) -> list[str]:
    today = timezone.localdate()
    found = ["/", "/?all=1", reverse("orders:list"), f"{reverse('orders:list')}?which=all", f"{reverse('orders:list')}?q=bea"]
    found += [reverse("orders:day", args=[(today + timedelta(days=ahead)).isoformat()]) for ahead in range(14)]
    found += [order.get_absolute_url() for order in orders]
    found += [order.client.get_absolute_url() for order in orders]
    return found


def shown(answer) -> str:
    """What the page says and holds, less the names of its own styles."""
    return re.sub(r'class="[^"]*"', "", answer.content.decode())


def test_no_page_of_the_demo_shows_the_apprentice_money_or_a_phone_number(pim, demo):
    for page in pages(demo):
        answer = pim.get(page)
        assert answer.status_code == 200, page
        assert not MONEY.search(shown(answer)), (page, MONEY.search(shown(answer)))
        assert not PHONE.search(shown(answer)), page


def test_the_owner_does_see_them(hester, demo):
    """So that the test above can fail."""
    assert MONEY.search(shown(hester.get("/")))
    assert all(MONEY.search(shown(hester.get(order.get_absolute_url()))) for order in demo)
    assert PHONE.search(shown(hester.get(demo[0].client.get_absolute_url())))


def test_no_refusal_tells_the_apprentice_of_money(pim, demo):
    ready = demo.get(stage="ready", client__name="Tamsin Pell")
    answer = pim.post(reverse("orders:step", args=[ready.number, "collected"]))
    assert answer.status_code == 403
    for order in demo:
        answer = pim.post(reverse("orders:cut", args=[order.number]), follow=True)
        assert not MONEY.search(shown(answer)), order


def test_the_days_sheets_hold_no_money_and_no_phone_number(pim, demo):
    unsigned = demo.get(client__name__startswith="Ọláyinká")
    Order.objects.filter(pk=unsigned.pk).update(cut_on=timezone.localdate())
    answer = pim.get(reverse("orders:day-sheets", args=[timezone.localdate().isoformat()]))
    assert answer.headers["Content-Type"] == "application/pdf"
    text = words_of(answer.content)
    assert "Ask the owner first" in text
    assert not re.search(r"£|deposit|balance|\bpaid\b|\bprice\b", text, re.IGNORECASE)
    assert not PHONE.search(text)
