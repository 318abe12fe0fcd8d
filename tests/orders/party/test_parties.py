"""A wedding of five: shared days and cloth, who pays for whom, a dropout, a latecomer; and the group's sheet."""

from datetime import timedelta
from decimal import Decimal

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from orders.calling_off import call_off
from orders.models import Order, Party
from orders.money import payments
from orders.party import parties
from orders.stages import Stage
from tests.clients.book import make_client, measured
from tests.orders.book import fresh


def url(name: str, *args) -> str:
    return reverse(f"orders:{name}", args=args)


def text(answer) -> str:
    return answer.content.decode()


def on(number: int):
    return timezone.localdate() + timedelta(days=number)


NAMES = ("Maud Ferring", "Lotte Ferring", "Ọláyinká Adéfarẹ", "Wren Achterby", "Bea Tollard")


@pytest.fixture
def wedding(hester) -> Party:
    party = Party.objects.create(
        name="Wedding Ferring", occasion_on=on(60), cut_on=on(20), collect_on=on(56), cloth="rose crepe", width_written="60 in",
        width_mm=Decimal(1524), dye_lot="417",
    )  # fmt: skip
    for name in NAMES:
        join(party, hester, name)
    return party


def join(party: Party, by, name: str, **changes) -> Order:
    given = {"kind": "fitted-dress", "price": Decimal(300), "deposit": Decimal(150), "pays_own": False} | changes
    return parties.join(party=party, client=make_client(name), by=by, today=timezone.localdate(), **given)


def sheet(party: Party) -> parties.GroupSheet:
    return parties.sheet_of(party, with_money=True)


def test_five_are_booked_each_with_an_order_of_her_own_on_the_shared_cloth(wedding):
    orders = list(wedding.orders.order_by("serial"))
    assert [order.client.name for order in orders] == list(NAMES)
    assert {(order.cut_on, order.collect_on, order.occasion_on, order.stage) for order in orders} == {(on(20), on(56), on(60), Stage.BOOKED)}
    assert {order.cloths.get(name="rose crepe").width_mm for order in orders} == {1524}
    assert sheet(wedding).said == "5 orders: 5 unmeasured, 5 without deposit, 5 uncut."


def test_the_sheet_says_who_is_unmeasured_unpaid_and_uncut(wedding, hester, as_owner):
    first, second, *_ = wedding.orders.order_by("serial")
    measured(first.client, hester)
    first.garments.update(measuring=first.client.measurings.get())
    payments.take(order=first, kind="deposit", amount=Decimal(150), method="cash", by=hester, taken_on=on(0))
    Order.objects.filter(pk=second.pk).update(stage=Stage.CUT)
    found = sheet(wedding)
    assert found.said == "5 orders: 4 unmeasured, 3 without deposit, 4 uncut."
    assert [(m.is_measured, bool(m.deposit_missing), m.is_cut) for m in found.members[:3]] == [(True, False, False), (False, False, True), (False, True, False)]
    page = text(as_owner.get(wedding.get_absolute_url()))
    assert "rose crepe, 60" in page and "lot 417" in page and "deposit £150" in page


def test_one_pays_for_all_but_who_pays_alone(wedding, hester):
    bride = wedding.orders.order_by("serial").first().client
    wedding.payer = bride
    wedding.save()
    alone = join(wedding, hester, "Tamsin Pell", pays_own=True)
    payments.take(order=alone, kind="part", amount=Decimal(100), method="cash", by=hester, taken_on=on(0))
    assert [(payer.client, payer.of, payer.price, payer.balance) for payer in sheet(wedding).payers] == [
        (bride, 5, 1500, 1500), (alone.client, 1, 300, 200),
    ]  # fmt: skip


def test_who_drops_out_stays_on_the_sheet_and_is_counted_no_more(wedding, hester):
    gone = wedding.orders.order_by("serial").last()
    payments.take(order=gone, kind="deposit", amount=Decimal(150), method="cash", by=hester, taken_on=on(0))
    call_off(order=gone, why="moved away", by=hester, today=on(0), kept=Decimal(100))
    found = sheet(wedding)
    assert found.said.startswith("4 orders:")
    assert (found.members[-1].is_out, found.members[-1].balance) == (True, 0)
    assert fresh(gone).paid == 100


def test_a_latecomer_gets_the_shared_days_that_have_not_been(wedding, hester):
    Party.objects.filter(pk=wedding.pk).update(cut_on=on(-1))
    late = join(Party.objects.get(pk=wedding.pk), hester, "Priya Mandrel")
    assert (late.cut_on, late.collect_on) == (None, on(56))


def test_a_changed_day_moves_those_not_cut_that_have_no_day_of_their_own(wedding, hester):
    cut, own, *others = wedding.orders.order_by("serial")
    Order.objects.filter(pk=cut.pk).update(stage=Stage.CUT)
    own.collect_on = on(50)
    own.keep("collect_on", by=hester)
    followed = parties.change(party=Party.objects.get(pk=wedding.pk), values={"collect_on": on(58)}, by=hester)
    assert [order.pk for order in followed] == [order.pk for order in others]
    assert [fresh(order).collect_on for order in (cut, own, *others)] == [on(56), on(50), on(58), on(58), on(58)]
    assert others[0].changes.get(field="collect_on").why == "Wedding Ferring: changed for all"


def test_it_is_all_done_on_the_pages(as_seamstress, as_apprentice, hester):
    as_seamstress.post(url("add-party"), {"name": "Harbour choir", "collect_on": on(50).isoformat(), "cloth": "black wool", "width": "60"})
    party = Party.objects.get()
    as_seamstress.post(url("join", party.pk), {"name": "Maud Ferring", "kind": "skirt"})
    assert text(as_seamstress.post(url("join", party.pk), {"name": "maud ferring", "kind": "skirt"})).count("That name is in the book") >= 1
    order = party.orders.get()
    assert (order.stage, order.price) == (Stage.ASKED, None)  # a seamstress sets no price
    sent = {"name": "Harbour choir", "collect_on": on(52).isoformat(), "cloth": "black wool", "width": "60", "payer": order.client_id, "version": party.version}
    as_seamstress.post(url("change-party", party.pk), sent)
    assert fresh(order).collect_on == on(52)
    assert as_seamstress.post(url("change-party", party.pk), sent).status_code == 409
    page = text(as_apprentice.get(party.get_absolute_url()))
    assert "Maud Ferring" in page and "£" not in page and "Who pays</h2>" not in page
    assert "deposit" not in page.lower()


def test_days_of_a_party_that_cannot_be_are_shown_again(as_owner):
    answer = as_owner.post(url("add-party"), {"name": "Fair", "collect_on": on(5).isoformat(), "cut_on": on(6).isoformat(), "occasion_on": on(4).isoformat()})
    assert answer.status_code == 422
    assert "The cutting day is after collection." in text(answer) and "after the day of the occasion" in text(answer)
    assert 'value="Fair"' in text(answer)


def test_the_sheet_asks_no_more_of_twenty_than_of_five(wedding, as_owner, hester):
    def asked() -> int:
        with CaptureQueriesContext(connection) as seen:
            as_owner.get(wedding.get_absolute_url())
        return len(seen)

    few = asked()
    for number in range(15):
        join(wedding, hester, f"Singer {number}")
    assert asked() == few <= 8


def test_an_empty_party_has_nobody_and_a_lot_is_written_without_its_word(as_owner):
    as_owner.post(url("add-party"), {"name": "Harbour choir", "dye_lot": "Lot 44"})
    party = Party.objects.get()
    assert party.dye_lot == "44"
    assert sheet(party).said == "Nobody yet."


def test_the_shared_cloth_comes_in_with_the_partys_dye_lot(wedding, as_seamstress):
    order = wedding.orders.first()
    shared = order.cloths.get(name="rose crepe")
    own = order.cloths.create(name="her own velvet", used_for=["lining"], width_written="44 in", width_mm=1118)
    for cloth, lot in ((shared, "417"), (own, "")):
        form = as_seamstress.get(url("receive-cloth", order.number, cloth.pk)).context["form"]
        assert form["dye_lot"].value() == lot


def test_a_parent_who_has_no_order_pays_for_all(wedding, as_owner):
    """Typed, a name counts more than what is chosen in the list; one that stands twice in the book is asked about."""
    def sent(**more):
        wedding.refresh_from_db()
        return as_owner.post(url("change-party", wedding.pk), {"name": wedding.name, "version": wedding.version} | more)

    assert sent(payer=wedding.orders.first().client_id, payer_named="Edda Ferring").status_code == 302
    wedding.refresh_from_db()
    assert (wedding.payer.name, wedding.payer.orders.count()) == ("Edda Ferring", 0)
    assert 'selected>Edda Ferring' in text(as_owner.get(url("change-party", wedding.pk)))
    second = make_client("Edda Ferring")
    assert "stands in the book more than once" in text(sent(payer_named="edda ferring"))
    assert sent(payer=second.pk, payer_named="edda ferring").status_code == 302
    wedding.refresh_from_db()
    assert wedding.payer == second
