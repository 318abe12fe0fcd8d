"""Where pieces lie on paper: reckoned on cells, checked here with Shapely's own distances."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from drafting.paper.placing import APART, Placing, TooLargeForPaper
from tests.paper.drafts import gown

RINGS = [[tuple(point) for point in piece["cut_line"]] for piece in gown()[1]["pieces"]]


def laid(layout, rings):
    return [(where.sheet, Polygon([where.moved(p) for p in ring])) for where, ring in zip(layout.places, rings, strict=True)]


def check(layout, rings, width, length):
    found = laid(layout, rings)
    for index, (sheet, shape) in enumerate(found):
        left, top, right, bottom = shape.bounds
        assert left >= -1e-6 and top >= -1e-6 and right <= width + 1e-6 and bottom <= length + 1e-6
        assert bottom <= layout.lengths[sheet] + 1e-6
        for other_sheet, other in found[:index]:
            assert sheet != other_sheet or shape.distance(other) >= APART - 1e-6


@pytest.mark.parametrize(("width", "length"), [(894, 4980), (821, 1169), (1310, math.inf), (560, math.inf)])
def test_a_gowns_pieces_lie_on_the_sheet_and_10_mm_apart(width, length):
    check(Placing(RINGS).on(width=width, length=length), RINGS, width, length)


@settings(max_examples=60)
@given(
    st.lists(
        st.lists(st.tuples(st.floats(0, 300), st.floats(0, 300)), min_size=3, max_size=9), min_size=1, max_size=7
    )
)
def test_whatever_lies_on_paper_is_never_nearer_than_10_mm(clouds):
    from shapely import MultiPoint

    hulls = [MultiPoint(cloud).convex_hull for cloud in clouds]
    rings = [list(hull.exterior.coords)[:-1] for hull in hulls if hull.geom_type == "Polygon" and hull.area > 100]
    if rings:
        check(Placing(rings).on(width=320, length=math.inf), rings, 320, math.inf)


def test_pieces_are_slid_or_turned_head_down_and_nothing_else():
    for where in Placing(RINGS).on(width=894, length=4980).places:
        (x0, y0), (x1, y1) = where.moved((0, 0)), where.moved((30, 40))
        assert (x1 - x0, y1 - y0) == pytest.approx((-30, -40) if where.turned else (30, 40))
    assert not any(where.turned for where in Placing(RINGS, turning=False).on(width=894, length=4980).places)


def test_three_quarters_of_a_roll_are_pieces():
    layout = Placing(RINGS).on(width=894, length=4980)
    # Judgement: by hand, 70 to 80 in 100 is common for a gown's large pieces; no source.
    assert sum(Polygon(ring).area for ring in RINGS) / (894 * sum(layout.lengths)) > 0.72


def test_a_hollow_that_is_wide_enough_for_a_few_cells_more_holds_a_small_piece():
    u_shape = [(0, 0), (300, 0), (300, 300), (230, 300), (230, 80), (70, 80), (70, 300), (0, 300)]
    small = [(0, 0), (100, 0), (100, 100), (0, 100)]
    layout = Placing([u_shape, small]).on(width=300, length=math.inf)
    assert layout.lengths == pytest.approx((300,), abs=1)


def test_a_piece_that_is_too_large_is_named_with_what_it_needs():
    with pytest.raises(TooLargeForPaper) as refused:
        Placing([[(0, 0), (50, 0), (50, 50)], [(0, 0), (400, 0), (400, 90)]]).on(width=300, length=900)
    assert (refused.value.piece, refused.value.width, refused.value.length) == (1, 400, 90)


def test_what_does_not_fit_below_goes_on_a_further_sheet():
    square = [(0, 0), (90, 0), (90, 90), (0, 90)]
    layout = Placing([square] * 5).on(width=220, length=100)
    assert sorted(where.sheet for where in layout.places) == [0, 0, 1, 1, 2]
