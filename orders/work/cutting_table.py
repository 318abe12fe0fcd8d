"""The cutting table on a phone: each piece of a draft to tick when it is cut, alone or after asking."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial

from django.db import transaction
from django.db.models import Prefetch
from django.utils import timezone

from drafting.cut_list import cut_list
from drafting.models import KeptDraft
from orders.models import Cloth, CutPiece, Garment, Order, SpoiledPiece
from orders.paper.printing import spoken_against
from orders.stages import BEFORE_CUTTING, NotNow, Stage
from workshop.length import print_length

#: Cut from these alone whoever holds the shears; a slip costs a strip of lining. Common practice, no source.
ALONE = {"lining", "stay", "wadding"}


@dataclass(frozen=True)
class PieceShown:
    key: str
    number: str
    name: str
    count: str
    remarks: str
    done: CutPiece | None
    spoiled: SpoiledPiece | None = None  # where it is a piece to cut again


@dataclass(frozen=True)
class ClothShown:
    """One cloth on the table. `ask` says why the owner or a seamstress is asked first; empty where it is cut alone."""

    name: str
    about: str
    ask: str
    pieces: list[PieceShown]
    of_order: Cloth | None = None


@dataclass(frozen=True)
class TableShown:
    garment: Garment
    cloths: list[ClothShown]

    @property
    def count(self) -> int:
        return sum(len(cloth.pieces) for cloth in self.cloths)

    @property
    def left(self) -> int:
        return sum(piece.done is None for cloth in self.cloths for piece in cloth.pieces)

    @property
    def again(self) -> int:
        return sum(piece.done is None and piece.spoiled is not None for cloth in self.cloths for piece in cloth.pieces)


def table_shown(order: Order) -> list[TableShown]:
    """What lies on the table for each drafted garment; four queries. Needs the order's garments and what is paid."""
    spoiled = Prefetch("spoiled_pieces", SpoiledPiece.objects.that_count().select_related("by").defer("lay"), to_attr="all_spoiled")
    garments = list(order.garments.select_related("draft", "cut_draft").prefetch_related("cut_pieces__by", spoiled))
    cloths = {cloth.name.casefold(): cloth for cloth in order.cloths.all()}
    return [shown(garment, cloths) for garment in garments if garment.sheet_draft]


def shown(garment: Garment, cloths: Mapping[str, Cloth]) -> TableShown:
    draft = garment.sheet_draft
    done = {cut.piece: cut for cut in garment.cut_pieces.all() if cut.draft_id == draft.pk}
    fmt = partial(print_length, unit=draft.order_file["units"])
    found = []
    for listed in cut_list(draft.order_file, draft.result, fmt):
        pieces = [
            PieceShown(key := key_of(listed.name, row), row.number, row.piece, row.count, row.remarks, done.get(key)) for row in listed.rows
        ]
        pieces += [to_cut_again(each, draft, done) for each in spoiled_of(garment) if each.cloth.casefold() == listed.name.casefold()]
        cloth = cloths.get(listed.name.casefold())
        found.append(ClothShown(listed.name, listed.about, why_ask(cloth), pieces, cloth))
    return TableShown(garment, found)


def spoiled_of(garment: Garment) -> list[SpoiledPiece]:
    """The spoiled pieces of the draft that is followed; uses what was brought along."""
    return [row for row in garment.all_spoiled if row.draft_id == garment.sheet_draft.pk]


def to_cut_again(spoiled: SpoiledPiece, draft: KeptDraft, done: Mapping[str, CutPiece]) -> PieceShown:
    number = next((piece.get("number") for piece in draft.result["pieces"] if piece["name"] == spoiled.piece), "")
    about = ", ".join(filter(None, (spoiled.which, spoiled.get_how_display())))
    return PieceShown(spoiled.key, str(number or ""), f"{spoiled.piece[:1].upper()}{spoiled.piece[1:]}, to cut again", about, "", done.get(spoiled.key), spoiled)


def key_of(cloth: str, row) -> str:
    """A piece of a cloth: the same piece may be cut from two."""
    return f"{cloth}: {row.number} {row.piece}"[:80]


def cut_of(draft: KeptDraft, cloth: str) -> set[str]:
    """The names of the pieces of a draft that are ticked as cut from this cloth."""
    keys = set(CutPiece.objects.filter(draft=draft).values_list("piece", flat=True))
    if not keys:
        return set()
    fmt = partial(print_length, unit=draft.order_file["units"])
    listed = next((each for each in cut_list(draft.order_file, draft.result, fmt) if each.name.casefold() == cloth.casefold()), None)
    ticked = {row.number for row in (listed.rows if listed else ()) if key_of(listed.name, row) in keys}
    return {piece["name"] for piece in draft.result["pieces"] if str(piece.get("number") or "") in ticked}


def why_ask(cloth: Cloth | None) -> str:
    """Why nobody cuts this cloth without asking: it can't be laid again, or a slip can't be put right."""
    if cloth is None:
        return "It is not on the order any more."
    if not cloth.is_in:
        return "It is not on the shelf."
    if cloth.spare_mm is not None and cloth.spare_mm < 0:
        return "There is too little of it."
    if cloth.whose == Cloth.Whose.CLIENT:
        return "It is the client’s."
    if set(cloth.used_for) <= ALONE:
        return ""
    return "It runs one way: show how it lies first." if cloth.one_way else "Outside cloth: show how the pieces lie first."


def speaks_against(order: Order) -> list[str]:
    return spoken_against(order) if order.stage in BEFORE_CUTTING else []


@transaction.atomic
def tick(*, garment: Garment, key: str, by) -> CutPiece:
    """This piece is cut. The first writes who and when; a second tick changes nothing. Raises NotNow."""
    refuse_unless_on_table(garment, key)
    cut, _ = CutPiece.objects.get_or_create(garment=garment, draft=garment.sheet_draft, piece=key, defaults={"by": by, "at": timezone.now()})
    return cut


@transaction.atomic
def untick(*, garment: Garment, key: str) -> None:
    refuse_unless_on_table(garment, key)
    garment.cut_pieces.filter(draft=garment.sheet_draft, piece=key).delete()


def refuse_unless_on_table(garment: Garment, key: str) -> None:
    """Pieces are ticked only of what the owner let be cut."""
    order = garment.order
    if not order.is_open or order.stage == Stage.READY:
        raise NotNow(f"{order.number} is {order.get_stage_display()}. Nothing of it is cut any more.")
    if garment.cut_draft_id is None and not garment.is_signed_off:
        raise NotNow(f"{garment.called} is not signed off. The owner looks at the draft before the first cut.")
    if garment.sheet_draft is None or not garment.sheet_draft.for_cutting:
        raise NotNow(f"The draft of {garment.called} is NOT FOR CUTTING. Put that right and redraft.")
    known = {piece.key for cloth in shown(garment, {}).cloths for piece in cloth.pieces}
    if key not in known:
        raise NotNow("That piece is not of this draft. Open the table again.")
