"""What an order's page offers or says of the next step: the cut, the balance, the sign-off, the booking, its party."""

from datetime import timedelta
from decimal import Decimal

from django.urls import reverse
from django.utils import timezone

from orders.booking import book_fitting
from orders.models import Party, ShelfCloth
from orders.stages import Stage
from tests.orders.book import drafted_order, fresh, garment_of, make_order, signed_order
from tests.orders.test_pages import text, url


def test_a_signed_off_order_offers_the_cut_and_a_ready_one_the_balance(as_owner, hester):
    order = signed_order(hester)
    assert ">Cut</button>" in text(as_owner.get(url("show", order.number)))
    as_owner.post(url("cut", order.number))
    for verb in ("sewn", "ready"):
        as_owner.post(url("step", order.number, verb))
    page = text(as_owner.get(url("show", order.number)))
    assert "Take the balance" in page
    assert "Hand over with £580 due" in page
    as_owner.post(url("step", order.number, "collected"), {"with_balance_due": "yes"})
    assert fresh(order).stage == Stage.COLLECTED


def test_a_fitting_in_the_list_is_told(as_owner, hester):
    order = make_order(hester)
    book_fitting(order=order, at=timezone.now() + timedelta(days=3), booked_by=hester)
    assert "1st fitting" in text(as_owner.get(url("show", order.number)))


def test_what_speaks_against_the_sign_off_stands_beside_its_button(as_owner, as_apprentice, hester):
    order = drafted_order(hester, cut_on=timezone.localdate() + timedelta(days=40), collect_on=timezone.localdate() + timedelta(days=60))
    said = "Before you sign off: "
    page = text(as_owner.get(url("show", order.number)))
    assert said in page and "lining not in yet" in page
    ShelfCloth.objects.create(
        name="rose crepe", order=order, received_on=timezone.localdate(), width_written="54 in", width_mm=1371, length_written="3 yd", length_mm=2743
    )
    assert "rose crepe not checked" in text(as_owner.get(url("show", order.number)))
    assert said not in text(as_apprentice.get(url("show", order.number)))
    as_owner.post(url("sign-off", order.number), {"draft": garment_of(order).draft_id})
    assert fresh(order).is_signed_off


def test_an_enquiry_with_price_and_day_is_to_be_booked(as_owner, hester):
    order = make_order(hester, price=None)
    assert "Next: Agree price and collection" in text(as_owner.get(url("show", order.number)))
    order.price = Decimal(300)
    order.keep("price", by=hester)
    assert "Next: Book it" in text(as_owner.get(url("show", order.number)))


def test_an_order_of_a_party_says_so_and_leads_there(as_owner, as_apprentice, hester):
    order = make_order(hester)
    order.party = Party.objects.create(name="Wedding Ferring")
    order.keep("party", by=hester)
    for browser in (as_owner, as_apprentice):
        assert f'<a href="{order.party.get_absolute_url()}">Wedding Ferring</a>' in text(browser.get(url("show", order.number)))


def test_an_enquiry_without_a_draft_leads_to_taking_measures(as_owner, as_apprentice, hester):
    order = make_order(hester, price=None)
    leads = f'class="btn-plain" href="{reverse("clients:measure", args=[order.client_id])}"'
    assert leads in text(as_owner.get(url("show", order.number)))
    assert leads not in text(as_apprentice.get(url("show", order.number)))
