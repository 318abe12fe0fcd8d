"""The order's days on a length of tape, for paper: booking, fittings, the cut, collection. No colour, no today."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from drafting.linework import PAPER_FONT, as_image, number, safe
from workshop.days import ENGLISH, Form, written

WIDE, LEFT, RIGHT = 184.0, 3.0, 181.0
TOP, BOTTOM = 6.0, 11.0
TEXT = 2.5
LETTER = 0.57 * TEXT


@dataclass(frozen=True, slots=True)
class Mark:
    day: date
    word: str
    kind: str  # "booked", "fitting", "fitted", "cut", "collect"


def short_day(day: date, language: str = ENGLISH) -> str:
    """Fri 13 Mar, whatever the language of the machine; `language` is the workshop's for days (workshop/days.py)."""
    return written(day, Form.SHORT_WEEKDAY_DAY, language).replace("\u00a0", " ")


def long_day(day: date, language: str = ENGLISH) -> str:
    """13 March 2026."""
    return written(day, Form.DAY_YEAR, language).replace("\u00a0", " ")


def marks_of(dates: dict, *, fitted: Iterable[date] = (), is_asked: bool = False) -> list[Mark]:
    """Return the order file's dates in order of days; `fitted` are the fittings already done, `is_asked` tells an enquiry."""
    marks = [
        Mark(date.fromisoformat(dates[key]), word, key)
        for key, word in (("booked", "asked" if is_asked else "booked"), ("cut", "cut"), ("collect", "collect"))
        if dates.get(key)
    ]
    fittings = sorted(date.fromisoformat(day) for day in dates.get("fittings") or ())
    for nth, day in enumerate(fittings, 1):
        word = "fitting" if len(fittings) == 1 else f"{_nth(nth)} fitting"
        marks.append(Mark(day, word, "fitted" if day in set(fitted) else "fitting"))
    return sorted(marks, key=lambda mark: (mark.day, mark.kind == "collect"))


def _nth(count: int) -> str:
    ending = "th" if 10 <= count % 100 <= 20 else {1: "st", 2: "nd", 3: "rd"}.get(count % 10, "th")
    return f"{count}{ending}"


def tape_image(marks: list[Mark], language: str = ENGLISH) -> str:
    """Return the tape as an image, 184 mm wide; empty where there are fewer than two days to show."""
    if len({mark.day for mark in marks}) < 2:
        return ""
    first, last = marks[0].day, marks[-1].day
    days = (last - first).days

    def across(day: date) -> float:
        return LEFT + (RIGHT - LEFT) * (day - first).days / days

    parts = [_line(LEFT, TOP, RIGHT, TOP, 0.35)]
    cuts = sorted(across(mark.day) for mark in marks if mark.kind == "cut")
    start = LEFT
    for at in cuts:
        near, far = max(at - 1, LEFT), min(at + 1, RIGHT)
        nick = f"M{number(near)} {BOTTOM}L{number(at)} {BOTTOM - 2.6}L{number(far)} {BOTTOM}"
        parts.append(f'<path d="{nick}" fill="none" stroke="#000" stroke-width="0.35"/>')
        parts.append(_line(start, BOTTOM, max(at - 1, start), BOTTOM, 0.35))
        start = min(at + 1, RIGHT)
    parts.append(_line(start, BOTTOM, RIGHT, BOTTOM, 0.35))
    for day, is_tall in _ticks(first, last):
        parts.append(_line(across(day), TOP, across(day), TOP + (2.2 if is_tall else 1.1), 0.18))
    for mark in marks:
        at = across(mark.day)
        if mark.kind in ("fitting", "fitted"):
            fill = "#000" if mark.kind == "fitted" else "#fff"
            parts.append(_line(at, TOP, at, 3.4, 0.25))
            parts.append(f'<circle cx="{number(at)}" cy="2.4" r="1" fill="{fill}" stroke="#000" stroke-width="0.3"/>')
        elif mark.kind in ("booked", "collect"):
            rise, wide = (0.6, 0.8) if mark.kind == "booked" else (2.4, 1.6)
            place = f'x="{number(at - wide / 2)}" y="{number(TOP - rise)}"'
            parts.append(f'<rect {place} width="{wide}" height="{number(BOTTOM - TOP + 2 * rise)}"/>')
    labels, rows = _labels(marks, across, language)
    said = ", ".join(f"{mark.word} {short_day(mark.day, language)}" for mark in marks)
    height = BOTTOM + 3 + rows * 6.6
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDE}mm" height="{number(height)}mm"'
        f' viewBox="0 0 {WIDE} {number(height)}">{"".join(parts)}{labels}</svg>'
    )
    return as_image(svg, said)


def _ticks(first: date, last: date) -> Iterator[tuple[date, bool]]:
    """A tick a day, week, month or year, whichever has room; tall on Mondays, in January and each tenth year."""
    days = (last - first).days
    if days <= 2 * 366:
        step = 1 if days <= 120 else 7
        for n in range(0 if step == 1 else (7 - first.weekday()) % 7, days + 1, step):
            day = first + timedelta(n)
            yield day, day.weekday() == 0
        return
    by_month = days <= 10 * 366
    every = 1 if by_month else 1 + (last.year - first.year) // 100
    for year in range(first.year, last.year + 1, every):
        for month in range(1, 13 if by_month else 2):
            if first <= (day := date(year, month, 1)) <= last:
                yield day, month == 1 and (by_month or year % 10 == 0)


def _line(x0: float, y0: float, x1: float, y1: float, width: float) -> str:
    return f'<path d="M{number(x0)} {number(y0)}L{number(x1)} {number(y1)}" stroke="#000" stroke-width="{width}"/>'


def _labels(marks: list[Mark], across, language: str) -> tuple[str, int]:
    """Write each day under its mark, in a further row where it would run into its neighbour; returns the rows used."""
    ends: list[float] = []
    parts, leaders = [], []
    for mark in marks:
        day = short_day(mark.day, language)
        half = max(len(mark.word), len(day)) * LETTER / 2
        at = min(max(across(mark.day), half), WIDE - half)
        row = next((n for n, end in enumerate(ends) if end + 1.5 <= at - half), len(ends))
        ends[row : row + 1] = [at + half]
        top = BOTTOM + 5 + row * 6.6
        box = (
            f'x="{number(at - half)}" y="{number(top - TEXT)}" width="{number(2 * half)}" height="{number(2.6 + TEXT)}"'
        )
        parts.append(f'<rect {box} fill="#fff"/>')
        for text, lower, weight in ((mark.word, 0.0, 400), (day, 3.0, 700)):
            parts.append(
                f'<text x="{number(at)}" y="{number(top + lower)}" text-anchor="middle" font-family="{PAPER_FONT}"'
                f' font-size="{TEXT}" font-weight="{weight}">{safe(text)}</text>'
            )
        if row:
            leaders.append(_line(across(mark.day), BOTTOM + 0.6, across(mark.day), top - TEXT, 0.12))
    return "".join(leaders + parts), len(ends)
