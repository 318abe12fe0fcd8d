"""The body: estimates and levels by sums done by hand (inches), and the measures that can't belong together."""

import pytest
from hypothesis import given

from drafting.engine.body import balance, body_from, check_levels, front_levels, neck_width, side_levels
from drafting.engine.errors import ImpossibleMeasure, MissingMeasure
from drafting.engine.rules import Rules
from drafting.engine.tolerance import INCH

from .bodies import NEEDED, ROUND, inches, mm
from .shapes import numbers, repeatable

RULES = Rules({}, "corset")


def a_body(rules=RULES, without=(), **changes):
    measures = mm({**ROUND, **changes})
    return body_from({key: value for key, value in measures.items() if key not in without}, rules, needs=NEEDED)


def checked(rules=RULES, **changes):
    body = a_body(rules, **changes)
    return check_levels(body, front_levels(body, rules), balance(body, rules))


# Estimates. Rules: common practice, no source.


@pytest.mark.parametrize(
    ("key", "worked"),
    [
        ("high_bust", 40 - 0.4 * 5),  # bust less two fifths of bust − under-bust
        ("neck", 40 / 4 + 5.5),
        ("nape_to_waist", 17 - 0.75 - 1),  # shoulder to waist less the back neck's depth and a fifth of 5
        ("across_front", 38 / 5 + 6.2),
        ("across_back", 38 / 5 + 7),
        ("bust_span", 40 / 5),
        ("waist_to_hip", 8),
    ],
)
def test_a_missing_measure_is_estimated_and_said_to_be(key, worked):
    body = a_body(without=(key,))
    assert body[key] / INCH == pytest.approx(worked)
    assert key in body.estimated


def test_with_nothing_but_the_needed_measures_seven_are_estimated():
    body = body_from(mm({key: ROUND[key] for key in NEEDED}), RULES, needs=NEEDED)
    assert body.estimated == {
        "high_bust", "neck", "nape_to_waist", "across_front", "across_back", "bust_span", "waist_to_hip",
    }  # fmt: skip


def test_a_measure_that_was_taken_is_never_estimated():
    body = a_body(high_bust=37, bust_span=7.5, across_front=13, across_back=14)
    assert not body.estimated
    assert (body["high_bust"], body["bust_span"]) == pytest.approx((37 * INCH, 7.5 * INCH))


def test_estimates_that_lean_on_the_high_bust_take_the_one_that_was_measured():
    assert a_body(high_bust=36.5)["across_front"] / INCH == pytest.approx(36.5 / 5 + 6.2)


@pytest.mark.parametrize(("shoulder", "front", "back"), [(18, 16, 17), (15, 13.8, 14.6), (13, 13, 13)])
def test_across_measures_are_held_near_the_shoulder(shoulder, front, back):
    # From high bust 38: 13.8 and 14.6, held between shoulder − 2 (back: − 1) and shoulder.
    body = a_body(shoulder=shoulder)
    assert body["across_front"] / INCH == pytest.approx(front)
    assert body["across_back"] / INCH == pytest.approx(back)


def test_an_estimated_nape_to_waist_makes_the_balance_a_fifth_of_bust_less_under_bust():
    for under_bust in (36, 35, 30):
        body = a_body(without=("nape_to_waist",), under_bust=under_bust)
        assert balance(body, RULES) / INCH == pytest.approx(0.2 * (40 - under_bust))


@pytest.mark.parametrize("key", NEEDED)
def test_a_measure_without_a_rule_stops_the_draft_by_name(key):
    with pytest.raises(MissingMeasure) as refusal:
        a_body(without=(key,))
    assert refusal.value.keys == (key,)
    assert refusal.value.sentence(inches) == f"Not measured yet: {key.replace('_', ' ')}. Take it, then draft again."


def test_all_that_is_missing_is_told_at_once():
    with pytest.raises(MissingMeasure) as refusal:
        a_body(without=("waist", "hip"))
    assert refusal.value.sentence(inches) == "Not measured yet: waist, hip. Take them, then draft again."


# Levels


def test_the_neck_is_a_sixth_of_its_girth_and_a_quarter_inch_wide():
    assert neck_width(a_body(), RULES) / INCH == pytest.approx(15 / 6 + 0.25)
    house = Rules({"neck_width": 3 * INCH}, "corset")
    assert neck_width(a_body(house), house) == 3 * INCH


def test_levels_at_the_fold_are_the_tapes_own():
    # Slope 0.36·(15½/2 − 2¾) = 1.8; chest 1.8 + 6.2 = 8; bust, under-bust and waist as taken; hip 17 + 8.
    levels = front_levels(a_body(), RULES).as_dict()
    assert {key: value / INCH for key, value in levels.items()} == pytest.approx(
        {"shoulder": 1.8, "chest": 8, "bust": 10, "under_bust": 13, "waist": 17, "hip": 25}
    )


def test_with_a_slope_set_by_the_workshop_the_armhole_is_measured_from_that_tip():
    rules = Rules({"shoulder_slope": 1.0 * INCH}, "corset")
    levels = front_levels(a_body(rules), rules)
    assert (levels.shoulder / INCH, levels.chest / INCH) == pytest.approx((1.0, 7.2))


def test_the_balance_is_the_climb_over_the_bust():
    # 17 − (15¼ + ¾) = 1
    assert balance(a_body(), RULES) / INCH == pytest.approx(1)


def test_side_levels_below_the_bust_are_higher_by_the_balance_and_the_busts_in_proportion():
    # Side bust 8 + (10 − 8)·(13 − 1 − 8)/(13 − 8) = 9.6.
    body = a_body()
    levels = side_levels(front_levels(body, RULES), balance(body, RULES)).as_dict()
    assert {key: value / INCH for key, value in levels.items()} == pytest.approx(
        {"shoulder": 1.8, "chest": 8, "bust": 9.6, "under_bust": 12, "waist": 16, "hip": 24}
    )


@repeatable
@given(numbers(12, 15), numbers(9, 11.5), numbers(14, 16.25))
def test_the_band_is_as_deep_at_the_side_as_at_the_fold(under_bust, bust, nape):
    body = a_body(shoulder_to_under_bust=under_bust, shoulder_to_bust=bust, nape_to_waist=nape)
    front = front_levels(body, RULES)
    side = side_levels(front, balance(body, RULES))
    assert side.waist - side.under_bust == pytest.approx(front.waist - front.under_bust)
    assert side.hip - side.waist == pytest.approx(front.hip - front.waist)
    assert side.chest == front.chest


# Limits


def test_a_likely_body_draws_no_remark():
    assert checked() == []


@pytest.mark.parametrize(
    ("changes", "named"),
    [
        ({"shoulder_to_bust": 8.2}, ("armhole depth", "shoulder to bust")),
        ({"armhole_depth": 9}, ("armhole depth", "shoulder to bust")),
        ({"shoulder_to_under_bust": 10.2}, ("shoulder to bust", "shoulder to under bust")),
        ({"shoulder_to_waist": 13.2, "nape_to_waist": 12.45}, ("shoulder to under bust", "shoulder to waist")),
        ({"waist_to_hip": 0.2}, ("shoulder to waist", "waist to hip")),
        ({"nape_to_waist": 11}, ("nape to waist", "shoulder to waist")),
    ],
)
def test_levels_out_of_order_are_refused_by_naming_two_measures(changes, named):
    with pytest.raises(ImpossibleMeasure) as refusal:
        checked(**changes)
    sentence = refusal.value.sentence(inches).lower().replace("-", " ")
    assert all(name in sentence for name in named), sentence
    assert "{" not in sentence
    assert " again." in sentence
    assert inches(refusal.value.value) in sentence


@pytest.mark.parametrize("apart", [0.24, 0.26])
def test_two_levels_need_a_quarter_inch_between_them(apart):
    changes = {"shoulder_to_bust": 13 - apart}
    if apart < 0.25:
        with pytest.raises(ImpossibleMeasure):
            checked(**changes)
    else:
        assert checked(**changes) == []


@pytest.mark.parametrize(("bust", "refused"), [(8.32, False), (8.31, True)])
def test_at_the_side_too_the_bust_is_a_quarter_inch_below_the_underarm(bust, refused):
    # With d = 1 the side's bust lies (b − 8)·(13 − 1 − 8)/(13 − 8) below the underarm: ¼ where b = 8.3125. Nearer, a
    # lining's edge, which lies ⅛ lower, would pass the bust level and its side seam turn back on itself.
    if refused:
        with pytest.raises(ImpossibleMeasure) as refusal:
            checked(shoulder_to_bust=bust)
        assert refusal.value.sentence(inches) == (
            "The bust level comes out less than 1/4 in below the underarm level at the side seam. "
            "Shoulder to bust is 8 5/16 in: measure it and armhole depth again."
        )
    else:
        assert [warning.code for warning in checked(shoulder_to_bust=bust)] == ["bust-near-underarm"]


@pytest.mark.parametrize(("nape", "refused"), [(12.26, False), (12.24, True)])
def test_the_under_bust_stays_an_inch_below_the_underarm_at_the_side(nape, refused):
    # u − d − c = 13 − d − 8 ≥ 1, so d ≤ 4, and nape to waist ≥ 17 − 4 − ¾ = 12¼.
    if refused:
        with pytest.raises(ImpossibleMeasure):
            checked(nape_to_waist=nape)
    else:
        assert [warning.code for warning in checked(nape_to_waist=nape)] == ["front-back-balance"]


@pytest.mark.parametrize(("bust", "remarks"), [(9.01, []), (8.99, ["bust-near-underarm"])])
def test_a_bust_within_an_inch_of_the_underarm_is_remarked(bust, remarks):
    assert [warning.code for warning in checked(shoulder_to_bust=bust)] == remarks


@pytest.mark.parametrize(
    ("d", "remarks"),
    [(-0.13, ["front-back-balance"]), (-0.12, []), (0, []), (2, []), (2.49, []), (2.51, ["front-back-balance"])],
)
def test_an_unlikely_balance_is_queried(d, remarks):
    assert [warning.code for warning in checked(nape_to_waist=17 - 0.75 - d)] == remarks


def test_a_warning_is_written_in_the_workshops_lengths():
    text = checked(shoulder_to_bust=8.5)[0].written(inches)
    assert "1/2 in" in text
    assert "{" not in text
