"""Measurings as plain rows, to look at: hundreds of readings are shown on a page, and none of them is changed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from decimal import Decimal
from functools import cached_property, lru_cache
from typing import NamedTuple

from clients.measures import BY_KEY, Measure

#: As many places as the book keeps of a millimetre.
PLACES = Decimal("0.0001")


class OfReadings:
    """What can be asked of a measuring that has `all_readings`, the first first."""

    def latest(self) -> dict:
        """The last word on each measure, one that was taken out included."""
        return {reading.key: reading for reading in self.all_readings}

    def current(self) -> dict:
        """The reading that stands for each measure taken."""
        return {key: reading for key, reading in self.latest().items() if reading.mm is not None}

    def lengths(self) -> dict[str, Decimal]:
        """Exact millimetres by measure."""
        return {key: reading.mm for key, reading in self.current().items()}


class HeldReading(NamedTuple):
    pk: int
    key: str
    written: str
    replaces_id: int | None
    why: str
    by_name: str
    mm: Decimal | None
    #: A moment stands as the database wrote it until somebody asks.
    written_text: str
    sure_at: datetime | None

    @property
    def written_at(self) -> datetime:
        return aware(datetime.fromisoformat(self.written_text))

    @property
    def measure(self) -> Measure:
        return BY_KEY[self.key]


@dataclass
class HeldMeasuring(OfReadings):
    """One of COLUMNS and READING, which `to_hold` asks for; `taken_by` is a name."""

    pk: int
    day_text: str
    weeks: int | None
    worn: str
    shoes: str
    posture: str
    note: str
    taken_by: str
    all_readings: list[HeldReading] = field(default_factory=list)

    @cached_property
    def taken_on(self) -> date:
        return date.fromisoformat(self.day_text)


COLUMNS = ("pk", "day_text", "weeks", "worn", "shoes", "posture", "note", "taker")
READING = (
    "readings__pk", "readings__key", "readings__written", "readings__replaces", "readings__why", "writer",
    "readings__mm", "written_text", "readings__confirmed__at",
)  # fmt: skip


def hold(rows: Iterable[tuple]) -> Iterator[HeldMeasuring]:
    """Measurings from rows as SQLite hands them out, of COLUMNS and READING; those of one measuring follow each other."""
    measuring = None
    for row in rows:
        if measuring is None or measuring.pk != row[0]:
            if measuring is not None:
                yield measuring
            measuring = HeldMeasuring(*row[: len(COLUMNS)])
        *told, mm, written, sure_at = row[len(COLUMNS) :]
        if told[0] is not None:
            measuring.all_readings.append(HeldReading(*told, exact(mm), written, aware(sure_at)))
    if measuring is not None:
        yield measuring


@lru_cache(maxsize=4096)
def exact(mm: float | None) -> Decimal | None:
    """SQLite hands out a binary number; the book holds it to four places."""
    return None if mm is None else Decimal(repr(mm)).quantize(PLACES)


def aware(moment: datetime | None) -> datetime | None:
    """The database writes every moment by UTC's clock."""
    return moment and moment.replace(tzinfo=UTC)
