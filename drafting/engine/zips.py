"""Zips as shops sell them: an opening asks for the next length that reaches its end."""

from __future__ import annotations

from .tolerance import INCH

SOLD = tuple(n * INCH for n in (4, 5, 6, 7, 8, 9, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30, 36))
"""Lengths that haberdashers keep, 7 in being sold as 18 cm, 22 in as 55 cm. Common practice, no source."""

SKIRT_ZIP = 7.0 * INCH
"""A skirt opens so far where its hips leave room for it: 18 to 20 cm, sewingladyblog.com/2015/02/08 (dress back 50 to 55 cm, trousers
20 to 23 cm)."""

SHORT_BY = 0.125 * INCH
"""A zip this much shorter than its opening still does: the opening is sewn up to it. Judgement."""


def zip_to_buy(opening: float) -> float:
    """Return the length of the zip to buy for an `opening`, mm: the next one sold that reaches its end, else the opening's own."""
    return next((length for length in SOLD if length >= opening - SHORT_BY), opening)

