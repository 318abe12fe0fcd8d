"""The files that a run of jobsheet writes beside the job sheet, where they are asked for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from drafting.models import digest_of
from drafting.paper.about import About
from drafting.paper.cut_table import as_csv
from drafting.paper.dxf import as_dxf
from drafting.paper.full_size import full_size
from drafting.paper.papers import Paper, papers_of
from drafting.paper.preview import as_png
from drafting.paper.svg_file import as_svg


@dataclass(frozen=True, slots=True)
class Wanted:
    """Papers for the full-size pattern, and which other files."""

    papers: tuple[Paper, ...] = ()
    dxf: bool = False
    svg: bool = False
    png: bool = False
    csv: bool = False

    @classmethod
    def read(cls, pattern: str | None, **others: bool) -> Wanted:
        """Return what the command's words ask for. Raises UnknownPaper."""
        return cls(tuple(papers_of(pattern)) if pattern is not None else (), **others)

    def files(self, order_file: Mapping, result: Mapping) -> dict[str, bytes]:
        """Return name → content. Raises DoesNotFit, NothingChosen, CannotPrint."""
        about = About(digest=digest_of(order_file, result))
        made = {
            f"pattern-{paper.key.replace(':', '-')}.pdf": full_size(order_file, result, paper=paper, about=about)
            for paper in self.papers
        }
        others = (
            ("pattern.dxf", self.dxf, as_dxf), ("pattern.svg", self.svg, as_svg), ("pattern.png", self.png, as_png), ("cut-list.csv", self.csv, as_csv),
        )  # fmt: skip
        return made | {name: write(order_file, result, about=about) for name, asked, write in others if asked}
