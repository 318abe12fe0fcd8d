"""Pieces ticked at the table on a phone: only of what was signed off, once, by whom; alone or after asking."""

import pytest
from django.urls import reverse

from orders.models import Cloth, CutPiece
from orders.stages import NotNow
from orders.work.cutting_table import table_shown, tick, untick, why_ask
from tests.orders.book import drafted_order, fresh, garment_of, signed_order


def address(order) -> str:
    return reverse("orders:cutting-table", args=[order.number])


def keys(order) -> list[str]:
    return [piece.key for table in table_shown(order) for cloth in table.cloths for piece in cloth.pieces]


def test_every_piece_of_every_cloth_stands_on_the_table_once(hester):
    order = signed_order(hester)
    found = keys(order)
    cut = [(piece["name"], cut["cloth"]) for piece in garment_of(order).draft.result["pieces"] for cut in piece["cut"]]
    assert len(found) == len(set(found)) == len(cut) > 10


def test_the_apprentice_ticks_a_piece_once_and_can_take_it_back(as_apprentice, as_owner, hester, pim):
    order = signed_order(hester)
    garment, key = garment_of(order), keys(order)[0]
    ticked = reverse("orders:cut-piece", args=[order.number, garment.pk])
    for browser in (as_apprentice, as_owner):
        browser.post(ticked, {"piece": key, "done": "yes", "all_the_same": "yes"})
    assert [(cut.piece, cut.by) for cut in CutPiece.objects.all()] == [(key, pim)]
    assert "Cut by Pim" in as_owner.get(address(order)).content.decode()
    as_apprentice.post(ticked, {"piece": key, "done": "no"})
    assert not CutPiece.objects.exists()


def test_nothing_is_ticked_before_the_sign_off_nor_what_is_not_of_the_draft(as_apprentice, hester):
    order = drafted_order(hester)
    with pytest.raises(NotNow, match="not signed off"):
        tick(garment=garment_of(order), key=keys(order)[0], by=hester)
    assert "Not signed off yet." in as_apprentice.get(address(order)).content.decode()
    signed = signed_order(hester)
    for act in (lambda garment: tick(garment=garment, key="cape", by=hester), lambda garment: untick(garment=garment, key="cape")):
        with pytest.raises(NotNow, match="not of this draft"):
            act(garment_of(signed))


def test_ticks_belong_to_the_draft_that_was_followed(hester):
    from orders.garment.making_draft import make_draft

    order = signed_order(hester)
    tick(garment=garment_of(order), key=keys(order)[0], by=hester)
    garment = garment_of(order)
    garment.rules = {"hem": "3 in"}
    garment.keep("rules", by=hester)
    make_draft(garment=garment_of(order), by=hester)
    assert table_shown(fresh(order))[0].left == len(keys(order))


@pytest.mark.parametrize("changes, begins", [
    ({"used_for": ["lining"]}, ""),
    ({"used_for": ["lining"], "on_hand_mm": None}, "It is not on the shelf"),
    ({"used_for": ["stay"], "whose": "client"}, "It is the client"),
    ({"used_for": ["lining"], "needs_mm": 5000}, "There is too little"),
    ({"used_for": ["shell"]}, "Outside cloth"),
    ({"used_for": ["shell"], "one_way": True}, "It runs one way"),
])  # fmt: skip
def test_what_may_be_cut_alone_and_where_to_ask_first(changes, begins):
    cloth = Cloth(**{"name": "x", "on_hand_mm": 4000} | changes)
    assert why_ask(cloth).startswith(begins) and bool(why_ask(cloth)) == bool(begins)


def test_a_whole_cut_with_some_pieces_ticked_asks_after_the_others_once(as_owner, hester):
    order = signed_order(hester)
    tick(garment=garment_of(order), key=keys(order)[0], by=hester)
    cut, left = reverse("orders:cut", args=[order.number]), len(keys(order)) - 1
    assert f"{left} of {left + 1} pieces are not ticked." in as_owner.post(cut).content.decode()
    assert fresh(order).stage == "measured"
    as_owner.post(cut, {"all_the_same": "yes"})
    assert fresh(order).stage == "cut"
    assert f"{left} pieces not ticked." in as_owner.get(address(order)).content.decode()


def test_the_apprentice_says_whom_she_asked_before_the_first_piece_of_an_outside_cloth(as_apprentice, hester):
    order = signed_order(hester)
    outside = next(cloth for cloth in table_shown(order)[0].cloths if cloth.ask)
    ticked = {"piece": outside.pieces[0].key, "done": "yes"}
    to = reverse("orders:cut-piece", args=[order.number, garment_of(order).pk])
    assert f"I asked {hester}" in as_apprentice.post(to, ticked).content.decode()
    assert not CutPiece.objects.exists()
    as_apprentice.post(to, ticked | {"all_the_same": "yes", "asked": hester.pk})
    as_apprentice.post(to, {"piece": outside.pieces[1].key, "done": "yes"})
    assert CutPiece.objects.count() == 2
    assert order.changes.get(field="asked_first").after == str(hester)


def test_the_apprentice_is_asked_before_a_whole_cut_and_is_never_held_up(as_apprentice, hester):
    order = signed_order(hester)
    cut = reverse("orders:cut", args=[order.number])
    assert "ask first" in as_apprentice.post(cut).content.decode()
    as_apprentice.post(cut, {"all_the_same": "yes", "asked": ""})
    assert fresh(order).stage == "cut"
    assert set(order.changes.filter(field="asked_first").values_list("after", flat=True)) == {"nobody"}
