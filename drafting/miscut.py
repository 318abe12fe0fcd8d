"""A spoiled piece, asked of the cloth that is left: from the order file, the result and the lay that it was cut by."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from drafting.engine.lay import LayCloth, LayError, LayPiece, plan, print_ahead, recut
from drafting.engine.lay.flat import opened_flat
from drafting.engine.lay.recut import SECONDS
from drafting.lays import cloths_of, lay_cloth, pieces_from

DRAWN, MIRRORED, BOTH = "drawn", "mirrored", "both"


@dataclass(frozen=True)
class Miscut:
    """The answer: `lay` is an entry like those of `lays[]` with the new piece on what is left, or None. `how`: "", across, along.
    `anew`: the pieces that were not cut yet lie on it too, otherwise than before. Without a lay, `to_buy` is how much new
    cloth of the same kind the piece takes, mm; None where it is wider than that."""

    piece: str
    lay: dict[str, Any] | None
    how: str
    sure: bool
    anew: bool = False
    to_buy: float | None = None


def spoiled_piece(order_file: Mapping[str, Any], result: Mapping[str, Any], lay: Mapping[str, Any], name: str) -> LayPiece:
    """The piece of that name as it is cut from the lay's cloth. Raises KeyError where none is."""
    for cloth in cloths_of(order_file):
        if cloth.name == lay["cloth"]:
            for piece in pieces_from(cloth, result):
                if piece.name == name:
                    return piece
    raise KeyError(name)


def ask_of_what_is_left(
    order_file: Mapping[str, Any],
    result: Mapping[str, Any],
    lay: Mapping[str, Any],
    name: str,
    *,
    which: str,
    length: float,
    uncut: Collection[str] = (),
    taken: Sequence[Mapping[str, Any]] = (),
) -> Miscut:
    """Whether `length` mm of cloth, as it was before it was cut by `lay`, gives the piece `name` again.

    Of a pair, `which` says whether the one as drawn is spoiled, its mirror image, or both. Of `uncut`
    pieces nothing is cut yet, and all of them must be. `taken` are the entries of `placed[]` of other
    spoiled pieces, where they are cut again. Raises LayError, KeyError.
    """
    piece = spoiled_piece(order_file, result, lay, name)
    if piece.mirror == "pair" and which == MIRRORED:
        piece = replace(piece, outline=tuple((-x, y) for x, y in piece.outline), motif=None)
    piece = replace(piece, count=2 if piece.mirror == "pair" and which == BOTH else 1)
    brief = next(cloth for cloth in cloths_of(order_file) if cloth.name == lay["cloth"])
    cloth = lay_cloth(brief, order_file["units"], "open")
    again = [(each["piece"], tuple((x, y) for x, y in each["outline"])) for each in taken]
    flaws, cloth = cloth.flaws, replace(cloth, length=length, flaws=(*cloth.flaws, *(ring for _, ring in again)))
    waiting = tuple(each for each in pieces_from(brief, result) if each.name in uncut and each.name != name)
    found = recut(cloth, lay, piece, uncut=waiting)
    if found.lay is None:
        return Miscut(name, None, "", found.sure, to_buy=new_cloth(cloth, piece))
    shown = found.lay.as_result()
    _count_from_the_cut_end(shown, print_ahead(cloth, lay))
    moved = {each.name for each in waiting} if found.anew else ()
    names = [placed["piece"] for placed in lay["placed"]]
    gone = [(names[number], ring) for number, ring in opened_flat(lay) if names[number] not in moved] + again
    shown["blocked"] = [[[x, y] for x, y in ring] for ring in (*(ring for _, ring in gone), *flaws)]
    shown["blocked_by"] = [name for name, _ in gone]
    shown["length"] = max(lay["length"], shown["length"], *(y for _, ring in again for _, y in ring))
    return Miscut(name, shown, found.how, sure=True, anew=found.anew)


def new_cloth(cloth: LayCloth, piece: LayPiece) -> float | None:
    """How much the shop must sell for this piece alone, mm; None where the cloth is too narrow."""
    try:
        return plan(replace(cloth, length=None, flaws=()), (piece,), seconds=SECONDS).to_buy
    except LayError:
        return None


def _count_from_the_cut_end(lay: dict[str, Any], ahead: float) -> None:
    if ahead:
        lay["length"] -= ahead
        for placed in lay["placed"]:
            placed["outline"] = [[x, y - ahead] for x, y in placed["outline"]]
