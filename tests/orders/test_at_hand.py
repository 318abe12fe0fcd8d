"""The orders in hand on one page for a phone, and the cash that a phone takes."""

import json
from datetime import timedelta
from decimal import Decimal
from uuid import UUID, uuid4

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from clients.models import Sent
from orders.models import Payment
from orders.stages import Stage
from orders.work.by_hand import is_by_hand
from orders.work.ticking import key_of, tick
from tests.clients.book import make_client
from tests.orders.book import cut_order, drafted_order, garment_of, make_order

KEY = UUID("3f9a21c4-0000-4000-8000-000000000001")


def page_of(browser) -> str:
    return browser.get(reverse("orders:at-hand")).content.decode()


def pay(browser, order, *, key: UUID | str = KEY, **changes):
    sent = {"amount": "40", "taken_on": timezone.localdate().isoformat()} | changes
    return browser.post(reverse("orders:cash", args=[order.number]), json.dumps(sent), "application/json", headers={"Idempotency-Key": str(key)})


# To read --------------------------------------------------------------------------------------------------------------


def test_it_shows_what_can_go_on_by_hand_of_what_is_cut(as_seamstress, hester):
    order = cut_order(hester)
    page = page_of(as_seamstress)
    by_hand = page[page.index("Work that can go on by hand now") : page.index(f'id="{order.number}"')]
    assert order.number in by_hand
    assert "Thread-mark" in by_hand
    assert "Fuse the stay" not in by_hand
    assert "Fuse the stay" in page[page.index(f'id="{order.number}"') :]


def test_handwork_that_is_ticked_as_done_is_not_offered(as_seamstress, hester):
    order = cut_order(hester)
    garment = garment_of(order)
    first = garment.cut_draft.result["making"][0]
    assert "Thread-mark" in first["text"]
    tick(garment=garment, key=key_of(first), by=hester)
    page = page_of(as_seamstress)
    assert "Thread-mark" not in page[page.index("Work that can go on by hand now") : page.index(f'id="{order.number}"')]


def test_what_is_sewn_has_no_handwork_left_even_if_nobody_ticked_it(as_seamstress, hester):
    order = cut_order(hester)
    order.stage = Stage.SEWN
    order.save()
    assert "Nothing is cut and waiting for handwork." in page_of(as_seamstress)


def test_what_is_not_cut_has_its_steps_to_chalk_and_no_handwork(as_seamstress, hester):
    drafted_order(hester)
    page = page_of(as_seamstress)
    assert "Nothing is cut and waiting for handwork." in page
    assert "the steps to chalk it by hand" in page


def test_phones_and_money_only_for_those_who_may_see_them(as_seamstress, as_apprentice, hester):
    make_order(hester)
    seamstress, apprentice = page_of(as_seamstress), page_of(as_apprentice)
    assert 'href="tel:07700900418"' in seamstress
    assert "£580 to pay." in seamstress
    assert "07700" not in apprentice.replace(" ", "")
    assert "£" not in apprentice
    assert "Ines Varga" in apprentice


def test_it_asks_no_more_for_many_orders_than_for_one(as_seamstress, hester):
    cut_order(hester)
    counts = []
    for more in (0, 5):
        for n in range(more):
            make_order(hester, make_client(f"Client {n}"))
        with CaptureQueriesContext(connection) as queries:
            page_of(as_seamstress)
        counts.append(len(queries))
    assert counts[0] == counts[1] <= 10


@pytest.mark.parametrize(
    ("text", "by_hand"),
    [
        ("Thread-mark bust points, fold lines and notches on every piece.", True),
        ("Baste the side seams, 7¼ in, for the fitting.", True),
        ("turn up 2 in and sew it by hand.", True),
        ("Fuse the stay to cups and band of the outside cloth.", False),
        ("Cup seams: both sides 9 in. Clip, press open over a ham.", False),
        ("Skirt darts: stitch from the waist to nothing.", False),
    ],
)
def test_handwork_needs_neither_machine_nor_iron(text, by_hand):
    assert is_by_hand(text) is by_hand


def test_every_phone_is_told_to_keep_the_page(as_apprentice):
    told = as_apprentice.get(reverse("clients:at-hand")).json()
    assert told["pages"] == [{"title": "Work at hand", "url": "/orders/at-hand/"}]
    assert told["clients"] == []


# Cash -----------------------------------------------------------------------------------------------------------------


def test_cash_is_entered_once_with_both_numbers_of_its_receipt(as_seamstress, hester, dunya):
    order = make_order(hester)
    first, again = pay(as_seamstress, order), pay(as_seamstress, order)
    assert first.status_code == again.status_code == 200
    assert first.json() == again.json()
    payment = Payment.objects.get()
    assert (payment.amount, payment.kind, payment.method, payment.taken_by) == (40, "deposit", "cash", dunya)
    assert first.json()["kept"] == {"cash": f"R-{payment.pk:05d}"}
    assert payment.why == "receipt P-3F9A21"
    receipt = as_seamstress.get(reverse("orders:receipt", args=[order.number, payment.pk])).content.decode()
    assert f"Receipt R-{payment.pk:05d}" in receipt
    assert "P-3F9A21" in receipt
    assert "£40" in receipt


@pytest.mark.parametrize(
    ("price", "deposit", "amount", "kind"), [(580, 240, "240", "deposit"), (580, None, "580", "balance"), (580, None, "40", "part")]
)
def test_what_the_cash_is_for_follows_from_what_is_owed(as_seamstress, hester, price, deposit, amount, kind):
    order = make_order(hester, price=Decimal(price), deposit=deposit and Decimal(deposit))
    assert pay(as_seamstress, order, amount=amount).status_code == 200
    Sent.objects.all().delete()  # a phone that was off for weeks sends it again, when nothing of it is owed any more
    assert pay(as_seamstress, order, amount=amount).status_code == 200
    assert Payment.objects.get().kind == kind


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"amount": "600"}, "£580 is left to pay, so £600 is too much."),
        ({"amount": "forty"}, "I can't read “forty”."),
        ({"amount": 40}, "I can't read what this phone sent."),
        ({"taken_on": "2099-03-01"}, "Set its clock"),
        ({"taken_on": "yesterday"}, "I can't read what this phone sent."),
        ({"key": "no key"}, "I can't read under which key this was sent."),
    ],
)
def test_what_cannot_be_entered_is_refused_with_a_sentence(as_seamstress, hester, changes, sentence):
    answer = pay(as_seamstress, make_order(hester), **changes)
    assert answer.status_code in (400, 422)
    assert sentence in answer.json()["refused"]
    assert not Payment.objects.exists()


def test_a_refused_payment_may_be_sent_again_under_the_same_key(as_seamstress, hester):
    order = make_order(hester, price=None, deposit=None, collect_on=None, cut_on=None)
    assert pay(as_seamstress, order).status_code == 422
    order.price = Decimal(580)
    order.keep("price", by=hester)
    assert pay(as_seamstress, order).status_code == 200


def test_a_phone_ahead_of_the_workshops_clock_pays_today(as_seamstress, hester):
    order = make_order(hester)
    tomorrow = timezone.localdate() + timedelta(days=1)
    assert pay(as_seamstress, order, key=uuid4(), taken_on=tomorrow.isoformat()).status_code == 200
    assert Payment.objects.get().taken_on == timezone.localdate()
