"""What a piece's label says: what it is, how many of which cloth, with which allowances, for whom."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from drafting.cut_list import LAYER_WORDS, allowance_words, cut_count
from drafting.linework import clean
from drafting.paper.about import Heading
from drafting.paper.choice import Choice, Drawn, has_own_line, is_on_sewing_line, layer_of

Fmt = Callable[[float], str]


def title_of(piece: Mapping) -> str:
    name = clean(piece.get("title") or piece["name"])
    return f"{piece['number']} {name}" if piece.get("number") else name


def title_of_drawn(drawn: Drawn) -> str:
    """Return the piece's name; with its layer where that is cut by a line of its own: “2 Side cup, wadding”."""
    layer = layer_of(drawn.cuts[0]) if drawn.own_line else "outside"
    return title_of(drawn.piece) + (f", {layer}" if layer != "outside" else "")


def label_texts(drawn: Drawn, choice: Choice, fmt: Fmt, unit: str, heading: Heading) -> list[str]:
    """Return the label's lines, the piece's name first."""
    piece = drawn.piece
    return [
        title_of_drawn(drawn),
        *(cloth_words(piece, cut, opened=choice.opened) for cut in drawn.cuts),
        _allowances(drawn, choice, fmt, unit),
        f"{heading.order}, {heading.draft}, {heading.measured}",
    ]


def cloth_words(piece: Mapping, cut: Mapping, *, opened: bool) -> str:
    """Return “Brocade: 1 pair, mirrored”."""
    count = cut_count(piece, cut)
    if opened and piece["on_fold"]:
        count = f"{cut['count']} whole"
    layer = f" ({LAYER_WORDS[cut['role']]})" if cut["role"] in LAYER_WORDS else ""
    line = ", on the sewing line" if has_own_line(piece, cut) and is_on_sewing_line(piece, cut) else ""
    cloth = clean(cut["cloth"])
    return f"{cloth[:1].upper()}{cloth[1:]}{layer}: {count}{line}"


def _allowances(drawn: Drawn, choice: Choice, fmt: Fmt, unit: str) -> str:
    if not choice.allowances:
        return "No allowance on this paper: add it when you cut."
    cut = drawn.cuts[0] if drawn.own_line else {}
    return f"Allowance, {unit}: {allowance_words(drawn.piece, cut, fmt)}"
