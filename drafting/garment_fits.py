"""Whether a garment's kind can be drafted with the choices, rules and measures that an order file gives it."""

from collections.abc import Collection
from dataclasses import fields, replace
from typing import Any

from clients.measures import BY_KEY
from drafting.engine.garments import KINDS
from drafting.engine.spec import Kind
from drafting.garment_brief import GarmentBrief, SkirtBrief
from drafting.order_section import Length, Section, shown

CHOICES = ("fit", "top_edge", "neckline", "collar", "darts", "panels", "yoke", "cups", "intakes", "straps",
           "waist", "waist_finish", "closure", "facing", "length", "lined")
PARTS = ("skirt", "trousers", "sleeve")
_WORDS = {True: "true", False: "false", None: "null"}


def choices_of(garment: GarmentBrief) -> dict[str, Any]:
    """The garment's choices by the engine's option keys (`skirt.kind`, `skirt.length` in mm); None where left out."""
    choices = {key: _plain(getattr(garment, key)) for key in CHOICES}
    for name in PARTS:
        part = getattr(garment, name)
        for field in fields(part) if part else ():
            value = getattr(part, field.name)
            choices[f"{name}.{field.name}"] = _plain(value)
    return choices


def _plain(value: Any) -> Any:
    return float(value.mm) if isinstance(value, Length) else value


def check_garment(
    garment: GarmentBrief, section: Section, file: Section, measured: Collection[str] | None
) -> GarmentBrief:
    """Note what the kind can't be drafted with; return the garment with the kind's defaults filled in.

    `measured` are the measures that the file gives, or None where it gives them in a way that can't be read.
    """
    kind = KINDS.get(garment.kind)
    if kind is None:
        section.note("kind", f"a {garment.kind} can't be drafted yet. Choices: {', '.join(KINDS)}.")
        return garment
    known = {option.key: option for option in kind.options}
    chosen = choices_of(garment)
    for key, value in chosen.items():
        option = known.get(key)
        if option is None and key in (*CHOICES, "skirt.kind", "sleeve.kind", "trousers.hem", "trousers.length") and value not in (None, False, "none"):
            section.note(key, f"a {kind.name} has no such choice. Leave it out.")
        elif option and option.choices and value is not None:
            allowed = [choice.value for choice in option.choices]
            if value not in allowed:
                listed = ", ".join(_WORDS.get(choice, str(choice)) for choice in allowed)
                section.note(key, f"{shown(value)} can't be drafted with a {kind.name} yet. Choices: {listed}.")
    if measured is not None:
        _check_measures(kind, garment, file, measured)
    defaults = {o.key: o.default for o in kind.options if chosen.get(o.key) is None and not o.is_length}
    return _with_defaults(garment, defaults)


def _check_measures(kind: Kind, garment: GarmentBrief, file: Section, measured: Collection[str]) -> None:
    skirt = garment.skirt
    no_skirt = skirt is not None and skirt.kind == "none" and garment.waist != "basque"
    for key in kind.measures:
        if key not in measured and not (key == "hip" and no_skirt):
            file.note(f"measures.{key}", f"missing, and a {kind.name} needs it. {BY_KEY[key].how}")
    if skirt and skirt.length and "skirt_length" in measured:
        file.note("measures.skirt_length", "the skirt's length stands in garment.skirt too. Give one of them.")


def _with_defaults(garment: GarmentBrief, defaults: dict[str, Any]) -> GarmentBrief:
    plain = {key: value for key, value in defaults.items() if key in CHOICES}
    if defaults.get("skirt.kind"):
        plain["skirt"] = replace(garment.skirt or SkirtBrief(), kind=defaults["skirt.kind"])
    return replace(garment, **plain)
