"""A block that fitted: a new garment begins from an earlier one of hers, or from the last of its kind that fitted well."""

import pytest
from django.urls import reverse
from django.utils import timezone

from orders.booking import take_order
from orders.garment.beginning import beginnings, note_fit
from orders.garment.making_draft import make_draft
from orders.garment.order_file import order_file
from orders.models import Garment, Order
from orders.stages import NotNow
from tests.clients.book import fit_note, make_client, measured
from tests.orders.book import cut_order, drafted_order, garment_of, make_order


def fitted(order, by) -> Garment:
    garment = garment_of(order)
    note_fit(garment=garment, fits=True, by=by, today=timezone.localdate())
    return garment_of(order)


def marked(by, **rules) -> Garment:
    """A cut gown with choices and a house rule of its own, which fitted well."""
    order = cut_order(by)
    garment = garment_of(order)
    Garment.objects.filter(pk=garment.pk).update(options=garment.options | {"top_edge": "sweetheart", "skirt.length": "41 in"}, rules={"let_out": "1 1/4"} | rules)
    return fitted(order, by)


def test_only_what_is_cut_can_fit(hester):
    with pytest.raises(NotNow):
        note_fit(garment=garment_of(drafted_order(hester)), fits=True, by=hester, today=timezone.localdate())


def test_a_seamstress_marks_it_and_takes_it_back(as_seamstress, hester):
    order = cut_order(hester)
    address = reverse("orders:fits-well", args=[order.number, garment_of(order).pk])
    assert "It fits well" in as_seamstress.get(order.get_absolute_url()).content.decode()
    as_seamstress.post(address, {"fits": "yes"})
    assert garment_of(order).fitted_well_on == timezone.localdate()
    assert "fitted well" in as_seamstress.get(order.get_absolute_url()).content.decode()
    as_seamstress.post(address, {"fits": "no"})
    assert garment_of(order).fitted_well_on is None


def test_an_apprentice_is_not_asked(as_apprentice, hester):
    order = cut_order(hester)
    assert "It fits well" not in as_apprentice.get(order.get_absolute_url()).content.decode()


def test_a_new_garment_begins_with_the_choices_and_rules_of_an_earlier_one_of_hers(as_owner, hester):
    earlier = marked(hester)
    client = earlier.order.client
    page = as_owner.get(reverse("orders:add", args=[client.pk])).content.decode()
    assert f"({earlier.order.number}, fitted well" in page
    as_owner.post(reverse("orders:add", args=[client.pk]), {"kind": "skirt", "begin_from": earlier.pk})
    made = garment_of(Order.objects.latest("serial"))
    assert (made.kind, made.options["top_edge"], made.rules) == (earlier.kind, "sweetheart", {"let_out": "1 1/4"})
    assert made.started_from_id == earlier.pk and made.fitted_well_on is None and made.draft is None
    assert f"Began from <a href=\"{earlier.order.get_absolute_url()}\">" in as_owner.get(made.order.get_absolute_url()).content.decode()


def test_her_fit_notes_go_into_its_draft(hester):
    earlier = marked(hester)
    fit_note(earlier.order.client, hester)
    order = take_order(client=earlier.order.client, kind="skirt", by=hester, booked_on=timezone.localdate(), begin_from=earlier)
    file = order_file(garment_of(order))
    assert [note["place"] for note in file["fit_notes"]] == ["side waist"]
    assert file["garment"]["rules"]["let_out"] == "1 1/4"
    assert make_draft(garment=garment_of(order), by=hester).order_file["garment"]["top_edge"] == "sweetheart"


def test_another_client_can_begin_from_the_last_of_that_kind_that_fitted_well(hester):
    first, second = marked(hester), marked(hester)
    other = make_client(name="Somebody Else")
    assert [(each.garment.pk, each.is_hers) for each in beginnings(other)] == [(second.pk, False)]
    assert first.pk not in [each.garment.pk for each in beginnings(other)]


def test_what_fitted_another_brings_none_of_her_fit_notes(hester):
    earlier = marked(hester)
    fit_note(earlier.order.client, hester)
    other = make_client(name="Somebody Else")
    measured(other, hester)
    order = take_order(client=other, kind="skirt", by=hester, booked_on=timezone.localdate(), begin_from=earlier)
    assert "fit_notes" not in order_file(garment_of(order))


def test_hers_that_fitted_well_come_first_and_what_was_never_drafted_does_not_come(hester):
    good = marked(hester)
    plain = make_order(hester, good.order.client)
    assert [each.garment.pk for each in beginnings(good.order.client)] == [good.pk]
    measured(good.order.client, hester)
    make_draft(garment=garment_of(plain), by=hester)
    assert [each.garment.pk for each in beginnings(good.order.client)] == [good.pk, garment_of(plain).pk]


def test_a_new_client_of_a_new_workshop_is_not_asked(as_owner, hester):
    page = as_owner.get(reverse("orders:add", args=[make_client().pk])).content.decode()
    assert "Begin from" not in page


def test_a_garment_that_is_not_offered_can_not_be_begun_from(as_owner, hester):
    earlier, other = marked(hester), make_client(name="Somebody Else")
    strange = garment_of(make_order(hester))
    answer = as_owner.post(reverse("orders:add", args=[other.pk]), {"kind": "skirt", "begin_from": strange.pk})
    assert answer.status_code == 422 and Order.objects.filter(client=other).count() == 0 and earlier
