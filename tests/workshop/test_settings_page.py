"""Settings: the workshop's row and its house rules."""

import pytest

from drafting.engine.garments import KINDS
from workshop.house_rules import BY_KEY, HOUSE_RULES
from workshop.length import parse_length
from workshop.models import Workshop

WELL = {"name": "Salt Lane Sewing Room", "town": "", "unit": "in", "currency": "GBP", "paper": "A4"}


def test_it_saves_the_row_and_the_rules_as_written(as_owner):
    answer = as_owner.post(
        "/settings/", {**WELL, "unit": "cm", "currency": "EUR", "rule_let_out": " 1 1/4 in ", "rule_hem": "5,5"}
    )
    assert (answer.status_code, answer.url) == (302, "/settings/")
    workshop = Workshop.objects.get()
    assert (workshop.unit, workshop.currency) == ("cm", "EUR")
    assert workshop.house_rules == {"let_out": "1 1/4 in", "hem": "5,5 cm"}
    assert "Settings saved." in as_owner.get("/settings/").content.decode()


def test_a_blank_rule_goes_back_to_the_usual(as_owner):
    as_owner.post("/settings/", {**WELL, "rule_hem": "3"})
    as_owner.post("/settings/", {**WELL, "rule_hem": ""})
    assert Workshop.objects.get().house_rules == {}


def test_how_long_measures_are_good_and_whether_the_keys_have_sixteenths_are_kept(as_owner):
    as_owner.post("/settings/", {**WELL, "good_for_days": "60", "sixteenths": "on"})
    assert Workshop.objects.values_list("good_for_days", "sixteenths").get() == (60, True)
    as_owner.post("/settings/", {**WELL, "good_for_days": ""})
    assert Workshop.objects.values_list("good_for_days", "sixteenths").get() == (90, False)


@pytest.mark.parametrize(
    ("typed", "sentence"), [("3", "“3” is outside 7 to 730 days. The usual is 90."), ("a season", "I can't read that as a number of days.")]
)
def test_days_that_make_no_sense_are_refused(as_owner, typed, sentence):
    answer = as_owner.post("/settings/", {**WELL, "good_for_days": typed})
    assert answer.status_code == 422
    assert sentence in answer.content.decode().replace("&#x27;", "'")


def test_kept_rules_are_shown_again(as_owner):
    as_owner.post("/settings/", {**WELL, "rule_hem": "3⅛"})
    assert 'value="3⅛ in"' in as_owner.get("/settings/").content.decode()


@pytest.mark.parametrize(
    ("rule", "typed", "sentence"),
    [
        ("let_out", "1 1/5", "I can't read “1 1/5”. Use halves, quarters, eighths or sixteenths: 1 1/4."),
        ("hem", "9", "“9” is outside the limits, 0 to 6\u00a0in. Blank keeps the usual."),
        ("seam_allowance", "-1/2", "“-1/2” is less than nothing. Write it without the minus."),
        ("front_share", "1.2", "“1.2” is outside the limits, 0.5 to 1. Blank keeps the usual."),
        ("front_share", "most", "I can't read “most”. Write a share such as 0.8."),
        ("front_share", "NaN", "I can't read “NaN”. Write a share such as 0.8."),
        ("ease_hip", "1", "“1” is outside the limits, 2 to 12\u00a0in. Blank keeps the usual."),
    ],
)
def test_a_rule_that_cannot_stand_is_refused_with_what_was_typed(as_owner, rule, typed, sentence):
    answer = as_owner.post("/settings/", {**WELL, "name": "New name", f"rule_{rule}": typed})
    assert answer.status_code == 422
    assert answer.context["form"].errors == {f"rule_{rule}": [sentence]}
    assert f'value="{typed}"' in answer.content.decode()
    assert Workshop.objects.get().name == "Salt Lane Sewing Room"


def test_a_rule_is_read_in_the_unit_that_is_chosen_with_it(as_owner):
    answer = as_owner.post("/settings/", {**WELL, "unit": "cm", "rule_hem": "9"})
    assert answer.status_code == 302
    answer = as_owner.post("/settings/", {**WELL, "unit": "in", "rule_hem": "9"})
    assert answer.status_code == 422


def test_a_rule_keeps_its_length_when_the_workshop_changes_its_unit(as_owner):
    as_owner.post("/settings/", {**WELL, "rule_hem": "3", "rule_front_share": "0.7"})
    shown = as_owner.get("/settings/").context["form"]
    as_owner.post(
        "/settings/",
        {**WELL, "unit": "cm", **{field.html_name: field.value() for field in shown if "rule" in field.name}},
    )
    kept = Workshop.objects.get().house_rules
    assert kept == {"hem": "3 in", "front_share": "0.7"}
    assert parse_length(kept["hem"], "cm") == parse_length("3", "in")


@pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
def test_what_settings_lets_pass_no_garment_refuses_and_what_it_calls_usual_is_what_is_drawn(kind):
    for known in kind.rules:
        ours = BY_KEY.get(known.key)
        if ours is None:
            continue
        assert known.low <= float(ours.low) and float(ours.high) <= known.high, known.key
        if known.default is not None and not isinstance(ours.usual, str):
            assert float(ours.usual) == known.default, known.key


def test_the_rules_are_those_of_the_order_file():
    order_file = (
        "neck_width front_neck_depth back_neck_depth shoulder_slope front_share dart_toward_centre lower_intake "
        "upper_intake top_edge_rise top_edge_dip basque_depth basque_side seam_allowance let_out centre_back_allowance "
        "hem bone_width bone_spacing bone_clearance wadding_thickness lacing_gap cap_ease ease_bust ease_waist ease_hip tape_noise least_allowance "
        "strap_width waist_stay lower_edge button button_stand button_spacing collar_depth"
    )
    assert set(BY_KEY) == set(order_file.split())
    assert len(BY_KEY) == len(HOUSE_RULES)


@pytest.mark.parametrize("rule", HOUSE_RULES, ids=lambda rule: rule.key)
def test_each_usual_lies_within_its_own_limits_and_is_told_in_the_workshops_unit(rule):
    assert rule.low < rule.high
    if not isinstance(rule.usual, str):
        assert rule.low <= rule.usual <= rule.high
    assert "{" not in rule.help_text("in") + rule.help_text("cm")
    assert "\u00a0in" not in rule.help_text("cm")
    assert rule.check("  ", "in") == ""


def test_metric_words_hold_metric_figures():
    assert BY_KEY["neck_width"].usual_text("cm") == "neck ÷ 6 + 0.6\u00a0cm"
    assert BY_KEY["neck_width"].usual_text("in") == "neck ÷ 6 + ¼\u00a0in"


@pytest.mark.parametrize("browser", ["as_seamstress", "as_apprentice"])
def test_only_the_owner_sees_it(browser, request):
    browser = request.getfixturevalue(browser)
    answer = browser.get("/settings/")
    assert answer.status_code == 403
    page = answer.content.decode()
    assert "This page is kept for others in the workshop." in page
    assert 'href="/settings/"' not in page
    assert browser.post("/settings/", WELL).status_code == 403
