"""Measures from a file: which column is which, what each line says, and what would change, before anything is written."""

from __future__ import annotations

import csv
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from io import StringIO
from uuid import UUID, uuid5

from django.db import transaction
from django.utils import timezone

from clients.csv_out import RUNS
from clients.folding import fold
from clients.measures import BY_KEY, Measure
from clients.models import Client, read_length
from clients.taking import keep_measures
from workshop.length import UnreadableLength, print_length

LONGEST, MOST_LINES = 200_000, 2000
FROM_A_FILE = "From a file."


class NoTable(ValueError):
    """What was sent is no table that can be read; str() says what to do."""


@dataclass(frozen=True, slots=True)
class Table:
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the file: what it says, and what would come of it. `trouble` is empty where it can be kept."""

    number: int
    said: str
    measure: Measure | None = None
    day: date | None = None
    written: str = ""
    now: str = ""
    new: str = ""
    trouble: str = ""

    @property
    def changes(self) -> bool:
        return not self.trouble and self.new != self.now


def decoded(content: bytes) -> str:
    """The text of a file as spreadsheets write them. NoTable for one that is too long."""
    if len(content) > LONGEST:
        raise NoTable(f"This file is longer than {LONGEST // 1000} kB. Send one client’s measures at a time.")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return content.decode("cp1252", errors="replace")


def read_table(text: str) -> Table:
    """Commas, semicolons or tabs, whichever the first line has most of."""
    text = text.replace("\x00", "").strip("\ufeff \n\r")
    if not text:
        raise NoTable("There is nothing in this file.")
    first = text.splitlines()[0]
    mark = max(",;\t", key=first.count)
    try:
        rows = [row for row in csv.reader(StringIO(text, newline=""), delimiter=mark, strict=True) if any(cell.strip() for cell in row)]
    except csv.Error:
        raise NoTable("A quotation mark is open at the end of this file. Save it again as CSV.") from None
    if len(rows) < 2 or len(rows[0]) < 2:
        raise NoTable("I read no columns here. The first line names them, such as: measure, written.")
    if len(rows) > MOST_LINES:
        raise NoTable(f"These are more than {MOST_LINES} lines. Send one client’s measures at a time.")
    width = len(rows[0])
    return Table(tuple(_bare(cell) for cell in rows[0]), tuple(tuple(_bare(cell) for cell in (*row, *[""] * width)[:width]) for row in rows[1:]))


def _bare(cell: str) -> str:
    """Without the apostrophe that our own files put before what looks like a formula."""
    cell = cell.strip()
    return cell[1:] if cell[:1] == "'" and cell[1:].startswith(RUNS) else cell


NAMES = {fold(name): measure for measure in BY_KEY.values() for name in (measure.key, measure.name, measure.key.replace("_", " "))}
LIKELY = {"measure": ("key", "measure", "what"), "written": ("written", "value", "inches", "in", "cm", "length"), "day": ("measures of", "date", "day", "taken on")}


def likely_columns(table: Table) -> dict[str, int]:
    """Which column is probably which; −1 where none is."""
    folded = [fold(each) for each in table.head]
    return {use: next((folded.index(name) for name in names if name in folded), -1) for use, names in LIKELY.items()}


def look(table: Table, columns: Mapping[str, int], *, unit: str, day: date, client: Client, house_unit: str) -> list[Entry]:
    """What each line would do, nothing being written: the dry run."""
    stands: dict[date, dict] = {}
    for measuring in reversed(list(client.measurings.newest_first().with_readings())):
        stands.setdefault(measuring.taken_on, {}).update(measuring.lengths())
    entries, seen = [], set()
    for number, row in enumerate(table.rows, 2):
        entry = _entry(number, row, columns, unit, day, stands, house_unit)
        if not entry.trouble and (entry.day, entry.measure.key) in seen:
            entry = Entry(number, entry.said, trouble=f"{entry.measure.name} stands in this file twice for that day. Keep one of the two lines.")
        elif not entry.trouble:
            seen.add((entry.day, entry.measure.key))
        entries.append(entry)
    return entries


def _entry(number: int, row: Sequence[str], columns: Mapping[str, int], unit: str, day: date, stands, house_unit: str) -> Entry:
    cells = {use: row[at] if 0 <= at < len(row) else "" for use, at in columns.items()}
    said = " · ".join(filter(None, (cells["day"], cells["measure"], cells["written"])))
    measure = NAMES.get(fold(cells["measure"]))
    if measure is None:
        return Entry(number, said, trouble=f"No measure is called “{cells['measure'][:40]}”.")
    try:
        on = date.fromisoformat(cells["day"]) if cells["day"] else day
    except ValueError:
        return Entry(number, said, measure, trouble=f"I can't read the day “{cells['day'][:40]}”. Write it as 2026-03-12.")
    if not date(1900, 1, 1) <= on <= timezone.localdate():
        return Entry(number, said, measure, on, trouble=f"“{cells['day'][:40]}” is still to come, or too long ago.")
    try:
        mm = read_length(cells["written"], unit)
    except UnreadableLength as error:
        return Entry(number, said, measure, on, trouble=str(error))
    was = stands.get(on, {}).get(measure.key)
    now = "" if was is None else print_length(was, house_unit, step=16)
    return Entry(number, said, measure, on, cells["written"], now, print_length(mm, house_unit, step=16))


@transaction.atomic
def write(entries: Sequence[Entry], *, client: Client, unit: str, token: UUID, by) -> int:
    """Write what changes, one measuring a day; answers how many readings. Sent twice, it is written once."""
    days = sorted({entry.day for entry in entries if entry.changes})
    count = 0
    for day in days:
        written = {entry.measure.key: entry.written for entry in entries if entry.changes and entry.day == day}
        about = {"taken_on": day, "note": FROM_A_FILE}
        keep_measures(client=client, token=uuid5(token, day.isoformat()), by=by, written=written, unit=unit, about=about)
        count += len(written)
    return count
