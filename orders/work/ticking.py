"""The order of making as a list to tick: what is done, by whom, and what comes next."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from drafting.sheet_tables import material_rows
from orders.models import Garment, Made, Order
from orders.stages import NotNow


@dataclass(frozen=True)
class StepShown:
    key: str
    number: int
    text: str
    why: str
    done: Made | None
    is_next: bool


@dataclass(frozen=True)
class MakingShown:
    garment: Garment
    steps: list[StepShown]
    materials: list
    may_tick: bool

    @property
    def done(self) -> int:
        return sum(step.done is not None for step in self.steps)

    def step(self, key: str) -> StepShown | None:
        return next((step for step in self.steps if step.key == key), None)


def key_of(step: Mapping[str, Any]) -> str:
    """A step's key; drafts kept before steps had one are known by their number."""
    return step.get("key") or f"step {step['number']}"


def making_shown(garment: Garment, order: Order, person, unit: str) -> MakingShown | None:
    """What the page shows of one garment, one query; None before it is drafted."""
    draft = garment.sheet_draft
    if draft is None:
        return None
    done = {made.act: made for made in garment.made.select_related("by")}
    steps, is_next = [], True
    for step in draft.result.get("making", ()):
        made = done.get(key_of(step))
        steps.append(StepShown(key_of(step), step["number"], step["text"], step.get("why", ""), made, made is None and is_next))
        is_next = is_next and made is not None
    return MakingShown(garment, steps, list(material_rows(draft.result, unit)), order.is_open and person.may("tick_work"))


def tick(*, garment: Garment, key: str, by) -> Made:
    """The act is done. Ticked twice, by one or by two, it stays as it was first written. Raises NotNow."""
    refuse_unless_made_now(garment, key)
    made, _ = Made.objects.get_or_create(garment=garment, act=key, defaults={"by": by})
    return made


def untick(*, garment: Garment, key: str) -> None:
    """The act is not done after all."""
    refuse_unless_made_now(garment, key)
    garment.made.filter(act=key).delete()


def refuse_unless_made_now(garment: Garment, key: str) -> None:
    order, draft = garment.order, garment.sheet_draft
    if not order.is_open:
        raise NotNow(f"{order.number} is {order.get_stage_display()}. Its steps stay as they are.")
    if draft is None or all(key_of(step) != key for step in draft.result.get("making", ())):
        raise NotNow("That step is not in the order of making any more: the garment was drafted again. Look at the list, then tick.")
