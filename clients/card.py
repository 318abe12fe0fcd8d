"""The measuring card: every measure in a list, with last time's figure, what is typed and what is odd."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cached_property

from django.templatetags.static import static
from django.urls import reverse
from django.utils import timezone

from clients.agreement import for_the_phone
from clients.checks import Earlier, Remark, contradictions, remark
from clients.expected import Wanted, wanted_by
from clients.figure import SPANS
from clients.measures import BY_KEY, KINDS, LEFT, MEASURES, Measure, of_kind
from clients.models import Measuring, Reading
from clients.settled import is_settled
from workshop.length import CM, print_length

#: Names of the card's fields in a posted form: "m-waist".
PREFIX = "m-"
ASKED_OF_ALL = frozenset(each.key for each in MEASURES)


@dataclass(frozen=True, slots=True)
class Line:
    """One measure on the card."""

    measure: Measure
    typed: str = ""
    reading: Reading | None = None
    earlier: Earlier | None = None
    last: str = ""
    last_when: str = ""
    change: str = ""
    odd: Remark | None = None
    against: tuple[str, ...] = ()
    error: str = ""

    @property
    def field(self) -> str:
        return PREFIX + self.measure.key

    @property
    def for_the_phone(self) -> dict[str, str | int]:
        """What the phone knows of this measure; lengths in ten-thousandths of a millimetre, moments in milliseconds."""
        measure, top_and_bottom = self.measure, SPANS[self.measure.key]
        told = {
            "key": measure.key, "kind": measure.kind, "low": exact(measure.low_mm), "high": exact(measure.high_mm),
            "span": "{} {}".format(*top_and_bottom),
        }  # fmt: skip
        if measure.right:
            told["right"] = measure.right
        if self.earlier:
            told |= {"last": exact(self.earlier.mm), "when": self.last_when}
        if self.reading:
            told |= {"now": exact(self.reading.mm), "reading": self.reading.pk, "written": moment(self.reading.written_at)}
            if self.reading.sure_at:
                told["sure"] = moment(self.reading.sure_at)
        return told


def exact(mm: Decimal) -> int:
    return int(mm * 10_000)


def moment(at) -> int:
    return int(at.timestamp() * 1000)


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
        against = contradictions({key: each.mm for key, each in self._current.items()}, unit)
        self._against = [each for each in against if not is_settled([self._current[key] for key in each.keys])]

    @property
    def groups(self) -> tuple[Group, ...]:
        return (*self.first_groups, *self.other_groups)

    @cached_property
    def first_groups(self) -> tuple[Group, ...]:
        """What the client's garments in hand need, by kind; every measure where there are none."""
        return self._grouped(self.needed) if self.needed else (*self._grouped(ASKED_OF_ALL), self._left_arm)

    @cached_property
    def other_groups(self) -> tuple[Group, ...]:
        if not self.needed:
            return ()
        others = (replace(group, title=f"Other {group.title.lower()}") for group in self._grouped(ASKED_OF_ALL - self.needed))
        return (*others, self._left_arm)

    @property
    def _left_arm(self) -> Group:
        return Group("The left arm, where it differs", tuple(self.line(each.key) for each in LEFT))

    def _grouped(self, keys: frozenset[str]) -> tuple[Group, ...]:
        found = ((title, [each.key for each in of_kind(kind) if each.key in keys]) for kind, title in KINDS)
        return tuple(Group(title, tuple(map(self.line, held))) for title, held in found if held)

    @cached_property
    def _wanted(self) -> list[Wanted]:
        return wanted_by(self.measuring.client)

    @cached_property
    def needed(self) -> frozenset[str]:
        return frozenset(key for each in self._wanted for key in each.keys)

    @property
    def needed_words(self) -> str:
        """“the skirt”, “the skirt and the red gown”: what the measures asked for first are for."""
        return " and ".join(dict.fromkeys(f"the {each.title[0].lower()}{each.title[1:]}" for each in self._wanted))

    @cached_property
    def may_be_left_out(self) -> frozenset[str]:
        """Of what is needed, the measures without which it can be drafted all the same; without an order, those that a draft works out."""
        if not self._wanted:
            return frozenset(each.key for each in (*MEASURES, *LEFT) if each.estimated or each.right)
        must = {key for each in self._wanted for key in each.keys if key not in each.optional}
        return (self.needed - must).union(each.key for each in LEFT)

    @property
    def taken(self) -> int:
        return len(self._current)

    @property
    def all(self) -> int:
        """Those asked for of everybody, and what was taken of the left arm besides."""
        return len(MEASURES) + sum(each.key in self._current for each in LEFT)

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
        odd = remark(key, reading.written, reading.mm, self.unit, earlier) if reading and not reading.sure_at else None
        return Line(
            measure,
            typed=self._typed.get(key, reading.written if reading else ""),
            reading=reading,
            earlier=earlier,
            last=print_length(earlier.mm, self.unit, step=16) if earlier else "",
            last_when=earlier.when if earlier else "",
            change=self._change(reading.mm - earlier.mm) if reading and earlier else "",
            odd=odd,
            against=tuple(each.text for each in self._against if key in each.keys),
            error=self._errors.get(key, ""),
        )

    @property
    def facts(self) -> dict:
        """What the page's script needs beside the lines themselves."""
        client = self.measuring.client
        return {
            "client": client.pk,
            "name": client.name,
            "unit": self.unit,
            "token": str(self.measuring.token),
            "takenOn": self.measuring.taken_on.isoformat(),
            "day": timezone.localdate().isoformat(),
            "made": moment(timezone.now()),
            "take": reverse("clients:take", args=[client.pk]),
            "client_page": client.get_absolute_url(),
            "readings": reverse("clients:list") + "readings/",
            "icons": static("icons/icons.svg"),
            "wanted": [measure.key for measure in MEASURES if measure.key in self.needed],
            "wantedTitle": self._wanted[0].title if self._wanted else "",
            "rules": for_the_phone(),
        }

    def _change(self, by: Decimal) -> str:
        text = print_length(abs(by), self.unit, step=16)
        if text == "0":
            return "the same"
        return f"{text} more" if by > 0 else f"{text} less"
