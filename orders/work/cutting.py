"""The owner's word before a garment is cut, and the cut itself: one garment of an order, or all that are left."""

from collections.abc import Collection
from datetime import date

from django.db import transaction
from django.utils import timezone

from orders.garment.making_draft import what_is_behind
from orders.models import Garment, Order
from orders.stages import NotNow, Stage
from orders.work.cutting_day import despite


@transaction.atomic
def sign_off(
    *, order: Order, by, only: Garment | None = None, looked_at: Collection[int] | None = None, why: str = "", needs_reason: bool = False
) -> None:
    """The owner has looked at the drafts and lets them be cut: of this garment, else of all that are not signed off yet.

    `looked_at` names the drafts that the page showed. What speaks against each now is kept with her reason, and printed.
    With `needs_reason` there has to be one.
    """
    if not by.may("sign_off"):
        raise NotNow("Only the owner signs off before the first cut.")
    left = to_be_cut(order, only)
    garments = [garment for garment in left if not garment.is_signed_off]
    if looked_at is not None and not {garment.draft_id for garment in garments} <= set(looked_at):
        raise NotNow(f"{order.number} was drafted again after this page was opened. Look the newer draft over, then sign off.")
    refuse_unless_draftable(order, garments or left)
    if not garments:
        raise NotNow(f"{left[0].called if only else order.number} is signed off already.")
    against = despite(order, garments, timezone.localdate())
    for garment in garments:
        if against[garment.pk] and needs_reason and not any(letter.isalnum() for letter in why):
            raise NotNow(f"Against cutting {garment.called}: {against[garment.pk]}. Say in a few words why it is cut all the same.")
    at = timezone.now()
    for garment in garments:
        told = against[garment.pk]
        garment.note_sign_off(by=by, at=at, despite=told, why=why if told else "")


@transaction.atomic
def cut(*, order: Order, by, today: date, only: Garment | None = None) -> None:
    """The shears have gone in: each garment keeps, for good, the draft that they followed.

    With `only` this garment alone is cut; the order is, once all of its garments are.
    """
    garments = to_be_cut(order, only)
    refuse_unless_draftable(order, garments)
    for garment in garments:
        if not garment.is_signed_off:
            raise NotNow(f"{garment.called} is not signed off. The owner looks at the draft before the first cut.")
        garment.cut_draft, garment.was_cut_on = garment.draft, today
        garment.keep("cut_draft", "was_cut_on", by=by)
    order.follow_cuts(by=by)


def may_be_cut(order: Order, only: int | None = None) -> bool:
    """Whether all that is left of it, or the garment of this key, waits for nothing but the shears."""
    garments = [garment for garment in order.not_cut if only in (None, garment.pk)]
    return order.is_before_cutting and bool(garments) and all(garment.is_signed_off for garment in garments)


def to_be_cut(order: Order, only: Garment | None) -> list[Garment]:
    """As they are kept now; raises NotNow where the one that is asked for is cut already or put away."""
    garments = list(order.garments.filter(cut_draft=None).select_related("draft", "measuring"))
    if only is not None:
        garments = [garment for garment in garments if garment.pk == only.pk]
        if not garments:
            now = Garment.everything.get(pk=only.pk)
            raise NotNow(f"{order.number} {now.title} is {'put away' if now.put_away_on else 'cut already'}.")
    for garment in garments:
        garment.order = order
    return garments


def refuse_unless_draftable(order: Order, garments: Collection[Garment]) -> None:
    """Raise NotNow unless each of these has a draft that may be cut, and the order stands before its cutting."""
    if not order.is_before_cutting:
        raise NotNow(f"{order.number} is {order.get_stage_display()} already.")
    if order.stage == Stage.ASKED:
        raise NotNow(f"{order.number} is not booked yet.")
    for garment in garments:
        if garment.draft is None:
            lacks = "is not measured and drafted yet." if order.stage == Stage.BOOKED else "has no draft yet. Draft it, then look it over."
            raise NotNow(f"{garment.called} {lacks}")
        if behind := what_is_behind(garment):
            raise NotNow(f"The {behind} changed after the draft of {garment.called} was made. Redraft, then look it over.")
        if not garment.draft.for_cutting:
            raise NotNow(f"The draft of {garment.called} is NOT FOR CUTTING: a check failed. Put that right and redraft.")
