"""What a cloth needs, found from its lay: kept, compared with what is on hand, and never claimed for another cloth."""

from decimal import Decimal

import pytest
from django.utils import timezone
from shapely.geometry import Polygon

from orders.cloth.laying import answer, draft_keys, drafts_of, laid
from orders.cloth.rows import cannot_fit, cloths_shown
from orders.cloth.what_helps import changed, remedies, to_buy
from orders.cutting_concerns import Cut
from orders.cutting_concerns import cloths as concern
from orders.garment.making_draft import make_draft
from orders.models import Cloth, KeptLay
from tests.orders.book import drafted_order, fresh, garment_of, whole
from workshop.length import parse_length

YARD = Decimal("914.4")  # international yard and pound agreement, 1959


@pytest.fixture
def order(hester):
    return drafted_order(hester)


def cloth_of(order, name="outside cloth", **changes) -> Cloth:
    Cloth.objects.filter(order=order, name=name).update(**changes)
    return Cloth.objects.get(order=order, name=name)


def on_hand(written: str) -> dict:
    return {"on_hand_written": written, "on_hand_mm": parse_length(written, "in")}


def answered(order) -> dict[str, Cloth]:
    seen = whole(order)
    answer(drafts_of(seen.garments), seen.cloths)
    return {cloth.name: cloth for cloth in Cloth.objects.filter(order=order)}


def flags(order) -> dict[str, str]:
    seen = whole(order)
    return {row.cloth.name: row.flag for row in cloths_shown(seen.order, seen.cloths, draft_keys(seen.garments)).rows}


def test_every_cloth_of_an_order_is_answered_and_its_lay_kept(order):
    found = answered(order)
    assert all(cloth.needs_mm > 0 and cloth.needs_mm >= cloth.at_least_mm for cloth in found.values())
    assert KeptLay.objects.count() == len(found) == 4
    assert all(cloth.is_laid_for([garment_of(order).draft_id]) for cloth in found.values())


def test_the_pieces_of_a_kept_lay_do_not_lie_on_each_other_or_off_the_cloth(order):
    """Checked with Shapely, which the lay itself was not made with; 0.1 mm² is less than a hair's crossing."""
    answered(order)
    for kept in KeptLay.objects.all():
        shapes = [Polygon(placed["outline"]) for placed in kept.lay["placed"]]
        for number, shape in enumerate(shapes):
            left, first, right, last = shape.bounds
            assert left >= -0.05 and first >= -0.05
            assert right <= kept.lay["usable"] + 0.05 and last <= kept.lay["length"] + 0.05
            assert all(shape.intersection(other).area < 0.1 for other in shapes[:number])


def test_what_is_kept_is_not_laid_again(order):
    answered(order)
    before = list(KeptLay.objects.values_list("pk", "made_at"))
    answered(order)
    assert list(KeptLay.objects.values_list("pk", "made_at")) == before


def test_the_same_order_laid_again_comes_to_the_same_lay(made_anew, order):
    first = answered(order)
    KeptLay.objects.all().delete()
    assert {name: cloth.needs_mm for name, cloth in answered(order).items()} == {n: c.needs_mm for n, c in first.items()}


@pytest.mark.parametrize("more, flag", [("1/4 yd", "¼\u00a0yd left over"), ("1/16 yd", "just enough")])
def test_cloth_that_is_enough_says_how_much_is_left_over(order, more, flag):
    needs = answered(order)["lining"].needs_mm
    there = needs + parse_length(more, "in")
    cloth_of(order, "lining", on_hand_mm=there, on_hand_written=f"{there} mm")
    assert flags(order)["lining"] == flag


def test_what_is_on_hand_only_compares_and_lays_nothing_anew(order):
    answered(order)
    cloth_of(order, **on_hand("1 yd"))
    assert flags(order)["outside cloth"].startswith("short ")
    assert KeptLay.objects.count() == 4


def test_what_is_left_over_is_what_the_shown_figures_differ_by(order):
    """Needs are rounded up to ⅛ yd, as cloth is sold; 6 yd less that is what a dressmaker reckons. Arithmetic by hand."""
    cloth = answered(order)["outside cloth"]
    eighths = -(-cloth.needs_mm // (YARD / 8))
    cloth_of(order, **on_hand("6 yd"))
    left = 48 - eighths
    assert flags(order)["outside cloth"].startswith(f"{left // 8}")


def test_cannot_fit_is_only_said_below_the_bound(order):
    cloth = answered(order)["outside cloth"]
    between = (cloth.needs_mm + cloth.at_least_mm) / 2
    assert cloth.at_least_mm + 1 < between < cloth.needs_mm - 1
    assert not cannot_fit(changed(cloth, on_hand_mm=between))
    assert cannot_fit(changed(cloth, on_hand_mm=cloth.at_least_mm - 1))


def test_a_changed_cloth_or_a_new_draft_takes_the_old_answer_away(order, hester):
    answered(order)
    cloth_of(order, one_way=True, **on_hand("1 yd"))
    assert flags(order)["outside cloth"] == "in"
    assert not cloths_shown(order, order.cloths.all(), draft_keys([garment_of(order)])).is_known
    answered(order)
    assert flags(order)["outside cloth"].startswith("short ")
    garment = garment_of(order)
    garment.options = garment.options | {"skirt.length": "30"}
    make_draft(garment=garment, by=hester)
    assert flags(fresh(order))["outside cloth"] == "in"


def test_one_way_cloth_never_needs_less_with_its_pieces_turned(order):
    seen = whole(order)
    both, one = laid(drafts_of(seen.garments), [seen.cloths[0], changed(seen.cloths[0], one_way=True)])
    assert not any(placed["turned"] for placed in one.kept[0].lay["placed"])
    assert both.at_least <= one.at_least


def test_shrinkage_is_added_to_what_is_bought(order):
    """3 in a hundred: a yard loses an inch, so that 0.97 of what is bought must hold the lay. Common practice."""
    seen = whole(order)
    plain, shrunk = laid(drafts_of(seen.garments), [seen.cloths[0], changed(seen.cloths[0], shrink_percent=Decimal(3))])
    assert shrunk.needs == pytest.approx(plain.needs / Decimal("0.97"), abs=Decimal("0.01"))
    assert shrunk.at_least == pytest.approx(plain.at_least / Decimal("0.97"), abs=Decimal("0.01"))


def test_a_piece_wider_than_the_cloth_is_named_with_the_width_it_needs(order):
    cloth_of(order, width_written="30 in", width_mm=762)
    cloth = answered(order)["outside cloth"]
    assert cloth.needs_mm is None
    assert "skirt" in cloth.not_laid and "wider cloth" in cloth.not_laid
    assert flags(order)["outside cloth"] == "can’t be laid"


def test_a_cloth_that_nothing_is_cut_from_needs_nothing(order):
    Cloth.objects.create(order=order, name="net", used_for=["yoke"], width_written="54 in", width_mm=1371)
    net = answered(order)["net"]
    assert (net.needs_mm, net.not_laid) == (None, "")
    assert net.is_laid_for([garment_of(order).draft_id])


def test_today_says_short_only_of_an_answer_that_holds(order):
    order.cut_on = order.collect_on
    answered(order)
    order.all_garments = [garment_of(order)]
    cut = Cut(order, order.cut_on, order.all_garments)
    order.cloths_to_come = [cloth_of(order, **on_hand("1 yd"))]
    said = concern(cut, timezone.localdate())
    assert said.flag.startswith("cloth short ") and "1\u00a0yd on hand" in said.text
    order.cloths_to_come = [cloth_of(order, width_written="60 in", width_mm=1524)]
    assert concern(cut, timezone.localdate()) is None


@pytest.mark.parametrize("inches, verdict, helps", [
    (86, "2½\u00a0yd to buy, no less than now", False),  # a hair less is no less in the shop
    (80, "2¼\u00a0yd to buy instead of 2½\u00a0yd", True),
    (95, "2¾\u00a0yd to buy, more than the 2½\u00a0yd now", False),
])  # fmt: skip
def test_another_cloth_helps_where_the_shop_sells_less_of_it(hester, inches, verdict, helps):
    """By hand: 87⅝ in is sold as 2½ yd, as is 86; 80 in as 2¼, 95 as 2¾."""
    found = to_buy("Cloth 60 in wide", Decimal(inches) * Decimal("25.4"), Decimal("2225.675"))
    assert (found.verdict, found.helps) == (verdict, helps)


def test_what_would_help_is_laid_not_guessed(order):
    answered(order)
    cloth = cloth_of(order, one_way=True, **on_hand("1 1/2 yd"))
    cloth = answered(order)["outside cloth"]
    found = {each.change: each for each in remedies(drafts_of(whole(order).garments), cloth)}
    assert {"Lay it open, in one layer", "Cloth 60\u00a0in wide", "Cloth 36\u00a0in wide"} <= set(found)
    assert any("both ways" in change for change in found)
    for each in found.values():
        if each.helps and "to buy" not in each.verdict:
            assert each.needs <= cloth.on_hand_mm + Decimal("0.05")
        if each.verdict.startswith("still short"):
            assert each.needs > cloth.on_hand_mm
    folded, opened = (next(each for change, each in found.items() if change.startswith(words)) for words in ("Lay it both", "Lay it open, in one layer, and both"))
    assert opened.needs <= folded.needs and found["Lay it open, in one layer"].needs <= cloth.needs_mm
    assert KeptLay.objects.count() > 8  # each figure stands on a lay that was made
