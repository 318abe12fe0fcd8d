"""The lays on the job sheet: what is said of them, how they are drawn, and that sheets without them stay as they were."""

import re
from base64 import b64decode
from functools import cache

import pytest

from drafting.brief import read_brief
from drafting.drawing import draw
from drafting.lays import lays_and_warnings
from drafting.order_lays import add_lays
from drafting.sheet_extra import SheetExtra
from drafting.sheet_lays import lay_figures, left_over, takes
from tests.drafting.orders import example
from tests.drafting.printed import sheet, whole_text

YARD = 914.4


@cache
def laid():
    order = example()
    order["cloths"][0] |= {"width": 60, "flaws": []}
    brief = read_brief(order)
    result = draw(brief)
    add_lays(brief.as_order_file(), result)
    return brief.as_order_file(), result


def lay(**changes):
    return {
        "cloth": "wool", "width": 1000.0, "usable": 480.0, "layout": "folded", "length": 1000.0, "to_buy": 1028.7, "on_hand": None,
        "fits_on_hand": None, "used": 0.5, "at_least": 400.0, "placed": [], "needs": 1000.0, "selvedge": 12.7, "one_way": False,
    } | changes  # fmt: skip


def test_it_says_what_a_lay_takes_and_what_none_goes_below():
    assert takes(lay(), 0, "in") == "At least ½\u00a0yd; this lay takes 1⅛\u00a0yd. To buy: 1⅛\u00a0yd."
    assert takes(lay(at_least=995.0), 0, "in").startswith("This lay takes 1⅛\u00a0yd; none takes less.")


def test_cloth_in_hand_is_left_over_rounded_down():
    said = takes(lay(on_hand=1000 + YARD * 0.74, fits_on_hand=True), 0, "in")
    assert said.endswith("66\u00a0in in hand: ⅝\u00a0yd left over.")
    assert left_over(YARD / 8 - 1, "in") == "" and left_over(YARD / 8, "in") == "⅛\u00a0yd"
    assert left_over(199, "cm") == "0.1\u00a0m"
    assert takes(lay(on_hand=1010.0, fits_on_hand=True), 0, "cm").endswith("just enough.")


def test_cloth_that_is_short_says_by_how_much_and_whether_any_lay_would_do():
    never = takes(lay(on_hand=YARD / 4, fits_on_hand=False), 0, "in")
    assert "¼\u00a0yd in hand can’t be enough: short by ⅞\u00a0yd." in never
    perhaps = takes(lay(on_hand=YARD, fits_on_hand=None), 0, "in")
    assert "1\u00a0yd in hand is not enough for this lay; a closer one may do: short by ⅛\u00a0yd." in perhaps


def test_what_none_goes_below_counts_the_shrinkage_too():
    # 400 / (1 − 0.2) = 500 mm
    assert takes(lay(needs=1250.0, to_buy=1300.0), 0.2, "cm").startswith("At least 0.5\u00a0m; this lay takes 1.3\u00a0m.")


def strips(figure):
    return [b64decode(re.search("base64,([^\"]+)", strip)[1]).decode() for strip in figure.strips]


def test_every_cloth_is_drawn_with_its_pieces_named_and_never_wider_than_the_paper():
    order, result = laid()
    figures = lay_figures(order, result, result["lays"], "in")
    assert [figure.cloth.lower() for figure in figures] == [one["cloth"] for one in result["lays"]]
    assert len(figures) >= 3
    for figure, one in zip(figures, result["lays"], strict=True):
        drawn = "".join(strips(figure)) + " ".join(figure.notes)
        for placed in one["placed"]:
            piece = next(piece for piece in result["pieces"] if piece["name"] == placed["piece"])
            assert f"{piece['number']} {piece['title']}" in drawn
        for svg in strips(figure):
            assert float(re.search(r'width="([\d.]+)mm"', svg)[1]) <= 184
        assert "%" not in drawn + figure.takes


def test_a_lay_is_drawn_to_scale_and_not_mirrored():
    """A three-cornered piece at a known place: its corners stand on paper where a twelfth puts them, turned by a quarter."""
    corner = [[0.0, 0.0], [240.0, 0.0], [0.0, 600.0]]
    one = lay(layout="open", usable=480.0, placed=[
        {"piece": "flag", "outline": corner, "mirrored": False, "turned": 0, "layers": 1, "gives": 1}])  # fmt: skip
    order, result = {"units": "in", "cloths": []}, {"pieces": [{"name": "flag", "number": 1, "title": "Flag", "on_fold": False}]}
    (svg,) = strips(lay_figures(order, result, [one], "in")[0])
    corners = set(re.findall(r"(\d+) (\d+)", re.search(r'#ececec" d="([^"]+)"', svg)[1]))
    assert corners == {("0", "240"), ("0", "480"), ("600", "480")}
    left, _, wide, _ = map(float, re.search(r'viewBox="([^"]+)"', svg)[1].split())
    assert float(re.search(r'width="([\d.]+)mm"', svg)[1]) == pytest.approx(wide / 12, abs=0.01)


@pytest.mark.parametrize(("unit", "mark"), [("in", "½\u00a0yd"), ("cm", "0.5\u00a0m")])
def test_the_length_is_marked_along_the_edge(unit, mark):
    (svg,) = strips(lay_figures({"units": unit, "cloths": []}, {"pieces": []}, [lay()], unit)[0])
    assert mark in svg and ("39⅜\u00a0in" if unit == "in" else "100\u00a0cm") in svg
    assert "fold" in svg and "selvedges" in svg


def test_a_long_lay_goes_on_in_another_strip():
    figure = lay_figures({"units": "in", "cloths": []}, {"pieces": []}, [lay(length=4 * YARD, one_way=True)], "in")[0]
    first, second = strips(figure)
    assert "one way: every top points left; goes on below" in first and "goes on" not in second
    assert "144\u00a0in" in second and "144" not in first


def test_a_very_long_lay_is_drawn_smaller_so_that_it_stands_on_one_page():
    figure = lay_figures({"units": "cm", "cloths": []}, {"pieces": []}, [lay(length=9000.0, usable=700.0)], "cm")[0]
    assert figure.scale.startswith("1 : 20")
    assert sum(float(re.search(r'height="([\d.]+)mm"', svg)[1]) for svg in strips(figure)) < 240


def test_the_sheet_draws_the_results_lays_else_those_kept_beside_it():
    order, result = laid()
    with_own = whole_text(sheet(order, result))
    assert "Lays" in with_own and "this lay takes" in with_own
    bare = result | {"lays": []}
    assert "Lays" not in whole_text(sheet(order, bare))
    assert "this lay takes" in whole_text(sheet(order, bare, extra=SheetExtra(lays=tuple(result["lays"]))))


def test_nothing_is_laid_from_a_draft_that_is_not_for_cutting():
    order, result = laid()
    spoiled = result | {"lays": [], "not_for_cutting": True}
    add_lays(order, spoiled)
    assert spoiled["lays"] == []


def test_a_cloth_that_can_not_be_laid_never_sinks_the_order(monkeypatch, caplog):
    order, result = laid()

    def breaks(alone, *args, **how):
        if alone["cloths"][0]["name"] == "lawn":
            raise ZeroDivisionError
        return lays_and_warnings(alone, *args, **how)

    monkeypatch.setattr("drafting.order_lays.lays_and_warnings", breaks)
    again = result | {"lays": [], "warnings": []}
    add_lays(order, again)
    assert "lawn" not in [one["cloth"] for one in again["lays"]] and again["lays"]
    assert [w["text"] for w in again["warnings"] if w["text"].startswith("lawn is not laid out: the planner broke off.")]


def test_the_same_order_is_laid_the_same_way_again():
    """Counted, not timed: the clock has no say in it."""
    order, result = laid()
    again = result | {"lays": [], "warnings": []}
    add_lays(order, again)
    assert again["lays"] == result["lays"]
