"""Measures that can't both be right, and readings that look like a slip of the tape.

Both are pointed out at once, in the client's own figures, and never block: bodies differ, and a
tape that was read twice is right. Limits are in millimetres and, unless a source is named, common
practice with no source.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from clients.measures import BY_KEY, GIRTH, MM_PER_INCH
from workshop.length import CM, INCH, print_length

Say = Callable[[Decimal], str]


def inches(value: str | int) -> Decimal:
    return Decimal(value) * MM_PER_INCH


#: Levels down the front nearer than this leave no room for a piece between them.
LEVELS_APART = inches("0.25")
#: A waist may be more than the hip, but seldom by more than this.
WAIST_OVER_HIP = inches(3)
#: Bust point to bust point is about a fifth of the bust; outside these parts of it, look again.
SPAN_LOW, SPAN_HIGH = Decimal("0.145"), Decimal("0.27")
#: The across measures, against shoulder tip to shoulder tip.
ACROSS_OVER, ACROSS_UNDER = inches("0.5"), inches(4)
#: How much longer the front may be than the back (the balance): the draft asks outside these.
BALANCE_LOW, BALANCE_HIGH = inches("-0.125"), inches("2.5")
#: The house rule's own default for the back neck.
BACK_NECK_DEPTH = inches("0.75")
#: Shoulder tip to side neck point, level and dropped, as the draft slopes them (about 20 degrees).
NECK_WIDTH, SLOPE = inches("2.75"), Decimal("0.36")
ARMHOLE_OVER_BUST = inches("0.5")


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Two or three measures that don't go together, said in their own figures."""

    text: str
    keys: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Rule:
    keys: tuple[str, ...]
    says: Callable[..., str | None]


RULES: list[Rule] = []


def _about(*keys: str):
    def add(says: Callable[..., str | None]):
        RULES.append(Rule(keys, says))
        return says

    return add


def contradictions(readings: Mapping[str, Decimal], unit: str) -> list[Contradiction]:
    """What the lengths (millimetres by measure) say against each other; empty when they agree."""

    def say(mm: Decimal) -> str:
        return print_length(mm, unit, step=16)

    found = []
    for rule in RULES:
        if all(key in readings for key in rule.keys):
            text = rule.says(say, *(readings[key] for key in rule.keys))
            if text:
                found.append(Contradiction(text, rule.keys))
    return found


def related(key: str) -> set[str]:
    """The other measures that some rule holds this one against."""
    return {other for rule in RULES if key in rule.keys for other in rule.keys} - {key}


@_about("under_bust", "bust")
def _under_bust(say: Say, under_bust: Decimal, bust: Decimal) -> str | None:
    if under_bust > bust:
        return f"Under-bust {say(under_bust)} is more than bust {say(bust)}. One of the two was read wrongly."
    return None


@_about("high_bust", "bust")
def _high_bust(say: Say, high_bust: Decimal, bust: Decimal) -> str | None:
    if high_bust > bust:
        fact = f"High bust {say(high_bust)} is more than bust {say(bust)}."
        return f"{fact} True of some small busts; else read both once more."
    return None


@_about("waist", "hip")
def _waist(say: Say, waist: Decimal, hip: Decimal) -> str | None:
    if waist > hip + WAIST_OVER_HIP:
        return f"Waist {say(waist)} is {say(waist - hip)} more than hip {say(hip)}. Read both once more."
    return None


def _levels(upper: str, lower: str, apart: Decimal):
    def says(say: Say, high: Decimal, low: Decimal) -> str | None:
        if low < high:
            fact = f"{upper} ({say(high)}) comes below the {lower} ({say(low)}), down from the shoulder."
            return f"{fact} One of the two was read wrongly."
        if low - high < apart:
            fact = f"{upper} ({say(high)}) and {lower} ({say(low)}), down from the shoulder,"
            return f"{fact} are less than {say(apart)} apart. Read both once more."
        return None

    return says


_about("shoulder_to_bust", "shoulder_to_under_bust")(_levels("Bust", "under-bust", LEVELS_APART))
_about("shoulder_to_under_bust", "shoulder_to_waist")(_levels("Under-bust", "waist", LEVELS_APART))
_about("shoulder_to_bust", "shoulder_to_waist")(_levels("Bust", "waist", 2 * LEVELS_APART))


@_about("bust_span", "bust")
def _span(say: Say, span: Decimal, bust: Decimal) -> str | None:
    if SPAN_LOW * bust <= span <= SPAN_HIGH * bust:
        return None
    word = "narrow" if span < SPAN_LOW * bust else "wide"
    fact = f"Bust span {say(span)} is {word} for a bust of {say(bust)}: a fifth of it is {say(bust / 5)}."
    return f"{fact} Read it once more."


@_about("shoulder_to_waist", "nape_to_waist")
def _balance(say: Say, front: Decimal, back: Decimal) -> str | None:
    balance = front - back - BACK_NECK_DEPTH
    if BALANCE_LOW <= balance <= BALANCE_HIGH:
        return None
    how = f"{say(-balance)} less" if balance < 0 else f"{say(balance)} more"
    return (
        f"Shoulder to waist {say(front)} is {how} than nape to waist {say(back)} with {say(BACK_NECK_DEPTH)} "
        "for the back neck. Read both once more."
    )


def _across(name: str):
    def says(say: Say, across: Decimal, shoulder: Decimal) -> str | None:
        if across > shoulder + ACROSS_OVER:
            return f"{name} {say(across)} is more than shoulder {say(shoulder)}, tip to tip. Read both once more."
        if across < shoulder - ACROSS_UNDER:
            less = f"is {say(shoulder - across)} less than shoulder {say(shoulder)}"
            return f"{name} {say(across)} {less}. Read both once more."
        return None

    return says


_about("across_front", "shoulder")(_across("Across front"))
_about("across_back", "shoulder")(_across("Across back"))


@_about("armhole_depth", "shoulder_to_bust", "shoulder")
def _armhole(say: Say, depth: Decimal, to_bust: Decimal, shoulder: Decimal) -> str | None:
    underarm = SLOPE * (shoulder / 2 - NECK_WIDTH) + depth
    if to_bust - underarm < ARMHOLE_OVER_BUST:
        return (
            f"Armhole depth {say(depth)} brings the underarm down to the bust, {say(to_bust)} below the shoulder. "
            "One of the two was read wrongly."
        )
    return None


def _part_of(part: str, whole: str):
    def says(say: Say, less: Decimal, more: Decimal) -> str | None:
        if less >= more:
            return f"{part} {say(less)} is not less than {whole} {say(more)}. One of the two was read wrongly."
        return None

    return says


_about("wrist", "elbow")(_part_of("Wrist", "elbow"))
_about("wrist", "upper_arm")(_part_of("Wrist", "upper arm"))
_about("shoulder_to_elbow", "sleeve_length")(_part_of("Shoulder to elbow", "sleeve length"))
_about("waist_to_hip", "waist_to_knee")(_part_of("Waist to hip", "waist to knee"))
_about("neck", "waist")(_part_of("Neck", "waist"))

# Readings by themselves, and against the client's own history ---------------------------------------------------

#: A girth that changes by more than this since last time is worth a second look.
GIRTH_JUMP = Decimal("0.04")
#: So is a width or a length that changes by more than this: bones don't.
BONE_JUMP = Decimal("0.08")
#: A likely value is as near as this to the last one.
NEAR = Decimal("0.04")
#: Lengths that the garment decides, not the body, so that last time's says nothing.
CHOSEN = frozenset({"skirt_length", "dress_length"})
ONCE_MORE = "Read the tape once more? If it is right, leave it."

_BARE = re.compile(r"[^A-Za-z\"″”]*")


@dataclass(frozen=True, slots=True)
class Earlier:
    """The last reading of the same measure: its length, and when as the screen says it ("2 March")."""

    mm: Decimal
    when: str


@dataclass(frozen=True, slots=True)
class Remark:
    """What is odd about one reading; `offer` is what to write instead, where a slip explains it."""

    text: str
    offer: str = ""


def remark(key: str, written: str, mm: Decimal, unit: str, earlier: Earlier | None = None) -> Remark | None:
    """What is odd about one reading of a measure, or None."""
    measure = BY_KEY[key]
    if key in CHOSEN:
        earlier = None
    out_of_range = not measure.is_plausible(mm)
    limit = GIRTH_JUMP if measure.kind == GIRTH else BONE_JUMP
    jumped = earlier is not None and abs(mm - earlier.mm) > limit * earlier.mm
    if not out_of_range and not jumped:
        return None

    def say(length: Decimal) -> str:
        return print_length(length, unit, step=16)

    if jumped:
        how = "more" if mm > earlier.mm else "less"
        fact = f"{say(abs(mm - earlier.mm))} {how} than on {earlier.when} ({say(earlier.mm)})."
    else:
        fact = f"{say(mm)} is outside the usual {say(measure.low_mm)} to {say(measure.high_mm)}."
    slip = _slip(measure, written, mm, unit, earlier)
    return Remark(f"{fact} {slip.text}", slip.offer) if slip else Remark(f"{fact} {ONCE_MORE}")


def _slip(measure, written: str, mm: Decimal, unit: str, earlier: Earlier | None) -> Remark | None:
    """The slip that explains an odd reading: the wrong unit, ten too many or too few, one whole inch."""

    def likely(length: Decimal) -> bool:
        near = earlier is None or abs(length - earlier.mm) <= NEAR * earlier.mm
        return near and measure.is_plausible(length)

    def say(length: Decimal) -> str:
        return print_length(length, unit, step=16)

    other, other_mm = (CM, mm * 10 / MM_PER_INCH) if unit == INCH else (INCH, mm * MM_PER_INCH / 10)
    if _BARE.fullmatch(written) and likely(other_mm):
        offer = f"{written.strip()} {other}"
        return Remark(f"Was it {offer}, which is {say(other_mm)}?", offer)
    ten = 10 * (MM_PER_INCH if unit == INCH else Decimal(10))
    for length in (mm - ten, mm + ten):
        if likely(length):
            return Remark(f"A tape slips by ten easily: was it {say(length)}?", say(length))
    if earlier is not None and measure.kind != GIRTH and unit == INCH:
        for length in (mm - MM_PER_INCH, mm + MM_PER_INCH):
            if length == earlier.mm:
                return Remark(f"A tape slips by a whole inch easily: was it {say(length)}?", say(length))
    return None
