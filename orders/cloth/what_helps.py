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
    found = [remedy(change, answer, cloth) for (change, _), answer in zip(tried, answers, strict=True)]
    return sorted(found, key=lambda each: (each.needs is None, not each.helps, each.needs or 0))


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


def remedy(change: str, answer: Laid, cloth: Cloth) -> Remedy:
    needs = answer.needs
    if needs is None:
        return Remedy(change, None, answer.refused or "nothing is cut from it", helps=False)
    if answer.cloth.width_mm != cloth.width_mm or cloth.on_hand_mm is None:
        less = cloth.needs_mm is not None and needs < cloth.needs_mm - HAIR_MM
        return Remedy(change, needs, f"{as_bought(needs)} to buy", helps=less)
    spare = cloth.on_hand_mm - needs
    if spare < -HAIR_MM:
        return Remedy(change, needs, f"still short {as_bought(-spare)}", helps=False)
    left = left_over(spare)
    return Remedy(change, needs, f"enough, {as_bought(left)} left over" if left else "just enough", helps=True)
