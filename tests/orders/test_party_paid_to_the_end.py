"""A party of five from the first entry to the last, by its pages alone: one payer, instalments, dollars, a drop-out after cutting."""

import re
from datetime import timedelta
from decimal import Decimal

import pytest
from django.utils import timezone

from orders.cloth import shelf
from orders.models import Order, Party, Receipt, ShelfCloth
from orders.money.page import money_shown

pytestmark = pytest.mark.django_db
NAMES = ("Maud Ferring", "Lotte Ferring", "Wren Achterby", "Bea Tollard", "Josefin Lundmere")


def day(number: int) -> str:
    return (timezone.localdate() + timedelta(days=number)).isoformat()


def sent(browser, address: str, **given):
    """The form is accepted; what was refused is shown where it is not."""
    answer = browser.post(address, given)
    assert answer.status_code == 302, re.findall(r'class="error"[^>]*>.*?</', answer.content.decode(), re.S)
    return answer


def pay(browser, number: str, amount: str, kind: str = "part", **more):
    page = browser.get(f"/orders/{number}/payment/").content.decode()
    key = re.search(r'name="key" value="([^"]+)"', page)[1]
    sent(browser, f"/orders/{number}/payment/", kind=kind, amount=amount, method="transfer", taken_on=day(0), key=key, **more)


@pytest.fixture
def party(as_owner) -> Party:
    """Five orders of £300 each; the first of them pays for all."""
    sent(as_owner, "/orders/parties/add/", name="Wedding Ferring", occasion_on=day(60), collect_on=day(56), cut_on=day(20), cloth="rose crepe", width="60")
    party = Party.objects.get()
    for name in NAMES:
        sent(as_owner, f"/orders/parties/{party.pk}/join/", name=name, kind="skirt", price="300", deposit="")
    sent(as_owner, f"/orders/parties/{party.pk}/change/", name=party.name, occasion_on=day(60), collect_on=day(56), cut_on=day(20), cloth="rose crepe",
         width="60", payer=party.orders.first().client_id, version=party.version)  # fmt: skip
    return party


def test_five_are_paid_for_by_one_and_the_books_close(as_owner, party):
    numbers = list(party.orders.order_by("serial").values_list("number", flat=True))
    assert set(party.orders.values_list("deposit", flat=True)) == {150}  # half, by the house rule
    maud, lotte, wren, bea, josefin = numbers
    sent(as_owner, f"/orders/{maud}/instalments/", on_1=day(0), amount_1="150", on_2=day(20), amount_2="75", on_3=day(56), amount_3="75")
    pay(as_owner, maud, "150", "deposit")
    pay(as_owner, lotte, "200", "deposit", currency="USD", rate="0.785")  # £157
    for number in (wren, bea, josefin):
        pay(as_owner, number, "150", "deposit")

    # Bea's cloth is her own; it comes in, is checked, and is cut. Then she drops out.
    crepe = Order.objects.get(number=bea).cloths.get(name="rose crepe")
    sent(as_owner, f"/orders/{bea}/cloth/{crepe.pk}/receive/", length="3", width="60", whose="client", dye_lot="417")
    on_shelf = ShelfCloth.objects.get()
    sent(as_owner, f"/orders/shelf/{on_shelf.pk}/check/", face="matt", before="10", after="10", iron="well", bleed="well")
    Order.objects.filter(number=bea).update(stage="cut")
    sent(as_owner, f"/orders/shelf/{on_shelf.pk}/left/", length="3/4")
    page = as_owner.get(f"/orders/{bea}/call-off/").content.decode()
    assert 'value="150"' in page  # nothing back once cut
    sent(as_owner, f"/orders/{bea}/call-off/", why="no wedding for her", kept="150", method="cash")

    for number, rest in ((maud, "150"), (lotte, "143"), (wren, "150"), (josefin, "150")):
        pay(as_owner, number, rest, "balance")
    shown = money_shown(timezone.localdate())
    assert [order.balance for order in party.orders.all()] == [0] * 5
    assert shown.owed == shown.to_give_back == shown.deposits == shown.instalments == []
    assert sum(order.paid for order in party.orders.all()) == 300 * 4 + 150

    assert [each.pk for each in shelf.shelf_shown().to_give_back] == [on_shelf.pk]
    sent(as_owner, f"/orders/shelf/{on_shelf.pk}/end/back/")
    on_shelf.refresh_from_db()
    assert (on_shelf.state, on_shelf.length_mm) == ("back", Decimal("685.8"))

    receipts = list(Receipt.objects.order_by("serial").select_related("payment__order"))
    assert [receipt.serial for receipt in receipts] == list(range(1, 10))
    dollars = next(receipt for receipt in receipts if receipt.payment.other_currency)
    page = as_owner.get(f"/orders/{lotte}/payment/{dollars.payment.pk}/receipt/").content.decode()
    assert "Maud Ferring" in page and "£157" in page and "USD" in page and "0.785" in page
    assert as_owner.get(f"/orders/{lotte}/payment/{dollars.payment.pk}/receipt.png").content.startswith(b"\x89PNG")
