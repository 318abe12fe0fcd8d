"""The cloths of an order as its page shows them: what each needs, what is on hand, and what that leaves."""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from orders.cloth.laying import HAIR_MM
from orders.models import Cloth, Order
from workshop.length import MM_PER
from workshop.models import Workshop
from workshop.templatetags.workshop_tags import cloth as as_bought

STEP_MM = {"in": MM_PER["yd"] / 8, "cm": MM_PER["m"] / 10}

DONE, RISK, WAIT = "done", "risk", "wait"


@dataclass(frozen=True)
class ClothRow:
    """One cloth. `flag` stands beside its name, of the kind `kind`; `told` is a whole sentence where one is called for."""

    cloth: Cloth
    kind: str
    flag: str
    told: str = ""

    @property
    def of_garment(self) -> str:
        """The garment that it is for alone; nothing for a cloth of the whole order."""
        return next((each.title for each in self.cloth.order.all_garments if each.pk == self.cloth.garment_id), "")

    @property
    def is_short(self) -> bool:
        return self.kind == RISK


@dataclass(frozen=True)
class ClothsShown:
    rows: list[ClothRow]
    is_drafted: bool
    is_known: bool  # False: no lay was made yet of what stands here now


def cloths_shown(order: Order, cloths: Iterable[Cloth], drafts: list[int]) -> ClothsShown:
    cloths = list(cloths)
    known = all(cloth.is_laid_for(drafts) for cloth in cloths)
    return ClothsShown([row_of(cloth, order, drafts) for cloth in cloths], bool(drafts), known or not drafts)


def row_of(cloth: Cloth, order: Order, drafts: list[int]) -> ClothRow:
    """How this cloth stands; figures of a lay that no longer holds are taken off it."""
    if not cloth.is_laid_for(drafts):
        cloth.needs_mm = cloth.at_least_mm = None
        cloth.not_laid = ""
    if cloth.not_laid:
        return ClothRow(cloth, RISK, "can’t be laid", cloth.not_laid)
    if not cloth.is_in:
        return ClothRow(cloth, WAIT, "not in yet")
    if order.was_cut_on:
        return ClothRow(cloth, DONE, "cut from", left_words(cloth))
    if cloth.needs_mm is None or not order.is_before_cutting:
        return ClothRow(cloth, DONE, "in")
    if cloth.spare_mm >= -HAIR_MM:
        return ClothRow(cloth, DONE, spare_words(cloth.spare_mm))
    return ClothRow(cloth, RISK, f"short {as_bought(-cloth.spare_mm)}", short_words(cloth))


def left_words(cloth: Cloth) -> str:
    """What the lay left of it, once it is cut: what came in does not lie there any more."""
    return f"About {as_bought(left_over(cloth.spare_mm))} left by the lay." if cloth.spare_mm is not None and left_over(cloth.spare_mm) else ""


def spare_words(spare: Decimal) -> str:
    left = left_over(spare)
    return f"{as_bought(left)} left over" if left else "just enough"


def left_over(spare: Decimal) -> Decimal:
    """What is left, rounded down to the step in which cloth is sold, mm: less is no length to count on."""
    step = STEP_MM[Workshop.current().unit]
    return max((spare + HAIR_MM) // step, 0) * step


def short_words(cloth: Cloth) -> str:
    """Whether no lay can fit, or only none was found."""
    least, there = as_bought(cloth.at_least_mm), cloth.on_hand_shown
    if cannot_fit(cloth):
        return f"Cannot fit, laid so: it takes at least {least}."
    return f"No lay found within {there}; at least {least}, so one is not ruled out."


def cannot_fit(cloth: Cloth) -> bool:
    return cloth.at_least_mm > cloth.on_hand_mm + HAIR_MM
