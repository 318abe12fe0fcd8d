"""Job sheets of orders on paper: one order's, or all that a day needs, in one file."""

import logging
from collections.abc import Callable, Iterable
from dataclasses import asdict, dataclass, replace
from datetime import date

from django.template.loader import render_to_string
from django.utils import timezone

from clients.measures import BY_KEY
from drafting.engine.errors import DraftingError
from drafting.models import KeptDraft
from drafting.paper.about import About
from drafting.paper.address import order_address
from drafting.paper.choice import Choice
from drafting.paper.kept import forget_oldest, kept_or_made
from drafting.paper.making import make
from drafting.paper.papers_page import newer_than
from drafting.paper.spread import DoesNotFit
from drafting.pdf import press
from drafting.sheet_extra import SheetExtra
from drafting.sheets import CannotPrint, day_sheets, job_sheet
from orders.cloth.laying import draft_keys, laid
from orders.cloth.rows import ClothRow, row_of
from orders.cutting_concerns import takes
from orders.garment.order_file import dates, notes
from orders.models import Garment, Order
from orders.models.naming import told_of
from orders.paper.day_contents import ClothGroup, count_pages, entry_of, grouped, numbered
from orders.stages import Stage
from workshop.models import Workshop
from workshop.templatetags.workshop_tags import cloth as as_bought

__all__ = ["CannotPrint", "NothingDrafted", "Stopped", "day_pack", "order_sheets"]

log = logging.getLogger(__name__)


class NothingDrafted(Exception):
    """There is no draft to print a sheet from."""


class Stopped(Exception):
    """The pack was stopped while it was made."""


@dataclass(frozen=True)
class Remark:
    """A line of the pack's first page: an order that has no sheet, or one to look at before its sheet is followed."""

    order: Order
    text: str


def order_sheets(order: Order, *, site: str = "") -> bytes:
    """The sheets of all garments of an order; with a `site`, a code on each opens the order's page. Raises NothingDrafted, CannotPrint."""
    papers = [garment_sheet(order, garment, site=site) for garment in garments_with_drafts(order) if garment.sheet_draft]
    if not papers:
        if order.is_repair:
            raise NothingDrafted(f"{order.number} is a repair. Print its ticket instead.")
        raise NothingDrafted(f"{order.number} has no draft yet. Draft it, then print its sheet.")
    return papers[0] if len(papers) == 1 else day_sheets(papers)


def day_pack(
    orders: Iterable[Order],
    day: date,
    *,
    full_size: bool = False,
    site: str = "",
    before_each: Callable[[int, Order], bool] | None = None,
    failed: list[str] | None = None,
) -> bytes:
    """One file for the day: a first page with the contents, then the sheets, same cloth together.

    The first page also names what could not be printed, and what is to be asked first; one sheet with nothing against it
    needs none. With `full_size` each sheet is followed by its pattern on the workshop's paper. What was printed before and
    has not changed is taken as it was kept. `site` begins the addresses of the codes on them. `before_each(done, order)` says whether to go on; `failed` takes the numbers of
    orders whose sheet could not be made, which the first page names. Raises NothingDrafted where the day has nothing to cut
    at all, Stopped, CannotPrint.
    """
    orders, entries, remarks = list(orders), [], []
    if not orders:
        raise NothingDrafted("Nothing is to be cut on this day, so there is no sheet to print.")
    for done, order in enumerate(orders):
        if before_each and not before_each(done, order):
            raise Stopped
        remarks += [Remark(order, text) for text in spoken_against(order)]
        for garment in garments_with_drafts(order):
            if garment.sheet_draft is None:
                continue
            try:
                papers = garment_papers(order, garment, full_size=full_size, site=site)
                entries.append(entry_of(order, garment, garment.sheet_draft, papers))
            except CannotPrint:
                raise
            except Exception as broken:  # one sheet does not sink the day's pack
                told = f" ({broken})" if isinstance(broken, (DraftingError, DoesNotFit, ValueError)) else ""
                log.warning("%s: its sheet could not be made", order.number, exc_info=broken)
                remarks.append(Remark(order, f"Its sheet could not be made{told}. Redraft it."))
                if failed is not None:
                    failed.append(order.number)
    groups = grouped(entries)
    papers = [paper for group in groups for entry in group.entries for paper in entry.papers]
    if remarks or len(entries) > 1:
        papers.insert(0, first_page(remarks, day, groups))
    forget_oldest()
    return day_sheets(papers)


def first_page(remarks: list[Remark], day: date, groups: list[ClothGroup]) -> bytes:
    """The contents; made twice where they need more than one page, since that moves all that follows."""
    workshop = Workshop.current()
    sheets = sum(len(group.entries) for group in groups)
    own = 1
    while True:
        shown = {"remarks": remarks, "day": day, "sheets": sheets, "workshop": workshop, "groups": numbered(groups, first=own + 1)}
        paper = press(render_to_string("orders/first_page.html", shown), paper=workshop.paper)
        if count_pages(paper) <= own:
            return paper
        own = count_pages(paper)


def garment_papers(order: Order, garment: Garment, *, full_size: bool, site: str) -> list[bytes]:
    papers = [garment_sheet(order, garment, site=site)]
    if full_size:
        draft, workshop = garment.sheet_draft, Workshop.current()
        address = order_address(site, draft)
        about = About(workshop.name, draft.number, draft.digest, newer=newer_than(draft), address=address, days_in=workshop.days_in)
        file = f"pattern-{workshop.paper.lower()}.pdf"
        papers.append(make(draft, file, choice=Choice(), about=about, paper=workshop.paper))
    return papers


def spoken_against(order: Order) -> list[str]:
    """What keeps the shears off, each in a sentence that names no money: the sheets lie on the cutting table.

    Of several garments each that it is about is named; what was cut already is left out.
    """
    every, left = order.all_garments, order.not_cut
    drafted = [garment for garment in left if garment.measuring_id and garment.draft_id]
    about = [
        ("Not measured yet, so there is no sheet.", [garment for garment in left if not garment.measuring_id]),
        ("Not drafted yet, so there is no sheet.", [garment for garment in left if garment.measuring_id and not garment.draft_id]),
        ("A check of its draft failed: NOT FOR CUTTING. Redraft.", [garment for garment in drafted if not garment.draft_passed]),
        ("Ask the owner first: something is open with the client.", every if drafted and order.deposit_missing else []),
        ("The toile is not fitted yet. Fit it before you cut.", every if drafted and order.toile_waits else []),
        ("Not signed off yet. The owner looks at it before the first cut.", [garment for garment in drafted if not garment.is_signed_off]),
    ]
    said = [told_of(text, some, every) for text, some in about if some]
    cloths = order.cloths.all()
    rows = [row_of(cloth, order, draft_keys(every)) for cloth in cloths if any(takes(garment, cloth, cloths) for garment in drafted)]
    return said + [cloth_against(row) for row in rows if row.is_short]


def cloth_against(row: ClothRow) -> str:
    cloth = row.cloth
    amounts = cloth.not_laid or f"This draft takes {as_bought(cloth.needs_mm)}, {cloth.on_hand_shown} on hand."
    return f"{cloth.name[:1].upper()}{cloth.name[1:]} {row.flag}. {amounts}"


def garment_sheet(order: Order, garment: Garment, *, site: str = "") -> bytes:
    """The sheet of one garment: drawn from its kept draft, with the days and notes as they stand now."""
    workshop, draft = Workshop.current(), garment.sheet_draft
    file = draft.order_file | {"dates": dates(order), "notes": notes(order)}
    extra = replace(said_beside(order, garment), address=order_address(site, draft))
    given = {"workshop_name": workshop.name, "paper": workshop.paper, "draft_number": draft.number}

    def made() -> bytes:
        return job_sheet(file, draft.result, extra=extra, **given)

    made_from = given | {"file": file, "extra": {key: str(value) for key, value in asdict(extra).items()}}
    made_from["extra"]["changed"] = sorted(extra.changed)
    return kept_or_made(draft.digest, f"job-sheet-{workshop.paper.lower()}", "pdf", made_from, made)


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
        digest=draft.digest,
        newer=newer_than(draft),
        is_asked=order.stage == Stage.ASKED,
        signed_off_by=str(garment.signed_off_by or ""),
        cut_despite=garment.cut_despite,
        why_cut=garment.why_cut,
        signed_off_on=timezone.localdate(garment.signed_off_at) if garment.signed_off_at else None,
        lays=sheet_lays(order, draft),
        days_in=Workshop.current().days_in,
        tests={cloth.name.casefold(): cloth.test.in_words for cloth in order.cloths.select_related("test") if hasattr(cloth, "test")},
    )


def sheet_lays(order: Order, draft: KeptDraft) -> tuple[dict, ...]:
    """The lays of this draft on the order's cloths as they are now, each with what is on hand."""
    lays = []
    for each in laid([draft], order.cloths.all()):
        there = each.cloth.on_hand_mm
        lays += [kept.lay | {"on_hand": None if there is None else float(there), "fits_on_hand": each.fits} for kept in each.kept if kept.lay]
    return tuple(lays)


def changed_measures(measuring) -> tuple[frozenset[str], date | None]:
    """Which measures differ from those that the client had before, and when those were taken."""
    earlier = measuring.client.measurings.filter(taken_on__lt=measuring.taken_on)
    before = earlier.newest_first().first()
    if before is None:
        return frozenset(), None
    then, now = before.lengths(), measuring.lengths()
    return frozenset(key for key in BY_KEY if key in then and key in now and then[key] != now[key]), before.taken_on


def garments_with_drafts(order: Order) -> list[Garment]:
    people = ("draft__made_by", "cut_draft__made_by", "measuring__taken_by", "measuring__client", "signed_off_by")
    return list(order.garments.select_related(*people))
