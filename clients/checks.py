"""Readings that look like a slip of the tape; measures that can't both be right are in agreement.py.

Both are pointed out at once, in the client's own figures, and never block: bodies differ, and a
tape that was read twice is right. Limits are common practice, no source. The phone says the same
(static/js/odd.js), and a test holds the two together.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from clients.agreement import Contradiction, contradictions, related
from clients.measures import BY_KEY, GIRTH, MM_PER_INCH
from workshop.length import CM, INCH, print_length

__all__ = ["Contradiction", "Earlier", "Remark", "contradictions", "related", "remark"]

#: A girth that changes by more than this since last time is worth a second look.
GIRTH_JUMP = Decimal("0.04")
#: So is a width or a length that changes by more than this: bones don't.
BONE_JUMP = Decimal("0.08")
#: A likely value is as near as this to the last one.
NEAR = Decimal("0.04")
#: Lengths that the garment decides, not the body, so that last time's says nothing.
CHOSEN = frozenset({"skirt_length", "dress_length"})
ONCE_MORE = "Read the tape once more? If it is right, keep it."

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

    if not measure.is_possible(mm):
        fact = f"{say(mm)} is far outside the usual {say(measure.low_mm)} to {say(measure.high_mm)}: no draft is made with it."
    elif jumped:
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
