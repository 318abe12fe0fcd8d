"""The pieces as they would be with choices that are not kept: drawn at once, what moved marked, nothing written."""

import re

import pytest
from django.urls import reverse

from drafting.models import KeptDraft
from orders.garment.form import GarmentForm
from orders.models import Garment
from tests.orders.book import drafted_order, garment_of, make_order, measured_order

pytestmark = pytest.mark.django_db


def choices(garment, **changed) -> dict[str, str]:
    form = GarmentForm(garment=garment)
    return {name: form[name].initial or "" for name in form.fields} | changed


def look(client, order, **changed) -> str:
    garment = garment_of(order)
    answer = client.post(reverse("orders:look-at", args=[order.number, garment.pk]), choices(garment, **changed))
    assert answer.status_code == 200
    return answer.content.decode()


def pieces_with_moved_lines(page: str) -> set[str]:
    drawings = re.findall(r"<svg.*?</svg>", page, re.S)
    return {re.search(r'data-piece="([^"]*)"', svg)[1] for svg in drawings if 'class="moved"' in svg}


def looked(page: str) -> str:
    return re.search(r'name="looked" value="([^"]*)"', page)[1].replace("&amp;", "&")


def test_the_first_look_is_held_against_the_draft_that_stands(as_owner, hester):
    order = drafted_order(hester)
    page = look(as_owner, order, top_edge="sweetheart")
    assert "All seams meet" in page
    moved = pieces_with_moved_lines(page)
    assert "centre cup" in moved and "skirt back" not in moved
    assert "top of the centre cup" in page


def test_the_next_look_marks_only_what_the_last_choice_moved(as_owner, hester):
    order = drafted_order(hester)
    first = look(as_owner, order, top_edge="sweetheart")
    second = look(as_owner, order, top_edge="sweetheart", skirt_length="42", looked=looked(first))
    assert pieces_with_moved_lines(second) == {"skirt front", "skirt back"}


def test_a_look_needs_no_draft_only_measures(as_owner, hester):
    page = look(as_owner, measured_order(hester))
    assert page.count("<svg") > 5
    assert pieces_with_moved_lines(page) == set()


def test_nothing_is_kept(as_owner, hester):
    order = drafted_order(hester)
    before = Garment.objects.values().get(order=order), KeptDraft.objects.count()
    look(as_owner, order, top_edge="v", skirt_kind="none")
    assert (Garment.objects.values().get(order=order), KeptDraft.objects.count()) == before


def test_what_cant_be_drawn_is_said_and_the_last_drawing_stays(as_owner, hester):
    order = drafted_order(hester)
    first = look(as_owner, order, top_edge="sweetheart")
    page = look(as_owner, order, top_edge="sweetheart", skirt_length="5", looked=looked(first))
    assert "Not drawn" in page and "above the hip line" in page
    assert page.count('data-piece="centre cup"') == 1
    page = look(as_owner, order, skirt_length="5 yarns", looked=looked(first))
    assert "Skirt length from the waist" in page and "5 yarns" in page
    assert page.count('data-piece="centre cup"') == 1


def test_a_client_who_is_not_measured_is_named(as_owner, hester):
    assert "is not measured yet" in look(as_owner, make_order(hester))


def test_a_made_up_query_for_the_last_look_is_no_harm(as_owner, hester):
    page = look(as_owner, drafted_order(hester), looked="skirt_length=%ff&fit=<script>&rule_let_out=x" * 50)
    assert "<script>" not in page and "All seams meet" in page
