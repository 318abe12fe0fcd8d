"""The sleeve's cap drawn over the armhole: on the job sheet to scale, on the Draft page beside the pieces."""

import re
from functools import partial

import pytest

from drafting.brief import read_brief
from drafting.draft_page import draft_page
from drafting.drawing import draw
from drafting.laid_over_picture import laid_over_svg, laid_over_words
from drafting.pictures import piece_svg
from drafting.sheet_figures import figure_groups
from tests.drafting.orders import example
from workshop.length import print_length

FMT = partial(print_length, unit="in")
ARM = {"upper_arm": 12, "wrist": "6 1/4", "sleeve_length": 23}


def blouse(sleeve):
    order = example()
    order["measures"] |= ARM
    order["garment"] = {"kind": "blouse", "closure": "buttons", "lined": False, "sleeve": sleeve}
    brief = read_brief(order)
    return brief.as_order_file(), draw(brief)


@pytest.fixture(scope="module")
def sleeved():
    return blouse({"kind": "set-in"})


def test_the_drawing_is_to_scale(sleeved):
    _, result = sleeved
    one = result["laid_over"][0]
    svg = laid_over_svg(one, scale=0.25, for_paper=True, fmt=FMT)
    xs = [x for x, _ in (*one["armhole"], *one["cap"])]
    width = float(re.search(r'width="([\d.]+)mm"', svg).group(1))
    assert width == pytest.approx((max(xs) - min(xs)) * 0.25, abs=12)
    assert 'class="line line-cut"' in svg and 'class="line line-sew"' in svg
    assert ">armhole</text>" in svg and ">cap</text>" in svg


def test_it_says_how_far_they_part_or_that_they_meet():
    assert laid_over_words({"apart": 12.7}, FMT) == "they part by ½ at the notch"
    assert laid_over_words({"apart": 0.01}, FMT) == "they meet at the notch"


def test_the_sheet_shows_both_armholes_after_the_pieces(sleeved):
    order, result = sleeved
    groups, _ = figure_groups(order, result, FMT, "in")
    assert [figure.name for figure in groups[-1].figures] == ["Cap over the front armhole", "Cap over the back armhole"]
    assert groups[-1].scale == "¼ on paper is 1 in of cloth"


def test_the_draft_page_shows_them_with_the_top_and_with_all(sleeved):
    order, result = sleeved
    for group in ("top", "all"):
        assert [piece.heading for piece in draft_page(order, result, group=group).pieces][-2:] == [
            "Cap over the front armhole", "Cap over the back armhole"]


@pytest.mark.parametrize("sleeve", [None, {"kind": "cap"}])
def test_without_a_cap_to_lay_there_is_no_drawing(sleeve):
    order, result = blouse(sleeve)
    groups, _ = figure_groups(order, result, FMT, "in")
    assert not any("Cap over" in figure.name for group in groups for figure in group.figures)


def test_a_dart_inside_a_piece_is_drawn_as_a_sewing_line_with_rings_at_both_points(sleeved):
    _, result = sleeved
    back = next(piece for piece in result["pieces"] if piece["name"] == "back")
    legs = [mark for mark in back["marks"] if mark["kind"] == "dart"]
    svg = piece_svg(back, result, scale=1 / 8, for_paper=True)
    assert svg.count("<circle") == len(legs) // 2
    plain = {**back, "marks": []}
    assert piece_svg(plain, result, scale=1 / 8, for_paper=True).count("line-sew") == svg.count("line-sew") - 1 - len(legs) // 2
