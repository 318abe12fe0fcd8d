"""What a new garment can begin from: an earlier one of hers, or the last of its kind that was found to fit well."""

from dataclasses import dataclass
from datetime import date

from drafting.engine.garments import KINDS
from orders.models import Garment
from orders.stages import NotNow
from workshop.templatetags.workshop_tags import day

SHOWN = 12


@dataclass(frozen=True)
class Beginning:
    garment: Garment
    is_hers: bool

    @property
    def label(self) -> str:
        fitted = f", fitted well {day(self.garment.fitted_well_on)}" if self.garment.fitted_well_on else ""
        title = self.garment.title[:1].lower() + self.garment.title[1:]
        if self.is_hers:
            return f"her {title} of {day(self.garment.order.booked_on)} ({self.garment.order.number}{fitted})"
        return f"the last {KINDS[self.garment.kind].title.lower()} that fitted well ({self.garment.order.number}{fitted})"


def beginnings(client) -> list[Beginning]:
    """Hers that were drafted, those that fitted well first; then of each kind the last that fitted well on another. Two queries."""
    light = Garment.objects.select_related("order").only("kind", "title", "options", "rules", "fitted_well_on", "order__number", "order__booked_on")
    mine = light.filter(order__client=client, draft__isnull=False, kind__in=KINDS)
    hers = sorted(mine.order_by("-pk")[:SHOWN], key=lambda garment: garment.fitted_well_on is None)
    found = [Beginning(garment, True) for garment in hers]
    kinds: set[str] = set()
    for garment in light.filter(fitted_well_on__isnull=False, kind__in=KINDS).exclude(order__client=client).order_by("-fitted_well_on", "-pk")[:50]:
        if garment.kind not in kinds:
            kinds.add(garment.kind)
            found.append(Beginning(garment, False))
    return found


def note_fit(*, garment: Garment, fits: bool, by, today: date) -> None:
    """It was found to fit well, or not after all. Raises NotNow before it is cut, ChangedMeanwhile."""
    if garment.cut_draft_id is None:
        raise NotNow(f"{garment.order.number} is not cut yet. Whether it fits is seen at a fitting.")
    garment.fitted_well_on = today if fits else None
    garment.keep("fitted_well_on", by=by)
