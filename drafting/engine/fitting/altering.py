"""A garment's figures with its fit notes worked in: the spec that is drafted instead of the one that was asked for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from ..body import ESTIMATED_BY_RULE, body_from, front_levels, neck_width
from ..blocks.cups import SNUG
from ..blocks.neck import Shoulder, necklines
from ..point import Point
from ..report import Warning_
from ..rules import Rules
from ..spec import FitNote, GarmentSpec, Kind
from ..tolerance import INCH
from .notes import EFFECTS, MEASURE, ONE_SIDED, OPTION, RULE, Effect

BOTH, LEFT, RIGHT, MEAN = "both", "left", "right", "mean"
"""Sides; the mean of left and right draws what goes whole round the body, such as a waistband."""

HIP_DEPTH = 8 * INCH


@dataclass(frozen=True)
class Altered:
    """The spec to draft; what fit notes did to finished girths by level (mm); measures that had to be estimated for them;
    which notes were drawn; and warnings on those that were held."""

    spec: GarmentSpec
    eases: Mapping[str, float] = field(default_factory=dict)
    estimated: frozenset[str] = frozenset()
    drawn: frozenset[FitNote] = frozenset()
    warnings: tuple[Warning_, ...] = ()


def is_two_sided(spec: GarmentSpec) -> bool:
    """Tell whether left and right are to be drafted apart."""
    return any(spec.one_side.values()) or any(note.side != BOTH and note.place in ONE_SIDED for note in spec.fit_notes)


def altered(spec: GarmentSpec, kind: Kind, side: str = BOTH) -> Altered:
    """Return what is drafted for one side. `spec.fit_notes` and `spec.one_side` are used up: the new spec holds none."""
    worked = _Worked(spec, kind, side)
    for note in spec.fit_notes:
        worked.add(note)
    return worked.result()


def amount_for(note: FitNote, side: str) -> float:
    """Return how much of a note (mm) falls on a side; the mean of both sides gets half of what one side has alone."""
    if note.side == BOTH or note.place not in ONE_SIDED or note.side == side:
        return note.amount
    return note.amount / 2 if side == MEAN else 0.0


class _Worked:
    """The figures as they are changed, one note after another."""

    def __init__(self, spec: GarmentSpec, kind: Kind, side: str):
        self.spec, self.kind, self.side = spec, kind, side
        self.measures = dict(_measures_of(spec, side))
        self.rules, self.options = dict(spec.rules), dict(spec.options)
        self.alterations = dict(spec.alterations)
        self.known_rules = {rule.key: rule for rule in kind.rules}
        self.eases: dict[str, float] = {}
        self.estimated: set[str] = set()
        self.drawn: set[FitNote] = set()
        self.warnings: list[Warning_] = []

    def add(self, note: FitNote) -> None:
        amount = amount_for(note, self.side)
        usable = [effect for effect in EFFECTS.get(note.place, ()) if self._usable(effect)]
        for effect in usable:
            change = effect.times * amount
            if effect.kind == MEASURE:
                self._measure(effect, change)
            elif effect.kind == RULE:
                self._rule(effect.key, change, note)
            elif effect.kind == OPTION:
                self._length(effect.key, change)
            else:
                self.alterations[effect.key] = self.alterations.get(effect.key, 0.0) + change
        if usable:
            self.drawn.add(note)

    def result(self) -> Altered:
        spec = replace(self.spec, measures=self.measures, rules=self.rules, options=self.options, alterations=self.alterations,
                       fit_notes=(), one_side={})
        return Altered(spec, self.eases, frozenset(self.estimated), frozenset(self.drawn), tuple(self.warnings))

    def _usable(self, effect: Effect) -> bool:
        if effect.kind == MEASURE:
            return effect.key in (*self.kind.measures, *self.kind.optional_measures) and self._known(effect.key) is not None
        if effect.kind == RULE:
            return effect.key in self.known_rules and (effect.key.startswith("ease") or self.standing(effect.key) is not None)
        if effect.kind == OPTION:
            return self._long(effect.key) is not None
        return effect.key in self.kind.alterations

    def _known(self, key: str) -> float | None:
        """Return a measure, taken or estimated."""
        if key in self.measures:
            return self.measures[key]
        if key == "waist_to_hip":
            return HIP_DEPTH
        return self._body()[key] if key in ESTIMATED_BY_RULE and "under_bust" in self.measures else None

    def _measure(self, effect: Effect, change: float) -> None:
        if effect.key not in self.measures:
            self.estimated.add(effect.key)
        self.measures[effect.key] = self._known(effect.key) + change
        if effect.girth:
            self.eases[effect.girth] = self.eases.get(effect.girth, 0.0) + change

    def _body(self):
        return body_from(self.measures, self._rules(), needs=())

    def _rules(self) -> Rules:
        return Rules(self.rules, str(self.options.get("fit") or self._default("fit") or "standard"), self.kind.rules)

    def _default(self, key: str):
        return next((option.default for option in self.kind.options if option.key == key), None)

    def standing(self, key: str) -> float | None:
        """Return a rule's value, or what the draft would work out for it; None where that can't be known beforehand."""
        try:
            return self._rules()[key]
        except KeyError:
            pass
        if key == "top_edge_snug":
            strapless = self.options.get("yoke", "none") == "none"
            return SNUG[self.options.get("top_edge", "straight") if strapless else "yoke"]
        if key not in ("shoulder_slope", "neck_width", "front_neck_depth") or "shoulder" not in self.measures:
            return None
        body, rules = self._body(), self._rules()
        wide, slope = neck_width(body, rules), front_levels(body, rules).shoulder
        if key == "front_neck_depth":
            seam = Shoulder(Point(wide, 0.0), Point(body["shoulder"] / 2, slope))
            return necklines(body, rules, seam)[0].start.y
        return wide if key == "neck_width" else slope

    def _rule(self, key: str, change: float, note: FitNote) -> None:
        rule = self.known_rules[key]
        wanted = self.standing(key) + change
        held = min(max(wanted, rule.in_mm(rule.low)), rule.in_mm(rule.high))
        if abs(held - wanted) > 1e-6:
            self.warnings.append(Warning_("fit-note-held", f"The fit note at the {note.place} asks for more than can be drawn: "
                                          f"{rule.name} was held to {{0}}.", (held,)))
        self.rules[key] = held

    def _long(self, key: str) -> float | None:
        """Return a length option as it was chosen or measured, or by default; None where this garment has no such length."""
        if not any(option.key == key for option in self.kind.options):
            return None
        part = key.partition(".")[0]
        if (self.options.get(f"{part}.kind") or self._default(f"{part}.kind")) in (None, "none") and part != key:
            return None
        measured = self.measures.get(key.replace(".", "_"))
        return self.options.get(key) or measured or self._default(key)

    def _length(self, key: str, change: float) -> None:
        self.options[key] = float(self._long(key)) + change


def _measures_of(spec: GarmentSpec, side: str) -> Mapping[str, float]:
    """Return the measures of one side; for the mean, halfway between left and right."""
    left, right = (dict(spec.one_side.get(name, {})) for name in (LEFT, RIGHT))
    if side in (LEFT, RIGHT):
        return {**spec.measures, **(left if side == LEFT else right)}
    merged = dict(spec.measures)
    for key in {*left, *right}:
        values = [half.get(key, spec.measures.get(key)) for half in (left, right)]
        taken = [value for value in values if value is not None]
        merged[key] = sum(taken) / len(taken)
    return merged


def not_drawn(spec: GarmentSpec, drawn: frozenset[FitNote]) -> Iterator[Warning_]:
    """Yield a warning for each note that this garment has no line for."""
    for note in spec.fit_notes:
        if note not in drawn:
            side = "" if note.side == BOTH else f", {note.side}"
            way = "less" if note.amount < 0 else "more"
            yield Warning_("fit-note-not-applied", f"Fit note not drawn into these pieces: {note.place}{side}, {{0}} {way}. Chalk it in "
                           "before cutting.", (abs(note.amount),))
