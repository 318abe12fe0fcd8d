"""From brief to result: what the engine is asked, and what the result says beside the draft."""

import pytest

from drafting import order_keys
from drafting.brief import read_brief
from drafting.drawing import draw, spec_of
from drafting.engine.errors import DraftingError, ImpossibleMeasure
from drafting.engine.garments import KINDS
from tests.drafting.orders import LEAVE_OUT, example, spoiled


def warnings(order: dict) -> dict[str, str]:
    return {warning["code"]: warning["text"] for warning in draw(read_brief(order))["warnings"]}


def test_the_engine_is_asked_in_millimetres():
    spec = spec_of(read_brief(example()))
    assert spec.measures["bust"] == pytest.approx(977.9)
    assert spec.measures["hip"] == pytest.approx(1040)
    assert spec.options["skirt.length"] == pytest.approx(965.2)
    assert spec.rules == {"let_out": pytest.approx(31.75), "front_share": 0.8}
    assert spec.layers == {"shell": "brocade", "lining": "lawn", "stay": "woven fusible", "wadding": "cotton batting"}


def test_the_same_brief_gives_the_same_result():
    assert draw(read_brief(example())) == draw(read_brief(example()))


def test_units_change_the_words_and_not_the_draft():
    inches, metric = example(), example()
    metric["units"] = "cm"
    for key, value in metric["measures"].items():
        metric["measures"][key] = f"{spec_of(read_brief(inches)).measures[key]}mm"
    metric["garment"]["skirt"]["length"] = "38in"
    metric["garment"]["rules"]["let_out"] = "31.75 mm"
    for cloth in metric["cloths"]:
        cloth["width"] = f"{cloth['width']} in"
    metric["fit_notes"][0]["amount"] = "-6.35 mm"
    metric["cloths"][0] |= {"selvedge": "12.7 mm", "flaws": []}
    a, b = draw(read_brief(inches)), draw(read_brief(metric))
    assert [piece["net"] for piece in a["pieces"]] == [piece["net"] for piece in b["pieces"]]
    assert a["steps"] != b["steps"]


def test_every_rule_and_choice_of_every_kind_can_be_written_in_an_order_file():
    for kind in KINDS.values():
        assert {rule.key for rule in kind.rules} <= set(order_keys.RULES)
        keys = {key for key in order_keys.GARMENT if key not in ("skirt", "trousers", "sleeve")}
        keys |= {f"{part}.{key}" for part in ("skirt", "trousers", "sleeve") for key in getattr(order_keys, part.upper())}
        assert {option.key for option in kind.options} <= keys


@pytest.mark.parametrize("edge", [choice.value for o in KINDS["bustier-gown"].options if o.key == "top_edge" for choice in o.choices])
@pytest.mark.parametrize("skirt", ["none", "straight", "a-line"])
@pytest.mark.parametrize("closure", ["back-zip", "back-lacing"])
def test_every_pair_of_choices_that_is_listed_is_drafted(edge, skirt, closure):
    order = example()
    order["garment"] |= {"top_edge": edge, "closure": closure, "skirt": {"kind": skirt}}
    assert all(check["pass"] for check in draw(read_brief(order))["checks"])


def test_a_fit_note_is_drawn_into_the_pieces_and_said_so():
    plain, fitted = (draw(read_brief(order)) for order in (spoiled(("fit_notes",), []), example()))
    waists = [next(girth["finished"] for girth in made["girths"] if girth["level"] == "waist") for made in (plain, fitted)]
    assert waists[1] - waists[0] == pytest.approx(-12.7, abs=0.5)  # ¼ on each side
    assert fitted["fit_notes"] == [{"place": "side waist", "side": "both", "amount": pytest.approx(-6.35), "drawn": True}]
    assert "fit-note-not-applied" not in warnings(example())


def test_a_fit_note_that_no_line_answers_is_named_with_its_side():
    order = spoiled(("fit_notes", 0), {"place": "hem of the train", "side": "left", "amount": "-1/4"})
    assert warnings(order)["fit-note-not-applied"] == (
        "Fit note not drawn into these pieces: hem of the train, left, ¼\u00a0in less. Chalk it in before cutting."
    )


@pytest.mark.parametrize(("cut", "stale"), [("2026-05-31", False), ("2026-06-01", True)])
def test_measures_over_ninety_days_old_at_the_cutting_are_stale(cut, stale):
    assert ("stale-measures" in warnings(spoiled(("dates", "cut"), cut))) is stale


def test_without_a_cutting_day_the_collection_counts():
    order = spoiled(("dates", "cut"), LEAVE_OUT)
    order["dates"]["collect"] = "2026-06-01"
    assert warnings(order)["stale-measures"].startswith("The measures of 2 March 2026 will be 91 days old on collection.")


@pytest.mark.parametrize(("cut", "told"), [("2026-03-16", False), ("2026-03-17", True)])
def test_a_close_fit_is_measured_within_a_fortnight_of_cutting(cut, told):
    assert ("measures-before-cutting" in warnings(spoiled(("dates", "cut"), cut))) is told


def test_a_standard_fit_may_be_measured_earlier():
    order = spoiled(("dates", "cut"), "2026-04-20")
    order["garment"]["fit"] = "standard"
    assert "measures-before-cutting" not in warnings(order)


def test_without_dates_nothing_is_stale():
    assert not {"stale-measures", "measures-before-cutting"} & warnings(spoiled(("dates",), LEAVE_OUT)).keys()


def test_a_cloth_narrower_than_a_piece_is_named_with_the_piece_and_the_width_needed():
    text = warnings(spoiled(("cloths", 1, "width"), "36"))["cloth-too-narrow"]
    assert text.startswith("lawn is 36\u00a0in wide; skirt front lining needs 36⅝\u00a0in.")


def test_cloths_that_are_wide_enough_are_passed_over():
    order = example()
    for cloth in order["cloths"]:
        cloth["width"] = 120
    assert "cloth-too-narrow" not in warnings(order)


def test_an_order_without_cloths_is_drafted_and_says_what_is_wanting():
    found = warnings(spoiled(("cloths",), []))
    assert {"no-cloth", "no-lining-cloth"} <= found.keys()


def test_a_measure_outside_its_plausible_range_is_asked_about():
    text = warnings(spoiled(("measures", "armhole_depth"), "3 7/8"))["implausible-measure"]
    assert text == "Armhole depth 3⅞\u00a0in lies outside 4 to 12. Read the tape once more."


@pytest.mark.parametrize(
    ("key", "written", "said"),
    [
        ("waist", "1mm", "Waist ¹⁄₁₆\u00a0in can't be right: 20 to 66 is usual."),
        ("waist", "9 7/8", "Waist 9⅞\u00a0in can't be right: 20 to 66 is usual."),
        ("shoulder", "45", "Shoulder 45\u00a0in can't be right: 11 to 22 is usual."),
    ],
)
def test_a_measure_that_no_body_has_is_named_and_nothing_is_drafted(key, written, said):
    with pytest.raises(ImpossibleMeasure) as refused:
        draw(read_brief(spoiled(("measures", key), written)))
    assert refused.value.sentence(str) == f"{said} Put it right among the measures, then draft again."


def test_a_measure_that_no_body_has_is_no_matter_where_it_is_not_used():
    draw(read_brief(spoiled(("measures", "wrist"), "1mm")))


def test_a_rule_beyond_its_limit_is_held_there_and_told():
    order = spoiled(("garment", "rules", "let_out"), 9)
    result = draw(read_brief(order))
    assert result["rules"]["let_out"] == pytest.approx(4 * 25.4)
    assert {w["code"]: w["text"] for w in result["warnings"]}["rule-held-at-limit"] == (
        "House rule “let-out at the side seams”: 9\u00a0in is beyond its limit, so 4\u00a0in was drafted."
    )


def test_a_rule_that_this_garment_has_no_use_for_is_told():
    assert "rule-not-used" in warnings(spoiled(("garment", "rules", "cap_ease"), 1))


def test_a_skirt_without_a_length_is_drafted_at_the_default_and_told():
    text = warnings(spoiled(("garment", "skirt", "length"), LEAVE_OUT))["skirt-length-assumed"]
    assert text == "No skirt length was given: it is drafted 40\u00a0in from the waist."


def test_a_skirt_length_among_the_measures_is_used():
    order = spoiled(("garment", "skirt", "length"), LEAVE_OUT)
    order["measures"]["skirt_length"] = 30
    assert spec_of(read_brief(order)).options["skirt.length"] == pytest.approx(762)
    assert "skirt-length-assumed" not in warnings(order)


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_one_who_has_every_measure_taken_can_order_a_garment_of_each_kind(kind):
    arms_and_legs = {
        "upper_arm": 11.5, "elbow": 10.5, "wrist": 6.5, "sleeve_length": 23, "shoulder_to_elbow": 13.5, "thigh": 23,
        "knee": 15, "waist_to_knee": 23, "body_rise": 11, "inside_leg": 30, "waist_to_hip": 8, "height": 66,
    }  # fmt: skip
    order = example() | {"garment": {"kind": kind}, "fit_notes": [], "cloths": []}
    order["measures"] |= arms_and_legs | {"skirt_length": 27, "dress_length": 43}
    assert draw(read_brief(order))["pieces"]


@pytest.mark.parametrize(
    ("key", "value", "named"),
    [
        ("under_bust", 44, "nder"),
        ("shoulder_to_bust", 17, "houlder"),
        ("armhole_depth", 11, "rmhole"),
        ("shoulder_to_waist", "13 7/8", "aist"),
        ("nape_to_waist", 11, "ape"),
    ],
)
def test_a_body_that_cannot_be_drafted_is_refused_with_the_measure_named(key, value, named):
    with pytest.raises(DraftingError) as refused:
        draw(read_brief(spoiled(("measures", key), value)))
    assert named in refused.value.sentence(lambda mm: f"{mm / 25.4:.2f} in")
