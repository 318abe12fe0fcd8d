"""House rules: what is given rules, then the fit's ease, then the default."""

import pytest

from drafting.engine.rules import BUSTIER_RULES, EASES, HouseRule, Rules
from drafting.engine.tolerance import INCH

WORKED_OUT = {
    "neck_width", "shoulder_slope", "dart_toward_centre", "lower_intake", "upper_intake", "top_edge_dip", "top_edge_snug", "front_neck_depth",
}  # fmt: skip


@pytest.mark.parametrize(
    ("key", "default"),
    [
        # The workshop's list of house rules, in inches (the front's share is a fraction).
        ("back_neck_depth", 0.75), ("top_edge_rise", 1), ("seam_allowance", 0.5),
        ("let_out", 1), ("centre_back_allowance", 1), ("hem", 2), ("bone_spacing", 3), ("bone_clearance", 0.25),
        ("wadding_thickness", 0.125), ("lacing_gap", 1),
    ],
)  # fmt: skip
def test_a_rule_that_was_not_given_is_the_houses(key, default):
    assert Rules({}, "close")[key] == pytest.approx(default * INCH)


def test_the_fronts_share_is_no_length():
    assert Rules({}, "close")["front_share"] == 0.8


def test_a_rule_that_was_given_rules():
    assert Rules({"hem": 30.0}, "close")["hem"] == 30.0
    assert Rules({"ease_bust": 0.0}, "loose")["ease_bust"] == 0.0
    assert Rules({"front_share": 0.7}, "close")["front_share"] == 0.7


@pytest.mark.parametrize(
    ("fit", "bust", "waist", "hip"),
    [("corset", 0, 0, 2), ("close", 1, 0.5, 2), ("standard", 2, 1, 2), ("loose", 4, 3, 4)],
)
def test_ease_goes_by_the_fit(fit, bust, waist, hip):
    rules = Rules({}, fit)
    assert (rules["ease_bust"], rules["ease_waist"], rules["ease_hip"]) == pytest.approx(
        (bust * INCH, waist * INCH, hip * INCH)
    )


@pytest.mark.parametrize("key", sorted(WORKED_OUT))
def test_what_the_draft_works_out_has_no_default(key):
    with pytest.raises(KeyError):
        Rules({}, "close")[key]
    assert Rules({}, "close").get(key, 12.5) == 12.5
    assert Rules({key: 7.0}, "close").get(key, 12.5) == 7.0


def test_an_unknown_rule_is_refused():
    with pytest.raises(KeyError):
        Rules({}, "close")["hemline"]


def test_the_rules_in_force_are_all_but_those_worked_out():
    in_force = Rules({"hem": 30.0}, "corset").in_force()
    assert set(in_force) == {rule.key for rule in BUSTIER_RULES} - WORKED_OUT
    assert in_force["hem"] == 30.0
    assert in_force["ease_hip"] == 2 * INCH


@pytest.mark.parametrize("rule", BUSTIER_RULES, ids=lambda rule: rule.key)
def test_every_default_lies_within_its_limits(rule: HouseRule):
    assert rule.low < rule.high
    assert rule.default is None or rule.low <= rule.default <= rule.high
    for eases in EASES.values():
        if rule.key.startswith("ease_"):
            assert rule.low <= eases[("ease_bust", "ease_waist", "ease_hip").index(rule.key)] <= rule.high


def test_no_key_is_listed_twice():
    assert len({rule.key for rule in BUSTIER_RULES}) == len(BUSTIER_RULES)
