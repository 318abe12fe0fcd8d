"""The list of measures: whole, in plain words, with terms that were read somewhere."""

import re

import pytest

from clients.measures import BY_KEY, KINDS, LEFT, MEASURES, of_kind
from drafting.order_keys import ONE_SIDED_MEASURES
from tests.clients.book import inch

GIRTHS = "bust high_bust under_bust waist hip neck upper_arm elbow wrist thigh knee"
WIDTHS = "shoulder across_front across_back bust_span"
LENGTHS = (
    "shoulder_to_bust shoulder_to_under_bust shoulder_to_waist nape_to_waist armhole_depth waist_to_hip waist_to_knee body_rise "
    "inside_leg sleeve_length shoulder_to_elbow height skirt_length dress_length"
)

# The terms of ISO 8559:1989 as Zakaria and Gupta (eds.), Anthropometry, Apparel Sizing and Design, table 4.1, p. 96, have
# them; each stands there under its heading (lengths, widths, girths), so "girth" is ours to add.
ISO_1989_GIRTHS = "neck neck-base chest bust upper-arm armscye elbow wrist waist hip thigh mid-thigh knee calf ankle".split()
ISO_1989_OTHERS = {
    "under-arm length", "scye depth", "neck-shoulder point to breast point", "cervical to breast point",
    "neck shoulder to waist", "cervical to waist (front)", "cervical to waist (back)", "trunk length", "body rise",
    "cervical to knee hollow", "waist height", "outside leg length", "waist to hips", "hip height", "knee height",
    "shoulder length", "shoulder width", "back width", "upper-arm length", "arm length", "7th cervical to wrist",
}  # fmt: skip
CONFIRMED = {
    "ISO 8559:1989": ISO_1989_OTHERS | {f"{girth} girth" for girth in ISO_1989_GIRTHS},
    # Row heads of ASTM D5585-11 table 1.
    "ASTM D5585-11": {"bust", "under-bust", "upper chest", "neck base", "mid neck"},
    # 3.2.5 of the Chinese infants' standard, which borrows the international wording.
    "GB/T 22044-2017": {"front chest width"},
}

# ASTM D5585-11, misses, table 1: the smallest and the largest of sizes 00 to 20.
ASTM_2011 = {"bust": (31.125, 46), "under_bust": (25.75, 39.625), "high_bust": (31.75, 43.875), "waist": (23.875, 40.5), "neck": (13.25, 16.375)}
# Aldrich, Metric Pattern Cutting for Women's Wear, sizes 8 and 22, centimetres. From memory.
ALDRICH_CM = {
    "across_back": (32.4, 40.2), "across_front": (30, 39.5), "upper_arm": (26, 36), "wrist": (15, 18.5),
    "nape_to_waist": (39, 42.5), "waist_to_hip": (20, 22.1), "waist_to_knee": (57.5, 61), "sleeve_length": (57.2, 61),
    "body_rise": (26.6, 31.5),
}  # fmt: skip


@pytest.mark.parametrize(("kind", "keys"), [("girth", GIRTHS), ("width", WIDTHS), ("length", LENGTHS)])
def test_the_list_is_whole_and_in_the_order_of_taking(kind, keys):
    assert [measure.key for measure in of_kind(kind)] == keys.split()


def test_every_measure_has_one_kind():
    assert [measure.key for kind, _ in KINDS for measure in of_kind(kind)] == [measure.key for measure in MEASURES]
    assert len(MEASURES) == 29


def test_the_left_arm_has_the_measures_that_the_draft_takes_apart():
    assert {measure.right for measure in LEFT} == ONE_SIDED_MEASURES
    assert list(BY_KEY.values()) == [*MEASURES, *LEFT]
    for left in LEFT:
        right = BY_KEY[left.right]
        assert (left.key, left.name, left.kind, left.low_mm) == (f"{right.key}_left", f"{right.name}, left", right.kind, right.low_mm)


def test_every_measure_says_how_it_is_taken_in_one_or_two_plain_sentences():
    for measure in BY_KEY.values():
        assert measure.name[0].isupper()
        assert measure.how.endswith(".")
        assert 1 <= len(re.findall(r"[.!?](?: |$)", measure.how)) <= 2, measure.how
        assert not re.search(r"plumb|!|please", measure.how, re.IGNORECASE)


def test_the_draft_can_work_out_what_has_a_rule_and_nothing_else():
    with_rule = {"high_bust", "nape_to_waist", "across_front", "across_back", "bust_span", "waist_to_hip", "neck"}
    assert {measure.key for measure in MEASURES if measure.estimated} == with_rule


def test_a_term_names_its_standard_only_where_that_standard_was_read():
    for measure in MEASURES:
        if measure.term_source:
            assert measure.term in CONFIRMED[measure.term_source], measure.key


def test_no_clause_number_is_given_that_nobody_could_check():
    assert not [measure.key for measure in MEASURES if re.search(r"\d+\.\d+\.\d+|clause", measure.term + measure.term_source)]


@pytest.mark.parametrize(("key", "ends"), ASTM_2011.items())
def test_every_size_of_the_american_table_is_plausible(key, ends):
    assert all(BY_KEY[key].is_plausible(inch(end)) for end in ends)


@pytest.mark.parametrize(("key", "ends"), ALDRICH_CM.items())
def test_every_size_of_a_british_table_is_plausible(key, ends):
    assert all(BY_KEY[key].low_mm <= end * 10 <= BY_KEY[key].high_mm for end in ends)


def test_the_ranges_are_as_wide_as_real_bodies():
    assert (BY_KEY["bust"].low_in, BY_KEY["bust"].high_in) == (28, 70)
    assert all(measure.high_in >= 1.5 * measure.low_in for measure in MEASURES)
