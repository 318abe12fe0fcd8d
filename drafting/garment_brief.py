"""The garment of an order file: its kind, its choices and the house rules set for this one."""

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from types import MappingProxyType
from typing import Any

from drafting import order_keys as keys
from drafting.order_section import Length, Section, shown


OWNERS = {
    "fraction": ("circle",), "panels": ("circle",), "fullness": ("gathered",), "gores": ("gored", "mermaid"),
    "sweep": ("straight", "gored", "mermaid"), "godets": ("mermaid",),
}  # fmt: skip
"""Which kinds of skirt a key of it belongs to."""

NEEDED = ("fraction", "fullness")


@dataclass(frozen=True, slots=True)
class SkirtBrief:
    kind: str | None = None
    length: Length | None = None
    fraction: float | None = None
    fullness: float | None = None
    gores: int | None = None
    panels: int | None = None
    godets: bool | None = None
    sweep: Length | None = None
    length_side: Length | None = None
    length_back: Length | None = None
    train: Length | None = None


@dataclass(frozen=True, slots=True)
class SleeveBrief:
    kind: str
    length: Length | None = None


@dataclass(frozen=True, slots=True)
class TrousersBrief:
    hem: Length | None = None
    length: Length | None = None


@dataclass(frozen=True, slots=True)
class GarmentBrief:
    """What was asked for; a choice that the file leaves out is None, and the kind's own default is drafted."""

    kind: str
    fit: str | None = None
    top_edge: str | None = None
    neckline: str | None = None
    collar: str | None = None
    darts: str | None = None
    panels: int | None = None
    yoke: str | None = None
    cups: str | None = None
    intakes: str | None = None
    straps: str | None = None
    waist: str | None = None
    waist_finish: str | None = None
    skirt: SkirtBrief | None = None
    trousers: TrousersBrief | None = None
    sleeve: SleeveBrief | None = None
    closure: str | None = None
    facing: str | None = None
    length: Length | None = None
    lined: bool | None = None
    rules: Mapping[str, Length | float] = field(default_factory=dict)

    def as_order_file(self) -> dict[str, Any]:
        file: dict[str, Any] = {"kind": self.kind}
        for key in ("fit", "top_edge", "neckline", "collar", "darts", "panels", "yoke", "cups", "intakes", "straps",
                    "waist", "waist_finish", "closure", "facing", "length",
                    "lined"):
            if getattr(self, key) is not None:
                file[key] = written(getattr(self, key))
        for key in ("skirt", "trousers", "sleeve"):
            part = getattr(self, key)
            if part is not None:
                file[key] = {f.name: written(v) for f in fields(part) if (v := getattr(part, f.name)) is not None}
        if self.rules:
            file["rules"] = {key: written(value) for key, value in self.rules.items()}
        return file


def written(value: Any) -> Any:
    return value.written if isinstance(value, Length) else value


def read_garment(section: Section) -> GarmentBrief | None:
    """Every choice of the contract; which of them the kind can be drafted with is asked in garment_fits.py."""
    section.only(keys.GARMENT)
    kind = section.choice("kind", keys.KINDS, required=True)
    brief = GarmentBrief(
        kind=kind or "",
        fit=section.choice("fit", keys.FITS),
        top_edge=section.choice("top_edge", keys.TOP_EDGES),
        neckline=section.choice("neckline", keys.NECKLINES),
        collar=section.choice("collar", keys.COLLARS),
        darts=section.choice("darts", keys.DARTS),
        panels=section.choice("panels", keys.CORSET_PANELS),
        yoke=section.choice("yoke", keys.YOKES),
        cups=section.choice("cups", keys.CUPS),
        intakes=section.choice("intakes", keys.INTAKES),
        straps=section.choice("straps", keys.STRAPS),
        waist=section.choice("waist", keys.WAISTS),
        waist_finish=section.choice("waist_finish", keys.WAIST_FINISHES),
        skirt=_skirt(section.section("skirt", "an object such as {\"kind\": \"a-line\", \"length\": 38}")),
        trousers=_trousers(section.section("trousers", "an object such as {\"hem\": 17}")),
        sleeve=_sleeve(section),
        closure=section.choice("closure", keys.CLOSURES),
        facing=section.choice("facing", keys.FACINGS),
        length=section.length("length", "the blouse's length from the waist", above_nothing=True),
        lined=section.flag("lined", default=True) if section.has("lined") else None,
        rules=MappingProxyType(_rules(section.section("rules", "an object of house rules"))),
    )
    return brief if kind else None


def _skirt(section: Section | None) -> SkirtBrief | None:
    if section is None:
        return None
    section.only(keys.SKIRT)
    kind = section.choice("kind", keys.SKIRTS, required=True)
    for key, owners in OWNERS.items():
        if kind and section.has(key) and kind not in owners:
            section.note(key, f"belongs to a {' or '.join(owners)} skirt; this one is {kind}. Leave it out.")
        elif kind in owners and key in NEEDED:
            section.need(key, "a number")
    for key in ("length", "length_side", "length_back", "train") if kind == "none" else ():
        if section.has(key):
            section.note(key, "there is no skirt to be that long. Leave it out, or choose a skirt.")
    return SkirtBrief(
        kind=kind,
        length=section.length("length", "the skirt's length from the waist", above_nothing=True),
        fraction=section.choice("fraction", keys.FRACTIONS),
        fullness=section.number("fullness", "a number from 1 to 5", lambda n: 1 <= n <= 5),
        gores=section.choice("gores", keys.GORES),
        panels=section.choice("panels", keys.PANELS),
        godets=section.flag("godets", default=False) if section.has("godets") else None,
        sweep=section.length("sweep", "the hem all round", above_nothing=True),
        length_side=section.length("length_side", "the skirt's length at the side", above_nothing=True),
        length_back=section.length("length_back", "the skirt's length at the back", above_nothing=True),
        train=section.length("train", "the train, beyond the back's length", above_nothing=True),
    )


def _trousers(section: Section | None) -> TrousersBrief | None:
    if section is None:
        return None
    section.only(keys.TROUSERS)
    return TrousersBrief(
        hem=section.length("hem", "the hem of a leg, all round", above_nothing=True),
        length=section.length("length", "the length down the side from the waist", above_nothing=True),
    )


def _sleeve(garment: Section) -> SleeveBrief | None:
    if garment.data.get("sleeve") is None:
        return None
    section = garment.section("sleeve", "null, or an object such as {\"kind\": \"set-in\"}")
    if section is None:
        return None
    section.only(keys.SLEEVE)
    kind = section.choice("kind", keys.SLEEVES, required=True)
    length = section.length("length", "the sleeve's length", above_nothing=True)
    return SleeveBrief(kind, length) if kind else None


def _rules(section: Section | None) -> dict[str, Length | float]:
    if section is None:
        return {}
    section.only(keys.RULES, what="house rule")
    rules: dict[str, Length | float] = {}
    for key in keys.RULES:
        if not section.has(key):
            continue
        value = section.data[key]
        if key in keys.SHARES:
            read: Length | float | None = section.share(key)
        elif value is None:
            section.note(key, f"I read {shown(value)}. Give a length, or leave the key out for the house rule.")
            continue
        else:
            read = section.length_of(key, value, "a length", signed=key in keys.SIGNED_RULES)
        if read is not None:
            rules[key] = read
    return rules
