"""What would make a cloth enough: the same pieces laid otherwise, or on cloth of another usual width, with figures."""

import copy
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from drafting.models import KeptDraft
from drafting.order_keys import LAYERS
from orders.cloth.laying import HAIR_MM, Laid, laid
from orders.cloth.rows import left_over
from orders.models import Cloth
from workshop.length import MM_PER, print_length
from workshop.models import Workshop
from workshop.templatetags.workshop_tags import cloth as as_bought

USUAL_WIDTHS = {"in": (36, 45, 54, 60), "cm": (90, 115, 140, 150)}
"""As dress cloth is commonly sold; common practice, no source."""


UNDER = frozenset(LAYERS)
UNSEEN = ("facing", "modesty panel", "lining")
"""Words in the names of pieces that do not show when the garment is worn."""


@dataclass(frozen=True)
class Remedy:
    """Something to change, what the cloth then needs, and whether that is enough."""

    change: str
    needs: Decimal | None
    verdict: str
    helps: bool


def remedies(drafts: list, cloth: Cloth) -> list[Remedy]:
    """All that was tried for this cloth, the least cloth first and what can't be laid last."""
    tried = [*laid_otherwise(cloth), *other_widths(cloth), *pieced_otherwise(drafts, cloth)]
    answers = laid(drafts, [other for _, other in tried])
    found = [remedy(change, answer, cloth, least_of(answer, answers, cloth)) for (change, _), answer in zip(tried, answers, strict=True)]
    return sorted(found, key=lambda each: (each.needs is None, not each.helps, each.needs or 0))


def least_of(answer: Laid, answers: list[Laid], cloth: Cloth) -> Decimal | None:
    """What it needs; an open lay no more than a folded one, which is an open lay too once the cloth is opened out."""
    if answer.needs is None or answer.cloth.layout != "open":
        return answer.needs
    now = [cloth.needs_mm] if is_folded_like(cloth, answer.cloth) else []
    folded = [other.needs for other in answers if is_folded_like(other.cloth, answer.cloth)]
    return min([answer.needs, *(needs for needs in (*now, *folded) if needs is not None)])


def is_folded_like(folded: Cloth, opened: Cloth) -> bool:
    """Whether they are the same cloth, laid alike but for the fold."""
    alike = (folded.width_mm, folded.one_way, folded.seam) == (opened.width_mm, opened.one_way, opened.seam)
    return alike and folded.layout != "open"


def laid_otherwise(cloth: Cloth) -> list[tuple[str, Cloth]]:
    found = []
    other = "folded" if cloth.layout == "open" else "open"
    words = {"open": "Lay it open, in one layer", "folded": "Fold it lengthwise"}[other]
    found.append((words, changed(cloth, layout=other)))
    if cloth.one_way:
        found.append(("Lay it both ways, if nap, shine and print allow it", changed(cloth, one_way=False)))
        found.append((f"{words}, and both ways", changed(cloth, layout=other, one_way=False)))
    return found


def other_widths(cloth: Cloth) -> list[tuple[str, Cloth]]:
    unit = Workshop.current().unit
    widths = {number: number * MM_PER[unit] for number in USUAL_WIDTHS[unit]}
    return [
        (f"Cloth {print_length(mm, unit, with_unit=True)} wide", changed(cloth, width_mm=mm, width_written=f"{number} {unit}"))
        for number, mm in widths.items()
        if abs(mm - cloth.width_mm) > HAIR_MM
    ]


def pieced_otherwise(drafts: list[KeptDraft], cloth: Cloth) -> list[tuple[str, Cloth]]:
    """A seam in the greatest piece that does not show: any of an under layer, of the outside only facings and the like."""
    hidden = [piece for draft in drafts for piece in draft.result["pieces"] if is_hidden(piece, cloth)]
    if not hidden:
        return []
    piece = max(hidden, key=lambda piece: extent(piece["cut_line"]))
    middle = "in the middle, where the fold was" if piece["on_fold"] else "along its middle"
    return [
        (f"Piece the {piece['name']} with a seam {words}", changed(cloth, seam=(piece["name"], how)))
        for how, words in (("across", "across"), ("along", middle))
    ]


def is_hidden(piece: Mapping[str, Any], cloth: Cloth) -> bool:
    is_cut = any(cut["cloth"] == cloth.name for cut in piece["cut"])
    return is_cut and (set(cloth.used_for) <= UNDER or any(word in piece["name"] for word in UNSEEN))


def extent(ring: list) -> float:
    across, along = zip(*ring, strict=True)
    return (max(across) - min(across)) * (max(along) - min(along))


def changed(cloth: Cloth, **changes) -> Cloth:
    other = copy.copy(cloth)
    for name, value in changes.items():
        setattr(other, name, value)
    return other


def remedy(change: str, answer: Laid, cloth: Cloth, needs: Decimal | None) -> Remedy:
    if needs is None:
        return Remedy(change, None, answer.refused or "nothing is cut from it", helps=False)
    if answer.cloth.width_mm != cloth.width_mm or cloth.on_hand_mm is None:
        return to_buy(change, needs, cloth.needs_mm)
    spare = cloth.on_hand_mm - needs
    if spare < -HAIR_MM:
        return Remedy(change, needs, f"still short {as_bought(-spare)}", helps=False)
    left = left_over(spare)
    return Remedy(change, needs, f"enough, {as_bought(left)} left over" if left else "just enough", helps=True)


def to_buy(change: str, needs: Decimal, now: Decimal | None) -> Remedy:
    """It helps where the shop sells less of it than of the cloth as it is laid now; a hair less is no less there."""
    buy = as_bought(needs)
    if now is None:
        return Remedy(change, needs, f"{buy} to buy", helps=False)
    if buy == as_bought(now):
        return Remedy(change, needs, f"{buy} to buy, no less than now", helps=False)
    if needs < now:
        return Remedy(change, needs, f"{buy} to buy instead of {as_bought(now)}", helps=True)
    return Remedy(change, needs, f"{buy} to buy, more than the {as_bought(now)} now", helps=False)
