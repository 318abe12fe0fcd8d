"""The owner's word before the first cut, and the first cut itself."""

from collections.abc import Collection
from datetime import date

from django.db import transaction
from django.utils import timezone

from orders.garment.making_draft import what_is_behind
from orders.models import Garment, Order
from orders.stages import NotNow, Stage
from orders.work.cutting_day import despite


@transaction.atomic
def sign_off(*, order: Order, by, looked_at: Collection[int] | None = None, why: str = "", needs_reason: bool = False) -> None:
    """The owner has looked at the drafts and lets them be cut; `looked_at` names the drafts that the page showed.

    What speaks against it now is kept with her reason, and printed. With `needs_reason` there has to be one.
    """
    if not by.may("sign_off"):
        raise NotNow("Only the owner signs off before the first cut.")
    if looked_at is not None and set(looked_at) != set(order.garments.values_list("draft_id", flat=True)):
        raise NotNow(f"{order.number} was drafted again after this page was opened. Look the newer draft over, then sign off.")
    refuse_unless_draftable(order)
    if order.is_signed_off:
        raise NotNow(f"{order.number} is signed off already.")
    against = despite(order, timezone.localdate())
    if against and needs_reason and not any(letter.isalnum() for letter in why):
        raise NotNow(f"Against cutting {order.number}: {against}. Say in a few words why it is cut all the same.")
    order.note_sign_off(by=by, despite=against, why=why if against else "")


@transaction.atomic
def cut(*, order: Order, by, today: date, only: Garment | None = None) -> None:
    """The shears have gone in: each garment keeps, for good, the draft that they followed.

    With `only` this garment alone is cut; the order is, once all of its garments are.
    """
    refuse_unless_draftable(order)
    if not order.is_signed_off:
        raise NotNow(f"{order.number} is not signed off. The owner looks at the draft before the first cut.")
    for garment in order.garments.filter(cut_draft=None, **({"pk": only.pk} if only else {})).select_related("draft"):
        garment.cut_draft, garment.was_cut_on = garment.draft, today
        garment.keep("cut_draft", "was_cut_on", by=by)
    if not order.garments.filter(cut_draft=None).exists():
        order.stage, order.was_cut_on = Stage.CUT, today
        order.keep("stage", "was_cut_on", by=by)


def refuse_unless_draftable(order: Order) -> None:
    """Raise NotNow unless every garment has a draft that may be cut, and the order stands before its cutting."""
    if not order.is_before_cutting:
        raise NotNow(f"{order.number} is {order.get_stage_display()} already.")
    if order.stage == Stage.ASKED:
        raise NotNow(f"{order.number} is not booked yet.")
    garments = list(order.garments.select_related("draft", "measuring"))
    if order.stage == Stage.BOOKED and any(garment.draft is None for garment in garments):
        raise NotNow(f"{order.number} is not measured and drafted yet.")
    for garment in garments:
        garment.order = order
        named = order.number if len(garments) == 1 else f"{order.number} {garment.title}"
        if garment.draft is None:
            raise NotNow(f"{named} has no draft yet. Draft it, then look it over.")
        if behind := what_is_behind(garment):
            raise NotNow(f"The {behind} changed after the draft of {named} was made. Redraft, then look it over.")
        if not garment.draft.for_cutting:
            raise NotNow(f"The draft of {named} is NOT FOR CUTTING: a check failed. Put that right and redraft.")
