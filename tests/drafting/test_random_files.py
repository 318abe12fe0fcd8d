"""Whatever stands in an order file, the answer is a brief, or sentences; never a traceback."""

import json

from hypothesis import given
from hypothesis import strategies as st

from drafting import order_keys as keys
from drafting.brief import Brief, BriefError, read_brief
from drafting.order_json import NotAnOrderFile, load_order_file
from tests.drafting.orders import example

KEYS = sorted(
    {*keys.ORDER, *keys.GARMENT, *keys.SKIRT, *keys.SLEEVE, *keys.CLOTH, *keys.DATES, *keys.FIT_NOTE, *keys.RULES, "bust", "waist"}
)
WORDS = sorted({*keys.FITS, *keys.SKIRTS, *keys.SLEEVES, *keys.CLOTH_FOR, *keys.UNITS, "bustier-gown", "7 1/4", "2026-03-02", ""})
PLAIN = st.one_of(
    st.none(), st.booleans(), st.integers(), st.floats(), st.text(max_size=12), st.sampled_from(WORDS), st.integers(0, 60)
)
JSON = st.recursive(
    PLAIN,
    lambda inner: st.one_of(
        st.lists(inner, max_size=4), st.dictionaries(st.one_of(st.sampled_from(KEYS), st.text(max_size=8)), inner, max_size=5)
    ),
    max_leaves=25,
)


def answers_in_sentences(data) -> None:
    try:
        assert isinstance(read_brief(data), Brief)
    except BriefError as refused:
        assert refused.problems
        for problem in refused.problems:
            assert problem.strip() and "\n" not in problem and len(problem) < 700
            problem.encode("utf-8")


@given(JSON)
def test_any_json_value_is_answered(data):
    answers_in_sentences(data)


@given(st.dictionaries(st.sampled_from(KEYS), JSON, max_size=8))
def test_any_values_under_known_keys_are_answered(data):
    answers_in_sentences(example() | data)


@given(st.sampled_from(["measures", "garment", "dates"]), st.dictionaries(st.sampled_from(KEYS), JSON, max_size=6))
def test_any_values_inside_a_known_object_are_answered(section, data):
    order = example()
    order[section] |= data
    answers_in_sentences(order)


@given(st.lists(st.dictionaries(st.sampled_from(keys.CLOTH), JSON, max_size=6), max_size=4))
def test_any_cloths_are_answered(cloths):
    answers_in_sentences(example() | {"cloths": cloths})


@given(st.binary(max_size=200))
def test_any_bytes_are_answered(raw):
    try:
        load_order_file(raw)
    except NotAnOrderFile as refused:
        assert "\n" not in str(refused)


@given(st.data())
def test_a_good_file_cut_short_or_with_one_byte_changed_is_answered(data):
    raw = bytearray(json.dumps(example(), ensure_ascii=False).encode("utf-8"))
    at = data.draw(st.integers(0, len(raw) - 1))
    if data.draw(st.booleans()):
        del raw[at:]
    else:
        raw[at] = data.draw(st.integers(0, 255))
    try:
        answers_in_sentences(load_order_file(bytes(raw)))
    except NotAnOrderFile as refused:
        assert str(refused)
