"""What lists say of garments that were measured again after they were cut: the let-out takes it, or what to cut again."""

from dataclasses import dataclass, field
from datetime import date

from clients.models import Measuring
from orders.garment.comparing import Since, worth_saying
from orders.models import Garment, Order

AT_ONCE = 3
"""So many orders are drafted anew while one waits for a list, a fifth of a second each; of more, the list says only that they were
measured. What was found stays in memory."""

FLAGS = {"let out": "let-out takes it", "taken in": "take it in"}


@dataclass(frozen=True)
class AfterCut:
    """What was measured after the cut of an order: `since` what it means for the garment that it matters most to; None where the list
    asked for too many at once."""

    garment: Garment | None
    since: Since | None
    on: date

    @property
    def kind(self) -> str:
        """The shape of its flag: risk where pieces are to be cut again."""
        return "risk" if self.since and self.since.is_outgrown else "wait"

    @property
    def flag(self) -> str:
        if self.since is None or self.since.is_outgrown:
            return "cut again" if self.since else "measured after cut"
        return FLAGS.get(self.since.comparison.answer, "measured after cut")

    @property
    def said(self) -> str:
        if self.since is None:
            return "Open it to see whether the let-out takes it."
        return self.since.sentence or "No draft can be made of the new measures."


@dataclass
class Asked:
    """Answers for the orders of one list, the first few of them worked out."""

    left: int = AT_ONCE
    found: dict[int, AfterCut | None] = field(default_factory=dict)

    def of(self, order: Order, newest: Measuring | None, on: date) -> AfterCut | None:
        """Return what the client's newest measuring, of the day `on`, means for the garments of hers that are cut."""
        if order.pk not in self.found:
            if self.left <= 0:
                return AfterCut(None, None, on)
            self.left -= 1
            self.found[order.pk] = answered(order, newest)
        return self.found[order.pk]


def is_measured_since(garment: Garment, newest_pk: int | None) -> bool:
    """Whether a cut garment's client was measured again and nobody has settled it; asks the database nothing."""
    return bool(garment.cut_draft_id and garment.measuring_id) and newest_pk not in (None, garment.measuring_id, garment.kept_past_id)


def answered(order: Order, newest: Measuring | None) -> AfterCut | None:
    """Return the answer for the order's garment that needs most: one that is outgrown before one that the let-out holds."""
    cut = Garment.objects.filter(order=order, cut_draft__isnull=False).select_related("order__client", "measuring", "cut_draft")
    said = [(garment, since) for garment in cut if (since := worth_saying(garment, newest))]
    if not said:
        return None
    garment, since = min(said, key=lambda each: not each[1].is_outgrown)
    return AfterCut(garment, since, since.measuring.taken_on)
