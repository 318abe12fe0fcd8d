"""Which pieces of a garment are put on paper, and how: chosen by layer or by name, with or without allowances."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from drafting.cut_list import LAYER_WORDS, is_same_line

LAYERS = {"all": "All layers", "outside": "Outside only", "lining": "Lining only", "stay": "Stay only", "wadding": "Wadding only"}


class NothingChosen(ValueError):
    """No piece is left to print; the sentence says what there is."""


@dataclass(frozen=True, slots=True)
class Choice:
    """`pieces` by name, none for all; `opened` lays on-fold halves out whole, for cutting cloth in a single layer."""

    layer: str = "all"
    pieces: frozenset[str] = frozenset()
    allowances: bool = True
    opened: bool = False

    @property
    def words(self) -> str:
        """What was chosen beyond the usual, for the first page."""
        said = [
            LAYERS[self.layer].lower() if self.layer != "all" else "",
            "some pieces only" if self.pieces else "",
            "" if self.allowances else "without allowances: add them when you cut",
            "halves opened out: cut the cloth in a single layer" if self.opened else "",
        ]
        return "; ".join(filter(None, said))


@dataclass(frozen=True)
class Drawn:
    """One outline to draw: the piece, what is cut by it, and the cutting line where it is this layer's own."""

    piece: Mapping
    cuts: tuple[Mapping, ...]
    own_line: list | None = None


def layer_of(cut: Mapping) -> str:
    """Return outside, lining, stay or wadding."""
    return cut["role"] if cut["role"] in LAYER_WORDS else "outside"


def layers_in(result: Mapping) -> list[str]:
    """Return the layers that the draft has, in the order of LAYERS, “all” first."""
    there = {layer_of(cut) for piece in result["pieces"] for cut in piece["cut"]}
    return [layer for layer in LAYERS if layer == "all" or layer in there]


def chosen(result: Mapping, choice: Choice) -> list[Drawn]:
    """Return what is drawn, in the result's order: an outline a piece, and one more where a layer's line is its own.

    Raises NothingChosen. A layer that is cut on the sewing line needs no outline beside another's: that line is on it.
    """
    found: list[Drawn] = []
    for piece in result["pieces"]:
        if not choice.pieces or piece["name"] in choice.pieces:
            found.extend(_outlines(piece, [c for c in piece["cut"] if choice.layer in ("all", layer_of(c))]))
    if not found:
        there = ", ".join(piece["name"] for piece in result["pieces"])
        raise NothingChosen(f"No piece is left to print with that choice. The pieces are {there}.")
    return found


def _outlines(piece: Mapping, cuts: list[Mapping]) -> Iterable[Drawn]:
    if not cuts:
        return
    shared = [cut for cut in cuts if not has_own_line(piece, cut)]
    on_net = [cut for cut in cuts if has_own_line(piece, cut) and is_on_sewing_line(piece, cut)]
    apart = [cut for cut in cuts if has_own_line(piece, cut) and not is_on_sewing_line(piece, cut)]
    if shared:
        yield Drawn(piece, (*shared, *on_net))
    elif on_net:
        yield Drawn(piece, tuple(on_net), on_net[0]["cut_line"])
    for cut in apart:
        yield Drawn(piece, (cut,), cut["cut_line"])


def has_own_line(piece: Mapping, cut: Mapping) -> bool:
    return bool(cut.get("cut_line")) and not is_same_line(cut["cut_line"], piece["cut_line"])


def is_on_sewing_line(piece: Mapping, cut: Mapping) -> bool:
    return bool(cut.get("cut_line")) and is_same_line(cut["cut_line"], piece["net"])
