"""The square and the rule to check a print by, and what to set where it came out too small or too large."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from django.utils.safestring import SafeString, mark_safe

from drafting.linework import PAPER_FONT, as_image
from workshop.length import CM, INCH, UnreadableLength, parse_length

SQUARE_CM, SQUARE_IN = 100.0, 101.6
"""Sides of the two squares, mm: 10 cm, and 4 in round it."""
RIGHT_WITHIN = Decimal("0.5")
"""Millimetres by which a square may miss its 10 cm: half a per cent, 5 mm on a bust of 100 cm. Common practice, no source."""
READ_FROM, READ_TO = Decimal(50), Decimal(200)


class NotASquare(ValueError):
    """A reading that no test square can have; the sentence says what to read."""


@dataclass(frozen=True, slots=True)
class TestSquare:
    square: SafeString
    rule: SafeString
    __test__ = False


def test_square() -> TestSquare:
    return TestSquare(mark_safe(as_image(_square(), "Test square: 10 cm inside, 4 in outside")), mark_safe(as_image(_rule(), "Rule")))


test_square.__test__ = False


def percentage(written: str, unit: str) -> tuple[Decimal, bool]:
    """Return the scale to set for a 10 cm square (in inches: a 4 in square) measured as `written`, and whether it was right.

    Raises UnreadableLength, NotASquare. Per cent to one decimal, since print dialogues take no more.
    """
    read = parse_length(written, unit)
    true = Decimal(str(SQUARE_IN if unit == INCH else SQUARE_CM))
    if not READ_FROM <= read <= READ_TO:
        side = "4 in" if unit == INCH else "10 cm" if unit == CM else "100 mm"
        raise NotASquare(f"“{written}” can't be the side of the square, which should be {side}. Measure it once more.")
    return (true / read * 100).quantize(Decimal("0.1")), abs(read - true) <= RIGHT_WITHIN


def percentage_words(written: str, unit: str) -> str:
    """Return the answer, or what could not be read, as one sentence."""
    try:
        scale, right = percentage(written, unit)
    except (UnreadableLength, NotASquare) as bad:
        return str(bad)
    if right:
        return f"{written} is right. Leave the scale at 100 %."
    return f"Set the scale to {scale} % in place of 100 %, print the first page again, and measure again."


def _square() -> str:
    """Return both squares from one corner, their words inside."""
    size = 104.0
    side, outer = SQUARE_CM, SQUARE_IN
    words = [
        (50.5, 8.5, "10 cm: inner square"), (50.5, 13.5, "4 in: outer square, dashed"),
        (50.5, 55.0, "Measure both ways before cutting."),
    ]  # fmt: skip
    text = "".join(
        f'<text x="{x}" y="{y}" font-size="3.4" text-anchor="middle" font-family="{PAPER_FONT}">{said}</text>' for x, y, said in words
    )
    ticks = "".join(
        f"M{0.5 + at:g} 0.5v{2.5 if at % 50 else 4}M0.5 {0.5 + at:g}h{2.5 if at % 50 else 4}" for at in range(10, 100, 10)
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{size}mm" height="{size}mm" viewBox="0 0 {size} {size}">'
        f'<rect x="0.5" y="0.5" width="{outer}" height="{outer}" fill="none" stroke="#000" stroke-width="0.2" stroke-dasharray="1.6 0.8"/>'
        f'<rect x="0.5" y="0.5" width="{side}" height="{side}" fill="none" stroke="#000" stroke-width="0.25"/>'
        f'<path d="{ticks}" stroke="#000" stroke-width="0.2"/>{text}</svg>'
    )


def _rule() -> str:
    """Return a rule of 15 cm above and 6 in below one line."""
    x0, base = 2.0, 6.0
    ticks = "".join(f"M{x0 + mm:g} {base}v{-(3.6 if mm % 10 == 0 else 2.6 if mm % 5 == 0 else 1.6)}" for mm in range(151))
    inches = "".join(
        f"M{x0 + n * 25.4 / 8:.4f} {base}v{3.6 if n % 8 == 0 else 2.6 if n % 4 == 0 else 1.6}" for n in range(49)
    )
    style = f'font-size="2.4" text-anchor="middle" font-family="{PAPER_FONT}"'
    names = "".join(f'<text x="{x0 + n * 10}" y="1.9" {style}>{n}</text>' for n in range(1, 16))
    names += "".join(f'<text x="{x0 + n * 25.4:.4f}" y="11.9" {style}>{n}</text>' for n in range(1, 7))
    names += f'<text x="157" y="4.6" font-size="2.4" font-family="{PAPER_FONT}">cm</text><text x="157" y="9.4" font-size="2.4" font-family="{PAPER_FONT}">in</text>'
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="162mm" height="13mm" viewBox="0 0 162 13">'
        f'<path d="M{x0} {base}h152.4{ticks}{inches}" stroke="#000" stroke-width="0.2" fill="none"/>{names}</svg>'
    )
