"""A piece was cut wrong: what the rest of its cloth still gives, as its page shows it."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django.http import QueryDict
from django.utils.safestring import SafeString

from drafting.engine.lay import LayError
from drafting.miscut import BOTH, DRAWN, MIRRORED, Miscut, ask_of_what_is_left, spoiled_piece
from orders.cloth.lay_drawing import lay_drawing, sizes_of
from orders.cloth.laying import HAIR_MM, entry_of
from orders.cloth.lays_page import HALF_SIXTEENTH_MM
from orders.cloth.spoiled import sealed
from orders.models import Cloth, Garment, KeptLay, SpoiledPiece
from workshop.length import print_length
from workshop.models import Workshop
from workshop.templatetags.workshop_tags import cloth as as_bought

WHICH = ((DRAWN, "the one as drawn"), (MIRRORED, "its mirror image"), (BOTH, "both"))
PARTS = ("left", "right", "upper", "lower")
HOW = {"": "whole", "across": "in two parts, with a seam across", "along": "in two parts, with a seam along the grain"}


@dataclass(frozen=True)
class MiscutShown:
    cloth: Cloth
    length: str
    pieces: list[str]
    drawing: SafeString
    zoom: str
    piece: str
    is_pair: bool
    which: str
    choices: tuple[tuple[str, str], ...]
    waiting: list[tuple[str, bool]]  # the other pieces, and whether they are still to be cut
    said: list[str]
    never_fitted: str
    is_found: bool
    to_keep: str  # what was found, sealed for the form that keeps it; empty where nothing can be kept


def miscut_page(kept: KeptLay, garment: Garment, cloth: Cloth, *, others_mm: Decimal, asked: QueryDict, url: str, ticked: Collection[str]) -> MiscutShown:
    """The lay with its pieces to tap; once one is named, what is left with that piece cut again. `others_mm` is gone besides.

    `ticked` are the pieces ticked as cut at the table: where some are, the others still have to be, unless `asked` says so.
    """
    unit, lay, draft = Workshop.current().unit, kept.lay, garment.sheet_draft
    length = (cloth.on_hand_mm or Decimal(repr(float(lay["to_buy"])))) - others_mm
    names = sorted({placed["piece"] for placed in lay["placed"]})
    numbers = {piece["name"]: piece["number"] for piece in draft.result["pieces"] if piece.get("number")}
    numbers |= {f"{name}, {part} part": f"{number} {part}" for name, number in numbers.items() for part in PARTS}
    piece = asked.get("piece", "") if asked.get("piece", "") in names else ""
    which = asked.get("which") if asked.get("which") in dict(WHICH) else DRAWN
    beyond = beyond_the_end(lay, cloth, length)
    waiting = set(asked.getlist("uncut")) if "piece" in asked and "told" in asked else beyond | {name for name in names if ticked and name not in ticked}
    waiting = (waiting & set(names)) - {piece}
    found, said, is_pair, to_keep = None, [], False, ""
    if piece:
        file = draft.order_file | {"cloths": [entry_of(cloth)]}
        is_pair = spoiled_piece(file, draft.result, lay, piece).mirror == "pair"
        try:
            found = ask_of_what_is_left(file, draft.result, lay, piece, which=which, length=float(length), uncut=waiting, taken=cut_again(garment, cloth))
            said = list(sentences(found, unit, is_waited=bool(waiting)))
            to_keep = sealed(noted(found, cloth, dict(WHICH)[which] if is_pair else "", said))
        except LayError as bad:
            said = [bad.sentence(lambda mm: print_length(mm, unit, with_unit=True))]
    shown = found.lay if found and found.lay else lay
    told = f"{cloth.name}, {'with the new piece' if shown is not lay else 'as it was cut'}."
    return MiscutShown(
        cloth=cloth,
        length=as_bought(length),
        pieces=names,
        drawing=lay_drawing(shown, numbers, unit, told=told, links="" if shown is not lay else url),
        zoom=sizes_of(shown).zoom,
        piece=piece,
        is_pair=is_pair,
        which=which,
        choices=WHICH,
        waiting=[(name, name in waiting) for name in names if name != piece],
        said=said,
        never_fitted=never_fitted(lay, length, sorted(beyond)) if cloth.is_in else "",
        is_found=bool(found and found.lay),
        to_keep=to_keep,
    )


def noted(found: Miscut, cloth: Cloth, which: str, said: list[str]) -> SpoiledPiece:
    how = SpoiledPiece.How.NEW if found.lay is None else found.how
    return SpoiledPiece(cloth=cloth.name, piece=found.piece, which=which, how=how, lay=found.lay, to_buy_mm=found.to_buy or None, said=said)


def cut_again(garment: Garment, cloth: Cloth) -> list[dict]:
    """Where other spoiled pieces of this cloth lie on what is left."""
    kept = garment.spoiled_pieces.that_count().filter(draft=garment.sheet_draft, cloth=cloth.name, lay__isnull=False)
    return [placed for each in kept for placed in each.lay["placed"]]


def beyond_the_end(lay: Mapping[str, Any], cloth: Cloth, length: Decimal) -> set[str]:
    """The pieces that lie where there is no cloth: whatever was cut, they weren't, not so."""
    long = float(length) * (1 - float(cloth.shrink_percent) / 100) / (2 if lay["layout"] == "crosswise" else 1)
    return {placed["piece"] for placed in lay["placed"] if max(y for _, y in placed["outline"]) > long + HALF_SIXTEENTH_MM}


def never_fitted(lay: Mapping[str, Any], length: Decimal, beyond: list[str]) -> str:
    needs = Decimal(repr(float(lay["needs"])))
    if needs <= length + HAIR_MM:
        return ""
    where = f" Beyond its end lie: {', '.join(beyond)}." if beyond else ""
    return f"This lay takes {as_bought(needs)} and there is {as_bought(length)}: it never fitted this cloth.{where}"


def sentences(found: Miscut, unit: str, *, is_waited: bool = False) -> list[str]:
    first = found.piece[0].upper() + found.piece[1:]
    if found.lay is None:
        if found.sure:
            with_others = " together with what is still to be cut" if is_waited else ""
            said = [f"{first} can’t be cut again: less cloth is left than the piece takes{with_others}, whole or pieced."]
        else:
            said = [
                f"No place was found for {found.piece}, neither whole nor in two parts. That does not prove that there is none: "
                "lay the pattern on what is left, and turn it by hand."
            ]
        new = found.to_buy and as_bought(Decimal(repr(found.to_buy)))
        return [*said, f"From new cloth of this width it takes {new}."] if new else said
    said = [f"{first} can be cut again, {HOW[found.how]}."]
    if found.anew:
        said.append("What is still to be cut keeps room only if it is laid anew, open, in one layer, as drawn below. Follow this lay from now on.")
    elif is_waited:
        said.append("What is still to be cut stays where it lies.")
    for placed in found.lay["placed"]:
        across, along = zip(*placed["outline"], strict=True)
        at = ", ".join(away(min(side), of, unit) for side, of in ((along, "the cut end"), (across, "the lower selvedge")))
        turned = ", turned top to tail" if placed["turned"] else ""
        said.append(f"{placed['piece']}: {at}{turned}.")
    if found.how:
        said.append("The seam has five eighths of an inch (16 mm) on either side, common practice, no source.")
    return said


def away(mm: float, of: str, unit: str) -> str:
    said = print_length(max(mm, 0.0), unit, with_unit=True)
    return f"at {of}" if said == print_length(0, unit, with_unit=True) else f"{said} from {of}"
