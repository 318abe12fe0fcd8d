"""What is pointed out, in the client's own figures, and what is left alone."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from clients.checks import Earlier, contradictions, related, remark
from clients.measures import BY_KEY
from tests.clients.book import AGREEING, inch
from workshop.length import parse_length

BODY = {key: parse_length(text, "in") for key, text in AGREEING.items()}

# ASTM D5585-11 table 1, misses, sizes 00 to 20: bust, under-bust, upper chest, waist (curvy), neck base.
ASTM_2011 = [
    (31.125, 25.75, 31.75, 23.875, 13.25), (31.75, 26.5, 32.25, 24.625, 13.5), (33, 27.25, 33.25, 25.375, 13.75),
    (34.125, 28, 34.125, 26.125, 14), (35.25, 29, 35, 27, 14.25), (36.25, 30, 35.875, 28, 14.625),
    (37.25, 31, 36.75, 29, 14.875), (38.75, 32.5, 38, 30.75, 15.125), (40.375, 34, 39.25, 32.5, 15.5),
    (42.125, 35.75, 40.625, 34.5, 15.75), (44, 37.625, 42.25, 36.75, 16), (46, 39.625, 43.875, 39, 16.375),
]  # fmt: skip
# ASTM D5585-95, sizes 6 to 16, from memory: cross-shoulder, cross-back, cross-chest, bust point to bust point, bust.
ASTM_1995 = [
    (14.875, 14.375, 13.375, 7.5, 34), (15.125, 14.625, 13.625, 7.75, 35), (15.375, 14.875, 13.875, 8, 36),
    (15.75, 15.25, 14.25, 8.25, 37.5), (16.125, 15.625, 14.625, 8.5, 39), (16.5, 16, 15, 8.75, 40.5),
]  # fmt: skip


def said(**changed: str | float) -> list[str]:
    lengths = BODY | {key: inch(value) for key, value in changed.items()}
    return [each.text for each in contradictions(lengths, "in")]


def test_a_body_whose_measures_agree_raises_nothing():
    assert said() == []


def test_nothing_measured_raises_nothing():
    assert contradictions({}, "in") == []


@pytest.mark.parametrize("size", ASTM_2011)
def test_every_size_of_the_american_table_agrees_with_itself(size):
    bust, under_bust, high_bust, waist, neck = map(inch, size)
    to_bust, shoulder = bust / 4 + inch("1.25"), bust / 4 + inch("6.375")
    body = {
        "bust": bust, "under_bust": under_bust, "waist": waist, "hip": bust + inch("2.5"), "neck": neck,
        "shoulder": shoulder, "bust_span": bust / 5, "shoulder_to_bust": to_bust,
        "shoulder_to_under_bust": to_bust + inch(3), "nape_to_waist": inch(16), "armhole_depth": inch("6.5"),
        "shoulder_to_waist": inch("16.75") + (bust - under_bust) / 5,
    }  # fmt: skip
    assert contradictions(body, "in") == []
    # The table's upper chest is not below its bust up to size 4: said, as true of some small busts.
    texts = [each.text for each in contradictions(body | {"high_bust": high_bust}, "in")]
    assert bool(texts) == (high_bust > bust)
    assert all("True of some small busts" in text for text in texts)


@pytest.mark.parametrize("size", ASTM_1995)
def test_the_widths_of_an_older_american_table_agree(size):
    keys = ("shoulder", "across_back", "across_front", "bust_span", "bust")
    assert contradictions(dict(zip(keys, map(inch, size), strict=True)), "in") == []


@pytest.mark.parametrize(
    ("changed", "text"),
    [
        ({"under_bust": 38}, "Under-bust 38 is more than bust 36¼. One of the two was read wrongly."),
        ({"high_bust": 37}, "High bust 37 is more than bust 36¼. True of some small busts; else read both once more."),
        ({"shoulder_to_bust": "13.25", "armhole_depth": 7}, "Bust (13¼) comes below the under-bust (13), down from the shoulder. One of the two was read wrongly."),
        ({"shoulder_to_under_bust": "16.375"}, "Under-bust (16⅜) and waist (16½), down from the shoulder, are less than ¼ apart. Read both once more."),
        ({"bust_span": "10.5"}, "Bust span 10½ is wide for a bust of 36¼: a fifth of it is 7¼. Read it once more."),
        ({"bust_span": "5"}, "Bust span 5 is narrow for a bust of 36¼: a fifth of it is 7¼. Read it once more."),
        ({"nape_to_waist": "17"}, "Shoulder to waist 16½ is 1¼ less than nape to waist 17 with ¾ for the back neck. Read both once more."),
        ({"nape_to_waist": "13"}, "Shoulder to waist 16½ is 2¾ more than nape to waist 13 with ¾ for the back neck. Read both once more."),
        ({"across_front": "15.75"}, "Across front 15¾ is more than shoulder 15, tip to tip. Read both once more."),
        ({"across_back": "10.75"}, "Across back 10¾ is 4¼ less than shoulder 15. Read both once more."),
        ({"armhole_depth": "8.5"}, "Armhole depth 8½ brings the underarm down to the bust, 10 below the shoulder. One of the two was read wrongly."),
        ({"wrist": 11, "elbow": "10.5"}, "Wrist 11 is not less than elbow 10½. One of the two was read wrongly."),
        ({"wrist": 12, "upper_arm": "11"}, "Wrist 12 is not less than upper arm 11. One of the two was read wrongly."),
        ({"shoulder_to_elbow": 23, "sleeve_length": 23}, "Shoulder to elbow 23 is not less than sleeve length 23. One of the two was read wrongly."),
        ({"waist_to_hip": 24, "waist_to_knee": 23}, "Waist to hip 24 is not less than waist to knee 23. One of the two was read wrongly."),
        ({"neck": 28}, "Neck 28 is not less than waist 28. One of the two was read wrongly."),
    ],
)  # fmt: skip
def test_a_contradiction_is_said_in_the_clients_own_figures(changed, text):
    assert said(**changed) == [text]


@pytest.mark.parametrize(
    "changed",
    [
        {"shoulder_to_under_bust": "16.25"}, {"nape_to_waist": "15.875"}, {"nape_to_waist": "13.25"},
        {"across_back": "15.5"}, {"across_front": 11},
    ],
)  # fmt: skip
def test_what_lies_on_its_limit_is_left_alone(changed):
    assert said(**changed) == []


@pytest.mark.parametrize(("waist", "texts"), [("42", []), ("42.5", ["Waist 42½ is 3½ more than hip 39. Read both once more."])])
def test_a_waist_may_be_more_than_the_hip_but_seldom_by_much(waist, texts):
    lengths = {"waist": inch(waist), "hip": inch(39)}
    assert [each.text for each in contradictions(lengths, "in")] == texts


def test_a_metric_workshop_hears_centimetres():
    lengths = {"under_bust": Decimal(800), "bust": Decimal(785)}
    assert [each.text for each in contradictions(lengths, "cm")] == [
        "Under-bust 80 is more than bust 78.5. One of the two was read wrongly."
    ]


def test_a_contradiction_names_its_measures_and_they_know_each_other():
    (found,) = contradictions(BODY | {"under_bust": inch(38)}, "in")
    assert set(found.keys) == {"bust", "under_bust"}
    assert "under_bust" in related("bust")
    assert "bust" in related("under_bust")
    assert related("skirt_length") == set()


def odd(key: str, written: str, last: str | None = None, unit: str = "in"):
    earlier = Earlier(parse_length(last, unit), "2 March") if last else None
    return remark(key, written, parse_length(written, unit), unit, earlier)


@pytest.mark.parametrize(
    ("key", "written", "last", "text", "offer"),
    [
        ("waist", "32 1/2", "28", "4½ more than on 2 March (28). Read the tape once more? If it is right, keep it.", ""),
        ("waist", "26 3/4", "28", "1¼ less than on 2 March (28). Read the tape once more? If it is right, keep it.", ""),
        ("waist", "1 mm", None, "¹⁄₁₆ is far outside the usual 20 to 66: no draft is made with it. Read the tape once more? If it is right, keep it.", ""),
        ("waist", "340 cm", "28", "133⅞ is far outside the usual 20 to 66: no draft is made with it. Read the tape once more? If it is right, keep it.", ""),
        ("bust", "26", None, "26 is outside the usual 28 to 70. A tape slips by ten easily: was it 36?", "36"),
        ("bust", "46 1/2", "36 1/4", "10¼ more than on 2 March (36¼). A tape slips by ten easily: was it 36½?", "36½"),
        ("waist", "18", "28", "10 less than on 2 March (28). A tape slips by ten easily: was it 28?", "28"),
        ("bust", "93", None, "93 is outside the usual 28 to 70. Was it 93 cm, which is 36⅝?", "93 cm"),
        ("waist", "66", "26", "40 more than on 2 March (26). Was it 66 cm, which is 26?", "66 cm"),
        ("shoulder", "38,5", None, "38½ is outside the usual 11 to 22. Was it 38,5 cm, which is 15³⁄₁₆?", "38,5 cm"),
        ("shoulder_to_bust", "11", "10", "1 more than on 2 March (10). A tape slips by a whole inch easily: was it 10?", "10"),
        ("wrist", "3", None, "3 is outside the usual 4½ to 11. Read the tape once more? If it is right, keep it.", ""),
    ],
)  # fmt: skip
def test_a_slip_is_recognised_and_the_likely_value_offered(key, written, last, text, offer):
    found = odd(key, written, last)
    assert (found.text, found.offer) == (text, offer)


@pytest.mark.parametrize(
    ("left", "said"),
    [
        ("12 1/8", "Upper arm 11 on the right, 12⅛ on the left: 1⅛ more. Read both once more."),
        ("9 7/8", "Upper arm 11 on the right, 9⅞ on the left: 1⅛ less. Read both once more."),
    ],
)
def test_arms_that_differ_by_more_than_a_tenth_are_asked_about(left, said):
    arms = {"upper_arm": inch(11), "upper_arm_left": parse_length(left, "in")}
    assert [each.text for each in contradictions(arms, "in")] == [said]
    assert contradictions(arms | {"upper_arm_left": inch(12)}, "in") == []


def test_inches_typed_in_a_metric_workshop_are_recognised():
    found = odd("bust", "36 1/2", "92.5", unit="cm")
    assert (found.text, found.offer) == (
        "56 less than on 2 March (92.5). Was it 36 1/2 in, which is 92.7?", "36 1/2 in",
    )  # fmt: skip


def test_ten_in_a_metric_workshop_is_ten_centimetres():
    assert odd("waist", "81.5", "72", unit="cm").offer == "71.5"


def test_a_unit_that_was_written_is_believed():
    assert odd("bust", "93 in").offer != "93 in cm"


@pytest.mark.parametrize(
    ("key", "written", "last"),
    [
        ("bust", "36 1/2", None), ("waist", "29", "28"), ("shoulder_to_bust", "10 3/4", "10"), ("hip", "39", "39"),
        ("skirt_length", "24", "40"), ("dress_length", "60", "38"), ("waist", "29.12", "28"),
    ],
)  # fmt: skip
def test_an_everyday_change_is_left_alone(key, written, last):
    assert odd(key, written, last) is None


@given(key=st.sampled_from(sorted(BY_KEY)), sixteenths=st.integers(1, 1800), last=st.none() | st.integers(1, 1800))
def test_an_offer_is_always_a_plausible_length_that_can_be_read(key, sixteenths, last):
    mm = inch(sixteenths) / 16
    earlier = Earlier(inch(last) / 16, "2 March") if last else None
    found = remark(key, f"{sixteenths / 16}", mm, "in", earlier)
    if found and found.offer:
        assert BY_KEY[key].low_mm - 1 <= parse_length(found.offer, "in") <= BY_KEY[key].high_mm + 1
    if found is None:
        assert BY_KEY[key].is_plausible(mm)
