"""A spoiled piece, tapped on its lay; a seam that saves cloth; leftovers as the trade says them."""

import re

import pytest
from django.urls import reverse
from shapely import Polygon

from orders.cloth.laying import answer_now, drafts_of
from orders.cloth.market import market_list
from orders.cloth.miscut import away
from orders.cloth.what_helps import remedies
from orders.models import Cloth, KeptLay, SpoiledPiece
from orders.work.cutting_table import table_shown, tick
from tests.orders.book import cut_order, drafted_order, whole


def text(answer) -> str:
    return answer.content.decode()


@pytest.fixture
def order(hester):
    order = drafted_order(hester)
    answer_now(order, order.cloths.all())
    return order


def kept_of(order, cloth: str) -> KeptLay:
    return KeptLay.objects.get(draft=order.garments.get().draft, lay__cloth=cloth)


def page(browser, order, **asked) -> str:
    return text(browser.get(reverse("orders:miscut", args=[order.number, kept_of(order, "outside cloth").pk]), asked))


def on_hand(order, mm) -> None:
    order.cloths.filter(name="outside cloth").update(on_hand_mm=mm, on_hand_written=f"{mm} mm")


def test_every_piece_of_the_lay_can_be_tapped(as_apprentice, order):
    shown = page(as_apprentice, order)
    for placed in kept_of(order, "outside cloth").lay["placed"]:
        assert f"?piece={placed['piece'].replace(' ', '+')}" in shown and f"<option>{placed['piece']}</option>" in shown
    assert "£" not in shown and "style=" not in shown


def test_with_cloth_to_spare_the_piece_is_cut_again_whole(as_seamstress, order):
    on_hand(order, 6000)
    shown = page(as_seamstress, order, piece="centre cup")
    assert "Centre cup can be cut again, whole." in shown
    assert re.search(r"centre cup: ([^.]+ from|at) the cut end, ([^.]+ from|at) the lower selvedge", shown)
    assert "lay-flaw" in shown and shown.count("lay-cut") >= 6  # what is cut already keeps its number


def test_with_nothing_left_it_says_so_and_does_not_promise(as_seamstress, order):
    on_hand(order, kept_of(order, "outside cloth").lay["needs"])
    shown = page(as_seamstress, order, piece="skirt front")
    assert "can’t be cut again" in shown or "No place was found for skirt front" in shown
    assert "can be cut again, " not in shown and "From new cloth of this width it takes " in shown


def test_what_is_still_to_be_cut_must_fit_too(as_seamstress, order):
    on_hand(order, kept_of(order, "outside cloth").lay["needs"] + 500)
    asked = {"piece": "centre cup", "told": "1", "uncut": ["skirt front", "skirt back"]}
    shown = page(as_seamstress, order, **asked)
    assert shown.count('name="uncut"') >= 2 and len(re.findall(r'name="uncut" value="skirt \w+" checked', shown)) == 2
    assert "can be cut again" in shown
    assert "stays where it lies" in shown or "laid anew" in shown


def test_pieces_ticked_at_the_table_are_cut_and_the_others_still_to_be(as_seamstress, hester):
    order = cut_order(hester)
    answer_now(order, order.cloths.all())
    garment = order.garments.get()
    cloth = next(each for each in table_shown(order)[0].cloths if each.name == "Outside cloth")
    tick(garment=garment, key=cloth.pieces[0].key, by=hester)
    shown = page(as_seamstress, order, piece="skirt front")
    waiting = set(re.findall(r'name="uncut" value="([^"]+)" checked', shown))
    assert waiting and cloth.pieces[0].name.casefold() not in waiting


def test_of_a_pair_it_asks_which(as_seamstress, order):
    on_hand(order, 6000)
    assert "its mirror image" in page(as_seamstress, order, piece="skirt back")
    assert "its mirror image" not in page(as_seamstress, order, piece="skirt front")
    both = page(as_seamstress, order, piece="skirt back", which="both")
    assert both.count("skirt back: ") == 2


def test_a_cut_order_can_be_asked_too(as_seamstress, hester):
    order = cut_order(hester)
    answer_now(order, order.cloths.all())
    on_hand(order, 6000)
    assert "can be cut again, whole" in page(as_seamstress, order, piece="centre cup")


def test_nonsense_in_the_address_is_passed_over(as_seamstress, order):
    assert "Tap the piece" in page(as_seamstress, order, piece="the moon", which="all")


def test_a_lay_of_another_order_is_not_found(as_seamstress, order, hester):
    other = drafted_order(hester)
    address = reverse("orders:miscut", args=[other.number, kept_of(order, "outside cloth").pk])
    assert as_seamstress.get(address).status_code == 404


def test_a_seam_in_the_lining_is_among_what_helps_with_its_figure(order):
    drafts = drafts_of(whole(order).garments)
    lining = next(cloth for cloth in order.cloths.all() if "lining" in cloth.used_for)
    seams = [each for each in remedies(drafts, lining) if each.change.startswith("Piece the ")]
    assert len(seams) == 2 and all(each.needs for each in seams)
    kept = [lay for lay in KeptLay.objects.all() if lay.lay and any(", upper part" in p["piece"] for p in lay.lay["placed"])]
    assert kept


def test_no_seam_is_proposed_where_it_would_show(order):
    drafts = drafts_of(whole(order).garments)
    outside = order.cloths.get(name="outside cloth")
    assert not any("skirt" in each.change for each in remedies(drafts, outside))


def test_what_is_left_is_told_by_length_and_width(as_owner, order):
    cloth = order.cloths.get(name="outside cloth")
    Cloth.objects.filter(pk=cloth.pk).update(on_hand_mm=cloth.needs_mm + 600, on_hand_written="3 yd")
    shown = text(as_owner.get(reverse("orders:lays", args=[order.number])))
    assert re.search(r"⅝\u00a0yd, \d+\S*\u00a0in wide", shown)


def keep(browser, order, **asked):
    found = re.search(r'name="found" value="([^"]+)"', page(browser, order, **asked)).group(1)
    return browser.post(reverse("orders:keep-spoiled", args=[order.number, order.garments.get().pk]), {"found": found}, follow=True)


def test_a_spoiled_piece_is_kept_with_who_and_how_and_stands_on_the_table(as_apprentice, order, pim):
    on_hand(order, 6000)
    shown = text(keep(as_apprentice, order, piece="skirt back", which="mirrored"))
    assert "Skirt back, to cut again" in shown and "its mirror image, whole" in shown and "1 to cut again" in shown
    kept = SpoiledPiece.objects.get()
    assert (kept.by, kept.how, kept.lay["cloth"]) == (pim, "", "outside cloth")
    assert reverse("orders:spoiled-place", args=[order.number, kept.pk]) in shown
    keep(as_apprentice, order, piece="skirt back", which="mirrored")
    assert SpoiledPiece.objects.count() == 1


def test_what_is_left_does_not_give_the_same_place_twice(as_seamstress, order):
    on_hand(order, 6000)
    keep(as_seamstress, order, piece="skirt front")
    first = Polygon(SpoiledPiece.objects.get().lay["placed"][0]["outline"])
    keep(as_seamstress, order, piece="skirt back", which="drawn")
    [second] = SpoiledPiece.objects.last().lay["placed"]
    assert first.intersection(Polygon(second["outline"])).area < 1


def test_it_is_taken_back_if_wrong_and_ticked_when_cut_again(as_seamstress, hester):
    order = cut_order(hester)
    answer_now(order, order.cloths.all())
    on_hand(order, 6000)
    garment, table = order.garments.get(), reverse("orders:cutting-table", args=[order.number])
    keep(as_seamstress, order, piece="centre cup")
    [wrong] = SpoiledPiece.objects.all()
    undo = reverse("orders:undo-spoiled", args=[order.number, wrong.pk])
    for _ in range(2):
        as_seamstress.post(undo)
    assert SpoiledPiece.objects.count() == 2 and "to cut again" not in text(as_seamstress.get(table))
    keep(as_seamstress, order, piece="centre cup")
    again = SpoiledPiece.objects.that_count().get()
    as_seamstress.post(reverse("orders:cut-piece", args=[order.number, garment.pk]), {"piece": again.key, "done": "yes"})
    assert garment.cut_pieces.filter(piece=again.key).exists() and "1 to cut again" not in text(as_seamstress.get(table))
    refused = text(as_seamstress.post(reverse("orders:undo-spoiled", args=[order.number, again.pk]), follow=True))
    assert "ticked as cut again" in refused and SpoiledPiece.objects.count() == 3


def test_where_nothing_is_left_it_is_kept_for_new_cloth(as_seamstress, order):
    on_hand(order, kept_of(order, "outside cloth").lay["needs"])
    shown = text(keep(as_seamstress, order, piece="skirt front"))
    assert "from new cloth" in shown and "Print its place" not in shown


def test_today_says_what_is_to_cut_again_until_it_is_and_the_market_list_what_it_takes(as_seamstress, hester):
    order = cut_order(hester)
    answer_now(order, order.cloths.all())
    on_hand(order, 6000)
    keep(as_seamstress, order, piece="centre cup")
    today = text(as_seamstress.get("/"))
    assert "Centre cup of outside cloth was spoiled. Its place is kept on the cutting table." in today
    assert f'<a href="/orders/{order.number}/cutting/">Cut it again' in today
    assert "Centre cup of outside cloth was spoiled" in text(as_seamstress.get(f"/orders/{order.number}/"))
    on_hand(order, kept_of(order, "outside cloth").lay["needs"])
    keep(as_seamstress, order, piece="skirt front")
    assert "Skirt front of outside cloth was spoiled, and needs new cloth. 1 more to cut again." in text(as_seamstress.get("/"))
    (line,) = [line for group in market_list("in").groups for line in group.lines if line.name == "Outside cloth, 54 in wide"]
    assert line.numbers == [f"{order.number} skirt front again"] and line.total.endswith("yd")
    as_seamstress.post("/orders/market/tick/", {"line": line.name, "orders": line.ticks, "bought": "yes", "group": "cloth"})
    assert "all bought" in text(as_seamstress.get("/orders/market/"))
    for spoiled in SpoiledPiece.objects.all():
        tick(garment=order.garments.get(), key=spoiled.key, by=hester)
    assert "was spoiled" not in text(as_seamstress.get("/")) and "skirt front again" not in text(as_seamstress.get("/orders/market/"))


def test_a_place_that_was_written_by_hand_is_not_kept(as_seamstress, order):
    address = reverse("orders:keep-spoiled", args=[order.number, order.garments.get().pk])
    assert "Look for its place again" in text(as_seamstress.post(address, {"found": "skirt front"}, follow=True))
    assert not SpoiledPiece.objects.exists()


def test_a_lay_longer_than_the_cloth_is_said_never_to_have_fitted(as_seamstress, order):
    on_hand(order, kept_of(order, "outside cloth").lay["needs"] - 400)
    shown = page(as_seamstress, order, piece="centre cup")
    assert "it never fitted this cloth" in shown and "Beyond its end lie: " in shown
    assert "can be cut again, whole" not in shown and re.search(r'name="uncut" value="[^"]+" checked', shown)
    on_hand(order, 6000)
    assert "never fitted" not in page(as_seamstress, order, piece="centre cup")


def test_less_than_the_rule_shows_is_at_the_edge():
    assert away(0.7, "the cut end", "in") == away(-0.004, "the cut end", "in") == "at the cut end"
    assert away(25.4, "the cut end", "in").split() == ["1", "in", "from", "the", "cut", "end"]
