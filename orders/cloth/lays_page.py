"""What the page of an order's lays shows: each cloth's lay drawn, and what is said of it in words."""

import math
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django.utils.safestring import SafeString

from drafting.engine.lay import Leftover, left_of
from drafting.models import KeptDraft
from drafting.sheet_lays import motif_rows
from orders.cloth.lay_drawing import lay_drawing, name_of, sizes_of
from orders.cloth.laying import HAIR_MM, Laid, answer, drafts_of, laid
from orders.cloth.looking import Looking, looking_for_each
from orders.cloth.rows import ClothRow, cannot_fit, left_over, row_of
from orders.cloth.what_helps import Remedy, changed, remedies
from orders.models import Cloth, KeptLay
from orders.whole_order import WholeOrder
from workshop.length import MM_PER, print_length
from workshop.models import Workshop
from workshop.templatetags.workshop_tags import cloth as as_bought

HOW = {"folded": "folded lengthwise", "open": "open, in one layer", "crosswise": "folded crosswise"}
SO = {"folded": "folded", "open": "laid open", "crosswise": "folded crosswise"}
HALF_SIXTEENTH_MM = 0.8
LEAST_LEFT_MM = (100.0, 100.0)  # a scrap less wide than a hand is not worth telling of
QUARTER_MM = {"in": float(MM_PER["in"]) / 4, "cm": 10.0}


@dataclass(frozen=True)
class PlaceRow:
    """Where one piece lies, as it is measured out with the tape: along from the cut end, across from fold or edge; mm."""

    name: str
    along: float
    until: float
    across: float
    how: str


@dataclass(frozen=True)
class LayShown:
    head: str
    drawing: SafeString
    zoom: str
    legend: str
    places: list[PlaceRow]
    across_from: str
    found: str
    key: int


@dataclass(frozen=True)
class ClothLaid:
    row: ClothRow
    lays: list[LayShown]
    said: list[str]
    remedies: list[Remedy] | None  # None where nobody has asked
    looking: Looking | None  # how the last look for a shorter lay goes or went

    @property
    def cloth(self) -> Cloth:
        return self.row.cloth

    @property
    def is_looked_for(self) -> bool:
        return self.looking is not None and self.looking.is_open

    @property
    def something_helps(self) -> bool:
        return any(each.helps for each in self.remedies or ())


def lays_page(whole: WholeOrder, *, help_for: int | None) -> list[ClothLaid]:
    """Every cloth of the order; the first time, its lays are found now."""
    drafts = drafts_of(whole.garments)
    answers = answer(drafts, whole.cloths)
    others = laid(drafts, [in_other_layout(each) for each in answers])
    by_key, looks = {draft.pk: draft for draft in drafts}, looking_for_each(whole.cloths)
    return [
        ClothLaid(
            row=row_of(each.cloth, whole.order, list(by_key)),
            lays=[shown(kept, by_key[kept.draft_id]) for kept in each.kept if kept.lay],
            said=list(sentences(each, other, is_cut=not whole.order.is_before_cutting)),
            remedies=remedies(drafts, each.cloth) if help_for == each.cloth.pk else None,
            looking=looks.get(each.cloth.pk),
        )
        for each, other in zip(answers, others, strict=True)
    ]


def in_other_layout(each: Laid) -> Cloth:
    layouts = {kept.lay["layout"] for kept in each.kept if kept.lay}
    return changed(each.cloth, layout="folded" if layouts == {"open"} else "open")


def shown(kept: KeptLay, draft: KeptDraft) -> LayShown:
    lay, unit = kept.lay, Workshop.current().unit
    numbers = {piece["name"]: piece["number"] for piece in draft.result["pieces"] if piece.get("number")}
    wide, long = (print_length(lay[key], unit, with_unit=True) for key in ("width", "length"))
    head = f"{HOW[lay['layout']].capitalize()}, {wide} wide"
    legend = legend_of(lay, numbers)
    told = f"{lay['cloth']}, {head.lower()}: the lay is {long} long. On it lie {legend}."
    return LayShown(
        head=head,
        drawing=lay_drawing(lay, numbers, unit, told=told),
        zoom=sizes_of(lay).zoom,
        legend=legend,
        places=places_of(lay, {piece["name"] for piece in draft.result["pieces"] if piece["on_fold"]}),
        across_from=across_from(lay),
        found=found_words(kept, unit),
        key=kept.pk,
    )


def legend_of(lay: Mapping[str, Any], numbers: Mapping[str, Any]) -> str:
    """Every piece on the lay once, its number before its name."""
    names = sorted({placed["piece"] for placed in lay["placed"]}, key=lambda name: (*letter_and_number(numbers.get(name)), name))
    return ", ".join(f"{numbers[name]} {name}" if name in numbers else name for name in names)


def letter_and_number(written: Any) -> tuple[str, int]:
    """A piece's number, and before it the letter of its order where several are laid: for sorting."""
    letter = str(written or "").rstrip("0123456789")
    return letter, int(str(written or "")[len(letter) :] or 0)


def places_of(lay: Mapping[str, Any], on_fold: Collection[str]) -> list[PlaceRow]:
    """Where everything lies, from the cut end on; `on_fold` are the names of the pieces drawn as halves."""
    return sorted((place(placed, lay, on_fold) for placed in lay["placed"]), key=lambda row: row.along)


def across_from(lay: Mapping[str, Any]) -> str:
    return "the fold" if lay["layout"] == "folded" else "the lower selvedge"


def place(placed: Mapping[str, Any], lay: Mapping[str, Any], on_fold: Collection[str]) -> PlaceRow:
    across, along = zip(*placed["outline"], strict=True)
    at_fold = lay["layout"] == "folded" and min(across) < 0.05 and not placed.get("zone")
    how = ["on the fold"] if at_fold and placed["piece"] in on_fold else []
    how += ["through both layers"] if placed["layers"] == 2 else []
    how += ["turned, top to the right"] if placed["turned"] else []
    if placed.get("motif"):
        unit = Workshop.current().unit
        x, y = (print_length(max(mm, 0), unit, with_unit=True) for mm in placed["motif"])
        how.append(f"motif {y} along, {x} across")
    return PlaceRow(name_of(placed), min(along), max(along), max(min(across), 0), ", ".join(how))


def found_words(kept: KeptLay, unit: str) -> str:
    """How long was looked for it; how much that brought."""
    if not kept.seconds:
        return "Found at once. Looking longer may find a shorter one."
    looked, shorter = f"Looked for {kept.seconds:.0f} seconds longer", kept.first_length - kept.lay["length"]
    if shorter < HALF_SIXTEENTH_MM:
        return f"{looked}: none shorter was found."
    return f"{looked}: {print_length(shorter, unit, step=16, with_unit=True)} shorter than at first."


def sentences(each: Laid, other: Laid, *, is_cut: bool) -> Iterator[str]:
    """What is to be said of one cloth, the weightiest first."""
    cloth = each.cloth
    if each.needs is None:
        return
    least, takes, so = as_bought(each.at_least), as_bought(each.needs), way_words(each)
    if cloth.is_in and cloth.spare_mm < -HAIR_MM and not is_cut:
        there = cloth.on_hand_shown
        if cannot_fit(cloth):
            yield f"Cannot fit {so}: {there} can’t be enough. It takes at least {least}; this lay takes {takes}."
        else:
            yield f"No lay found within {there}. This one takes {takes}; at least {least}, so a shorter one is not ruled out."
    elif least == takes:
        yield f"This lay takes {takes}, and none {so} takes less."
    else:
        yield f"At least {least} {so}; this lay takes {takes}."
    if not is_cut:
        yield from left_words(each)
    yield from other_words(each, other)
    for kept in each.kept:
        if rows := motif_rows(kept.lay, Workshop.current().unit):
            yield rows
    if cloth.shrink_percent:
        yield f"{cloth.shrink_percent.normalize():f}% is added for what it shrinks."


def way_words(each: Laid) -> str:
    """What the lower bound holds for: it is found for the layouts that were laid, no others."""
    if each.cloth.layout == "best":
        return "folded or open"
    return " and ".join(sorted({SO[kept.lay["layout"]] for kept in each.kept}))


def left_words(each: Laid) -> Iterator[str]:
    """What is left of the cloth on hand, or of what is to be bought: length and width, as cloth is sold."""
    cloth, unit = each.cloth, Workshop.current().unit
    if cloth.is_in and cloth.spare_mm < -HAIR_MM:
        return
    if len(each.kept) > 1:
        if cloth.is_in and (left := left_over(cloth.spare_mm)):
            yield f"{as_bought(left)} left, {print_length(cloth.width_mm, unit, with_unit=True)} wide."
        return
    lay = each.kept[0].lay
    there = float(cloth.on_hand_mm) if cloth.is_in else float(lay["to_buy"])
    found = left_of(lay, there * (1 - float(cloth.shrink_percent) / 100), least=LEAST_LEFT_MM)
    words = [left_piece_words(piece, lay, unit) for piece in found]
    if words:
        yield f"{' and '.join(words)} left{'' if cloth.is_in else ', if that much is bought'}."


def left_piece_words(piece: Leftover, lay: Mapping[str, Any], unit: str) -> str:
    """“⅝ yd, 20 in wide”: the length in steps of the shop where it makes one, else as the tape has it; never more than is there."""
    wide = print_length(math.floor(piece.wide / QUARTER_MM[unit] + 1e-6) * QUARTER_MM[unit], unit, with_unit=True)
    steps = left_over(Decimal(repr(piece.long)))
    long = as_bought(steps) if steps else print_length(math.floor(piece.long / QUARTER_MM[unit] + 1e-6) * QUARTER_MM[unit], unit, with_unit=True)
    where = "" if piece.y + HALF_SIXTEENTH_MM >= lay["length"] else " beside the pieces"
    return f"{long}{where}, {wide} wide"


def other_words(each: Laid, other: Laid) -> Iterator[str]:
    """Folded or open: by how much the other way would be shorter or longer."""
    unit, layouts = Workshop.current().unit, {kept.lay["layout"] for kept in each.kept}
    words = "Folded lengthwise" if other.cloth.layout == "folded" else "Laid open"
    if len(layouts) > 1 or not other.kept:
        return
    if other.needs is None:
        yield f"{words}, it can’t be laid: {other.refused}"
        return
    shorter = each.needs - other.needs
    if abs(shorter) < Decimal("3.2"):
        yield f"{words}, it takes as much."
        return
    if shorter < 0 and other.cloth.layout == "open":  # a folded lay opened out is an open one: it never takes more
        yield f"{words}, no shorter lay was found."
        return
    by = print_length(abs(shorter), unit, with_unit=True)
    yield f"{words}, it would take {as_bought(other.needs)}: {by} {'less' if shorter > 0 else 'more'}."
