"""The measuring card: every measure in a list, with last time's figure, what is typed and what is odd."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from clients.checks import Earlier, Remark, contradictions, related, remark
from clients.measures import BY_KEY, KINDS, Measure, of_kind
from clients.models import Measuring, Reading
from workshop.length import CM, print_length

#: Names of the card's fields in a posted form: "m-waist".
PREFIX = "m-"


@dataclass(frozen=True, slots=True)
class Line:
    """One measure on the card."""

    measure: Measure
    typed: str = ""
    reading: Reading | None = None
    last: str = ""
    last_when: str = ""
    change: str = ""
    odd: Remark | None = None
    against: tuple[str, ...] = ()
    error: str = ""

    @property
    def field(self) -> str:
        return PREFIX + self.measure.key


@dataclass(frozen=True, slots=True)
class Group:
    title: str
    lines: tuple[Line, ...]


class Card:
    """A measuring as it is being taken. `typed` and `errors` (by measure) win over what is kept."""

    def __init__(
        self,
        measuring: Measuring,
        earlier: Mapping[str, Earlier],
        unit: str,
        *,
        typed: Mapping[str, str] | None = None,
        errors: Mapping[str, str] | None = None,
    ):
        self.measuring = measuring
        self.unit = unit
        self._earlier = earlier
        self._typed = typed or {}
        self._errors = errors or {}
        self._current = measuring.current() if measuring.pk else {}
        self._against = contradictions({key: each.mm for key, each in self._current.items()}, unit)

    @property
    def groups(self) -> tuple[Group, ...]:
        return tuple(Group(title, tuple(self.line(each.key) for each in of_kind(kind))) for kind, title in KINDS)

    @property
    def taken(self) -> int:
        return len(self._current)

    @property
    def all(self) -> int:
        return len(BY_KEY)

    @property
    def refused(self) -> list[Line]:
        return [self.line(key) for key in BY_KEY if key in self._errors]

    @property
    def first_refused(self) -> str:
        """Where the cursor goes on a card that was not kept."""
        return next((key for key in BY_KEY if key in self._errors), "")

    @property
    def unit_word(self) -> str:
        return "centimetres" if self.unit == CM else "inches"

    def line(self, key: str) -> Line:
        measure, reading, earlier = BY_KEY[key], self._current.get(key), self._earlier.get(key)
        odd = remark(key, reading.written, reading.mm, self.unit, earlier) if reading else None
        return Line(
            measure,
            typed=self._typed.get(key, reading.written if reading else ""),
            reading=reading,
            last=print_length(earlier.mm, self.unit, step=16) if earlier else "",
            last_when=earlier.when if earlier else "",
            change=self._change(reading.mm - earlier.mm) if reading and earlier else "",
            odd=odd,
            against=tuple(each.text for each in self._against if key in each.keys),
            error=self._errors.get(key, ""),
        )

    def lines_related_to(self, key: str) -> list[Line]:
        """The other kept measures whose remarks may change when this one does."""
        return [self.line(other) for other in BY_KEY if other in related(key) and other in self._current]

    def _change(self, by: Decimal) -> str:
        text = print_length(abs(by), self.unit, step=16)
        if text == "0":
            return "the same"
        return f"{text} more" if by > 0 else f"{text} less"
