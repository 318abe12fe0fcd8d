"""Lengths, read and printed. The inch is 25.4 mm exactly (international yard and pound, 1959)."""

import random
import re
from decimal import Decimal
from fractions import Fraction

import pytest

from workshop.length import CM, INCH, MM, UnreadableLength, parse_length, print_cloth, print_length, with_fractions

SIXTEENTHS = range(0, 80 * 16 + 1)
CHARACTERS = {2: "⅛", 4: "¼", 6: "⅜", 8: "½", 10: "⅝", 12: "¾", 14: "⅞"}
ODD = {1: "¹", 3: "³", 5: "⁵", 7: "⁷", 9: "⁹", 11: "¹¹", 13: "¹³", 15: "¹⁵"}


def as_printed(count: int) -> str:
    """A sixteenth count spelt out by table, independent of the printer."""
    whole, part = divmod(count, 16)
    if part == 0:
        return str(whole)
    fraction = CHARACTERS.get(part) or f"{ODD[part]}⁄₁₆"
    return f"{whole}{fraction}" if whole else fraction


def exact_mm(count: int) -> Decimal:
    return Decimal(count) * Decimal("1.5875")


def test_every_sixteenth_to_80_inches_is_printed_and_read_back():
    for count in SIXTEENTHS:
        printed = print_length(exact_mm(count), INCH, step=16)
        assert printed == as_printed(count)
        assert parse_length(printed, INCH) == exact_mm(count)


def test_every_sixteenth_to_80_inches_is_read_in_every_way_of_writing_it():
    for count in SIXTEENTHS:
        whole, part = divmod(count, 16)
        fraction = Fraction(part, 16)
        plain = f"{fraction.numerator}/{fraction.denominator}"
        mixed = f"{whole}" if not part else plain if not whole else f"{whole} {plain}"
        decimal = f"{Decimal(count) / 16:f}"
        ways = [mixed, decimal, decimal.replace(".", ","), f"{mixed} in", f'{mixed}"', f"{mixed}in", f" {mixed} "]
        for written in ways:
            assert parse_length(written, INCH) == exact_mm(count), written
            assert parse_length(f"-{written.strip()}", INCH, signed=True) == -exact_mm(count), written
        assert parse_length(f"{mixed} in", CM) == exact_mm(count)
        assert parse_length(count / 16, INCH) == exact_mm(count)


@pytest.mark.parametrize(
    ("written", "unit", "mm"),
    [
        ("7", INCH, "177.8"), ("7.25", INCH, "184.15"), ("7,25", INCH, "184.15"), ("7 1/4", INCH, "184.15"),
        ("7¼", INCH, "184.15"), ("7 ¼", INCH, "184.15"), ("7 1/4 in", INCH, "184.15"), ('7¼"', INCH, "184.15"),
        ("7¼ in", CM, "184.15"), ("7 1⁄4", INCH, "184.15"), ("7¹⁄₄", INCH, "184.15"), ("7¼ IN", MM, "184.15"),
        ("18.4cm", INCH, "184"), ("18,4 cm", INCH, "184"), ("184 mm", INCH, "184"), ("104cm", INCH, "1040"),
        ("3yd", INCH, "2743.2"), ("1 1/2 yd", INCH, "1371.6"), ("1⅓ yd", INCH, "1219.2"), ("4yd", CM, "3657.6"),
        ("2.5 m", INCH, "2500"), ("2,5m", INCH, "2500"), ("7\u00a01/4", INCH, "184.15"), (".5", INCH, "12.7"),
        ("72.4", CM, "724"), ("72 1/2", CM, "725"), ("724", MM, "724"), (33, INCH, "838.2"), (7.25, INCH, "184.15"),
        (Decimal("30.25"), INCH, "768.35"), (0, INCH, "0"), ("0", INCH, "0"), ("½", INCH, "12.7"),
    ],
)  # fmt: skip
def test_it_reads_each_form_of_the_order_file(written, unit, mm):
    assert parse_length(written, unit) == Decimal(mm)


@pytest.mark.parametrize(
    ("written", "mm"), [("-1/4", "-6.35"), ("−¼", "-6.35"), ("+½", "12.7"), ("- 1 1/2", "-38.1"), (-0.25, "-6.35")]
)
def test_a_signed_length_takes_a_minus_or_a_plus(written, mm):
    assert parse_length(written, INCH, signed=True) == Decimal(mm)


@pytest.mark.parametrize("written", ["-1/4", "−3", -0.25, "-7cm"])
def test_a_length_less_than_nothing_is_refused(written):
    with pytest.raises(UnreadableLength, match="less than nothing"):
        parse_length(written, INCH)


def test_the_message_says_what_was_read_and_what_to_do():
    with pytest.raises(UnreadableLength) as refusal:
        parse_length("28 5/7", INCH)
    assert str(refusal.value) == "I can't read “28 5/7”. Use halves, quarters, eighths or sixteenths: 28 5/8."
    assert refusal.value.read == "28 5/7"


@pytest.mark.parametrize(
    ("written", "unit", "sentence"),
    [
        ("1 1/2yrd", INCH, "I can't read “1 1/2yrd”. Write yards as 1 1/2 yd, metres as 1.4 m."),
        ("7-1/4", INCH, "I can't read “7-1/4”. Write it with a space: 7 1/4."),
        ("28 3/5", INCH, "I can't read “28 3/5”. Use halves, quarters, eighths or sixteenths: 28 3/4."),
        ("28 9/8", INCH, "I can't read “28 9/8”. Write a whole number and a part smaller than one: 28 7/8."),
        ("28⅓", INCH, "I can't read “28⅓”. Use halves, quarters, eighths or sixteenths: 28 1/2."),
        ("", INCH, "Nothing is written here. Write inches as 28 1/2 or 28.5, centimetres as 72.4 cm."),
        ("about 30", CM, "I can't read “about 30”. Write centimetres as 72.4, inches as 28 1/2 in."),
    ],
)
def test_the_advice_fits_the_slip(written, unit, sentence):
    with pytest.raises(UnreadableLength) as refusal:
        parse_length(written, unit)
    assert str(refusal.value) == sentence


HOSTILE = [
    "7 1/0", "7/0", "0/0", "1/2/3", "7 1 4", "7..5", "7.5.5", "7.", ".", ",", "/", "½½", "7½¼", "7 7.5", "1e3", "1E3",
    "0x10", "NaN", "inf", "-inf", "Infinity", "٧", "７", "7²", "²", "x²", "--7", "+-7", "7 -", "7 in in", "7 ft",
    "7 km",
    "7 i n", "7\x00", "7\n1/4", "7\u202e5", "\ud800", "7; DROP TABLE", "<b>7</b>", "{{7}}", "７ １/４", "1_000",
    "9" * 20, "9" * 5000, " " * 61, "1/" + "9" * 50, "12345678", "9999999 m", "7 17/16", "7 0/8",
    "𝟕", "Ⅶ", "7'6\"", "7.25 1/4",
    None, True, False, [], {}, b"7", float("nan"), float("inf"), 1e300, 10**400, Decimal("NaN"), Decimal("1e9999"), 7j,
]  # fmt: skip


@pytest.mark.parametrize("written", HOSTILE, ids=range(len(HOSTILE)))
@pytest.mark.parametrize("unit", [INCH, CM, MM])
def test_hostile_text_gets_a_short_clean_refusal(written, unit):
    with pytest.raises(UnreadableLength) as refusal:
        parse_length(written, unit, signed=True)
    sentence = str(refusal.value)
    assert len(sentence) < 160
    assert all(c.isprintable() for c in sentence)
    assert sentence.endswith(".")


def test_random_text_is_read_or_refused_and_nothing_else():
    rng = random.Random(18)
    alphabet = "0123456789 ./,¼½⅝⅓⁄⁷₁₆-+−incmyd\"'″\u00a0x"
    read = 0
    for _ in range(20_000):
        text = "".join(rng.choice(alphabet) for _ in range(rng.randint(0, 8)))
        try:
            mm = parse_length(text, INCH, signed=True)
        except UnreadableLength:
            continue
        read += 1
        assert mm == mm.quantize(Decimal("0.0001"))
        assert re.search(r"[0-9¼½⅝⅓⁷]", text)
    assert read > 100


def test_a_unit_that_the_program_does_not_know_is_the_programs_fault():
    for call in (parse_length, print_length, print_cloth):
        with pytest.raises(ValueError, match="unit must be one of"):
            call(7, "ell")


@pytest.mark.parametrize(
    ("mm", "unit", "how", "printed"),
    [
        ("723.9", INCH, {}, "28½"), ("87.3125", INCH, {"step": 16}, "3⁷⁄₁₆"), ("87.3125", INCH, {}, "3½"),
        ("6.35", INCH, {"signed": True}, "+¼"), ("-6.35", INCH, {"signed": True}, "−¼"), ("-6.35", INCH, {}, "−¼"),
        ("0", INCH, {"signed": True}, "0"), ("-0.1", INCH, {"signed": True}, "0"), ("12.7", INCH, {"step": 4}, "½"),
        ("1.5875", INCH, {}, "⅛"), ("723.9", INCH, {"with_unit": True}, "28½\u00a0in"), ("724", CM, {}, "72.4"),
        ("720", CM, {}, "72"), ("724.5", CM, {}, "72.5"), ("1000", CM, {}, "100"), ("724.5", MM, {}, "725"),
        ("-5", CM, {"signed": True, "with_unit": True}, "−0.5\u00a0cm"), ("100000", MM, {}, "100000"),
    ],
)  # fmt: skip
def test_it_prints_as_the_trade_writes(mm, unit, how, printed):
    assert print_length(Decimal(mm), unit, **how) == printed
    assert print_length(float(mm), unit, **how) == printed


@pytest.mark.parametrize(
    ("mm", "unit", "printed"),
    [
        ("914.4", INCH, "1\u00a0yd"), ("914.5", INCH, "1⅛\u00a0yd"), ("1943.1", INCH, "2⅛\u00a0yd"),
        ("0", INCH, "0\u00a0yd"),
        ("1", INCH, "⅛\u00a0yd"), ("2500", CM, "2.5\u00a0m"), ("2501", CM, "2.6\u00a0m"), ("2000", MM, "2\u00a0m"),
    ],
)  # fmt: skip
def test_cloth_is_rounded_up_to_what_is_bought(mm, unit, printed):
    assert print_cloth(Decimal(mm), unit) == printed


def test_cloth_does_not_grow_by_a_floating_point_crumb():
    assert print_cloth(914.4 * 2.125 + 1e-9, INCH) == "2⅛\u00a0yd"


@pytest.mark.parametrize("typed, printed", [
    ("received, 3 1/2 yd, for S-018", "received, 3½ yd, for S-018"), ("1/2 yd left of 2 3/8 yd", "½ yd left of 2⅜ yd"), ("7 3/16 in", "7³⁄₁₆ in"),
    ("S-006 1/2", "S-006 ½"), ("1 2/4 yd", "1 2/4 yd"), ("12/4 and 3/16/2", "12/4 and 3/16/2"), ("3½ yd, 2.5 m", "3½ yd, 2.5 m"),
])  # fmt: skip
def test_typed_fractions_are_shown_as_the_trade_prints_them(typed, printed):
    assert with_fractions(typed) == printed
