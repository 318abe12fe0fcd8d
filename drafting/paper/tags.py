"""Tags for the bundle: one for each piece of each cloth, and a label for the bag that tells how many there must be."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from django.template.loader import render_to_string
from django.utils.safestring import SafeString, mark_safe

from drafting.cut_list import LAYER_WORDS, cut_count
from drafting.linework import clean
from drafting.paper.about import About, heading
from drafting.paper.full_size import STYLE
from drafting.paper.labels import title_of
from drafting.paper.qr import qr_image
from drafting.pdf import PAPERS, press_sized


@dataclass(frozen=True, slots=True)
class Tag:
    title: str
    cloth: str
    count: str
    place: int


@dataclass(frozen=True, slots=True)
class BagCloth:
    """How many tags and how many cut pieces of one cloth are in the bag."""

    name: str
    tags: int
    pieces: int


@dataclass(frozen=True)
class Bundle:
    tags: tuple[Tag, ...]
    cloths: tuple[BagCloth, ...]

    @property
    def pieces(self) -> int:
        return sum(cloth.pieces for cloth in self.cloths)


def bundle_of(order_file: Mapping, result: Mapping) -> Bundle:
    """Return the tags, cloth by cloth as on the cut list, numbered through."""
    names = [cloth["name"] for cloth in order_file["cloths"]]
    cuts = [(piece, cut) for piece in result["pieces"] for cut in piece["cut"]]
    order = list(dict.fromkeys([*names, *(cut["cloth"] for _, cut in cuts)]))
    cuts.sort(key=lambda pair: (order.index(pair[1]["cloth"]), pair[0].get("number") or 99, pair[0]["of"] is not None))
    tags = tuple(
        Tag(title_of(piece), _cloth(cut), cut_count(piece, cut), place) for place, (piece, cut) in enumerate(cuts, start=1)
    )
    by_cloth = {name: [cut["count"] for _, cut in cuts if cut["cloth"] == name] for name in order}
    cloths = tuple(BagCloth(clean(name), len(counts), sum(counts)) for name, counts in by_cloth.items() if counts)
    return Bundle(tags, cloths)


def _cloth(cut: Mapping) -> str:
    layer = f", {LAYER_WORDS[cut['role']]}" if cut["role"] in LAYER_WORDS else ""
    return f"{clean(cut['cloth'])}{layer}"


def tags_pdf(order_file: Mapping, result: Mapping, *, paper: str = "A4", about: About | None = None) -> bytes:
    """Return the bag label and the tags on `paper` (A4 or Letter), to cut apart. Raises CannotPrint, ValueError."""
    if paper not in PAPERS:
        raise ValueError(f"paper must be one of {', '.join(PAPERS)}, not {paper!r}")
    about = about or About()
    bundle = bundle_of(order_file, result)
    rows = tuple(bundle.tags[start : start + 3] for start in range(0, len(bundle.tags), 3))
    code: SafeString = mark_safe(qr_image(about.address))
    shown = {"heading": heading(order_file, result, about), "bundle": bundle, "rows": rows, "qr": code}
    return press_sized(render_to_string("paper/tags.html", shown), size=PAPERS[paper], style=STYLE)
