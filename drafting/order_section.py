"""Read one object of an order file key by key, keeping every problem with the path of its key."""

import difflib
import math
import re
import unicodedata
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from workshop.length import UnreadableLength, parse_length

MOST_ITEMS = 200
MOST_UNKNOWN = 20
EARLIEST_YEAR, LATEST_YEAR = 1900, 2200


@dataclass(frozen=True, slots=True)
class Length:
    """A length as it was written and in exact millimetres."""

    mm: Decimal
    written: str | int | float


def shown(value: Any) -> str:
    """What was read, as a person would recognise it; never more than a line."""
    match value:
        case None:
            return "null"
        case bool():
            return "true" if value else "false"
        case str():
            clean = "".join(c if c.isprintable() and not 0xD800 <= ord(c) <= 0xDFFF else "�" for c in value[:41])
            return f"“{clean[:40]}…”" if len(value) > 40 else f"“{clean}”"
        case int() | float():
            return repr(value) if abs(value) < 1e15 else "a very large number"
        case list():
            return "a list" if value else "an empty list"
        case _:
            return "an object"


def nearest(word: str, known: Iterable[str]) -> str:
    """“ Did you mean bust?”, or nothing when no known word is near."""
    close = difflib.get_close_matches(word[:60].strip().lower().replace(" ", "_"), list(known), n=1, cutoff=0.6)
    return f" Did you mean {close[0]}?" if close else ""


def has_bad_character(text: str, *, lines: bool = False) -> bool:
    """Whether the text holds a control character or half a surrogate pair, which no file or sheet can carry."""
    return any(unicodedata.category(c) in ("Cc", "Cs") and not (lines and c in "\n\t") for c in text)


class Section:
    """One JSON object with its path; every reader answers None after noting a problem."""

    def __init__(self, data: Mapping[str, Any], path: str, unit: str, problems: list[str]) -> None:
        self.data, self.path, self.unit, self.problems = data, path, unit, problems

    def at(self, key: str) -> str:
        return f"{self.path}.{shown(key)[1:-1]}" if self.path else shown(key)[1:-1]

    def note(self, key: str, text: str) -> None:
        self.problems.append(f"{self.at(key)}: {text}")

    def has(self, key: str) -> bool:
        return key in self.data

    def only(self, known: Iterable[str], *, what: str = "key") -> None:
        """Note every key that is not known, with the nearest that is."""
        known = tuple(known)
        unknown = [key for key in self.data if key not in known]
        for key in unknown[:MOST_UNKNOWN]:
            self.note(key, f"unknown {what}.{nearest(key, known) or ' Known: ' + ', '.join(known) + '.'}")
        if len(unknown) > MOST_UNKNOWN:
            where = self.path or "the file"
            self.problems.append(f"{where}: {len(unknown) - MOST_UNKNOWN} more unknown keys.")

    def need(self, key: str, what: str) -> bool:
        if key in self.data:
            return True
        self.note(key, f"missing. Give {what}.")
        return False

    def section(self, key: str, what: str, *, required: bool = False) -> "Section | None":
        if not (self.need(key, what) if required else self.has(key)):
            return None
        return self.inside(key, self.data[key], what)

    def inside(self, key: str, value: Any, what: str) -> "Section | None":
        if isinstance(value, dict):
            return Section(value, self.at(key), self.unit, self.problems)
        self.note(key, f"I read {shown(value)}. Give {what}.")
        return None

    def items(self, key: str, what: str, *, required: bool = False) -> list[Any]:
        if not (self.need(key, what) if required else self.has(key)):
            return []
        value = self.data[key]
        if not isinstance(value, list):
            self.note(key, f"I read {shown(value)}. Give {what}.")
            return []
        if len(value) > MOST_ITEMS:
            self.note(key, f"{len(value)} entries; at most {MOST_ITEMS} are read.")
            return []
        return value

    def text(self, key: str, what: str, *, required: bool = False, longest: int = 100) -> str | None:
        if not (self.need(key, what) if required else self.has(key)):
            return None
        return self.text_of(key, self.data[key], what, longest=longest)

    def text_of(self, key: str, value: Any, what: str, *, longest: int, lines: bool = False) -> str | None:
        if not isinstance(value, str) or not value.strip():
            self.note(key, f"I read {shown(value)}. Give {what}.")
        elif len(value) > longest:
            self.note(key, f"{len(value)} characters long; at most {longest} fit.")
        elif has_bad_character(value, lines=lines):
            self.note(key, f"I read {shown(value)}, which holds a character that cannot be printed.")
        else:
            return value.strip()
        return None

    def choice(self, key: str, choices: Iterable[Any], *, default: Any = None, required: bool = False) -> Any:
        choices = tuple(choices)
        listed = ", ".join(str(choice) for choice in choices)
        if not (self.need(key, f"one of: {listed}") if required else self.has(key)):
            return default
        value = self.data[key]
        for choice in choices:
            if type(value) is not bool and isinstance(value, str) == isinstance(choice, str) and value == choice:
                return choice
        near = nearest(value, (str(c) for c in choices)) if isinstance(value, str) else ""
        self.note(key, f"I read {shown(value)}. Choices: {listed}.{near}")
        return None

    def flag(self, key: str, *, default: bool) -> bool:
        value = self.data.get(key, default)
        if isinstance(value, bool):
            return value
        self.note(key, f"I read {shown(value)}. Give true or false.")
        return default

    def number(self, key: str, what: str, fits: Callable[[float], bool]) -> int | float | None:
        if not self.has(key):
            return None
        value = self.data[key]
        if not isinstance(value, (int, float)) or isinstance(value, bool) or not _finite(value) or not fits(value):
            self.note(key, f"I read {shown(value)}. Give {what}.")
            return None
        return value

    def share(self, key: str) -> float | None:
        """A share from 0 to 1, a number or its text with a point or a comma."""
        value = self.data[key]
        if isinstance(value, str) and re.fullmatch(r"[01]?[.,][0-9]{1,6}|[01]", value.strip()):
            value = float(value.strip().replace(",", "."))
        if isinstance(value, bool) or not isinstance(value, (int, float)) or not 0 <= value <= 1:
            self.note(key, f"I read {shown(value)}. Give a share from 0 to 1, such as 0.8.")
            return None
        return float(value)

    def length(self, key: str, what: str, *, required: bool = False, above_nothing: bool = False) -> Length | None:
        if not (self.need(key, what) if required else self.has(key)):
            return None
        return self.length_of(key, self.data[key], what, above_nothing=above_nothing)

    def length_of(
        self, key: str, value: Any, what: str, *, signed: bool = False, above_nothing: bool = False
    ) -> Length | None:
        """A length in the file's unit or the one written behind it; under nothing only where `signed`."""
        if isinstance(value, bool) or not isinstance(value, (int, float, str)):
            self.note(key, f"I read {shown(value)}. Give {what}: a number, or text such as “7 1/4” or “18.4cm”.")
            return None
        try:
            mm = parse_length(value, self.unit, signed=signed)
        except UnreadableLength as unread:
            self.note(key, str(unread))
            return None
        if mm == 0 and above_nothing:
            self.note(key, f"I read {shown(value)}. Give {what}, more than nothing.")
            return None
        return Length(mm, value)

    def day(self, key: str, *, required: bool = False) -> date | None:
        if not (self.need(key, "a date such as 2026-03-02") if required else self.has(key)):
            return None
        return self.day_of(key, self.data[key])

    def day_of(self, key: str, value: Any) -> date | None:
        if isinstance(value, str) and len(value) == 10 and value.isascii():
            try:
                day = date.fromisoformat(value)
            except ValueError:
                pass
            else:
                if EARLIEST_YEAR <= day.year <= LATEST_YEAR:
                    return day
                self.note(key, f"I read {shown(value)}. Give a year from {EARLIEST_YEAR} to {LATEST_YEAR}.")
                return None
        self.note(key, f"I read {shown(value)}. Give a date as year-month-day, such as 2026-03-02.")
        return None


def _finite(value: int | float) -> bool:
    return isinstance(value, int) or math.isfinite(value)
