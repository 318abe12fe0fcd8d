"""What the order's page shows of each garment: its choices, its draft, and the measures that it was made from."""

from dataclasses import dataclass, field
from decimal import Decimal

from django.utils import timezone
from django.utils.safestring import SafeString

from clients.again import too_old
from clients.measures import BY_KEY
from drafting.engine.garments import KINDS
from orders.garment.choosing import choosing
from orders.garment.comparing import Since, worth_saying
from orders.garment.drawn_pieces import PieceGroup, grouped, legend
from orders.garment.form import GarmentForm
from orders.garment.making_draft import newer_measuring, what_is_behind
from orders.garment.options import in_words as choices_in_words
from orders.models import Look, Garment
from orders.whole_order import WholeOrder
from workshop.few_kept import FewKept
from workshop.length import print_length
from workshop.models import Workshop
from workshop.templatetags.workshop_tags import day


@dataclass(frozen=True)
class MeasureRow:
    name: str
    used: Decimal | None
    newer: Decimal | None

    @property
    def change(self) -> Decimal | None:
        return self.newer - self.used if self.used is not None and self.newer is not None else None

    @property
    def is_changed(self) -> bool:
        return self.newer is not None and self.newer != self.used


@dataclass(frozen=True)
class GarmentShown:
    garment: Garment
    may_change: bool  # False where the choices stand
    form: GarmentForm | None  # one that was sent and not accepted
    choosing: SafeString  # the inputs of all that can be chosen
    choices: list
    pieces: list
    legend: str
    failed: list[str]
    warnings: list[str]
    behind: str
    newer: object  # a newer measuring to decide about, or None
    since: Since | None  # what was measured after it was cut, where it is worth saying
    changes: list[MeasureRow]
    measures: list[MeasureRow]
    refused: list[str] = field(default_factory=list)
    against: list[str] = field(default_factory=list)  # what speaks against cutting it, where an order has several garments
    old: str = ""  # the age of measures that are no longer good, while nothing is cut

    @property
    def how_far(self) -> str:
        """“as it was cut on 12 March”, “7 pieces cut”, and how much of its making is done."""
        made, cut = self.garment.made_count or 0, self.garment.cut_count or 0
        steps = len(self.draft.result.get("making", ())) if self.draft else 0
        shears = f"as it was cut on {day(self.garment.was_cut_on)}" if self.garment.was_cut_on else f"{cut} piece{'s' if cut > 1 else ''} cut" if cut else ""
        return "; ".join(filter(None, (shears, f"{made} of {steps} steps done" if made else "")))

    @property
    def is_measured_anew(self) -> bool:
        """True when something is to be said, or decided, of measures or rules that the draft does not know."""
        return bool(self.since or self.newer and self.may_change or self.behind)

    @property
    def look(self) -> Look | None:
        return getattr(self.garment, "look", None)

    @property
    def may_be_signed_off(self) -> bool:
        return self.garment.may_be_signed_off

    @property
    def may_be_put_away(self) -> bool:
        return self.garment.cut_draft_id is None and not self.garment.cut_count

    @property
    def unchanged(self) -> list[MeasureRow]:
        return [row for row in self.measures if not row.is_changed]

    @property
    def draft(self):
        return self.garment.sheet_draft


def garment_shown(garment: Garment, whole: WholeOrder, person, form, refused, against: list[str]) -> GarmentShown:
    mine = form is not None and form.garment.pk == garment.pk
    may_change = whole.order.is_open and garment.cut_draft_id is None and person.may("draft")
    newer = newer_measuring(garment, whole.newest)
    measures = measure_rows(garment, newer)
    draft = garment.sheet_draft
    return GarmentShown(
        garment=garment,
        may_change=may_change,
        form=form if mine else None,
        choosing=choosing(garment, form if mine else None) if may_change else SafeString(),
        choices=[] if may_change else choices_in_words(KINDS[garment.kind], garment.options),
        pieces=piece_groups(draft) if draft else [],
        legend=legend(draft.result) if draft else "",
        failed=[said(check) for check in draft.result["checks"] if not check["pass"]] if draft else [],
        warnings=[warning["text"] for warning in draft.result["warnings"]] if draft else [],
        behind=what_is_behind(garment) if may_change else "",
        since=worth_saying(garment, whole.newest),
        newer=newer if draft or whole.order.is_before_cutting else None,
        changes=[row for row in measures if row.is_changed],
        measures=measures,
        refused=list(refused) if mine else [],
        against=against,
        old=too_old(garment.measuring, timezone.localdate(), Workshop.current().good_for_days) if garment.measuring and whole.order.is_before_cutting else "",
    )


_drawn: FewKept[list] = FewKept(64)  # a draft's digest -> its piece groups


def piece_groups(draft) -> list[PieceGroup]:
    """The drawn pieces of a draft; kept in memory for the last few, because a kept draft never changes."""
    return _drawn(draft.digest, lambda: grouped(draft.order_file, draft.result))


def said(check: dict) -> str:
    unit = Workshop.current().unit
    if check["unit"] == "mm":
        return f"{check['check']}: differs {print_length(check['figure'], unit, step=16, with_unit=True)}"
    return f"{check['check']}: comes to {check['figure']:.3g} {check['unit']}"


def measure_rows(garment: Garment, newer) -> list[MeasureRow]:
    if garment.measuring is None:
        return []
    used, now = garment.measuring.lengths(), newer.lengths() if newer else {}
    return [MeasureRow(m.name, used.get(m.key), now.get(m.key)) for m in BY_KEY.values() if m.key in used or m.key in now]
