"""The pieces of the outside cloth as an order's page draws them: small, by part of the garment, not to be touched."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any

from django.utils.safestring import SafeString

from drafting.pictures import is_one_way, piece_svg
from drafting.piece_words import group_of
from workshop.length import print_length

BELOW = frozenset({"skirt", "trousers"})


@dataclass(frozen=True)
class PieceGroup:
    key: str
    title: str
    drawn: list[str]


def grouped(order_file: Mapping[str, Any], result: Mapping[str, Any], moved: Mapping[str, set[str]] | None = None) -> list[PieceGroup]:
    """The top large enough to read, what hangs below it at half that scale. `moved` names the edges to mark, by piece."""
    drawn: dict[str, list[str]] = {"top": [], "skirt": []}
    napped = {cloth["name"] for cloth in order_file["cloths"] if cloth.get("one_way")}
    fmt = partial(print_length, unit=order_file["units"])
    for piece in result["pieces"]:
        if piece["of"] is None:
            svg = piece_svg(piece, result, scale=1.0, for_paper=False, fmt=fmt, one_way=is_one_way(piece, napped), touch=False,
                            moved=(moved or {}).get(piece["name"], ()))
            key = "skirt" if group_of(piece) & BELOW else "top"
            drawn[key].append(SafeString(svg))  # whole, escaped SVG: pictures.py says so, and its tests prove it
    below = "Trousers" if any("trousers" in group_of(piece) for piece in result["pieces"]) else "Skirt"
    titles = {"top": "Top", "skirt": f"{below}, at half that scale" if drawn["top"] else below}
    return [PieceGroup(key, titles[key], found) for key, found in drawn.items() if found]


def legend(result: dict) -> str:
    outside = [piece for piece in result["pieces"] if piece["of"] is None]
    return ", ".join(f"{piece['number']} {piece['name']}" for piece in outside if piece.get("number"))
