"""What a job sheet can also say when the workshop's book knows it; an order file alone does not."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class SheetExtra:
    """All of it may be left out: `changed` holds keys of measures that differ from those taken on `changed_since`."""

    drafted_on: date | None = None
    drafted_by: str = ""
    taken_by: str = ""
    worn: str = ""
    changed: frozenset[str] = frozenset()
    changed_since: date | None = None
    fitted: tuple[date, ...] = ()
    signed_off_by: str = ""
    signed_off_on: date | None = None
