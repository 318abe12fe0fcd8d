"""Quarters and intakes: closed forms and sums done by hand, in inches."""

import pytest
from hypothesis import given

from drafting.engine.body import body_from
from drafting.engine.errors import ImpossibleMeasure
from drafting.engine.quarters import quarters_for
from drafting.engine.rules import Rules
from drafting.engine.tolerance import INCH

from .bodies import NEEDED, ROUND, inches, mm
from .shapes import numbers, repeatable


def worked(fit="corset", rules=None, *, wadded=False, without=("high_bust",), **changes):
    """Return (quarters, warning codes, the warnings' texts); the high bust by rule unless given."""
    measures = mm({key: value for key, value in {**ROUND, **changes}.items() if key not in without or key in changes})
    house = Rules(mm(rules or {}), fit)
    quarters, warnings = quarters_for(body_from(measures, house, needs=NEEDED), house, wadded=wadded)
    return quarters, [w.code for w in warnings], [w.written(inches) for w in warnings]


def four(q):
    """Front and back bust, under-bust and waist quarters in inches."""
    return [value / INCH for value in (q.front_bust, q.back_bust, q.under_bust, q.waist)]


def test_a_corset_for_forty_over_thirty_five_by_hand():
    # D = 5, share 0.8: F = 40/4 + 0.3·5/2, K = 40/4 − 0.3·5/2; under-bust and waist quarters 35/4 and 30/4.
    q, codes, _ = worked()
    assert codes == []
    assert four(q) == pytest.approx([10.75, 9.25, 8.75, 7.5])
    # L = F − under-bust quarter = 2, U = (40 − 38)/2 = 1, back dart K − under-bust quarter = ½.
    assert [v / INCH for v in (q.lower, q.upper, q.back_dart)] == pytest.approx([2, 1, 0.5])
    # a = max(½, 2/3, 2 − 0.55·3) = 2/3; bust point half of the bust span from the fold.
    assert q.lower_to_centre / INCH == pytest.approx(2 / 3)
    assert q.bust_point_x / INCH == pytest.approx(4)
    assert q.d / INCH == pytest.approx(1)


def test_ease_is_spread_over_four_quarters():
    # Close: 1 at bust, ½ at waist and under-bust. F = 41/4 + 0.75, under-bust 35½/4, waist 30½/4, L = F − 8.875.
    q, _, _ = worked("close")
    assert four(q) == pytest.approx([11, 9.5, 8.875, 7.625])
    assert q.lower / INCH == pytest.approx(2.125)


@repeatable
@given(numbers(2.5, 6), numbers(32, 48))
def test_at_equal_ease_the_darts_are_fixed_shares_of_bust_less_under_bust(spread, bust):
    # U = 0.2 D, L = 0.4 D, back dart (1 − 0.8)·D/2 = 0.1 D (from ⅜ up), all at a front's share of 0.8.
    q, _, _ = worked(bust=bust, under_bust=bust - spread, waist=bust - 10)
    assert q.upper / INCH == pytest.approx(0.2 * spread)
    assert q.lower / INCH == pytest.approx(0.4 * spread)
    assert q.back_dart / INCH == pytest.approx(0.1 * spread if spread >= 3.75 else 0)


@repeatable
@given(numbers(2.5, 8), numbers(0, 3), numbers(0.55, 0.95))
def test_front_and_back_make_bust_and_high_bust_with_their_ease(spread, fall, share):
    rules = Rules({"front_share": share}, "close")
    measures = mm({**ROUND, "under_bust": 40 - spread, "high_bust": 40 - fall})
    q, _ = quarters_for(body_from(measures, rules, needs=NEEDED), rules, wadded=False)
    assert 2 * (q.front_bust + q.back_bust) / INCH == pytest.approx(40 + 1)
    assert 2 * (q.front_chest + q.back_bust) / INCH == pytest.approx(40 - fall + 1)
    # The front's share of bust less under-bust: what front and back have over the under-bust stand in that proportion.
    assert (q.front_bust - q.back_bust) / INCH == pytest.approx((share - 0.5) * spread)


@pytest.mark.parametrize(
    ("spread", "toward_centre", "least_side", "most_side"), [(4.375, 0.5, 1.25, 1.25), (6.25, None, 1.5, 2.0)]
)
def test_the_lower_dart_lands_within_a_quarter_inch_of_common_practice(spread, toward_centre, least_side, most_side):
    # Common practice, no source: for a small bust ½ toward the centre and 1¼ toward the side, for a fuller one 1½ to 2
    # toward the side. The part toward the centre grows with the dart here, so it is held to the small bust's only.
    q, _, _ = worked(under_bust=40 - spread)
    centre, side = q.lower_to_centre / INCH, (q.lower - q.lower_to_centre) / INCH
    assert least_side - 0.25 <= side <= most_side + 0.25
    if toward_centre is not None:
        assert centre == pytest.approx(toward_centre, abs=0.25)


def test_the_upper_dart_of_a_common_bust_is_about_an_inch():
    # Common practice, no source: about 1 across at the chest line from the upper dart.
    for spread in (4.375, 5, 6.25):
        assert worked(under_bust=40 - spread)[0].upper / INCH == pytest.approx(1, abs=0.25 + 1e-9)


def test_wadding_adds_three_thicknesses_to_bust_and_high_bust():
    # 3·⅛ = ⅜: F = 40⅜/4 + 0.3·5⅜/2 = 10.9, U unchanged, under-bust unchanged.
    q, _, _ = worked(wadded=True)
    assert [v / INCH for v in (q.wadding, q.front_bust, q.upper, q.under_bust)] == pytest.approx([0.375, 10.9, 1, 8.75])
    thick, _, _ = worked(wadded=True, rules={"wadding_thickness": 0.25})
    assert thick.wadding / INCH == pytest.approx(0.75)


def test_a_back_dart_under_three_eighths_goes_to_the_side():
    assert worked(under_bust=36.3)[0].back_dart == 0
    assert worked(under_bust=36.2)[0].back_dart / INCH == pytest.approx(0.38)


# The lower dart's limits


def test_up_to_the_cups_limit_the_lower_dart_is_its_own():
    # The cup is 3 deep, so it holds 1.1·3 = 3.3: D = 8.2 needs 3.28.
    q, codes, _ = worked(under_bust=31.8)
    assert q.lower / INCH == pytest.approx(3.28)
    assert codes == []


def test_beyond_it_the_dart_is_held_and_what_is_over_is_told():
    # D = 10 needs 4: 0.7 over.
    q, codes, texts = worked(under_bust=30)
    assert q.lower / INCH == pytest.approx(3.3)
    assert codes == ["lower-dart-held"]
    assert "3 5/16 in" in texts[0]
    assert "11/16 in" in texts[0]


def test_more_than_three_quarters_over_asks_for_another_cut():
    # D = 10.2 needs 4.08: 0.78 over.
    q, codes, texts = worked(under_bust=29.8)
    assert q.lower / INCH == pytest.approx(3.3)
    assert codes == ["cup-too-deep"]
    assert "third cup piece" in texts[0]


@pytest.mark.parametrize(("spread", "codes"), [(1.9, []), (1.85, ["cup-very-shallow"])])
def test_a_dart_under_three_quarters_suggests_a_plain_bodice(spread, codes):
    # 0.4·1.875 = ¾
    assert worked(under_bust=40 - spread)[1] == codes


@pytest.mark.parametrize(
    ("asked", "drawn", "codes"), [(0.25, 0.25, []), (1.0, 1.0, []), (1.2, 1.0, ["dart-toward-centre-held"])]
)
def test_toward_the_centre_goes_at_most_half_the_dart_overrides_too(asked, drawn, codes):
    q, found, _ = worked(rules={"dart_toward_centre": asked})
    assert q.lower_to_centre / INCH == pytest.approx(drawn)
    assert found == codes


def test_a_narrow_dart_puts_no_more_than_half_toward_the_centre():
    # D = 2: L = 0.8, whose half is below the usual ½.
    assert worked(under_bust=38)[0].lower_to_centre / INCH == pytest.approx(0.4)


def test_a_shallow_cup_moves_more_of_the_dart_to_the_centre():
    # u − b = 2: a = max(½, 2/3, 2 − 0.55·2) = 0.9.
    assert worked(shoulder_to_under_bust=12)[0].lower_to_centre / INCH == pytest.approx(0.9)


def test_given_intakes_are_drawn_as_given():
    q, _, _ = worked(rules={"lower_intake": 1.75, "upper_intake": 0.75})
    assert [v / INCH for v in (q.lower, q.upper)] == pytest.approx([1.75, 0.75])


# Refusals


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"under_bust": 40}, "Under bust 40 in is not smaller than the bust (40 in). Measure both again."),
        ({"high_bust": 40.5}, "High bust 40 1/2 in is larger than the bust (40 in). Measure both again."),
    ],
)
def test_girths_that_cannot_belong_together_are_refused_by_naming_both(changes, words):
    with pytest.raises(ImpossibleMeasure) as refusal:
        worked(**changes)
    assert refusal.value.sentence(inches) == words


def test_with_wadding_the_refusal_still_names_what_was_measured():
    with pytest.raises(ImpossibleMeasure) as refusal:
        worked(wadded=True, high_bust=40.5)
    assert refusal.value.sentence(inches).startswith("High bust 40 1/2 in is larger than the bust (40 in).")
    # Wadding must not hide an under-bust that is larger than the bust as it was measured.
    with pytest.raises(ImpossibleMeasure) as refusal:
        worked(wadded=True, under_bust=40.25)
    assert refusal.value.sentence(inches).startswith("Under bust 40 1/4 in is not smaller than the bust (40 in).")
