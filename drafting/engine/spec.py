"""What the engine is asked for: a garment, its measures and its layers; and the table of garments that it can draw."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from .rules import HouseRule


@dataclass(frozen=True, slots=True)
class Choice:
    """One value of an option, with its name for people."""

    value: str
    title: str


@dataclass(frozen=True, slots=True)
class Option:
    """One thing to choose. `key` is the order file's (`skirt.kind` for one inside another); no choices: a length.

    `only_with` names the values of its neighbour `kind` that it belongs to, blanks between: a fraction only to a circle skirt. `blank` says
    what a length comes from that is not given.
    """

    key: str
    title: str
    choices: tuple[Choice, ...]
    default: str | float | bool | None
    only_with: str = ""
    blank: str = "Left blank, it comes from the measures."

    @property
    def is_length(self) -> bool:
        return not self.choices


@dataclass(frozen=True, slots=True)
class Kind:
    """A garment that can be drafted, and what it needs. `limits` are sentences for people; `alterations` are those that its
    drafter reads from the spec; one that is not `two_sided` is always drafted alike left and right."""

    name: str
    title: str
    measures: tuple[str, ...]
    optional_measures: tuple[str, ...]
    options: tuple[Option, ...]
    rules: tuple[HouseRule, ...]
    limits: tuple[str, ...]
    alterations: frozenset[str] = frozenset()
    two_sided: bool = True


@dataclass(frozen=True, slots=True)
class FitNote:
    """What a fitting found: `amount` mm of cloth more (less where negative) at `place`, on `side` (both, left, right)."""

    place: str
    side: str
    amount: float


@dataclass(frozen=True, slots=True)
class GarmentSpec:
    """A garment to draft: option values by key, measures and rules in mm, cloth names by role, all as given.

    `layers` maps a role (cup, band, back, skirt, bodice, shell, lining, stay, wadding) to the cloth that it is cut from.
    `one_side` holds measures that were taken for one side alone, by "left" and "right". `alterations` are what fit notes
    change beyond measures, rules and options, mm; whoever draws a part reads its own.
    """

    kind: str
    options: Mapping[str, object]
    measures: Mapping[str, float]
    rules: Mapping[str, float] = field(default_factory=dict)
    layers: Mapping[str, str] = field(default_factory=dict)
    fit_notes: tuple[FitNote, ...] = ()
    one_side: Mapping[str, Mapping[str, float]] = field(default_factory=dict)
    alterations: Mapping[str, float] = field(default_factory=dict)
