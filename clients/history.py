"""A client's measures over time: measures down, dates across, what changed, what was put right."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import cached_property
from typing import NamedTuple

from clients.checks import Earlier, contradictions, remark
from clients.estimates import estimates
from clients.measures import BY_KEY, Measure
from clients.models import Measuring, Reading
from clients.over_time import Plot, plot
from clients.settled import is_settled
from workshop.length import print_length


TRENDS = ("bust", "waist", "hip")


class Cell(NamedTuple):
    """One measure on one date: “·” where it was not taken, “est. 14” where the draft would work it out."""

    reading: Reading | None
    text: str = "·"
    change: str = ""
    was_put_right: bool = False
    estimated: bool = False


@dataclass(frozen=True, slots=True)
class Row:
    measure: Measure
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class PutRight:
    """One correction: what stood, what stands since, why, and who says so."""

    measure: Measure
    measuring: Measuring
    was: str
    now: str
    correction: Reading


@dataclass(frozen=True, slots=True)
class Doubt:
    """Something in the newest measures that is worth a second look."""

    text: str
    readings: tuple[Reading, ...]
    offer: str = ""


class History:
    """The table of a client's measurings, newest first, as the screen shows it."""

    def __init__(self, measurings: Iterable[Measuring], unit: str):
        self.unit = unit
        self.measurings = tuple(measurings)
        self._current = [measuring.current() for measuring in self.measurings]
        taken = {key for current in self._current for key in current}
        self._estimated = estimates({key: each.mm for key, each in self._current[0].items()}) if self.measurings else {}
        shown = taken | self._estimated.keys() if taken else taken
        self.rows = tuple(self._row(measure) for measure in BY_KEY.values() if measure.key in shown)

    def __bool__(self) -> bool:
        return bool(self.rows)

    @property
    def has_estimates(self) -> bool:
        return any(row.cells[0].estimated for row in self.rows)

    def say(self, mm: Decimal, *, signed: bool = False) -> str:
        return print_length(mm, self.unit, step=16, signed=signed)

    def _row(self, measure: Measure) -> Row:
        cells: list[Cell] = []
        before: Decimal | None = None
        for measuring, current in zip(reversed(self.measurings), reversed(self._current), strict=True):
            reading = current.get(measure.key)
            if reading is None:
                cells.append(Cell(None))
                continue
            changed = before is not None and before != reading.mm
            shown = self.say(reading.mm - before, signed=True) if changed else ""
            cells.append(Cell(reading, self.say(reading.mm), shown if shown != "0" else "", bool(reading.replaces_id)))
            before = reading.mm
        if cells[-1].reading is None and measure.key in self._estimated:
            cells[-1] = Cell(None, f"est. {self.say(self._estimated[measure.key])}", estimated=True)
        return Row(measure, tuple(reversed(cells)))

    @cached_property
    def dates(self) -> list[tuple[date, dict[str, Decimal]]]:
        """Each day with the lengths taken on it, newest first."""
        return [(measuring.taken_on, {key: each.mm for key, each in current.items()}) for measuring, current in zip(self.measurings, self._current, strict=True)]

    def trends(self, *more: str) -> list[Plot]:
        """Bust, waist, hip and what else is asked for over time, where there is more than one date."""
        drawn = (plot(key, self.dates, self.unit) for key in (*more, *TRENDS))
        return [each for each in drawn if each and each.strokes]

    def put_right(self) -> list[PutRight]:
        """Every correction in these measurings, the newest first."""
        found = []
        for measuring in self.measurings:
            readings = {reading.pk: reading for reading in measuring.all_readings}
            for correction in readings.values():
                if correction.replaces_id is None:
                    continue
                was, now = self._text(readings[correction.replaces_id]), self._text(correction)
                found.append(PutRight(correction.measure, measuring, was, now, correction))
        return sorted(found, key=lambda each: each.correction.pk, reverse=True)

    def _text(self, reading: Reading) -> str:
        return "taken out" if reading.mm is None else self.say(reading.mm)

    def doubts(self, day: Callable[..., str]) -> list[Doubt]:
        """What is odd about the newest measures, by themselves, since last time and against each other."""
        if not self.measurings:
            return []
        newest, current = self.measurings[0], self._current[0]
        earlier = last_before(self.measurings[1:], day)
        found = []
        for measure in BY_KEY.values():
            reading = current.get(measure.key)
            odd = reading and not reading.sure_at and remark(measure.key, reading.written, reading.mm, self.unit, earlier.get(measure.key))
            if odd:
                found.append(Doubt(f"{measure.name}: {odd.text}", (reading,), odd.offer))
        for one in contradictions(newest.lengths(), self.unit):
            readings = tuple(current[key] for key in one.keys)
            if not is_settled(readings):
                found.append(Doubt(one.text, readings))
        return found


def last_before(older: Sequence[Measuring], day: Callable[..., str]) -> dict[str, Earlier]:
    """The last reading of each measure in `older` (newest first), with its date in words."""
    last: dict[str, Earlier] = {}
    for measuring in older:
        when = day(measuring.taken_on)
        for key, mm in measuring.lengths().items():
            if key not in last:
                last[key] = Earlier(mm, when)
    return last
