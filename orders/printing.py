"""Job sheets of orders on paper: one order's, or all that a day needs, in one file."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from django.template.loader import render_to_string
from django.utils import timezone

from clients.measures import BY_KEY
from drafting.engine.errors import DraftingError
from drafting.pdf import press
from drafting.sheet_extra import SheetExtra
from drafting.sheets import CannotPrint, day_sheets, job_sheet
from orders.models import Garment, Order
from orders.order_file import dates, notes
from workshop.models import Workshop

__all__ = ["CannotPrint", "NothingDrafted", "day_pack", "order_sheets"]


class NothingDrafted(Exception):
    """There is no draft to print a sheet from."""


@dataclass(frozen=True)
class Remark:
    """A line of the pack's first page: an order that has no sheet, or one to look at before its sheet is followed."""

    order: Order
    text: str


def order_sheets(order: Order) -> bytes:
    """The sheets of all garments of an order. Raises NothingDrafted, CannotPrint."""
    papers = [garment_sheet(order, garment) for garment in garments_with_drafts(order) if garment.sheet_draft]
    if not papers:
        raise NothingDrafted(f"{order.number} has no draft yet. Draft it, then print its sheet.")
    return papers[0] if len(papers) == 1 else day_sheets(papers)


def day_pack(orders: Iterable[Order], day: date) -> bytes:
    """One file for the day. A first page names what could not be printed, and what is to be asked first.

    Raises NothingDrafted where the day has nothing to cut at all, CannotPrint.
    """
    orders, papers, remarks = list(orders), [], []
    if not orders:
        raise NothingDrafted("Nothing is to be cut on this day, so there is no sheet to print.")
    for order in orders:
        remarks += [Remark(order, text) for text in spoken_against(order)]
        for garment in garments_with_drafts(order):
            if garment.sheet_draft is None:
                continue
            try:
                papers.append(garment_sheet(order, garment))
            except (DraftingError, KeyError, ValueError) as broken:
                remarks.append(Remark(order, f"Its sheet could not be made ({broken}). Redraft it."))
    if remarks:
        papers.insert(0, first_page(remarks, day, sheets=len(papers)))
    return day_sheets(papers)


def first_page(remarks: list[Remark], day: date, *, sheets: int) -> bytes:
    workshop = Workshop.current()
    shown = {"remarks": remarks, "day": day, "sheets": sheets, "workshop": workshop}
    return press(render_to_string("orders/first_page.html", shown), paper=workshop.paper)


def spoken_against(order: Order) -> list[str]:
    """What keeps the shears off, each in a sentence that names no money: the sheets lie on the cutting table."""
    garments = order.all_garments
    if not all(garment.measuring_id for garment in garments):
        return ["Not measured yet, so there is no sheet."]
    if not all(garment.draft_id for garment in garments):
        return ["Not drafted yet, so there is no sheet."]
    said = []
    if not all(garment.draft_passed for garment in garments):
        said.append("A check of its draft failed: NOT FOR CUTTING. Redraft.")
    if order.deposit_missing:
        said.append("Ask the owner first: something is open with the client.")
    if not order.is_signed_off:
        said.append("Not signed off yet. The owner looks at it before the first cut.")
    return said


def garment_sheet(order: Order, garment: Garment) -> bytes:
    """The sheet of one garment: drawn from its kept draft, with the days and notes as they stand now."""
    workshop, draft = Workshop.current(), garment.sheet_draft
    file = draft.order_file | {"dates": dates(order), "notes": notes(order)}
    return job_sheet(
        file,
        draft.result,
        workshop_name=workshop.name,
        paper=workshop.paper,
        draft_number=draft.number,
        extra=said_beside(order, garment),
    )


def said_beside(order: Order, garment: Garment) -> SheetExtra:
    """What the book knows and the order file does not."""
    measuring, draft = garment.measuring, garment.sheet_draft
    changed, since = changed_measures(measuring) if measuring else (frozenset(), None)
    return SheetExtra(
        drafted_on=timezone.localdate(draft.made_at),
        drafted_by=str(draft.made_by or ""),
        taken_by=str(measuring.taken_by) if measuring else "",
        worn=", ".join(filter(None, (measuring.worn, measuring.shoes))) if measuring else "",
        changed=changed,
        changed_since=since,
        fitted=tuple(fitting.day for fitting in order.all_fittings if fitting.is_done),
        signed_off_by=str(order.signed_off_by or ""),
        signed_off_on=timezone.localdate(order.signed_off_at) if order.signed_off_at else None,
    )


def changed_measures(measuring) -> tuple[frozenset[str], date | None]:
    """Which measures differ from those that the client had before, and when those were taken."""
    earlier = measuring.client.measurings.filter(taken_on__lt=measuring.taken_on)
    before = earlier.newest_first().first()
    if before is None:
        return frozenset(), None
    then, now = before.lengths(), measuring.lengths()
    return frozenset(key for key in BY_KEY if key in then and key in now and then[key] != now[key]), before.taken_on


def garments_with_drafts(order: Order) -> list[Garment]:
    people = ("draft__made_by", "cut_draft__made_by", "measuring__taken_by", "measuring__client")
    return list(order.garments.select_related(*people))
