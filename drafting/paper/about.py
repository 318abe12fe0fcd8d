"""What every page at full size must say besides its lines: whose it is, from which draft, and whether that may be cut."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from drafting.dates_tape import long_day
from drafting.linework import clean
from workshop.days import ENGLISH

SHORT_HASH = 8
"""So many characters of a draft's digest stand on paper: enough to tell an order's few drafts apart."""


@dataclass(frozen=True, slots=True)
class About:
    """What the workshop's book knows of a draft; an order file alone does not. `address` opens the order's page, `days_in` is the language of days."""

    workshop_name: str = ""
    draft_number: int | None = None
    digest: str = ""
    newer: int | None = None
    address: str = ""
    days_in: str = ENGLISH


@dataclass(frozen=True, slots=True)
class Heading:
    """The words that stand on paper, cleaned; the template escapes them."""

    order: str
    client: str
    garment: str
    summary: str
    draft: str
    measured: str
    workshop: str
    stamps: tuple[str, ...]
    newer: str

    @property
    def line(self) -> str:
        """One line for the edge of every page."""
        return ", ".join(filter(None, (f"{self.order} {self.garment}", self.draft, self.measured, self.newer)))


def heading(order_file: Mapping, result: Mapping, about: About) -> Heading:
    garment = result.get("garment", {})
    failed = result.get("not_for_cutting") or any(not check["pass"] for check in result["checks"])
    stamps = [word for word, holds in (("NOT FOR CUTTING", failed), ("TOILE ONLY", result.get("toile_only"))) if holds]
    drawn = f"draft {about.draft_number}" if about.draft_number is not None else "draft not kept"
    return Heading(
        order=clean(order_file["order"]),
        client=clean(order_file["client"]),
        garment=clean(garment.get("title") or order_file["garment"]["kind"].replace("-", " ").capitalize()),
        summary=clean(garment.get("summary", "")),
        draft=f"{drawn} ({about.digest[:SHORT_HASH]})" if about.digest else drawn,
        measured=f"measures of {long_day(date.fromisoformat(order_file['measured_on']), about.days_in)}",
        workshop=clean(about.workshop_name),
        stamps=tuple(stamps),
        newer=f"draft {about.newer} is newer" if about.newer else "",
    )
