"""What the Papers page shows: every paper that can be made of a draft, those that are kept, and which are out of date."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from drafting.models import KeptDraft
from drafting.paper.kept import KeptPaper, papers_of
from drafting.paper.making import OFFERS, Offer, title_of_kept


@dataclass(frozen=True, slots=True)
class OfferRow:
    offer: Offer
    query: str
    kept: KeptPaper | None

    @property
    def size(self) -> str:
        return size_words(self.kept.size) if self.kept else ""


@dataclass(frozen=True, slots=True)
class KeptRow:
    title: str
    kind: str
    draft: KeptDraft
    pages: int
    size: str
    made_at: datetime
    newest: int


@dataclass(frozen=True)
class PapersPage:
    offers: tuple[OfferRow, ...]
    others: tuple[KeptRow, ...]
    newest: KeptDraft

    @property
    def out_of_date(self) -> bool:
        return any(row.newest != row.draft.number for row in self.others)


def papers_page(draft: KeptDraft, *, query: str, slug: str, paper: str) -> PapersPage:
    """Return the page: `query` and `slug` are the choice's, `paper` is the workshop's own."""
    drafts = list(same_garment(draft).without_drawing())
    here = {f"{kept.name}.{kept.suffix}": kept for kept in papers_of(draft.digest)}
    offers = []
    for offer in OFFERS:
        name, _, suffix = offer.file.rpartition(".")
        name = f"tags-{paper.lower()}" if offer.file == "tags.pdf" else name
        chosen = slug if offer.chosen else ""
        offers.append(OfferRow(offer, query if offer.chosen and query else "", here.pop(f"{name}{chosen}.{suffix}", None)))
    others = [_kept_row(kept, draft, drafts[-1]) for kept in here.values()]
    for other in reversed([one for one in drafts if one.pk != draft.pk]):
        others += [_kept_row(kept, other, drafts[-1]) for kept in papers_of(other.digest)]
    return PapersPage(tuple(offers), tuple(others), drafts[-1])


def _kept_row(kept: KeptPaper, draft: KeptDraft, newest: KeptDraft) -> KeptRow:
    title = title_of_kept(kept.name)
    return KeptRow(title, kept.suffix.upper(), draft, kept.pages, size_words(kept.size), kept.made_at, newest.number)


def same_garment(draft: KeptDraft):
    """Return the drafts of the same order and kind of garment, the first first: a newer one puts the others out of date."""
    return KeptDraft.objects.of_order(draft.order_ref).filter(order_file__garment__kind=draft.order_file["garment"]["kind"])


def newer_than(draft: KeptDraft) -> int | None:
    """Return the number of the newest draft of the same garment where it is not this one."""
    last = same_garment(draft).filter(number__gt=draft.number).values_list("number", flat=True).last()
    return last


def size_words(size: int) -> str:
    return f"{size / 1_000_000:.1f} MB" if size >= 1_000_000 else f"{max(1, round(size / 1000))} kB"
