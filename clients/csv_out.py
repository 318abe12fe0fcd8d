"""Measures as a file for a spreadsheet: one reading a line, every cell quoted, and none that a spreadsheet would run."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator
from io import StringIO

from clients.models import Reading

HEAD = ("client", "measures of", "taken by", "measure", "key", "written", "millimetres", "put right because")
#: What a spreadsheet takes for the beginning of a formula.
RUNS = ("=", "+", "-", "@", "\t", "\r", "\n")


def harmless(cell: str) -> str:
    """The text with an apostrophe before it where a spreadsheet would work it out instead of showing it."""
    return f"'{cell}" if cell.startswith(RUNS) else cell


def lines(readings: Iterable[Reading]) -> Iterator[str]:
    """The file, line by line; the readings with their measuring, its client and its taker."""
    yield "\ufeff" + line(HEAD)
    for reading in readings:
        measuring = reading.measuring
        millimetres = "" if reading.mm is None else f"{reading.mm.normalize():f}"
        words = (
            measuring.client.name, measuring.taken_on.isoformat(), str(measuring.taken_by), reading.measure.name,
            reading.key, reading.written, millimetres, reading.why,
        )  # fmt: skip
        yield line(harmless(word) for word in words)


def to_write(readings) -> Iterable[Reading]:
    """The readings that stand and those that were put right, oldest dates first, without holding them all at once."""
    people = readings.select_related("measuring__client", "measuring__taken_by")
    return people.order_by("measuring__client", "measuring__taken_on", "pk").iterator(chunk_size=2000)


def line(cells: Iterable[str]) -> str:
    out = StringIO()
    csv.writer(out, quoting=csv.QUOTE_ALL, lineterminator="\r\n").writerow(cells)
    return out.getvalue()
