"""Lengths as a workshop writes them, and exact millimetres.

The only place that knows inches, fractions, yards and metres. Standard library only, so that
the engine's command line, the forms and the tests can all share it.

Reading is strict on purpose: a length that could mean two things is refused with the text that
was read and a way to write it. What is accepted: ``7``  ``7.25``  ``7,25``  ``7 1/4``  ``7¼``
``3⁷⁄₁₆``  ``7 1/4 in``  ``7¼"``  ``18.4cm``  ``184 mm``  ``3yd``  ``1⅓ yd``  ``2.5 m``.
"""

from __future__ import annotations

import re
from decimal import ROUND_CEILING, ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal, InvalidOperation
from fractions import Fraction
from functools import lru_cache
from math import gcd

INCH, CM, MM = "in", "cm", "mm"
UNITS = (INCH, CM, MM)

#: Millimetres in one of each unit that may stand behind a number (yard and inch: exact since 1959).
MM_PER = {
    "in": Decimal("25.4"),
    "cm": Decimal(10),
    "mm": Decimal(1),
    "yd": Decimal("914.4"),
    "m": Decimal(1000),
}

#: Nothing in a workshop is longer than a kilometre; beyond it a key was held down.
LONGEST_MM = Decimal(1_000_000)

#: A sixteenth of an inch is 1.5875 mm, so four places hold every tape reading exactly.
PLACES = Decimal("0.0001")

#: Cloth is bought a step up, but not for a difference thinner than a chalk line's edge.
CLOTH_SLACK_MM = Decimal("0.05")

_VULGAR = {
    "¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
    "⅓": "1/3", "⅔": "2/3", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5", "⅙": "1/6",
    "⅚": "5/6", "⅐": "1/7", "⅑": "1/9", "⅒": "1/10",
}  # fmt: skip
_AS_CHARACTER = {
    (1, 2): "½", (1, 4): "¼", (3, 4): "¾",
    (1, 8): "⅛", (3, 8): "⅜", (5, 8): "⅝", (7, 8): "⅞",
}  # fmt: skip
_SUPER = "⁰¹²³⁴⁵⁶⁷⁸⁹"
_SUB = "₀₁₂₃₄₅₆₇₈₉"
_SUPER_RUN = re.compile(rf"([{_SUPER}]{{1,2}})[⁄/∕]([{_SUB}]{{1,2}})")
_BLANKS = re.compile("[ \t\u00a0\u2009\u202f]+")
_FORM = re.compile(
    r"""(?P<sign>[-−+])?[ ]?
        (?: (?P<decimal>[0-9]{0,7}[.,][0-9]{1,8})
          | (?P<whole>[0-9]{1,7})(?:[ ](?P<num>[0-9]{1,2})/(?P<den>[0-9]{1,2}))?
          | (?P<num_only>[0-9]{1,2})/(?P<den_only>[0-9]{1,2}) )
        [ ]?(?P<unit>in|cm|mm|yd|m|"|″|”)?""",
    re.VERBOSE | re.IGNORECASE,
)
_TYPED = re.compile(r"(?<![\w/.-])(?:([0-9]{1,4}) )?([0-9]{1,2})/(2|4|8|16)(?![0-9/])")
_HYPHENED = re.compile(r"([0-9]{1,3})-([0-9]{1,2})/([0-9]{1,2})")


class UnreadableLength(ValueError):
    """A length that can't be read: `read` is what was read, `advice` is what to do."""

    def __init__(self, read: str, advice: str, *, sentence: str = ""):
        self.read = read
        self.advice = advice
        super().__init__(sentence or f"I can't read “{read}”. {advice}")


def parse_length(value: str | int | float | Decimal, unit: str, *, signed: bool = False) -> Decimal:
    """Exact millimetres of `value`, to four places; a bare number is in `unit` (in, cm or mm).

    `signed` allows a leading − or +. Raises UnreadableLength for anything else.
    """
    if unit not in UNITS:
        raise ValueError(f"unit must be one of {UNITS}, not {unit!r}")
    read = _as_read(value)
    if isinstance(value, str):
        amount, per = _from_text(value, read, unit)
    elif isinstance(value, bool) or not isinstance(value, (int, float, Decimal)):
        raise UnreadableLength(read, _advice(unit))
    else:
        amount, per = _from_number(value, read, unit), MM_PER[unit]
    if amount < 0 and not signed:
        raise UnreadableLength(
            read, "Write it without the minus.", sentence=f"“{read}” is less than nothing. Write it without the minus."
        )
    millimetres = amount * Fraction(per)
    if abs(millimetres) > LONGEST_MM:
        raise UnreadableLength(read, "Write it again.", sentence=f"“{read}” is over a kilometre. Write it again.")
    exact = Decimal(millimetres.numerator) / Decimal(millimetres.denominator)
    return exact.quantize(PLACES, ROUND_HALF_EVEN)


@lru_cache(maxsize=8192)
def print_length(
    mm: Decimal | float | int, unit: str, *, step: int = 8, signed: bool = False, with_unit: bool = False
) -> str:
    """The length as the trade writes it: ``28½``, ``3⁷⁄₁₆``, ``72.4`` (cm), ``724`` (mm).

    Inches are rounded to one `step`-th (4, 8 or 16), halves away from zero. A minus is always
    shown; `signed` shows a plus as well.
    """
    if step not in (4, 8, 16):
        raise ValueError(f"step must be 4, 8 or 16, not {step!r}")
    length = _exact(mm)
    if unit == INCH:
        sixteenths = int((abs(length) / MM_PER[INCH] * step).quantize(Decimal(1), ROUND_HALF_UP))
        text = _mixed(sixteenths, step)
    elif unit == CM:
        text = _plain((abs(length) / 10).quantize(Decimal("0.1"), ROUND_HALF_UP))
    elif unit == MM:
        text = _plain(abs(length).quantize(Decimal(1), ROUND_HALF_UP))
    else:
        raise ValueError(f"unit must be one of {UNITS}, not {unit!r}")
    if text != "0":
        text = ("−" if length < 0 else "+" if signed else "") + text
    return f"{text}\u00a0{unit}" if with_unit else text


def print_cloth(mm: Decimal | float | int, unit: str) -> str:
    """Cloth as it is bought, rounded up: to ⅛ yd in an inch workshop, to 0.1 m in a metric one."""
    length = max(_exact(mm) - CLOTH_SLACK_MM, Decimal(0))
    if unit == INCH:
        eighths = int((length / MM_PER["yd"] * 8).to_integral_value(ROUND_CEILING))
        return f"{_mixed(eighths, 8)}\u00a0yd"
    if unit in (CM, MM):
        tenths = (length / 100).to_integral_value(ROUND_CEILING) / 10
        return f"{_plain(tenths.quantize(Decimal('0.1')))}\u00a0m"
    raise ValueError(f"unit must be one of {UNITS}, not {unit!r}")


def _from_number(value: int | float | Decimal, read: str, unit: str) -> Fraction:
    try:
        number = value if isinstance(value, Decimal) else Decimal(repr(value))
        if not number.is_finite() or abs(number) > 10 * LONGEST_MM:
            raise UnreadableLength(read, _advice(unit))
        return Fraction(number)
    except InvalidOperation:
        raise UnreadableLength(read, _advice(unit)) from None


def _from_text(value: str, read: str, unit: str) -> tuple[Fraction, Decimal]:
    """The number (as a fraction) and the millimetres of the unit that stands behind it."""
    if len(value) > 60:
        raise UnreadableLength(read, _advice(unit))
    text = _plain_text(value)
    if not text:
        raise UnreadableLength("", "Write a length.", sentence=f"Nothing is written here. {_advice(unit)}")
    form = _FORM.fullmatch(text)
    if form is None:
        raise UnreadableLength(read, _advice_for(text, unit))
    written = (form["unit"] or unit).lower()
    written = INCH if written in ('"', "″", "”") else written
    if form["decimal"]:
        amount = Fraction(form["decimal"].replace(",", "."))
    else:
        amount = Fraction(int(form["whole"] or 0))
        num, den = form["num"] or form["num_only"], form["den"] or form["den_only"]
        if den is not None:
            amount += _part(int(num), int(den), form["whole"], written, read, unit)
    return (-amount if form["sign"] in ("-", "−") else amount), MM_PER[written]


def _part(num: int, den: int, whole: str | None, written: str, read: str, unit: str) -> Fraction:
    allowed = (2, 3, 4, 8, 16) if written == "yd" else (2, 4, 8, 16)
    if den in allowed and 0 < num < den:
        return Fraction(num, den)
    lead = f"{whole} " if whole else ""
    if den in allowed:
        advice = f"Write a whole number and a part smaller than one: {lead}{min(num, den - 1) or 1}/{den}."
        raise UnreadableLength(read, advice)
    fitting = [d for d in allowed if d > num > 0] or [8]
    nearest = min(fitting, key=lambda d: (abs(d - den), d))
    shown = f"{lead}{num if num < nearest and num else 5}/{nearest}"
    raise UnreadableLength(read, f"Use halves, quarters, eighths or sixteenths: {shown}.")


def _plain_text(value: str) -> str:
    """ASCII fractions for the characters, single spaces for any blank; nothing else is changed."""
    text = _SUPER_RUN.sub(
        lambda run: (
            " " + "".join(str(_SUPER.index(c)) for c in run[1]) + "/" + "".join(str(_SUB.index(c)) for c in run[2])
        ),
        value,
    )
    text = re.sub(r"\s*([⁄∕])\s*", "/", text)
    text = "".join(f" {_VULGAR[c]} " if c in _VULGAR else c for c in text)
    return _BLANKS.sub(" ", text).strip(" ")


def _advice_for(text: str, unit: str) -> str:
    hyphened = _HYPHENED.search(text)
    if hyphened:
        return f"Write it with a space: {hyphened[1]} {hyphened[2]}/{hyphened[3]}."
    lowered = text.lower()
    if "y" in lowered or "met" in lowered:
        return "Write yards as 1 1/2 yd, metres as 1.4 m."
    return _advice(unit)


def _advice(unit: str) -> str:
    if unit == INCH:
        return "Write inches as 28 1/2 or 28.5, centimetres as 72.4 cm."
    if unit == CM:
        return "Write centimetres as 72.4, inches as 28 1/2 in."
    return "Write millimetres as 724, centimetres as 72.4 cm."


def _as_read(value: object) -> str:
    """What was read, fit to be shown: no control characters, not endless."""
    if isinstance(value, int) and value.bit_length() > 200:
        return "a very long number"
    text = "".join(c if c.isprintable() else "�" for c in str(value).strip())
    return text if len(text) <= 40 else text[:39] + "…"


def _exact(mm: Decimal | float | int) -> Decimal:
    return mm if isinstance(mm, Decimal) else Decimal(repr(float(mm)))


def _mixed(count: int, step: int) -> str:
    """`count` steps as a whole number and a fraction in lowest terms."""
    whole, part = divmod(count, step)
    if not part:
        return str(whole)
    shared = gcd(part, step)
    num, den = part // shared, step // shared
    fraction = _AS_CHARACTER.get((num, den)) or (
        "".join(_SUPER[int(c)] for c in str(num)) + "⁄" + "".join(_SUB[int(c)] for c in str(den))
    )
    return f"{whole or ''}{fraction}"


def with_fractions(text: str) -> str:
    """A text with its typed fractions as they are printed: “3 1/2 yd” is “3½ yd”. A fraction not in lowest terms stays."""
    return _TYPED.sub(lambda typed: _printed(typed) or typed[0], text)


def _printed(typed: re.Match) -> str:
    num, den = int(typed[2]), int(typed[3])
    return f"{typed[1] or ''}{_mixed(num, den)}" if num < den and num % 2 else ""


def _plain(number: Decimal) -> str:
    """A decimal as it is said: no trailing nought after the point, never an exponent."""
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
