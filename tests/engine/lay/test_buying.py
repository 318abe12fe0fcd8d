"""How much to buy: shrinkage, repeats and the shop's step; the check values' section 4."""

import pytest

from drafting.engine.lay import LayCloth, amount, plan, to_step
from tests.engine.lay.cloths import cloth, rectangle

YARD = 914.4


def test_shrinkage_is_divided_out_not_added_on():
    # Check values, section 4, derived: 3 yd at 5 % is 3.158 yd to buy, not 3.15.
    assert amount(LayCloth(width=1000, shrink=0.05), 3 * YARD, matched=False) / YARD == pytest.approx(3.158, abs=5e-4)


def test_matched_pieces_want_one_full_repeat_more_where_the_print_may_start_anywhere():
    # Check values, section 4 (sewing advice found there): the plain amount plus one full repeat.
    printed = LayCloth(width=1000, repeat=108)
    assert amount(printed, 1000, matched=True) == 1108
    assert amount(printed, 1000, matched=False) == 1000
    assert amount(LayCloth(width=1000, repeat=108, print_start_known=True), 1000, matched=True) == 1000


@pytest.mark.parametrize(("yards", "bought"), [(2.0, 2.0), (2.001, 2.125), (2.125, 2.125), (2.13, 2.25), (0.01, 0.125)])
def test_what_is_bought_is_rounded_up_to_an_eighth_of_a_yard(yards, bought):
    # The chart itself is in eighths; check values, section 4.
    assert to_step(yards * YARD, YARD / 8) / YARD == pytest.approx(bought)


def test_metric_shops_cut_in_tens_of_centimetres():
    assert to_step(1234, 100) == 1300 and to_step(1200, 100) == 1200


def test_a_plaid_takes_one_repeat_for_each_piece_stacked_along_the_cloth():
    # Check values, section 4: a repeat of 4¼ in and two pieces one behind the other, each shorter than two repeats.
    repeat = 4.25 * 25.4
    pieces = (rectangle("front", 800, 190, match=True), rectangle("back", 800, 190, match=True))
    lay = plan(cloth(1000, repeat=repeat), pieces, seconds=0.3)
    starts = sorted(min(y for _, y in placed.outline) for placed in lay.placed)
    assert starts[1] - starts[0] == pytest.approx(2 * repeat)
    assert lay.needs == pytest.approx(2 * repeat + 190 + repeat)


def test_matched_pieces_meet_the_print_at_their_motif_along_and_across():
    pieces = (
        rectangle("cup", 230, 310, match=True, motif=(100, 120), count=2, mirror="pair"),
        rectangle("front", 400, 500, match=True, motif=(50, 60)),
        rectangle("belt", 700, 80),
    )
    lay = plan(cloth(1000, repeat=150, repeat_across=90), pieces, seconds=0.6)
    for placed in lay.placed:
        if placed.piece == "belt":
            continue
        across, along = {"cup": (100, 120), "front": (50, 60)}[placed.piece]
        x0, y0 = min(x for x, _ in placed.outline), min(y for _, y in placed.outline)
        across = 230 - across if placed.mirrored else across
        assert (x0 + across) / 90 == pytest.approx(round((x0 + across) / 90), abs=1e-6)
        phase = (y0 + along - lay.print_start) / 150
        assert phase == pytest.approx(round(phase), abs=1e-6)


def test_fits_no_lay_found_and_cannot_fit_are_kept_apart():
    pieces = (rectangle("square", 600, 600, count=3),)
    fits = plan(cloth(1000, length=1900), pieces, seconds=0.3)
    cannot = plan(cloth(1000, length=1000), pieces, seconds=0.3)
    unknown = plan(cloth(1000, length=1700), pieces, seconds=0.3)
    assert (fits.fits_on_hand, cannot.fits_on_hand) == (True, False)
    # Three squares wider than half the cloth: the line bound itself proves 1,800.
    assert unknown.fits_on_hand is False and unknown.at_least == pytest.approx(1800)


def test_where_no_bound_rules_it_out_the_answer_is_that_no_lay_was_found():
    discs = tuple(rectangle(f"r{n}", 340, 340) for n in range(3))
    lay = plan(cloth(1000, length=500), discs, seconds=0.3)
    assert lay.length == pytest.approx(680, abs=0.01)
    assert lay.at_least < 500 and lay.fits_on_hand is None


def test_shrinkage_counts_against_the_cloth_on_hand():
    piece = (rectangle("panel", 900, 950),)
    assert plan(cloth(1000, length=1000, shrink=0.04), piece, seconds=0.2).fits_on_hand is True
    assert plan(cloth(1000, length=1000, shrink=0.06), piece, seconds=0.2).fits_on_hand is False


def test_a_search_on_cloth_that_is_long_enough_ends_at_once():
    pieces = tuple(rectangle(f"r{n}", 200 + 20 * n, 300) for n in range(8))
    assert plan(cloth(1000, length=5000), pieces, seconds=20).cpu_seconds < 2
