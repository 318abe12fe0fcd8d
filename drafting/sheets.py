"""The job sheet: order file and result in, PDF out. Printing needs Pango; without it CannotPrint says what to do."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from django.template.loader import render_to_string

from drafting.pdf import CannotPrint, joined, press
from drafting.sheet_extra import SheetExtra
from drafting.sheet_page import sheet_page

__all__ = ["CannotPrint", "SheetExtra", "day_sheets", "job_sheet"]


def job_sheet(
    order_file: Mapping,
    result: Mapping,
    *,
    workshop_name: str,
    paper: str = "A4",
    draft_number: int | None = None,
    extra: SheetExtra | None = None,
) -> bytes:
    """Return the job sheet's PDF on `paper` (A4 or Letter).

    Raises CannotPrint where Pango is missing, ValueError for a paper that isn't known.
    """
    page = sheet_page(
        order_file, result, workshop_name=workshop_name, draft_number=draft_number, extra=extra or SheetExtra()
    )
    return press(render_to_string("sheets/job.html", {"page": page}), paper=paper)


def day_sheets(sheets: Iterable[bytes]) -> bytes:
    """Return one PDF of several sheets; each keeps its own “page 1 of 3”. Raises ValueError where there are none."""
    return joined(sheets)
