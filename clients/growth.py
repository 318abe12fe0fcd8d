"""How fast somebody grows, and for how long a hem or a tuck keeps up with it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from decimal import ROUND_FLOOR, Decimal

from clients.measures import BY_KEY
from workshop.length import INCH, MM_PER, print_length

#: What is drawn over time for those who grow, beside bust, waist and hip.
LENGTHS = ("height", "dress_length", "skirt_length")
#: The lengths of a garment itself: what is let down keeps up with these, not with the height.
OF_A_GARMENT = ("dress_length", "skirt_length", "waist_to_knee")
#: A shorter time than this tells of the tape, not of the body; a longer one of another year.
SHORTEST, LONGEST = 28, 366
A_WEEK = 7

Dates = Sequence[tuple[date, Mapping[str, Decimal]]]


def grown(dates: Dates, unit: str) -> list[str]:
    """A sentence for the height and one for a garment's length, from the lengths of these dates (newest first)."""
    let_down = next((said for key in OF_A_GARMENT if (said := _of(key, dates, unit))), "")
    return [said for said in (_of("height", dates, unit), let_down) if said]


def _of(key: str, dates: Dates, unit: str) -> str:
    taken = [(day, lengths[key]) for day, lengths in dates if key in lengths]
    if not taken:
        return ""
    (newest, now), older = taken[0], taken[1:]
    within = [(day, mm) for day, mm in older if SHORTEST <= (newest - day).days <= LONGEST]
    if not within:
        return ""
    since, was = within[-1]
    weeks, more = Decimal((newest - since).days) / A_WEEK, now - was
    amount = print_length(abs(more), unit, step=16, with_unit=True)
    name = BY_KEY[key].name
    if print_length(more, unit, step=16) == "0":
        return f"{name}: no change in {weeks:.0f} weeks."
    if more < 0:
        return f"{name}: {amount} less than {weeks:.0f} weeks ago. Read the tape once more."
    said = f"{name}: {amount} more in {weeks:.0f} weeks."
    if key not in OF_A_GARMENT:
        return said
    one = MM_PER[INCH] if unit == INCH else Decimal(30)
    lasts = (one / (more / weeks)).to_integral_value(ROUND_FLOOR)
    return f"{said} At that rate {print_length(one, unit, with_unit=True)} of hem or tuck lasts about {lasts} weeks."
