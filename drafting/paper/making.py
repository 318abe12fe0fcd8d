"""Every paper of a draft by the name of its file: how it is made, what people call it."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import asdict, dataclass

from drafting.models import KeptDraft
from drafting.paper.about import About
from drafting.paper.choice import Choice
from drafting.paper.cut_table import as_csv
from drafting.paper.dxf import as_dxf
from drafting.paper.full_size import full_size
from drafting.paper.kept import kept_or_made
from drafting.paper.papers import PAPERS, UnknownPaper, paper_of
from drafting.paper.preview import as_png
from drafting.paper.svg_file import as_svg
from drafting.paper.tags import tags_pdf

TYPES = {"pdf": "application/pdf", "dxf": "image/vnd.dxf", "svg": "image/svg+xml", "png": "image/png", "csv": "text/csv; charset=utf-8", "json": "application/json"}


@dataclass(frozen=True, slots=True)
class Offer:
    """One paper that can be made: its file, its name for people, what it is good for, and whether choices change it."""

    file: str
    title: str
    use: str
    chosen: bool = True


OFFERS = (
    *(
        Offer(f"pattern-{paper.key}.pdf", f"Pattern on {paper.name}", "full size, pages to join" if paper.tiled else "full size, for a copy shop")
        for paper in PAPERS.values()
    ),
    Offer("pattern-roll-914mm.pdf", "Pattern on a roll", "full size, 914 mm wide: 36 in"),
    Offer("tags.pdf", "Tags", "one for each piece of the bundle, and the bag's label", chosen=False),
    Offer("pattern.dxf", "DXF", "for a plotter or a cutter; in mm, one block a piece (after ASTM D6673)"),
    Offer("pattern.svg", "SVG", "for drawing programs; in mm, one layer for each kind of line"),
    Offer("pattern.png", "Picture", "PNG, to look at or send along; not to cut by"),
    Offer("cut-list.csv", "Cut list", "for a spreadsheet", chosen=False),
    Offer("result.json", "Result file", "every figure of the draft, in mm", chosen=False),
)
BY_FILE = {offer.file: offer for offer in OFFERS}


def make(draft: KeptDraft, file: str, *, choice: Choice, about: About, paper: str) -> bytes:
    """Return the paper, kept or made. Raises KeyError for no such file, NothingChosen, DoesNotFit, CannotPrint, UnknownPaper."""
    name, _, suffix = file.rpartition(".")
    if file == "result.json":
        return (json.dumps(draft.result, ensure_ascii=False, allow_nan=False) + "\n").encode()
    if file == "tags.pdf":
        choice, name = Choice(), f"tags-{paper.lower()}"
    if file == "cut-list.csv":
        choice = Choice()
    act = _maker(draft, file, choice=choice, about=about, paper=paper)
    told = {"choice": asdict(choice) | {"pieces": sorted(choice.pieces)}, "about": asdict(about), "paper": paper}
    return kept_or_made(draft.digest, f"{name}{slug_of(choice)}", suffix, told, act)


def _maker(draft: KeptDraft, file: str, *, choice: Choice, about: About, paper: str) -> Callable[[], bytes]:
    given = (draft.order_file, draft.result)
    if file == "tags.pdf":
        return lambda: tags_pdf(*given, paper=paper, about=about)
    if file == "cut-list.csv":
        return lambda: as_csv(*given, about=about)
    if write := {"pattern.dxf": as_dxf, "pattern.svg": as_svg, "pattern.png": as_png}.get(file):
        return lambda: write(*given, choice=choice, about=about)
    if not (file.startswith("pattern-") and file.endswith(".pdf")):
        raise KeyError(file)
    asked = file.removeprefix("pattern-").removesuffix(".pdf")
    sheet = paper_of(asked.replace("roll-", "roll:", 1))
    return lambda: full_size(*given, paper=sheet, choice=choice, about=about)


def slug_of(choice: Choice) -> str:
    """Return what a kept file's name says of the choice; nothing for the usual one."""
    parts = [
        choice.layer if choice.layer != "all" else "",
        f"{len(choice.pieces)}-pieces" if choice.pieces else "",
        "" if choice.allowances else "without-allowances",
        "opened-out" if choice.opened else "",
    ]
    return "".join(f"~{part}" for part in parts if part)


def title_of_kept(name: str) -> str:
    """Return a kept file's name in words: “Pattern on A4, lining, opened out”."""
    base, *parts = name.split("~")
    known = next((offer.title for offer in OFFERS if offer.file.rpartition(".")[0] == base), "")
    if not known and base.startswith("job-sheet-"):
        known = "Job sheet"
    if not known:
        known = "Tags" if base.startswith("tags-") else _roll_words(base)
    return ", ".join([known, *(part.replace("-", " ") for part in parts)])


def _roll_words(base: str) -> str:
    try:
        return f"Pattern on a {paper_of(base.removeprefix('pattern-').replace('roll-', 'roll:', 1)).name.lower()}"
    except UnknownPaper:
        return base
