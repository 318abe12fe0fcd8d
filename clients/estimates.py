"""What a measure that was not taken would be by the workshop's rule, so that the book shows it as the draft will: “est. 14”.

The same rules as the drafting's own (a test holds the two together). Lengths in millimetres.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from clients.measures import MM_PER_INCH


def inches(value: str | int) -> Decimal:
    return Decimal(value) * MM_PER_INCH


def estimates(taken: Mapping[str, Decimal]) -> dict[str, Decimal]:
    """The measures that can be worked out from those taken, and that were not taken themselves."""
    found: dict[str, Decimal] = {}
    bust, under_bust, shoulder = (taken.get(key) for key in ("bust", "under_bust", "shoulder"))
    fullness = bust - under_bust if bust and under_bust else None
    if bust:
        found |= {"bust_span": bust / 5, "neck": bust / 4 + inches("5.5")}
    if fullness is not None:
        found["high_bust"] = bust - Decimal("0.4") * fullness
        if to_waist := taken.get("shoulder_to_waist"):
            found["nape_to_waist"] = to_waist - inches("0.75") - Decimal("0.2") * fullness
    high_bust = taken.get("high_bust") or found.get("high_bust")
    if high_bust and shoulder:
        found["across_front"] = min(max(high_bust / 5 + inches("6.2"), shoulder - inches(2)), shoulder)
        found["across_back"] = min(max(high_bust / 5 + inches(7), shoulder - inches(1)), shoulder)
    if "hip" in taken:
        found["waist_to_hip"] = inches(8)
    return {key: mm for key, mm in found.items() if key not in taken}
