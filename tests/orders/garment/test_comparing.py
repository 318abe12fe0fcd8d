"""Measured again after the cut: what the order says, and the page of old over new."""

import re

import pytest
from django.urls import reverse
from django.utils import timezone

from orders.demo.cast import CLIENTS
from orders.garment.comparing import moved_measures, since_cut
from orders.garment.making_draft import make_draft
from orders.models import Garment
from tests.clients.book import measured
from tests.orders.book import cut_order, days, drafted_order, garment_of, whole


def grown(order, by, **inches: float):
    """The client is measured again today, with some measures larger by so many inches."""
    taken = dict(CLIENTS["ines"].written_before())
    used = garment_of(order).measuring.lengths()
    for key, more in inches.items():
        taken[key] = f"{float(used[key]) / 25.4 + more:.3f}"
    return measured(order.client, by, on=timezone.localdate(), **taken)


def page(browser, order) -> str:
    return browser.get(order.get_absolute_url()).content.decode()


def compared(browser, order, **asked) -> str:
    return browser.get(reverse("orders:compare", args=[order.number, garment_of(order).pk]), asked).content.decode()


@pytest.fixture
def cut(hester):
    return cut_order(hester)


def test_a_waist_half_an_inch_larger_than_when_it_was_cut_is_taken_by_the_let_out(as_seamstress, cut, hester):
    newest = grown(cut, hester, waist=0.625)
    since = since_cut(garment_of(cut), newest)
    assert since.comparison.answer == "let out" and since.is_worth_saying and not since.is_outgrown
    told = page(as_seamstress, cut)
    assert "The let-out takes it" in told and "waist +" in told
    assert reverse("orders:compare", args=[cut.number, garment_of(cut).pk]) in told


def test_an_outgrown_let_out_names_the_pieces_to_cut_again(as_seamstress, cut, hester):
    grown(cut, hester, waist=4.5)
    told = page(as_seamstress, cut)
    assert "Cut these" in told or "Cut this one" in told
    assert "band" in told.split("again: ")[1].split(".")[0]
    over = compared(as_seamstress, cut)
    assert "cut again" in over and "line-new" in over


def test_less_than_the_tapes_noise_is_not_worth_saying(as_seamstress, cut, hester):
    newest = grown(cut, hester, waist=0.25)
    assert moved_measures(garment_of(cut), newest) and not since_cut(garment_of(cut), newest).is_worth_saying
    assert "The let-out takes it" not in page(as_seamstress, cut)


def test_how_much_is_noise_is_the_houses_to_say(cut, hester, salt_lane):
    salt_lane.house_rules = {"tape_noise": "1/8 in"}
    salt_lane.save()
    assert since_cut(garment_of(cut), grown(cut, hester, waist=0.25)).is_worth_saying


def test_less_than_noise_is_said_all_the_same_where_the_let_out_does_not_hold_it(hester, salt_lane):
    salt_lane.house_rules = {"let_out": "1/4 in", "least_allowance": "1/4 in"}
    salt_lane.save()
    order = cut_order(hester)
    since = since_cut(garment_of(order), grown(order, hester, waist=0.375))
    assert not since.told and since.is_outgrown and since.is_worth_saying


def test_measures_that_this_garment_does_not_use_say_nothing(cut, hester):
    assert since_cut(garment_of(cut), grown(cut, hester)) is None


def test_measures_of_which_nothing_can_be_drafted_say_so(as_seamstress, cut, hester):
    grown(cut, hester, bust=-8)
    assert "no draft can be made of it" in page(as_seamstress, cut)
    assert as_seamstress.get(reverse("orders:compare", args=[cut.number, garment_of(cut).pk])).status_code == 422


def test_what_was_cut_stays_as_it_was(as_seamstress, cut, hester):
    before = garment_of(cut).cut_draft
    grown(cut, hester, waist=3)
    compared(as_seamstress, cut)
    after = garment_of(cut).cut_draft
    assert after.digest == before.digest and after.is_unchanged
    assert Garment.objects.get(order=cut).cut_draft_id == before.pk


def test_the_page_draws_each_piece_that_changed_with_the_largest_move_of_every_edge(as_apprentice, cut, hester):
    newest = grown(cut, hester, waist=1)
    changed = since_cut(garment_of(cut), newest).comparison.changed
    told = compared(as_apprentice, cut)
    assert told.count("over-drawing") == len(changed)
    assert all(f"<th scope=\"row\">{edge.name}</th>" in told for piece in changed for edge in piece.edges if abs(edge.amount) > 0.5)
    assert "As they were: " in told


def test_an_edge_that_moved_less_than_the_page_can_write_is_named_with_those_that_stayed(as_seamstress, cut, hester):
    grown(cut, hester, bust=0.25, high_bust=0.125, waist=0.5, hip=0.25)
    said = re.sub(r"<[^>]+>", "|", compared(as_seamstress, cut))
    assert "As they were" in said
    assert not re.search(r"\|\s*0\s*\|", said)


def test_two_kept_drafts_lie_over_each_other_by_their_numbers(as_seamstress, hester):
    order = drafted_order(hester)
    garment = garment_of(order)
    garment.options = garment.options | {"skirt.length": "42 in"}
    garment.keep("options", by=hester)
    make_draft(garment=garment_of(order), by=hester)
    told = compared(as_seamstress, order, old="1", new="2")
    assert "Draft 1, against draft 2" in told and "<th scope=\"row\">hem</th>" in told
    assert "centre cup" in told.split("As they were: ")[-1]


@pytest.mark.parametrize("number", ["9", "x", "-1", "99999999999999999999"])
def test_a_draft_that_there_is_not_is_passed_over(as_seamstress, cut, number):
    assert as_seamstress.get(reverse("orders:compare", args=[cut.number, garment_of(cut).pk]), {"old": number, "new": number}).status_code == 200


def test_before_the_cut_the_note_leads_to_the_pieces_too(as_seamstress, hester):
    order = drafted_order(hester)
    grown(order, hester, waist=1)
    told = page(as_seamstress, order)
    assert "Measures have changed" in told and reverse("orders:compare", args=[order.number, garment_of(order).pk]) in told
    assert "piece" in compared(as_seamstress, order)


def test_a_measuring_from_before_the_one_used_changes_nothing(hester):
    order = cut_order(hester)
    measured(order.client, hester, on=timezone.localdate() - days(400), **CLIENTS["ines"].written_before())
    assert since_cut(garment_of(order), whole(order).newest) is None
