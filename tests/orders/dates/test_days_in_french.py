"""A workshop that writes its days in French or Yoruba: every page of an order's days, its sheet, its texts, and no question more."""

import re
from datetime import date, timedelta

import pytest
from django.utils import timezone
from django.utils.html import strip_tags

from orders.booking import book_fitting
from orders.models import Order
from orders.paper.printing import garment_sheet
from orders.texts import values_of
from orders.whole_order import whole_order
from tests.orders.book import drafted_order, garment_of
from tests.orders.test_queries import MOST, asked, know_the_database
from tests.pdf_text import words_of as words_on
from workshop.days import MONTHS, WEEKDAYS, Form, written
from workshop.models import Workshop

#: May and March are left out: they are words of our sentences too, or of French.
ENGLISH_NAMES = re.compile(rf"\b({'|'.join({*MONTHS, *WEEKDAYS} - {'May', 'March'})})\b|\b(Mon|Tue|Wed|Thu|Fri|Sat|Sun) \d")


@pytest.fixture
def order(hester) -> Order:
    order = drafted_order(hester)
    book_fitting(order=order, at=timezone.now() + timedelta(days=3), booked_by=hester, by=hester)
    return order


def write_days_in(language: str) -> None:
    Workshop.objects.update(days_in=language)


def words_of(page: str) -> str:
    return strip_tags(re.sub(r"<(script|style)\b.*?</\1>", "", page, flags=re.DOTALL)).replace("\xa0", " ")


def pages(order: Order, today: date) -> list[str]:
    here = order.get_absolute_url()
    return [
        "/", "/orders/", "/orders/at-hand/", "/orders/calendar/", f"/orders/calendar/month/{today:%Y-%m}/",
        f"/orders/day/{today.isoformat()}/", here, f"{here}promise/", f"{here}message/", f"/clients/{order.client_id}/", "/money/", f"/money/{today.year}/",
        "/orders/days-and-hours/",
    ]  # fmt: skip


def test_the_owner_chooses_the_language_and_a_form_without_it_keeps_it(as_owner):
    row = {"name": "Salt Lane Sewing Room", "town": "", "unit": "in", "currency": "GBP", "paper": "A4"}
    as_owner.post("/settings/", row | {"days_in": "yo"})
    assert Workshop.objects.get().days_in == "yo"
    as_owner.post("/settings/", row)
    assert Workshop.objects.get().days_in == "yo"
    refused = as_owner.post("/settings/", row | {"days_in": "xx"})
    assert (refused.status_code, Workshop.objects.get().days_in) == (422, "yo")


def test_no_page_of_a_french_workshop_has_an_english_day(as_owner, order):
    write_days_in("fr")
    today = timezone.localdate()
    for address in pages(order, today):
        answer = as_owner.get(address)
        assert answer.status_code == 200, address
        assert not ENGLISH_NAMES.search(words_of(answer.content.decode())), address
    head = re.search(r'<h1 lang="fr">(.*?)</h1>', as_owner.get("/").content.decode())[1]
    assert head.lower() == written(today, Form.WEEKDAY_DAY, "fr")


def test_a_clients_table_drawn_in_english_is_drawn_anew_in_french(as_owner, order):
    address = f"/clients/{order.client_id}/"
    english, taken_on = words_of(as_owner.get(address).content.decode()), garment_of(order).measuring.taken_on
    write_days_in("fr")
    french = words_of(as_owner.get(address).content.decode())
    month = written(taken_on, Form.MONTH, "fr")
    assert MONTHS[taken_on.month - 1] in english and not ENGLISH_NAMES.search(french) and month in french


def test_the_job_sheet_says_its_days_in_yoruba(hester, order):
    write_days_in("yo")
    text = words_on(garment_sheet(order, garment_of(order)))
    for form, on in ((Form.SHORT_WEEKDAY_DAY, order.collect_on), (Form.DAY_YEAR, garment_of(order).measuring.taken_on)):
        assert written(on, form, "yo").replace("\xa0", " ") in text


def test_a_ready_text_names_the_day_in_that_language(salt_lane, order):
    write_days_in("pt")
    with Workshop.kept():
        values = values_of(whole_order(order.number, with_money=True).order, timezone.localdate())
        assert values["collection"].startswith(written(order.collect_on, Form.WEEKDAY_DAY, "pt"))


def test_days_in_another_language_cost_a_page_no_question(as_owner, order):
    know_the_database()
    few = {address: asked(as_owner, address) for address in ("/", order.get_absolute_url(), "/orders/calendar/")}
    write_days_in("yo")
    assert {address: asked(as_owner, address) for address in few} == few
    assert max(few.values()) <= MOST
