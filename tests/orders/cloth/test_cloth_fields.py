"""What a print, a flaw and a missing corner do to a cloth, from its form to its lay."""

import pytest
from django.urls import reverse
from shapely.geometry import Point, Polygon, box

from orders.cloth.fields import flaw, written_again
from orders.cloth.laying import answer_now
from orders.models import KeptLay
from tests.orders.book import drafted_order
from tests.orders.cloth.test_lays_page import sent


@pytest.fixture
def order(hester):
    return drafted_order(hester)


@pytest.fixture
def cloth(order):
    return order.cloths.get(name="outside cloth")


def post(browser, order, cloth, **changes):
    return browser.post(reverse("orders:cloth", args=[order.number, cloth.pk]), sent(cloth, on_hand="", **changes))


def lay_of(cloth) -> dict:
    return KeptLay.objects.filter(lay__cloth=cloth.name).order_by("pk").last().lay


def test_the_repeat_and_the_matched_pieces_reach_the_lay(as_owner, order, cloth):
    names = ["skirt front", "skirt back"]
    assert post(as_owner, order, cloth, repeat="8", match=names).status_code == 302
    cloth.refresh_from_db()
    assert cloth.prints == {"repeat": "8 in", "match": names}
    lay = lay_of(cloth)
    assert lay["print"]["repeat"] == pytest.approx(203.2)
    tops = [min(y for _, y in placed["outline"]) for placed in lay["placed"] if placed["piece"] in names]
    # Every matched piece stands on the same point of the repeat: their origins do, whole repeats apart.
    assert len(tops) >= 2 and lay["needs"] > lay["length"] + 203  # a repeat more, since where the print begins is unknown


def test_a_motif_stands_where_it_was_asked_on_the_piece_and_on_its_mirror_image(as_owner, order, cloth):
    asked = {"repeat": "8", "repeat_across": "6", "first_motif": "2", "motifs": "skirt back, 3, 10", "layout": "open"}
    assert post(as_owner, order, cloth, **asked).status_code == 302
    lay = lay_of(cloth)
    backs = [placed for placed in lay["placed"] if placed["piece"] == "skirt back"]
    assert sorted(placed["mirrored"] for placed in backs) == [False, True]
    for placed in backs:
        x, y = placed["motif"]
        assert Polygon(placed["outline"]).contains(Point(x, y))
        assert (x - 50.8 + 1) % 152.4 == pytest.approx(1, abs=0.05)
        assert (y - lay["print"]["start"] + 1) % 203.2 == pytest.approx(1, abs=0.05)
    page = as_owner.get(reverse("orders:lays", args=[order.number])).content.decode()
    assert page.count('class="lay-motif"') == 2 and "along," in page
    assert "skirt back, 3, 10" in as_owner.get(reverse("orders:cloth", args=[order.number, cloth.pk])).content.decode()


@pytest.mark.parametrize("typed", ["skirt back, 3", "skirt bakc", "skirt back, 3, x", "skirt back\nSkirt back"])
def test_a_motif_that_cannot_be_read_is_said_and_nothing_typed_is_lost(as_owner, order, cloth, typed):
    answer = post(as_owner, order, cloth, repeat="8", motifs=typed)
    assert answer.status_code == 422 and typed.splitlines()[0] in answer.content.decode()


def test_a_motif_needs_a_repeat(as_owner, order, cloth):
    answer = post(as_owner, order, cloth, motifs="skirt back")
    assert answer.status_code == 422 and "how often the print repeats" in answer.content.decode()


def test_nothing_lies_on_a_flaw_or_where_a_corner_is_missing(as_owner, order, cloth):
    assert post(as_owner, order, cloth, layout="open", flaws="0, 0, 12, 8\n30, 20, 3, 2 1/2").status_code == 302
    corner, hole = box(0, 0, 304.8, 203.2), box(762, 508, 838.2, 571.5)
    for placed in lay_of(cloth)["placed"]:
        shape = Polygon(placed["outline"])
        assert shape.intersection(corner).area < 1 and shape.intersection(hole).area < 1


def test_what_was_typed_stands_in_the_form_again(as_owner, order, cloth):
    post(as_owner, order, cloth, flaws="12, 40, 3, 2½", selvedge="3/4", match=["skirt front"], repeat="8", repeat_across="6")
    page = as_owner.get(reverse("orders:cloth", args=[order.number, cloth.pk])).content.decode()
    assert "12, 40, 3, 2½" in page and 'value="8 in"' in page and 'value="3/4 in"' in page
    assert page.count("checked") >= 2


@pytest.mark.parametrize("typed", ["12, 40, 3", "a, b, c, d", "12, 40, 0, 2", "1,2,3,4,5"])
def test_a_flaw_that_cannot_be_read_is_said_and_nothing_typed_is_lost(as_owner, order, cloth, typed):
    answer = post(as_owner, order, cloth, flaws=typed)
    assert answer.status_code == 422
    page = answer.content.decode()
    assert typed in page and "four lengths" in page


def test_a_repeat_wider_than_the_cloth_is_told_and_blocks_nothing(as_owner, order, cloth):
    assert post(as_owner, order, cloth, repeat_across="90").status_code == 302
    cloth.refresh_from_db()
    assert "repeats every" in cloth.not_laid


def test_no_repeat_is_below_nothing_and_no_cloth_shrinks_beyond_reason(as_owner, order, cloth):
    assert post(as_owner, order, cloth, repeat="0").status_code == 422
    assert "I read 90. Write 30 or less." in post(as_owner, order, cloth, shrink_percent="90").content.decode()


def test_a_print_asks_for_no_new_draft(as_owner, order, cloth):
    post(as_owner, order, cloth, repeat="8", match=["skirt front"])
    from orders.garment.making_draft import what_is_behind
    from tests.orders.book import garment_of

    assert what_is_behind(garment_of(order)) == ""


def test_a_flaw_is_written_and_read_alike(salt_lane):
    for line in ("12, 40, 3, 2½", "0, 0, 12, 8", "1⅜, 2, ½, ⅛"):
        assert written_again([flaw(line)]) == line


def test_a_cloth_from_before_has_neither(order, cloth):
    answer_now(order, [cloth])
    assert cloth.as_order_file().keys() == {"name", "for", "width", "one_way"}
