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
from orders.models import Garment, Look
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
class Drawn:
    """What the page shows of a draft's result."""

    pieces: list[PieceGroup]
    legend: str
    failed: list[dict]  # checks
    warnings: list[str]
    steps: int  # of its making


NOT_DRAFTED = Drawn([], "", [], [], 0)


@dataclass(frozen=True)
class GarmentShown:
    garment: Garment
    may_change: bool  # False where the choices stand
    form: GarmentForm | None  # one that was sent and not accepted
    choosing: SafeString  # the inputs of all that can be chosen
    choices: list
    drawn: Drawn
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
        shears = f"as it was cut on {day(self.garment.was_cut_on)}" if self.garment.was_cut_on else f"{cut} piece{'s' if cut > 1 else ''} cut" if cut else ""
        return "; ".join(filter(None, (shears, f"{made} of {self.drawn.steps} steps done" if made else "")))

    @property
    def look(self) -> Look | None:
        return getattr(self.garment, "look", None)

    @property
    def failed(self) -> list[str]:
        return [said(check) for check in self.drawn.failed]

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
        drawn=drawn_of(draft) if draft else NOT_DRAFTED,
        behind=what_is_behind(garment) if may_change else "",
        since=worth_saying(garment, whole.newest),
        newer=newer if draft or whole.order.is_before_cutting else None,
        changes=[row for row in measures if row.is_changed],
        measures=measures,
        refused=list(refused) if mine else [],
        against=against,
        old=too_old(garment.measuring, timezone.localdate(), Workshop.current().good_for_days) if garment.measuring and whole.order.is_before_cutting else "",
    )


_drawn: FewKept[Drawn] = FewKept(128)  # by a draft's digest: a kept draft never changes


def drawn_of(draft) -> Drawn:
    def made() -> Drawn:
        result = draft.result
        failed = [check for check in result["checks"] if not check["pass"]]
        warnings = [warning["text"] for warning in result["warnings"]]
        return Drawn(grouped(draft.order_file, result), legend(result), failed, warnings, len(result.get("making", ())))

    return _drawn(draft.digest, made)


def drawn_already() -> list[str]:
    """The digests of the drafts whose drawings are kept in memory."""
    return _drawn.keys()


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
