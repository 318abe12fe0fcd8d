"""How days are written on pages and sheets, in the language that the workshop chose for its days and months.

English is written here. The other languages are those of Babel (the tables of Unicode CLDR), which is loaded with the first
day that is written in one of them. Day and month stay on one line.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date, timedelta
from enum import Enum, auto
from functools import lru_cache

ENGLISH = "en"
#: The language of days, and how the 12th of a March is written in it.
LANGUAGES = (
    (ENGLISH, "English: Thursday 12 March"),
    ("fr", "French: jeudi 12 mars"),
    ("pt", "Portuguese: quinta-feira, 12 de março"),
    ("yo", "Yoruba: Ọjọ́bọ, 12 Oṣù Ẹrẹ̀nà"),
)
MONTHS = "January February March April May June July August September October November December".split()
WEEKDAYS = "Monday Tuesday Wednesday Thursday Friday Saturday Sunday".split()

_MONDAY = date(2024, 1, 1)
_HELD = "\u00a0"


class Form(Enum):
    """How much of a day is written."""

    DAY = auto()
    DAY_YEAR = auto()
    SHORT_DAY = auto()
    WEEKDAY_DAY = auto()
    WEEKDAY_DAY_YEAR = auto()
    SHORT_WEEKDAY_DAY = auto()
    SHORT_WEEKDAY_DAY_YEAR = auto()
    MONTH = auto()
    MONTH_YEAR = auto()
    WEEKDAY = auto()
    SHORT_WEEKDAY = auto()


_IN_ENGLISH: Mapping[Form, str] = {
    Form.DAY: "{day}\u00a0{month}",
    Form.DAY_YEAR: "{day}\u00a0{month}\u00a0{year:04}",
    Form.SHORT_DAY: "{day}\u00a0{month:.3}",
    Form.WEEKDAY_DAY: "{weekday} {day}\u00a0{month}",
    Form.WEEKDAY_DAY_YEAR: "{weekday} {day}\u00a0{month}\u00a0{year:04}",
    Form.SHORT_WEEKDAY_DAY: "{weekday:.3} {day}\u00a0{month:.3}",
    Form.SHORT_WEEKDAY_DAY_YEAR: "{weekday:.3} {day}\u00a0{month:.3}\u00a0{year:04}",
    Form.MONTH: "{month}",
    Form.MONTH_YEAR: "{month} {year}",
    Form.WEEKDAY: "{weekday}",
    Form.SHORT_WEEKDAY: "{weekday:.3}",
}

#: Names cut short; a full stop after them is left out at the end, where a sentence's own would follow it.
_SHORTENED = frozenset({Form.SHORT_DAY, Form.SHORT_WEEKDAY_DAY, Form.SHORT_WEEKDAY})


@lru_cache(maxsize=4096)
def written(on: date, form: Form, language: str = ENGLISH) -> str:
    """Return a day as a language writes it. `language` is one of LANGUAGES."""
    if language == ENGLISH:
        words = {"month": MONTHS[on.month - 1], "weekday": WEEKDAYS[on.weekday()]}
        return _IN_ENGLISH[form].format(day=on.day, year=on.year, **words)
    from babel.dates import format_date

    text = format_date(on, _patterns(language)[form], language)
    return text.removesuffix(".") if form in _SHORTENED else text


def weekday_name(number: int, language: str = ENGLISH) -> str:
    """Return the name of a day of the week, Monday is 0."""
    return written(_MONDAY + timedelta(days=number), Form.WEEKDAY, language)


def month_name(number: int, language: str = ENGLISH) -> str:
    """Return the name of a month, January is 1."""
    return written(_MONDAY.replace(month=number), Form.MONTH, language)


@lru_cache(maxsize=len(LANGUAGES))
def _patterns(language: str) -> Mapping[Form, str]:
    """Return CLDR's patterns of a language (unicode.org/reports/tr35/tr35-dates.html), those without a year cut from those with one."""
    from babel import Locale

    locale = Locale.parse(language)
    skeletons = locale.datetime_skeletons
    full, long = locale.date_formats["full"].pattern, locale.date_formats["long"].pattern
    patterns = {
        Form.DAY: _without_year(long),
        Form.DAY_YEAR: long,
        Form.SHORT_DAY: skeletons["MMMd"].pattern,
        Form.WEEKDAY_DAY: _without_year(full),
        Form.WEEKDAY_DAY_YEAR: full,
        Form.SHORT_WEEKDAY_DAY: skeletons["MMMEd"].pattern,
        Form.SHORT_WEEKDAY_DAY_YEAR: skeletons["yMMMEd"].pattern,
        Form.MONTH: "LLLL",
        Form.MONTH_YEAR: skeletons["yMMMM"].pattern,
        Form.WEEKDAY: "cccc",
        Form.SHORT_WEEKDAY: "ccc",
    }
    return {form: _held_together(pattern) for form, pattern in patterns.items()}


def _without_year(pattern: str) -> str:
    """“d MMMM y” as “d MMMM”, “d 'de' MMMM 'de' y” as “d 'de' MMMM”."""
    return re.sub(r"[\s,]*('[^']*'\s*)?y+$", "", pattern)


def _held_together(pattern: str) -> str:
    return re.sub(r"d[^M]*M", lambda found: found[0].replace(" ", _HELD), pattern)
