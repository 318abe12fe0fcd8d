"""A miscut and the cloth that is left; piecing; leftovers as they are told. Each answer is known by hand."""

from dataclasses import replace

import pytest
from shapely.geometry import Polygon, box

from drafting.engine.lay import left_of, pieced, plan, recut
from drafting.engine.lay.flat import flat_width, opened_flat
from drafting.engine.lay.piecing import ACROSS, ALLOWANCE, ALONG
from tests.engine.lay.cloths import cloth, half_front, rectangle


def laid(on, *pieces, seconds=0.3):
    return plan(replace(on, length=None), pieces, seconds=seconds).as_result()


def on_flat(lay):
    return [Polygon(ring) for _, ring in opened_flat(lay)]


def test_a_folded_lay_opened_out_has_both_of_a_pair_and_whole_fronts():
    lay = laid(cloth(1000, layout="folded"), half_front(wide=200, long=400), rectangle("side", 150, 300, count=2, mirror="pair"))
    front = next(shape for shape in on_flat(lay) if shape.area > 60_000)
    sides = [shape for shape in on_flat(lay) if shape.area == pytest.approx(45_000)]
    assert len(sides) == 2
    assert front.centroid.x == pytest.approx(500, abs=0.01) and front.bounds[2] - front.bounds[0] == pytest.approx(400)
    assert sum(shape.centroid.x for shape in sides) == pytest.approx(1000)  # mirrored in the fold
    assert flat_width(lay) == 1000


def test_a_crosswise_fold_opened_out_is_as_long_as_the_lay_says():
    lay = laid(cloth(600, layout="crosswise"), rectangle("panel", 600, 300, count=2, mirror="pair"))
    one, two = sorted(on_flat(lay), key=lambda shape: shape.bounds[1])
    assert one.bounds[1] == pytest.approx(0) and two.bounds[3] == pytest.approx(lay["length"], abs=0.01)
    assert one.intersection(two).area < 1


def test_a_piece_is_cut_again_from_the_end_of_the_cloth():
    on = cloth(500, length=1000.0)
    lay = laid(on, rectangle("back", 500, 600))
    found = recut(on, lay, rectangle("back", 500, 400))
    assert found.how == "" and found.lay.placed[0].outline[0][1] >= 600 - 0.01


def test_what_lies_between_the_pieces_is_used():
    on = cloth(500, length=600.0)
    lay = laid(on, rectangle("back", 300, 600))
    again = recut(on, lay, rectangle("strip", 200, 600)).lay
    assert again is not None
    new = Polygon(again.placed[0].outline)
    assert all(new.intersection(shape).area < 1 for shape in on_flat(lay))


def test_what_is_left_must_hold_the_pieces_that_are_not_cut_yet_too():
    # 500 × 900 of cloth: a back of 500 × 300 was cut and spoiled; a panel of 500 × 300 is still to be cut at 300 to 600.
    on, back, panel = cloth(500, length=900.0), rectangle("back", 500, 300), rectangle("panel", 500, 300)
    lay = laid(on, back, panel)
    found = recut(on, lay, back, uncut=(panel,))
    assert found.lay is not None and not found.anew  # the panel keeps its place
    short = replace(on, length=600.0)
    both = recut(short, lay, back, uncut=(panel,))
    assert both.lay is None and both.sure  # one more piece would fit if the panel were not wanted any more
    assert recut(short, laid(on, back), back).lay is not None


def test_pieces_not_cut_yet_are_laid_anew_where_their_places_leave_no_room():
    # On 400 × 800 a spoiled strip lay first; the piece still to be cut lies in the middle of the rest and parts it.
    on, strip, square = cloth(400, length=800.0), rectangle("strip", 400, 300), rectangle("square", 400, 200)
    lay = laid(on, strip)
    placed = {"outline": [[0, 400], [400, 400], [400, 600], [0, 600]], "mirrored": False, "turned": 0, "layers": 1, "gives": 1}
    lay["placed"].append({"piece": "square"} | placed)
    found = recut(on, lay, strip, uncut=(square,))
    assert found.anew and found.how == ""
    new = [Polygon(each.outline) for each in found.lay.placed]
    assert {each.piece for each in found.lay.placed} == {"strip", "square"}
    assert new[0].intersection(new[1]).area < 1 and all(300 - 0.01 <= shape.bounds[1] and shape.bounds[3] <= 800.01 for shape in new)


def test_the_spoiled_piece_s_own_place_is_gone():
    on = cloth(500, length=600.0)
    lay = laid(on, rectangle("back", 500, 600))
    found = recut(on, lay, rectangle("back", 500, 600))
    assert found.lay is None and found.sure


def test_a_piece_that_fits_only_in_two_parts_is_pieced():
    # 400 of 500 across are taken for 1 m; beside them a strip of 100, at the end 200 of the full width.
    on = cloth(500, length=1200.0)
    lay = laid(on, rectangle("front", 400, 1000))
    found = recut(on, lay, rectangle("band", 150, 500))
    assert found.how == ALONG
    assert {placed.piece for placed in found.lay.placed} == {"band, left part", "band, right part"}


def test_a_place_not_found_is_not_called_impossible():
    # The area is there, but not in one piece, nor for halves.
    on = cloth(300, length=1000.0)
    lay = laid(on, rectangle("middle", 200, 1000))
    found = recut(on, lay, rectangle("square", 300, 300))
    assert found.lay is None and not found.sure


def test_a_print_goes_on_where_it_began():
    on = cloth(500, repeat=100.0, length=2000.0)
    lay = laid(on, rectangle("front", 300, 430, match=True), rectangle("side", 200, 390))
    found = recut(on, lay, rectangle("front", 300, 430, match=True))
    from drafting.engine.lay import print_ahead

    motif = min(y for _, y in found.lay.placed[0].outline) - print_ahead(on, lay)
    was = min(y for _, y in next(p["outline"] for p in lay["placed"] if p["piece"] == "front"))
    assert (motif - was) % 100 == pytest.approx(0, abs=0.01) or (motif - was) % 100 == pytest.approx(100, abs=0.01)


def test_two_parts_have_the_whole_s_area_and_two_allowances():
    upper, lower = pieced(rectangle("panel", 300, 800), ACROSS)
    area = sum(Polygon(part.outline).area for part in (upper, lower))
    assert area == pytest.approx(300 * 800 + 2 * ALLOWANCE * 300)


def test_a_piece_on_the_fold_gets_its_seam_where_the_fold_was():
    (half,) = pieced(half_front(wide=200, long=400), ALONG)
    assert (half.count, half.on_fold, half.mirror) == (2, False, "pair")
    assert min(x for x, _ in half.outline) == pytest.approx(-ALLOWANCE)


def test_across_the_fold_both_parts_stay_on_it():
    assert all(part.on_fold for part in pieced(half_front(wide=200, long=400), ACROSS))


def test_a_sliver_is_not_worth_a_seam():
    assert pieced(rectangle("band", 40, 800), ALONG) is None


def test_what_is_left_at_the_end_and_beside_is_found():
    lay = laid(cloth(1016), rectangle("back", 762, 1000))
    end, beside = left_of(lay, 1524.0, least=(100, 100))
    # 1524 − 1000 along the whole width, in half inches: 41 whole ones; and 254 beside the piece.
    assert (end.wide, end.long) == (pytest.approx(1016), pytest.approx(41 * 12.7))
    assert beside.wide == pytest.approx(254) and beside.x == pytest.approx(762)


def test_no_piece_touches_what_is_left():
    lay = laid(cloth(1000, layout="folded"), half_front(wide=200, long=400), rectangle("side", 150, 300, count=2, mirror="pair"))
    for each in left_of(lay, 900.0, least=(50, 50), most=4):
        rectangle_left = box(each.x, each.y, each.x + each.wide, each.y + each.long)
        assert all(rectangle_left.intersection(shape).area < 1e-6 for shape in on_flat(lay))
        assert each.x + each.wide <= 1000 and each.y + each.long <= 900


def test_less_than_the_least_is_not_told():
    lay = laid(cloth(500), rectangle("back", 480, 600))
    assert left_of(lay, 650.0, least=(100, 100)) == []
