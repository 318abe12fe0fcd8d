"""Words that differ from page to page, written straight into a PDF with the letters of one page that was set by WeasyPrint.

Setting “A1” or “page 3 of 40” as a page of its own costs forty times what the words need. So one page is set that holds
every letter once; from its text come the font and the code of each letter, and from the font how wide each is.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789pageof"
"""What the page of letters holds: names of pages, and “page 3 of 40”."""
SPACE = 0.26
"""A gap between words, over the size of the writing: that of the bundled sans serif."""


@dataclass(frozen=True)
class Letters:
    """The letters of one font: its name and object in a PDF's resources, each letter's code and width (in sizes)."""

    name: str
    font: Any
    codes: dict[str, str]
    widths: dict[str, float]

    @classmethod
    def learned(cls, page: Any) -> Letters:
        """Return the letters of a pikepdf page that holds LETTERS in their order and nothing else."""
        import pikepdf

        name, codes = "", []
        for operands, operator in pikepdf.parse_content_stream(page):
            if str(operator) == "Tf":
                name = str(operands[0])
            elif str(operator) in ("Tj", "TJ"):
                codes += _codes(operands[0] if str(operator) == "TJ" else operands)
        known = dict(zip(LETTERS, codes, strict=True))
        font = page.obj.Resources.Font[name]
        widths = _widths(font.DescendantFonts[0].W)
        return cls(name, font, known, {letter: widths[int(code, 16)] / 1000 for letter, code in known.items()})

    def width(self, text: str, size: float) -> float:
        return size * sum(SPACE if mark == " " else self.widths[mark] for mark in text)

    def written(self, text: str, x: float, y: float, *, size: float, across: float = 0.0) -> str:
        """Return the PDF operators that write `text` with its line at y; `across` is how much of its width lies before x."""
        x -= across * self.width(text, size)
        shown = "".join(f"> {-1000 * SPACE:g} <" if mark == " " else self.codes[mark] for mark in text)
        return f"BT {self.name} {size:g} Tf 1 0 0 1 {x:.3f} {y:.3f} Tm [<{shown}>] TJ ET"


def _codes(parts: Iterable[Any]) -> list[str]:
    """Return the codes of a text, four hexadecimal digits each; numbers among them only move the pen."""
    import pikepdf

    text = b"".join(bytes(part) for part in parts if isinstance(part, pikepdf.String)).hex()
    return [text[at : at + 4] for at in range(0, len(text), 4)]


def _widths(table: Any) -> dict[int, float]:
    """Return code → width from a font's W: `first [w w …]`, or `first last w` (PDF 32000-1, 9.7.4.3)."""
    widths, parts = {}, list(table)
    while parts:
        first, second = int(parts.pop(0)), parts.pop(0)
        if hasattr(second, "__iter__"):
            widths.update((first + place, float(width)) for place, width in enumerate(second))
        else:
            width = float(parts.pop(0))
            widths.update((code, width) for code in range(first, int(second) + 1))
    return widths
