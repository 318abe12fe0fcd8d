"""Lays whose answer is known by hand, one for each thing that a cloth or a piece may ask for."""

from dataclasses import replace

import pytest

from shapely.geometry import Point, Polygon

from drafting.engine.lay import LayPiece, plan
from drafting.engine.lay.flat import opened_flat
from tests.engine.lay.cloths import bounds, cloth, gives, half_front, overlap, rectangle, triangle


def test_four_quarters_fill_a_square_exactly():
    lay = plan(cloth(1000), (rectangle("quarter", 500, 500, count=4),), seconds=0.5)
    assert lay.length == pytest.approx(1000, abs=0.01)
    assert lay.at_least == pytest.approx(1000)
    assert lay.used == pytest.approx(1)
    assert gives(lay) == {"quarter": 4}


def test_two_pieces_that_fill_the_width_exactly_fit_side_by_side():
    # 22½ and 22½ in on 45 in: the case that a rounding planner loses.
    lay = plan(cloth(45 * 25.4), (rectangle("half", 22.5 * 25.4, 700, count=2),), seconds=0.3)
    assert lay.length == pytest.approx(700, abs=0.01)


def test_a_piece_as_wide_as_the_cloth_fits():
    lay = plan(cloth(45 * 25.4), (rectangle("whole width", 45 * 25.4, 300),), seconds=0.1)
    assert lay.length == pytest.approx(300)


def test_two_triangles_are_turned_into_each_other():
    lay = plan(cloth(300), (triangle("godet", 300, 600, count=2),), seconds=1)
    assert lay.length == pytest.approx(600, abs=2)
    assert sorted(placed.turned for placed in lay.placed) == [0, 180]


def test_a_one_way_cloth_turns_nothing():
    lay = plan(cloth(300, one_way=True), (triangle("godet", 300, 600, count=2),), seconds=1)
    assert {placed.turned for placed in lay.placed} == {0}
    assert lay.length > 700


def test_a_piece_with_a_hollow_takes_another_into_it():
    hollow = replace(
        rectangle("frame", 1, 1),
        outline=((0, 0), (600, 0), (600, 600), (400, 600), (400, 200), (200, 200), (200, 600), (0, 600)),
    )
    lay = plan(cloth(600), (hollow, rectangle("strip", 200, 400)), seconds=0.5)
    assert lay.length == pytest.approx(600, abs=0.01)
    assert overlap(lay) < 1e-3


def test_on_folded_cloth_a_front_lies_on_the_fold_and_a_pair_is_cut_through_both_layers():
    lay = plan(
        cloth(1000, layout="folded"),
        (half_front(wide=200), rectangle("back", 250, 400, count=2, mirror="pair")),
        seconds=0.5,
    )
    front, back = lay.placed
    assert min(x for x, _ in front.outline) == pytest.approx(0, abs=1e-9)
    assert (front.gives, front.layers, back.gives, back.layers) == (1, 2, 2, 2)
    assert lay.across == 500
    assert lay.length == pytest.approx(400, abs=0.01)


def test_on_open_cloth_an_on_fold_piece_is_opened_out_whole_and_a_pair_is_mirrored():
    lay = plan(
        cloth(1500), (half_front(wide=200), triangle("back", 250, 400, count=2, mirror="pair", turns=(0,))), seconds=0.5
    )
    front = next(placed for placed in lay.placed if placed.piece == "front")
    xs = [x for x, _ in front.outline]
    assert max(xs) - min(xs) == pytest.approx(400)
    assert sorted(placed.mirrored for placed in lay.placed if placed.piece == "back") == [False, True]


def test_a_piece_cut_singly_takes_one_layer_of_folded_cloth_and_leaves_the_other():
    pieces = (triangle("motif", 400, 500, count=2, turns=(0,)),)
    lay = plan(cloth(1000, layout="folded"), pieces, seconds=0.5)
    assert [placed.layers for placed in lay.placed] == [1, 1]
    assert sorted(placed.under for placed in lay.placed) == [False, True]
    assert lay.length == pytest.approx(500, abs=0.01)


def test_a_pair_may_be_cut_one_by_one_from_folded_cloth():
    lay = plan(
        cloth(1000, layout="folded"), (triangle("cup", 400, 500, count=2, mirror="pair", singly=True),), seconds=0.3
    )
    assert [placed.layers for placed in lay.placed] == [1, 1]
    assert sorted(placed.mirrored != placed.under for placed in lay.placed) == [False, True]


def test_a_single_cut_from_the_under_layer_is_laid_face_down_so_that_it_is_of_the_same_hand():
    lay = plan(cloth(1000, layout="folded"), (triangle("pocket", 400, 500, count=2, turns=(0,)),), seconds=0.2)
    # Opened flat with its right side up, each must be the triangle that was given: its square corner left and low.
    for _, ring in opened_flat(lay.as_result()):
        shape = Polygon(ring)
        left, low, _, _ = shape.bounds
        assert shape.contains(Point(left + 20, low + 20)) and not shape.contains(Point(left + 380, low + 480))
        assert shape.contains(Point(left + 20, low + 460)) and shape.contains(Point(left + 360, low + 20))


def cup(**kind):
    """A piece that is no mirror image of itself, to be cut singly and mirrored, its motif at (60, 90)."""
    outline = ((0, 0), (150, 30), (180, 160), (20, 200))
    return LayPiece("cup", outline, count=2, mirror="pair", singly=True, match=True, motif=(60.0, 90.0), **kind)


@pytest.mark.parametrize("layout", ["open", "folded"])
@pytest.mark.parametrize("one_way", [True, False])
def test_a_piece_and_its_mirror_image_each_lie_with_their_point_on_a_motif(layout, one_way):
    print_ = {"repeat": 240.0, "repeat_across": 200.0, "first_motif": 110.0}
    lay = plan(cloth(1000, layout=layout, one_way=one_way, **print_), (cup(), rectangle("strip", 300, 200)), seconds=0.3)
    cups = [placed for placed in lay.placed if placed.piece == "cup"]
    assert len(cups) == 2 and all(placed.layers == 1 for placed in cups)
    assert sorted(placed.mirrored != placed.under for placed in cups) == [False, True]
    first = 110.0 if layout == "open" else 0.0  # the fold runs through a motif
    for placed in cups:
        # The point is found again from the corners: it lies 60/90 from the first one, as drawn or mirrored.
        side = -1 if placed.mirrored else 1
        at = next(
            (x + side * 60, y + 90)
            for x, y in placed.outline
            if near((x + side * 150, y + 30), placed.outline) and near((x + side * 20, y + 200), placed.outline)
        )
        assert placed.motif == pytest.approx(at)
        assert (at[0] - first + 1) % 200 == pytest.approx(1, abs=0.01)
        assert (at[1] - lay.print_start + 1) % 240 == pytest.approx(1, abs=0.01)
    assert overlap(lay) < 0.01


def near(point, corners):
    return any(abs(point[0] - x) < 0.01 and abs(point[1] - y) < 0.01 for x, y in corners)


def test_a_single_wider_than_the_folded_cloth_lies_on_an_end_that_is_opened_out():
    pieces = (rectangle("back", 450, 300, count=2, mirror="pair"), triangle("train", 900, 700))
    lay = plan(cloth(1000, layout="folded"), pieces, seconds=0.6)
    train = next(placed for placed in lay.placed if placed.piece == "train")
    assert train.zone == "opened" and train.layers == 1
    assert lay.opened_from == pytest.approx(300)
    assert min(y for _, y in train.outline) >= lay.opened_from - 1e-9
    assert lay.length == pytest.approx(1000, abs=0.01)


def test_crosswise_the_cloth_is_twice_the_layers_long_and_on_fold_pieces_are_cut_whole():
    pieces = (rectangle("back", 900, 400, count=2, mirror="pair"), half_front(wide=450, long=300))
    lay = plan(cloth(1000, layout="crosswise"), pieces, seconds=0.5)
    assert lay.length == pytest.approx(1400, abs=0.01)
    assert gives(lay) == {"back": 2, "front": 1}
    assert bounds(lay)[3] <= lay.length / 2 + 1e-6


def test_best_tries_folded_and_open_and_says_by_how_much_one_is_shorter():
    # Folded, 500 mm are free beside a front of 300: two backs one after the other. Open, all three lie side by side.
    pieces = (half_front(wide=300, long=400), rectangle("back", 300, 400, count=2, mirror="pair"))
    lay = plan(cloth(1200, layout="best"), pieces, seconds=0.6)
    assert dict(lay.compared)["folded"] == pytest.approx(400, abs=0.01)
    narrow = plan(cloth(1000, layout="best"), pieces, seconds=0.6)
    assert set(dict(narrow.compared)) == {"folded", "open"}
    assert narrow.length == min(dict(narrow.compared).values())
    assert narrow.shorter_by == pytest.approx(max(dict(narrow.compared).values()) - narrow.length)


def test_nothing_is_cut_from_a_flaw():
    from shapely.geometry import Polygon

    hole = ((400, 100), (600, 100), (600, 300), (400, 300))
    lay = plan(cloth(1000, flaws=(hole,)), (rectangle("square", 350, 350, count=6),), seconds=0.5)
    assert all(Polygon(placed.outline).intersection(Polygon(hole)).area < 1e-3 for placed in lay.placed)
    assert overlap(lay) < 1e-3


def test_a_flaw_is_measured_on_the_cloth_opened_out_and_spoils_its_own_layer_when_folded():
    # 100 mm right of the middle: on the folded cloth 100 to 200 from the fold, on the top layer.
    hole = ((600, 0), (700, 0), (700, 200), (600, 200))
    lay = plan(
        cloth(1000, layout="folded", flaws=(hole,)), (rectangle("pair", 500, 300, count=2, mirror="pair"),), seconds=0.3
    )
    ((ring, layers),) = lay.blocked
    assert sorted({x for x, _ in ring}) == [100, 200] and layers == 1
    assert lay.length == pytest.approx(500, abs=0.01)
    under = plan(cloth(1000, layout="folded", flaws=(hole,)), (triangle("single", 500, 300),), seconds=0.3)
    assert under.placed[0].under and under.length == pytest.approx(300)


def test_a_gap_is_kept_between_pieces_and_not_to_the_edge():
    lay = plan(cloth(1000, gap=10), (rectangle("square", 495, 495, count=4),), seconds=0.5)
    assert lay.length == pytest.approx(1000, abs=0.2)
    assert bounds(lay)[0] == pytest.approx(0, abs=1e-6)


def test_selvedges_are_left_out():
    lay = plan(cloth(1000, selvedge=20), (rectangle("square", 480, 480, count=2),), seconds=0.3)
    assert lay.across == 960 and lay.length == pytest.approx(480, abs=0.01)


def test_a_piece_may_lie_at_a_right_angle_where_its_turns_allow():
    lay = plan(cloth(700), (rectangle("belt", 600, 100, turns=(0, 90)), rectangle("panel", 600, 600)), seconds=0.5)
    assert lay.length == pytest.approx(600, abs=0.01)
    assert next(placed for placed in lay.placed if placed.piece == "belt").turned == 90


def test_the_same_seed_and_count_of_tries_give_the_same_lay():
    pieces = tuple(triangle(f"t{n}", 150 + 31 * n, 240 + 17 * n) for n in range(7))
    one, two = (plan(cloth(600), pieces, seconds=60, tries=120, seed=4) for _ in range(2))
    assert one.placed == two.placed and one.tries == two.tries


def test_progress_tells_the_best_length_so_far_and_stop_ends_with_a_lay():
    told = []
    pieces = tuple(triangle(f"t{n}", 150 + 31 * n, 240 + 17 * n) for n in range(7))
    lay = plan(
        cloth(600),
        pieces,
        seconds=30,
        progress=lambda tries, length: told.append((tries, length)),
        stop=lambda: len(told) > 5,
    )
    assert [length for _, length in told] == sorted((length for _, length in told), reverse=True)
    assert lay.length == pytest.approx(told[-1][1], abs=0.1)
    assert lay.cpu_seconds < 5
