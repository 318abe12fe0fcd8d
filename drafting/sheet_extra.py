"""What a job sheet can also say when the workshop's book knows it; an order file alone does not."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from workshop.days import ENGLISH


@dataclass(frozen=True, slots=True)
class SheetExtra:
    """All of it may be left out: `changed` holds keys of measures that differ from those taken on `changed_since`,
    `cut_despite` what spoke against the cut when it
    was signed off all the same and `why_cut` the reason given, `address` opens the order's page, `is_asked` tells an enquiry, that nobody booked yet, `newer` is the number of a later draft of the same garment, `lays` holds
    entries as of a result's `lays`, for a draft that was kept without its own, `days_in` is the language of its days (workshop/days.py)."""

    drafted_on: date | None = None
    drafted_by: str = ""
    taken_by: str = ""
    worn: str = ""
    changed: frozenset[str] = frozenset()
    changed_since: date | None = None
    fitted: tuple[date, ...] = ()
    is_asked: bool = False
    digest: str = ""
    newer: int | None = None
    address: str = ""
    signed_off_by: str = ""
    signed_off_on: date | None = None
    cut_despite: str = ""
    why_cut: str = ""
    lays: tuple[Mapping[str, Any], ...] = ()
    days_in: str = ENGLISH
    tests: Mapping[str, str] = field(default_factory=dict)  # what a scrap told of needle and iron, by the cloth's name, folded
