"""The cut list: every piece of every cloth, how many, with what allowances, for which layer."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from drafting.linework import clean
from drafting.piece_words import count_words
from drafting.polyline import gap
from workshop.length import parse_length, print_length, with_fractions

Fmt = Callable[[float], str]

LAYER_WORDS = {"lining": "lining", "stay": "stay", "wadding": "wadding"}
SAME_LINE = 0.3
"""Millimetres within which two cutting lines are one: thinner than a chalk line."""


@dataclass(frozen=True, slots=True)
class CutRow:
    number: str
    piece: str
    count: str
    allowance: str
    remarks: str


@dataclass(frozen=True, slots=True)
class CutCloth:
    name: str
    about: str
    rows: tuple[CutRow, ...]


def cut_list(order_file: Mapping, result: Mapping, fmt: Fmt) -> tuple[CutCloth, ...]:
    """Return the cloths in the order file's order (then any other), each with its pieces in number order."""
    cloths = {cloth["name"]: cloth for cloth in order_file["cloths"]}
    rows: dict[str, list[tuple[Mapping, Mapping]]] = {name: [] for name in cloths}
    for piece in result["pieces"]:
        for cut in piece["cut"]:
            rows.setdefault(cut["cloth"], []).append((piece, cut))
    lists = []
    for name, found in rows.items():
        found.sort(key=lambda pair: (pair[0].get("number") or 99, pair[0]["of"] is not None))
        roles = {cut["role"] for _, cut in found}
        if found:
            made = tuple(_row(piece, cut, fmt, tell_layer=len(roles - _outside(roles)) > 1) for piece, cut in found)
            lists.append(
                CutCloth(clean(name[:1].upper() + name[1:]), _about(cloths.get(name), roles, order_file["units"]), made)
            )
    return tuple(lists)


def _outside(roles: Iterable[str]) -> set[str]:
    return {role for role in roles if role not in LAYER_WORDS}


def _row(piece: Mapping, cut: Mapping, fmt: Fmt, *, tell_layer: bool) -> CutRow:
    return CutRow(
        number=str(piece.get("number") or ""),
        piece=clean(piece.get("title") or piece["name"]),
        count=cut_count(piece, cut),
        allowance=allowance_words(piece, cut, fmt),
        remarks="; ".join(_remarks(piece, cut, tell_layer)),
    )


def _remarks(piece: Mapping, cut: Mapping, tell_layer: bool) -> Iterable[str]:
    """Tell which layer the piece is for and what the draft remarks on it; stay and wadding need no remarks."""
    role = cut["role"]
    once = 1 if piece["on_fold"] or piece["side"] != "both" else 2
    if role == "stay":
        yield (
            "for the lining"
            if piece["of"]
            else "for the outside and the lining"
            if cut["count"] > once
            else "for the outside"
        )
    elif role == "wadding":
        yield "stitch in, then trim to the sewing line"
    else:
        if tell_layer and role in LAYER_WORDS:
            yield LAYER_WORDS[role]
        yield from (clean(text) for text in piece.get("remarks", ()) if not text.startswith("let-out"))


def cut_count(piece: Mapping, cut: Mapping) -> str:
    """Return “1 pair, mirrored”, “1 on the fold”, or for a piece of one side “1, worn left”."""
    if piece["side"] != "both":
        return f"{cut['count']}, worn {piece['side']}"
    return count_words(cut["count"], on_fold=piece["on_fold"])


def allowance_words(piece: Mapping, cut: Mapping, fmt: Fmt) -> str:
    """Return the allowances outside the sewing line in words: the common one first, then each edge that differs."""
    own = cut.get("cut_line")
    if own and is_same_line(own, piece["net"]):
        return "none: cut on the sewing line"
    if own and "allowance" in cut:
        return f"{fmt(cut['allowance'])} all round, nothing to let out"
    if own and not is_same_line(own, piece["cut_line"]):
        return "by its own cutting line"
    edges: dict[str, float] = {}
    for edge in piece["edges"]:
        name = edge["name"].rstrip(" 0123456789") if edge["name"][-1].isdigit() else edge["name"]
        if name != "fold" and not name.startswith("dart"):
            edges.setdefault(name, edge["allowance"])
    if not edges:
        return "none"
    amounts = list(edges.values())
    common = max(set(amounts), key=lambda amount: (amounts.count(amount), -amount))
    words = [f"{fmt(common)} all round" if len(set(amounts)) == 1 else fmt(common)]
    kept = {let_out_edge(piece, line) for line in piece.get("let_out", ())}
    for amount in sorted(set(amounts) - {common}):
        named = [f"{name} (let-out)" if name in kept else name for name in edges if edges[name] == amount]
        words.append(f"{' and '.join(named)} {fmt(amount) if amount else 'none'}")
    return "; ".join(words)


def let_out_edge(piece: Mapping, line: list) -> str:
    """Return the name of the edge whose allowance holds that let-out line."""
    middle = line[len(line) // 2]
    return min(piece["edges"], key=lambda edge: gap(middle, edge["line"]) if edge["allowance"] else 1e9)["name"].rstrip(
        " 0123456789"
    )


def is_same_line(one: list, other: list) -> bool:
    """Tell whether two unclosed rings run within SAME_LINE of each other, wherever they start."""
    loop = [*other, other[0]]
    return all(gap(point, loop) <= SAME_LINE for point in one[:: max(1, len(one) // 40)])


def _about(cloth: Mapping | None, roles: set[str], unit: str) -> str:
    """Return what a cutter must know of a cloth: its layer, width, what is in hand, its direction."""
    layers = [word for role, word in LAYER_WORDS.items() if role in roles]
    words = ["outside", *layers] if _outside(roles) else layers
    said = [", ".join(words)]
    if cloth:
        said.append(f"{print_length(parse_length(cloth['width'], unit), unit, with_unit=True)} wide")
        if cloth.get("on_hand") is not None:
            said.append(f"{with_fractions(as_written(cloth['on_hand'], unit))} in hand")
        if cloth.get("one_way"):
            said.append("one way: every top points the same way")
    return ", ".join(said)


def as_written(value: object, unit: str) -> str:
    """Return a length as the order has it, with a unit where it was a bare number."""
    text = clean(value).strip()
    return text if text[-1:].isalpha() or text[-1:] in '"″”' else f"{text} {unit}"
