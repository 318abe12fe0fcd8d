"""The pages of an order: what they show, what they change, and what they refuse with the typed text kept."""

from datetime import timedelta
from decimal import Decimal

import pytest
from django.urls import reverse
from django.utils import timezone

from drafting.models import KeptDraft
from orders.models import Cloth, Fitting, Order
from orders.stages import Stage
from tests.clients.book import make_client, measured
from tests.orders.book import cut_order, drafted_order, fresh, garment_of, make_order, measured_order


def url(name: str, *args) -> str:
    return reverse(f"orders:{name}", args=args)


def text(answer) -> str:
    return answer.content.decode()


def choices(garment, **changes) -> dict:
    sent = {key.replace(".", "_"): value for key, value in garment.options.items()}
    return sent | {"version": garment.version} | changes


def in_days(number: int) -> str:
    return (timezone.localdate() + timedelta(days=number)).isoformat()


def test_an_order_is_added_from_a_client(as_owner):
    client = make_client()
    sent = {"kind": "bustier-gown", "collect_on": in_days(20), "cut_on": in_days(5), "price": "£580", "deposit": "240"}
    answer = as_owner.post(url("add", client.pk), sent)
    order = Order.objects.get()
    assert answer.url == "/orders/S-001/"
    assert (order.client, order.price, order.deposit, order.stage) == (client, 580, 240, Stage.BOOKED)


def test_a_seamstress_adds_an_order_but_sets_no_price(as_seamstress):
    client = make_client()
    assert 'name="price"' not in text(as_seamstress.get(url("add", client.pk)))
    as_seamstress.post(url("add", client.pk), {"kind": "bustier-gown", "collect_on": in_days(20), "price": "580"})
    assert (Order.objects.get().price, Order.objects.get().stage) == (None, Stage.ASKED)


def test_someone_who_looks_for_a_strapless_gown_finds_it(as_owner):
    page = text(as_owner.get(url("add", make_client().pk)))
    assert "Strapless gown (bustier)" in page
    assert "<legend class=\"label\">Garment</legend>" in page


def test_an_enquiry_is_booked_on_no_day(as_owner, hester):
    order = make_order(hester, price=None)
    page = text(as_owner.get(order.get_absolute_url()))
    assert "<b>Enquiry</b>" in page
    assert "<b>Booked</b>" not in page
    assert "<b>Booked</b>" in text(as_owner.get(make_order(hester, order.client).get_absolute_url()))


def test_an_order_leads_to_its_draft_on_paper(as_owner, hester):
    order = drafted_order(hester)
    address = reverse("drafting:papers", args=[garment_of(order).draft_id])
    assert address in text(as_owner.get(order.get_absolute_url()))
    assert as_owner.get(address).status_code == 200


REFUSED = [
    ({"price": "5oo"}, "I can&#x27;t read “5oo”"),
    ({"price": "100", "deposit": "240"}, "The deposit is more than the price."),
    ({"collect_on": "soon"}, "I can&#x27;t read “soon” as a day."),
    ({"collect_on": "2020-01-01"}, "That is before the order was booked"),
    ({"cut_on": in_days(30)}, "The cutting day is after collection."),
    ({"kind": "cape"}, "choose one"),
]


@pytest.mark.parametrize("spoiled, said", REFUSED)
def test_a_new_order_that_cannot_stand_is_shown_again_as_typed(as_owner, spoiled, said):
    sent = {"kind": "bustier-gown", "collect_on": in_days(20), "price": "580", "note": "own shoes"} | spoiled
    answer = as_owner.post(url("add", make_client().pk), sent)
    assert answer.status_code == 422
    assert said in text(answer)
    assert "own shoes" in text(answer)
    for typed in spoiled.values():
        assert typed in text(answer) or typed == "cape"
    assert not Order.objects.exists()


def test_drafting_from_the_order_page(as_seamstress, hester):
    order = measured_order(hester)
    garment = garment_of(order)
    answer = as_seamstress.post(url("garment", order.number, garment.pk), choices(garment, then="draft", rule_let_out="1 1/4"))
    assert answer.status_code == 302
    page = text(as_seamstress.get(url("show", order.number)))
    assert "All seams meet" in page
    assert garment_of(order).rules == {"let_out": "1 1/4 in"}
    assert page.count('class="piece-drawing"') >= 6
    assert "&lt;svg" not in page


def test_a_choice_or_rule_that_cannot_be_read_is_kept_as_typed(as_owner, hester):
    order = measured_order(hester)
    garment = garment_of(order)
    answer = as_owner.post(url("garment", order.number, garment.pk), choices(garment, skirt_length="38 5/7", rule_hem="2 1/5"))
    assert answer.status_code == 422
    assert "I can&#x27;t read “38 5/7”" in text(answer)
    assert "I can&#x27;t read “2 1/5”" in text(answer)
    assert 'value="38 5/7"' in text(answer)
    assert garment_of(order).options == garment.options


def test_an_order_without_measures_says_so_and_leads_to_the_tape(as_owner, hester):
    order = make_order(hester)
    garment = garment_of(order)
    answer = as_owner.post(url("garment", order.number, garment.pk), choices(garment, fit="loose", then="draft"))
    assert answer.status_code == 422
    assert "Ines is not measured yet." in text(answer)
    assert reverse("clients:measure", args=[order.client_id]) in text(answer)
    assert garment_of(order).options["fit"] == "loose"
    assert not KeptDraft.objects.exists()


def test_newer_measures_are_offered_and_used(as_owner, hester):
    order = drafted_order(hester)
    newest = measured(order.client, hester)
    page = text(as_owner.get(url("show", order.number)))
    assert "Measures have changed since this draft." in page
    assert "Keep the old measures" in page
    as_owner.post(url("redraft", order.number, garment_of(order).pk), {"measuring": newest.pk})
    garment = garment_of(order)
    assert (garment.measuring, garment.draft.number) == (newest, 2)
    assert "Measures have changed" not in text(as_owner.get(url("show", order.number)))


def test_the_old_measures_can_stay(as_owner, hester):
    order = drafted_order(hester)
    newest = measured(order.client, hester)
    as_owner.post(url("keep-measures", order.number, garment_of(order).pk), {"measuring": newest.pk})
    assert "Measures have changed" not in text(as_owner.get(url("show", order.number)))
    assert garment_of(order).draft.number == 1


def test_another_clients_measures_are_never_used(as_owner, hester):
    order = drafted_order(hester)
    other = measured(make_client("Wren Achterby"), hester)
    assert as_owner.post(url("redraft", order.number, garment_of(order).pk), {"measuring": other.pk}).status_code == 404
    assert garment_of(order).draft.number == 1


def test_the_owner_signs_off_and_the_apprentice_cuts(as_owner, as_apprentice, hester):
    order = drafted_order(hester)
    assert "Sign off for cutting" in text(as_owner.get(url("show", order.number)))
    assert "Sign off for cutting" not in text(as_apprentice.get(url("show", order.number)))
    as_apprentice.post(url("cut", order.number))
    assert fresh(order).stage == Stage.MEASURED
    as_owner.post(url("sign-off", order.number), {"draft": garment_of(order).draft_id})
    as_apprentice.post(url("cut", order.number), {"all_the_same": "yes", "asked": hester.pk})
    assert fresh(order).stage == Stage.CUT


def test_a_cut_garments_choices_stand(as_owner, hester):
    order = cut_order(hester)
    garment = garment_of(order)
    page = text(as_owner.get(url("show", order.number)))
    assert "as it was cut on" in page
    assert f'id="garment-{garment.pk}"' not in page
    as_owner.post(url("garment", order.number, garment.pk), choices(garment, fit="loose"))
    assert garment_of(order).options == garment.options


def test_a_step_pressed_twice_is_refused_with_its_reason(as_owner, hester):
    order = cut_order(hester)
    as_owner.post(url("step", order.number, "sewn"))
    answer = as_owner.post(url("step", order.number, "sewn"), follow=True)
    assert "S-001 is sewn already." in text(answer)
    assert fresh(order).stage == Stage.SEWN
    assert as_owner.post(url("step", order.number, "burnt")).status_code == 404


def test_fittings_are_added_moved_and_done(as_seamstress, as_apprentice, hester, dunya):
    order = make_order(hester)
    as_seamstress.post(url("add-fitting", order.number), {"day": in_days(3), "time": "14:30", "by": dunya.pk, "note": "toile"})
    fitting = Fitting.objects.get()
    assert (timezone.localtime(fitting.at).hour, fitting.by) == (14, dunya)
    as_seamstress.post(
        url("fitting", order.number, fitting.pk), {"day": in_days(0), "time": "9:00", "by": "", "version": fitting.version}
    )
    as_apprentice.post(url("fitting-done", order.number, fitting.pk), {"note": "take in ¼", "ended": "finish"})
    fitting.refresh_from_db()
    assert (fitting.done_on, fitting.note) == (timezone.localdate(), "take in ¼")
    answer = as_seamstress.post(url("add-fitting", order.number), {"day": "Tuesday", "time": "noon"})
    assert answer.status_code == 422
    assert "I can&#x27;t read “Tuesday” as a day." in text(answer)
    assert "I can&#x27;t read “noon” as a time." in text(answer)


def test_cloths_are_added_and_changed(as_seamstress, hester):
    order = make_order(hester)
    outside = order.cloths.get(name="outside cloth")
    sent = {"name": "slate satin", "used_for": ["shell"], "width": "55", "on_hand": "4 1/2", "whose": "client", "version": outside.version}
    as_seamstress.post(url("cloth", order.number, outside.pk), sent)
    outside.refresh_from_db()
    assert (outside.name, outside.width_mm, outside.on_hand_mm) == ("slate satin", Decimal("1397.0"), Decimal("4114.8"))
    assert "4½\u00a0yd" in text(as_seamstress.get(url("show", order.number)))
    as_seamstress.post(url("add-cloth", order.number), {"name": "net", "used_for": ["sleeve"], "width": "1.5 m", "whose": "workshop"})
    assert Cloth.objects.get(name="net").width_mm == 1500


@pytest.mark.parametrize("spoiled, said", [
    ({"on_hand": "1 1/2yrd"}, "I can&#x27;t read “1 1/2yrd”. Write yards as 1 1/2 yd, metres as 1.4 m."),
    ({"width": "1"}, "leaves nothing between the selvedges"),
    ({"name": "lining"}, "“lining” stands on this order already."),
    ({"used_for": ["lining"]}, "Lining: already cut from lining."),
    ({"used_for": []}, "Cut from it: choose one."),
    ({"shrink_percent": "55"}, "30"),
])  # fmt: skip
def test_a_cloth_that_cannot_stand_is_shown_again(as_owner, hester, spoiled, said):
    order = make_order(hester)
    sent = {"name": "net", "used_for": ["sleeve"], "width": "45", "whose": "workshop"} | spoiled
    answer = as_owner.post(url("add-cloth", order.number), sent)
    assert answer.status_code == 422
    assert said in text(answer)
    assert Cloth.objects.count() == 4


def test_a_cloth_that_was_cut_stays_on_the_order(as_owner, hester):
    order = cut_order(hester)
    as_owner.post(url("remove-cloth", order.number, order.cloths.first().pk))
    assert order.cloths.count() == 4
    other = make_order(hester, make_client())
    as_owner.post(url("remove-cloth", other.number, other.cloths.first().pk))
    assert other.cloths.count() == 3


def test_calling_off_needs_a_reason(as_owner, hester):
    order = make_order(hester)
    assert as_owner.post(url("call-off", order.number), {"why": ""}).status_code == 422
    as_owner.post(url("call-off", order.number), {"why": "moved away"})
    assert fresh(order).stage == Stage.CALLED_OFF
    assert "moved away" in text(as_owner.get(url("show", order.number)))


def test_the_list_finds_by_name_garment_and_number(as_owner, hester):
    make_order(hester, make_client("Ọláyinká Adéfarẹ"))
    make_order(hester, make_client("Bea Tollard"))
    for words, found in (("olayinka", "S-001"), ("S-002", "S-002"), ("tollard BUSTIER", "S-002")):
        page = text(as_owner.get(url("list"), {"q": words}))
        assert found in page
        assert page.count('class="tape-row"') == 1
    for words in ("cape", "tollard%", "_"):
        assert f"No order has “{words}” in its name" in text(as_owner.get(url("list"), {"q": words}))


def test_an_unknown_order_or_day_is_not_found(as_owner):
    assert as_owner.get(url("show", "S-999")).status_code == 404
    assert as_owner.get(url("day", "2026-02-30")).status_code == 404
