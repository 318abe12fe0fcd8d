"""The first page of a day's pack: what to cut, from which cloth, in what order, and where its sheet begins."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from drafting.models import KeptDraft
from drafting.paper.tags import BagCloth, bundle_of
from orders.models import Garment, Order


@dataclass(frozen=True)
class Entry:
    """One garment to cut: its papers, the cloths that it takes, and the page of the pack that they begin on."""

    order: Order
    garment: Garment
    cloths: tuple[BagCloth, ...]
    papers: tuple[bytes, ...]
    pages: int
    begins: int = 0

    @property
    def main_cloth(self) -> str:
        return self.cloths[0].name if self.cloths else "no cloth named"


@dataclass(frozen=True)
class ClothGroup:
    """All that is cut from one outside cloth, together: it is spread once."""

    cloth: str
    entries: tuple[Entry, ...]


def entry_of(order: Order, garment: Garment, draft: KeptDraft, papers: Iterable[bytes]) -> Entry:
    papers = tuple(papers)
    return Entry(order, garment, bundle_of(draft.order_file, draft.result).cloths, papers, sum(map(count_pages, papers)))


def grouped(entries: Iterable[Entry]) -> list[ClothGroup]:
    """Return the entries by outside cloth, cloths and entries in the order in which they first came."""
    by_cloth: dict[str, list[Entry]] = {}
    for entry in entries:
        by_cloth.setdefault(entry.main_cloth.casefold(), []).append(entry)
    return [ClothGroup(found[0].main_cloth, tuple(found)) for found in by_cloth.values()]


def numbered(groups: Iterable[ClothGroup], *, first: int) -> list[ClothGroup]:
    """Return the groups with the page that each entry begins on, the first of them on page `first`."""
    page, found = first, []
    for group in groups:
        entries = []
        for entry in group.entries:
            entries.append(replace(entry, begins=page))
            page += entry.pages
        found.append(ClothGroup(group.cloth, tuple(entries)))
    return found


def count_pages(paper: bytes) -> int:
    import io

    import pikepdf

    with pikepdf.open(io.BytesIO(paper)) as opened:
        return len(opened.pages)
