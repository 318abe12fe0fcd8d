"""The papers that full size is printed on: four that are joined from pages, and large ones in one piece."""

from __future__ import annotations

import re
from dataclasses import dataclass

from workshop.length import MM, UnreadableLength, parse_length

MARGIN = 10.0
"""Blank edge of every page, mm: most printers leave 4 to 6 mm white."""
LONGEST = 5000.0
"""A roll is cut into pages of at most this, mm: viewers may refuse a PDF page over 14,400 pt (5,080 mm)."""
NARROWEST_ROLL, WIDEST_ROLL = 250.0, 2000.0


class UnknownPaper(ValueError):
    """A paper that is not known; the sentence says which are."""


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper: its key, its name for people, its width and length in mm; a roll's length is the most a page may have."""

    key: str
    name: str
    width: float
    length: float
    is_roll: bool = False
    tiled: bool = False

    @property
    def inner_width(self) -> float:
        return self.width - 2 * MARGIN

    @property
    def inner_length(self) -> float:
        return self.length - 2 * MARGIN


PAPERS = {
    paper.key: paper
    for paper in (
        Paper("a4", "A4", 210.0, 297.0, tiled=True),
        Paper("letter", "Letter", 215.9, 279.4, tiled=True),
        Paper("a3", "A3", 297.0, 420.0, tiled=True),
        Paper("legal", "Legal", 215.9, 355.6, tiled=True),
        Paper("a0", "A0", 841.0, 1189.0),
    )
}
"""A sizes from ISO 216; Letter and Legal are 8½ × 11 and 8½ × 14 in (ANSI/ASME Y14.1 for the first)."""


def paper_of(text: str) -> Paper:
    """Return the paper that `text` names: a4, letter, a3, legal, a0, or roll:914mm. Raises UnknownPaper."""
    asked = text.strip().lower()
    if asked in PAPERS:
        return PAPERS[asked]
    found = re.fullmatch(r"roll:(.+)", asked)
    if not found:
        raise UnknownPaper(f"I don't know the paper “{text}”. Use {', '.join(PAPERS)}, or a roll by its width: roll:914mm.")
    try:
        width = float(parse_length(found[1], MM))
    except UnreadableLength as bad:
        raise UnknownPaper(f"{bad} Write the roll's width with its unit: roll:914mm or roll:36in.") from None
    if not NARROWEST_ROLL <= width <= WIDEST_ROLL:
        raise UnknownPaper(f"A roll of {found[1]} can't be used. Its width lies between 250 mm and 2 m.")
    return Paper(f"roll:{width:g}mm", f"Roll of {width:g} mm", width, LONGEST, is_roll=True)


def papers_of(text: str) -> list[Paper]:
    """Return the papers of a list with commas, each once. Raises UnknownPaper."""
    named = [paper_of(part) for part in text.split(",") if part.strip()]
    if not named:
        raise UnknownPaper(f"No paper is named. Use {', '.join(PAPERS)}, or a roll by its width: roll:914mm.")
    return list({paper.key: paper for paper in named}.values())
