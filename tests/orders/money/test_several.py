"""One sum for several orders: an entry on each, one receipt, struck as a whole or in part."""

import csv
import re
from decimal import Decimal
from io import StringIO

import pytest
from django.utils import timezone

from orders.models import Order, Party, Payment, Receipt
from orders.money.payments import give_back, kind_of
from orders.money.several import spread, unpaid_by
from orders.money.year_csv import lines
from orders.stages import NotNow
from tests.clients.book import make_client
from tests.orders.book import days, fresh, make_order
from tests.orders.pages import text, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def three(hester) -> list[Order]:
    """Three orders of £580, £240 to put down, that Maud pays for; hers is cut first and collected last."""
    maud, today = make_client("Maud Ferring"), timezone.localdate()
    orders = [make_order(hester, maud, cut_on=today + days(1), collect_on=today + days(30))]
    for number, name in enumerate(("Lotte Ferring", "Wren Achterby")):
        order = make_order(hester, make_client(name), cut_on=today + days(5), collect_on=today + days(10 + number))
        Order.objects.filter(pk=order.pk).update(paid_by=maud)
        orders.append(fresh(order))
    return orders


def sent(browser, three, amount, **more):
    address = url("payment-for-several", three[0].client_id)
    key = re.search(r'name="key" value="([^"]+)"', text(browser.get(address)))[1]
    return browser.post(address, {"amount": amount, "method": "transfer", "taken_on": timezone.localdate().isoformat(), "key": key} | more)


def paid(orders) -> list[Decimal]:
    return [fresh(order).paid for order in orders]


def test_what_is_hers_to_pay_is_her_own_a_partys_and_where_she_is_named(three, hester):
    assert [order.pk for order in unpaid_by(three[0].client)] == [three[1].pk, three[2].pk, three[0].pk]
    assert not unpaid_by(three[1].client).exists()


def test_left_open_it_goes_to_deposits_by_cutting_then_to_what_is_collected_first(as_seamstress, three):
    assert sent(as_seamstress, three, "800").status_code == 302
    assert paid(three) == [240, 320, 240]  # three deposits of 240, and 80 for Lotte, who collects first
    assert [payment.kind for payment in Payment.objects.all()] == ["part", "deposit", "deposit"]


def test_what_pays_all_is_called_the_balance_though_its_deposit_was_owed(three):
    assert [kind_of(three[0], Decimal(amount)) for amount in ("240", "241", "580")] == ["deposit", "part", "balance"]


def test_from_a_partys_page_a_sum_is_for_its_orders_and_the_others_stand_below(as_owner, three, hester):
    party = Party.objects.create(name="The harbour wedding", changed_by=hester)
    Order.objects.filter(pk=three[2].pk).update(party=party)
    assert f"paid-by/{three[0].client_id}/?party={party.pk}" in text(as_owner.get(f"/orders/parties/{party.pk}/"))
    page = text(as_owner.get(f"{url('payment-for-several', three[0].client_id)}?party={party.pk}"))
    filled = dict(re.findall(r'name="(amount|share_\d+)"[^>]*?value="([^"]*)"', page))
    assert filled == {"amount": "580"} and f'name="share_{three[0].pk}"' in page
    assert page.index(f"share_{three[2].pk}") < page.index("Other orders that") < page.index(f"share_{three[0].pk}")
    key = re.search(r'name="key" value="([^"]+)"', page)[1]
    sum_of = {"amount": "250", "method": "cash", "taken_on": timezone.localdate().isoformat(), "key": key}
    as_owner.post(f"{url('payment-for-several', three[0].client_id)}?party={party.pk}", sum_of)
    assert paid(three) == [0, 0, 250]


def test_the_parts_that_are_written_come_to_the_whole(as_seamstress, three):
    shares = {f"share_{three[0].pk}": "500", f"share_{three[2].pk}": "90"}
    refused = text(sent(as_seamstress, three, "600", **shares))
    assert "The parts come to £590, and £600 is handed over: £10 more makes it even." in refused and 'value="500"' in refused
    assert sent(as_seamstress, three, "590", **shares).status_code == 302
    assert paid(three) == [500, 0, 90]


def test_more_than_all_of_them_cost_is_refused(as_seamstress, three):
    assert "£1,740 is left to pay for all of them, so £1,741 is too much" in text(sent(as_seamstress, three, "1741"))
    assert Payment.objects.count() == 0
    with pytest.raises(NotNow):
        spread([], Decimal(1))


def test_one_receipt_names_all_of_it_and_each_of_its_entries_leads_there(as_seamstress, three):
    page = as_seamstress.get(sent(as_seamstress, three, "1740").url)
    assert Receipt.objects.count() == 1
    assert all(said in text(page) for said in ("Receipt R-00001", "£1,740", "Lotte Ferring", "Wren Achterby"))
    for payment in Payment.objects.select_related("order"):
        assert "Receipt R-00001" in text(as_seamstress.get(url("receipt", payment.order.number, payment.pk)))
    rows = list(csv.DictReader(StringIO("".join(lines(timezone.localdate().year, "GBP")).removeprefix("\ufeff"))))
    assert [row["receipt"] for row in rows] == ["R-00001"] * 3 and {row["paid by or to"] for row in rows} == {"Maud Ferring"}
    last = Payment.objects.select_related("order").last()
    assert as_seamstress.get(url("receipt-file", last.order.number, last.pk, "pdf")).content.startswith(b"%PDF")
    assert Receipt.objects.count() == 1


def test_a_refund_s_row_in_the_year_s_file_names_who_got_the_money(as_seamstress, three, hester):
    sent(as_seamstress, three, "1740")
    order = next(order for order in three if order.client.name == "Lotte Ferring")
    give_back(order=order, amount=Decimal(20), method="cash", by=hester, taken_on=timezone.localdate())
    rows = csv.DictReader(StringIO("".join(lines(timezone.localdate().year, "GBP")).removeprefix("\ufeff")))
    refund = next(row for row in rows if row["out"])
    assert (refund["client"], refund["paid by or to"], refund["out"]) == ("Lotte Ferring", "Maud Ferring", "20.00")


def test_the_same_form_twice_is_one_sum_and_another_amount_is_not_claimed(as_seamstress, three):
    address = url("payment-for-several", three[0].client_id)
    given = {"amount": "300", "method": "cash", "taken_on": timezone.localdate().isoformat(), "key": "8a4d6c8e-0001-4f3e-9c1d-2f8a4d6c8e00"}
    first, again = as_seamstress.post(address, given), as_seamstress.post(address, given)
    assert first.url == again.url and Payment.objects.count() == 2
    assert "This form has entered £300 already" in text(as_seamstress.post(address, given | {"amount": "310"}))
    assert sum(paid(three)) == 300


def test_dollars_are_shared_to_the_last_cent(as_seamstress, three):
    assert sent(as_seamstress, three, "1000.01", currency="USD", rate="0.7853").status_code == 302
    parts = list(Payment.objects.all())
    assert sum(part.other_amount for part in parts) == Decimal("1000.01")
    assert sum(part.amount for part in parts) == Decimal("785.31")
    receipt = text(as_seamstress.get(url("receipt", parts[0].order.number, parts[0].pk)))
    assert "$1,000.01 (USD) at 0.7853 GBP for 1 USD" in receipt and "£785.31" in receipt


def test_it_is_struck_as_a_whole_or_one_part_of_it(as_owner, three):
    sent(as_owner, three, "1740")
    one = Payment.objects.get(order=three[1])
    address = url("reverse", three[1].number, one.pk)
    assert "Wren Achterby" in text(as_owner.get(address))
    as_owner.post(address, {"which": "part", "why": "Lotte pays her own"})
    assert paid(three) == [580, 0, 580]
    other = Payment.objects.get(order=three[0])
    as_owner.post(url("reverse", three[0].number, other.pk), {"which": "all", "why": "the transfer came back"})
    assert paid(three) == [0, 0, 0]
    receipt = text(as_owner.get(url("receipt", three[0].number, other.pk)))
    assert receipt.count("the transfer came back") == 2 and receipt.count("Lotte pays her own") == 1


def test_the_page_of_one_payment_and_the_party_lead_there(as_seamstress, three):
    page = text(as_seamstress.get(url("payment", three[1].number)))
    assert "pays for 2 more" in page and url("payment-for-several", three[0].client_id) in page
