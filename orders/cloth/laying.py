"""Laying the cloths of an order: the first answer at once, kept beside the draft, and what it says of what is on hand.

Nothing here may run inside a transaction: a lay takes as long as it is given, and the database would be locked meanwhile.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from django.db import IntegrityError, transaction
from django.utils import timezone

from drafting.lays import lays_and_warnings
from drafting.models import KeptDraft
from drafting.order_lays import TRIES
from orders.models import Cloth, Garment, KeptLay, Order
from orders.models.laid import signature_of

BACKSTOP = 20.0
"""CPU seconds at most for the first answers of a page. They end by the count of tries long before, so that the page and
the order file's own job sheet come to the same lay; this is for a cloth of very many pieces."""

KEPT_TRIED = 60
"""Lays kept of one draft, with those of widths and layouts that were only tried; the oldest and quickest go first."""

PLACES = Decimal("0.0001")
HAIR_MM = Decimal("0.05")
"""Less than shears can cut."""

NOT_LAID_OUT = " is not laid out. "


@dataclass(frozen=True)
class Laid:
    """One cloth and its lays, one for each garment that is cut from it; `needs` and `at_least` are cloth as bought, mm."""

    cloth: Cloth
    kept: tuple[KeptLay, ...]

    @property
    def refused(self) -> str:
        return next((each.refused for each in self.kept if each.refused), "")

    @property
    def needs(self) -> Decimal | None:
        return self._sum("needs")

    @property
    def at_least(self) -> Decimal | None:
        """What no lay can go below, with what the cloth shrinks."""
        least = self._sum("at_least")
        return None if least is None else (least / (1 - self.cloth.shrink_percent / 100)).quantize(PLACES)

    @property
    def fits(self) -> bool | None:
        """Of what is on hand: True, this lay fits; False, none can; None, none was found or nothing is on hand."""
        there = self.cloth.on_hand_mm
        if there is None or self.needs is None:
            return None
        if self.needs <= there + HAIR_MM:
            return True
        return False if self.at_least > there + HAIR_MM else None

    def _sum(self, key: str) -> Decimal | None:
        if not self.kept or self.refused:
            return None
        return sum(Decimal(repr(float(each.lay[key]))) for each in self.kept).quantize(PLACES)


def drafts_of(garments: Iterable[Garment]) -> list[KeptDraft]:
    """The drafts that the cloths are laid for: those that were cut, else the newest."""
    return [garment.sheet_draft for garment in garments if garment.sheet_draft]


def draft_keys(garments: Iterable[Garment]) -> list[int]:
    return [key for garment in garments if (key := garment.cut_draft_id or garment.draft_id)]


def laid(drafts: list[KeptDraft], cloths: Iterable[Cloth]) -> list[Laid]:
    """The lays of these cloths: those that are kept, and first answers for the others."""
    cloths = list(cloths)
    known = {(k.draft_id, k.signature): k for k in KeptLay.objects.filter(draft__in=[draft.pk for draft in drafts])}
    wanted = {}
    for draft in drafts:
        for cloth in cloths:
            entry = entry_of(cloth)
            key = draft.pk, signature_of(entry)
            if key not in known and is_cut_from(draft, cloth.name):
                wanted[key] = draft, entry
    for key, (draft, entry) in wanted.items():
        lay, refused = found(draft, entry, seconds=BACKSTOP / len(wanted), tries=TRIES, wall=False)
        known[key] = keep(draft, entry, lay, refused)
    if wanted:
        forget_tried(drafts)
    return [
        Laid(cloth, tuple(known[key] for draft in drafts if (key := (draft.pk, signature_of(entry_of(cloth)))) in known))
        for cloth in cloths
    ]


def answer(drafts: list[KeptDraft], cloths: Iterable[Cloth]) -> list[Laid]:
    """As `laid`; what is found is also written on the cloths' own rows, where lists read it without any lay."""
    keys = [draft.pk for draft in drafts]
    all_laid = laid(drafts, cloths) if drafts else []
    for each in all_laid:
        told = {"needs_mm": each.needs, "at_least_mm": each.at_least, "not_laid": each.refused}
        told["laid_for"] = each.cloth.laid_key(keys)
        if any(getattr(each.cloth, name) != value for name, value in told.items()):
            for name, value in told.items():
                setattr(each.cloth, name, value)
            Cloth.objects.filter(pk=each.cloth.pk).update(**told)  # what follows from a change is no change of its own
    return all_laid


def answer_now(order: Order, cloths: Iterable[Cloth]) -> None:
    """Find what these cloths of an order need, right after a change that was saved."""
    garments = order.garments.select_related("draft", "cut_draft")
    answer(drafts_of(garments), cloths)


def entry_of(cloth: Cloth) -> dict:
    """The cloth as it is laid: what is on hand decides nothing."""
    entry = {key: value for key, value in cloth.as_order_file().items() if key != "on_hand"}
    return entry | ({"seam": list(cloth.seam)} if cloth.seam else {})


def is_cut_from(draft: KeptDraft, cloth: str) -> bool:
    return any(cut["cloth"] == cloth for piece in draft.result["pieces"] for cut in piece["cut"])


def found(draft: KeptDraft, entry: dict, **how) -> tuple[dict | None, str]:
    """The lay of one cloth, or why there can be none."""
    seam = entry.get("seam")
    cloth = {key: value for key, value in entry.items() if key != "seam"}
    lays, said = lays_and_warnings(draft.order_file | {"cloths": [cloth]}, draft.result, seam=tuple(seam) if seam else None, **how)
    if lays:
        return lays[0], ""
    why = next(warning["text"] for warning in said if warning["code"] == "no-lay")
    return None, why.split(NOT_LAID_OUT, 1)[-1][:400]


def keep(draft: KeptDraft, entry: dict, lay: dict | None, refused: str) -> KeptLay:
    """Keep what was found first."""
    signature, first = signature_of(entry), lay["length"] if lay else 0
    values = {"lay": lay, "refused": refused, "made_at": timezone.now(), "first_length": first}
    try:
        with transaction.atomic():
            return KeptLay.objects.create(draft=draft, signature=signature, **values)
    except IntegrityError:
        return KeptLay.objects.get(draft=draft, signature=signature)  # somebody else's answer, found meanwhile


def keep_shorter(kept: KeptLay, lay: dict | None, seconds: float) -> KeptLay:
    """Note that it was looked for `seconds` more, and keep the lay where it is shorter."""
    kept.seconds += seconds
    fields = ["seconds"]
    if lay and (not kept.lay or lay["length"] < kept.lay["length"] - 0.05):
        kept.lay, kept.refused, kept.made_at = lay, "", timezone.now()
        fields += ["lay", "refused", "made_at"]
    kept.save(update_fields=fields)
    return kept


def forget_tried(drafts: list[KeptDraft]) -> None:
    for draft in drafts:
        lays = draft.kept_lays.filter(seconds=0).order_by("-pk").values_list("pk", flat=True)
        if old := list(lays[KEPT_TRIED:]):
            KeptLay.objects.filter(pk__in=old).delete()
