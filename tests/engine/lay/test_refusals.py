"""Bad input: one clear message with its remedy, and no lay goes on past its budget."""

import math
import time
from dataclasses import replace

import pytest

from drafting.engine.lay import LayCloth, LayError, LayPiece, plan
from drafting.engine.lay.errors import BadCloth, BadPiece, NothingToLay, TooFine, TooMany, TooWide
from tests.engine.lay.cloths import bounds, cloth, gives, half_front, overlap, rectangle


def inches(mm):
    return f"{mm / 25.4:.2f} in"


def test_a_piece_wider_than_the_cloth_is_named_with_the_width_it_needs():
    with pytest.raises(TooWide) as refused:
        plan(LayCloth(width=914.4, layout="open"), (rectangle("skirt front", 950, 300),), seconds=1)
    said = refused.value.sentence(inches)
    assert "skirt front" in said and inches(950) in said and inches(950 + 25.4) in said


def test_folded_it_needs_twice_its_half_and_the_selvedges():
    with pytest.raises(TooWide) as refused:
        plan(LayCloth(width=914.4, layout="folded"), (half_front("front", 460, 300),), seconds=1)
    assert refused.value.cloth_width == pytest.approx(2 * 460 + 25.4)
    assert f"{inches(945.4)} wide even laid open" in refused.value.sentence(inches)


def test_of_several_pieces_too_wide_the_one_that_needs_most_is_named():
    pieces = (rectangle("back", 470, 300), rectangle("train", 700, 300), rectangle("band", 100, 300))
    with pytest.raises(TooWide, match="train") as refused:
        plan(LayCloth(width=914.4, layout="folded"), tuple(replace(piece, count=2, mirror="pair") for piece in pieces), seconds=1)
    assert "lay it open" in refused.value.sentence(inches)


@pytest.mark.parametrize(
    "outline",
    [
        ((0, 0), (100, 100), (100, 0), (0, 100)),
        ((0, 0), (100, 0), (200, 0)),
        ((0, 0), (100, 0)),
        ((0, 0), (100, 0), (100, math.nan)),
        ((5, 5), (5, 5), (5, 5)),
        ((0, 0), (100, 0), (100, 100), (50, 100), (50, 200), (50, 100), (0, 100)),
    ],
)
def test_an_outline_that_does_not_go_once_round_is_refused(outline):
    with pytest.raises(BadPiece) as refused:
        plan(cloth(), (LayPiece("collar", outline),), seconds=1)
    assert "collar" in refused.value.sentence(inches) and "Give" in refused.value.sentence(inches)


@pytest.mark.parametrize(
    ("key", "figures"),
    [
        ("length", {"length": 0}),
        ("repeat", {"repeat": 900, "length": 800}),
        ("width", {"width": 0.0}),
        ("width", {"width": 20.0, "selvedge": 12.7}),
        ("width", {"width": math.nan}),
        ("shrink", {"shrink": 0.7}),
        ("gap", {"gap": -1}),
        ("layout", {"layout": "diagonal"}),
        ("layout", {"layout": "crosswise", "one_way": True}),
        ("repeat_across", {"repeat_across": 1001}),
    ],
)
def test_a_cloth_that_can_not_be_is_refused_by_its_key(key, figures):
    with pytest.raises(BadCloth) as refused:
        cloth(**figures)
    assert refused.value.key == f"cloth.{key}"
    assert len(refused.value.sentence(inches)) > 20


def test_nothing_to_lay_is_said():
    with pytest.raises(NothingToLay):
        plan(cloth(), (), seconds=1)


def test_an_on_fold_outline_that_lies_across_its_fold_is_refused():
    with pytest.raises(BadPiece, match="fold"):
        plan(
            cloth(layout="folded"),
            (LayPiece("front", ((-10, 0), (100, 0), (100, 100), (-10, 100)), on_fold=True),),
            seconds=1,
        )


def test_a_piece_that_may_only_lie_upside_down_is_refused_on_a_one_way_cloth():
    with pytest.raises(BadPiece, match="180"):
        plan(cloth(one_way=True), (rectangle("a", 100, 100, turns=(180,)),), seconds=1)


QUIET_ADDITIONS = 0.054
"""Seconds of CPU for a million additions on the machine that the promise was measured on, with nothing beside it."""


def ends_in_time(pieces, the_cloth, seconds):
    slow = a_million_additions()
    spent = time.process_time()
    try:
        lay = plan(the_cloth, pieces, seconds=seconds)
    except LayError:
        lay = None
    spent = time.process_time() - spent  # CPU, and by what a second is worth, so that a busy or slow machine does not fail it
    assert spent < (seconds + 1) * max(1, slow, a_million_additions())
    return lay


def a_million_additions() -> float:
    begun, total = time.process_time(), 0
    for number in range(1_000_000):
        total += number
    return (time.process_time() - begun) / QUIET_ADDITIONS


def test_a_thousand_pieces_of_a_few_kinds_end_in_time():
    pieces = tuple(rectangle(f"r{n}", 100 + 9 * n, 150 + 11 * n, count=100) for n in range(10))
    lay = ends_in_time(pieces, cloth(1500), 2)
    assert sum(gives(lay).values()) == 1000 and overlap(lay) < 0.05 and bounds(lay)[2] <= 1500.01


def test_a_thousand_different_pieces_end_in_time():
    pieces = tuple(
        LayPiece(f"p{n}", ((0, 0), (60 + n % 83, 4), (50 + n % 31, 90 + n % 57), (n % 17, 70 + n % 11)))
        for n in range(1000)
    )
    lay = ends_in_time(pieces, cloth(1500), 1)
    assert sum(gives(lay).values()) == 1000 and overlap(lay) < 0.05


def test_too_many_pieces_are_refused():
    with pytest.raises(TooMany):
        plan(cloth(), (rectangle("r", 10, 10, count=5000),), seconds=1)


def test_outlines_too_fine_to_be_laid_in_time_are_refused():
    with pytest.raises(TooFine) as refused:
        plan(cloth(), tuple(LayPiece(f"gear {n}", gear(19_998)) for n in range(4)), seconds=1)
    assert "gear 0" in refused.value.sentence(inches) and "19,998 points" in refused.value.sentence(inches)


def test_matched_pieces_too_many_for_the_time_still_lie_on_the_print():
    pieces = tuple(rectangle(f"p{n}", 90 + n % 7, 110 + n % 11, match=True) for n in range(600))
    lay = ends_in_time(pieces, cloth(1500, repeat=300.0), 0.1)
    assert len(lay.placed) == 600
    assert all(abs(placed.outline[0][1] % 300 - lay.print_start % 300) % 300 < 0.01 for placed in lay.placed)


def comb(teeth):
    points = [(0.0, 0.0), (teeth * 10.0, 0.0)]
    for n in range(teeth - 1, -1, -1):
        points += [(n * 10 + 8.0, 300.0), (n * 10 + 6.0, 300.0), (n * 10 + 4.0, 20.0), (n * 10 + 2.0, 20.0)]
    return tuple(points)


def gear(points):
    return tuple(
        (
            (200 + 60 * (n % 2)) * math.cos(2 * math.pi * n / points),
            (200 + 60 * (n % 2)) * math.sin(2 * math.pi * n / points),
        )
        for n in range(points)
    )


@pytest.mark.parametrize(
    "outline",
    [
        comb(40),
        gear(3000),
        gear(200),
        tuple(
            (400 + 300 * math.cos(2 * math.pi * n / 6000), 300 * math.sin(2 * math.pi * n / 6000)) for n in range(6000)
        ),
    ],
)
def test_hostile_outlines_end_in_time(outline):
    lay = ends_in_time((LayPiece("hostile", outline, count=6 if len(outline) > 5000 else 8), rectangle("r", 200, 300, count=4)), cloth(1500), 0.5)
    assert lay is not None and overlap(lay) < 0.05


def test_an_outline_of_twenty_thousand_points_ends_in_time():
    lay = ends_in_time((LayPiece("hostile", gear(19_998), count=2), rectangle("r", 200, 300, count=4)), cloth(1500), 0.5)
    assert lay is not None and overlap(lay) < 0.05


def test_no_time_at_all_still_gives_a_lay():
    lay = plan(cloth(), tuple(rectangle(f"r{n}", 200, 300 + n) for n in range(20)), seconds=0)
    assert len(lay.placed) == 20
