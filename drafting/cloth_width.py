"""Which pieces a cloth is too narrow for, measured across the grain on the cutting line."""

from collections.abc import Iterable, Iterator
from math import hypot
from typing import Any

from drafting.cloth_brief import ClothBrief
from workshop.length import print_length

HAIR_MM = 0.1
"""Cutting and weaving both vary by more: a piece that fits but for a tenth of a millimetre fits."""


def across_grain(piece: dict[str, Any], outline: list[list[float]]) -> float:
    """How wide the piece lies across its grain, mm; an on-fold piece opened out whole."""
    (x0, y0), (x1, y1) = piece["grain"]
    long = hypot(x1 - x0, y1 - y0)
    nx, ny = (y1 - y0) / long, -(x1 - x0) / long
    reach = [x * nx + y * ny for x, y in outline]
    return 2 * max(map(abs, reach)) if piece["on_fold"] else max(reach) - min(reach)


def width_needed(piece: dict[str, Any], outline: list[list[float]], cloth: ClothBrief) -> float:
    """The cloth's whole width that the piece needs as this cloth is laid, selvedges included, mm."""
    across = across_grain(piece, outline)
    doubled = cloth.layout == "folded" and not piece["on_fold"]
    selvedges = float(cloth.width.mm) - cloth.usable_mm
    return across * (2 if doubled else 1) + selvedges


def narrow_cloths(pieces: Iterable[dict[str, Any]], cloths: Iterable[ClothBrief], units: str) -> Iterator[dict[str, str]]:
    """A warning for each cut of a piece that its cloth is too narrow for."""
    by_name = {cloth.name: cloth for cloth in cloths}
    for piece in pieces:
        for cut in piece["cut"]:
            cloth = by_name.get(cut["cloth"])
            if cloth is None:
                continue
            needed = width_needed(piece, cut.get("cut_line") or piece["cut_line"], cloth)
            if needed > float(cloth.width.mm) + HAIR_MM:
                yield {
                    "code": "cloth-too-narrow",
                    "text": f"{cloth.name} is {_said(cloth.width.mm, units)} wide; {piece['name']} needs "
                    f"{_said(needed, units)}{' folded' if cloth.layout == 'folded' else ''}. "
                    f"Take a wider cloth, or lay it open or {_pieced(piece)}.",
                }


def _pieced(piece: dict[str, Any]) -> str:
    return "cut the skirt in more panels or gores" if piece["name"].startswith("skirt ") else "piece it"


def _said(mm: Any, units: str) -> str:
    return print_length(mm, units, with_unit=True)
