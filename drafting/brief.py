"""Order file ⇄ Brief: what a draft is asked to be, read whole and checked before any line is drawn."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from types import MappingProxyType
from typing import Any

from clients.measures import MEASURES
from drafting import order_keys as keys
from drafting.cloth_brief import ClothBrief, read_cloths
from drafting.garment_brief import GarmentBrief, read_garment
from drafting.garment_fits import check_garment
from drafting.order_names import why_not_a_folder
from drafting.order_section import Length, Section, shown

ON_BOTH_SIDES = {measure.key: measure for measure in MEASURES}
"""What `measures` may name: a side of its own stands in `measures_left` and `measures_right`."""

LONGEST_MEASURE_MM = Decimal(3000)
"""No measure of a body is 3 m: a longer one was written in another unit than was meant."""

MOST_PROBLEMS_SHOWN = 40


class BriefError(ValueError):
    """An order file that can't be drafted from: `problems`, one sentence each, all of them."""

    def __init__(self, problems: list[str]) -> None:
        self.problems = problems
        more = len(problems) - MOST_PROBLEMS_SHOWN
        tail = [f"and {more} more."] if more > 0 else []
        super().__init__("\n".join([*problems[:MOST_PROBLEMS_SHOWN], *tail]))


@dataclass(frozen=True, slots=True)
class FitNote:
    place: str
    side: str
    amount: Length

    def as_order_file(self) -> dict[str, Any]:
        return {"place": self.place, "side": self.side, "amount": self.amount.written}


@dataclass(frozen=True, slots=True)
class Dates:
    booked: date | None = None
    cut: date | None = None
    fittings: tuple[date, ...] = ()
    collect: date | None = None

    def as_order_file(self) -> dict[str, Any]:
        single = {key: day.isoformat() for key in ("booked", "cut", "collect") if (day := getattr(self, key))}
        return single | ({"fittings": [day.isoformat() for day in self.fittings]} if self.fittings else {})


@dataclass(frozen=True, slots=True)
class Brief:
    """One garment to draft; lengths keep what was written beside exact millimetres."""

    order: str
    client: str
    units: str
    measured_on: date
    measures: Mapping[str, Length]
    garment: GarmentBrief
    cloths: tuple[ClothBrief, ...]
    dates: Dates = Dates()
    notes: tuple[str, ...] = ()
    fit_notes: tuple[FitNote, ...] = ()
    one_side: Mapping[str, Mapping[str, Length]] = field(default_factory=dict)

    def as_order_file(self) -> dict[str, Any]:
        """The order file that reads back as this brief, every length as it was written."""
        file: dict[str, Any] = {
            "order": self.order,
            "client": self.client,
            "units": self.units,
            "measured_on": self.measured_on.isoformat(),
            "measures": {key: length.written for key, length in self.measures.items()},
            "garment": self.garment.as_order_file(),
            "cloths": [cloth.as_order_file() for cloth in self.cloths],
        }
        optional = {
            "dates": self.dates.as_order_file(),
            "notes": list(self.notes),
            "fit_notes": [note.as_order_file() for note in self.fit_notes],
        }
        for side, measures in self.one_side.items():
            optional[f"measures_{side}"] = {key: length.written for key, length in measures.items()}
        return file | {key: value for key, value in optional.items() if value}


def read_brief(data: Any) -> Brief:
    """The brief that an order file's JSON holds; raises BriefError with every problem of the file."""
    problems: list[str] = []
    if not isinstance(data, dict):
        raise BriefError([f"I read {shown(data)}. An order file is one JSON object, from {{ to }}."])
    file = Section(data, "", "in", problems)
    file.only(keys.ORDER)
    file.unit = file.choice("units", keys.UNITS, required=True) or "in"
    parts = {
        "order": _order(file),
        "client": file.text("client", "the client's name", required=True),
        "units": file.unit,
        "measured_on": file.day("measured_on", required=True),
        "measures": MappingProxyType(_measures(file.section("measures", "an object of measures", required=True))),
        "cloths": read_cloths(file),
        "dates": _dates(file.section("dates", "an object of dates")),
        "notes": _notes(file),
        "fit_notes": _fit_notes(file),
        "one_side": MappingProxyType(_one_side(file)),
    }
    garment_section = file.section("garment", "an object with a kind", required=True)
    garment = read_garment(garment_section) if garment_section else None
    if garment and garment_section:
        measured = data.get("measures")
        garment = check_garment(garment, garment_section, file, measured if isinstance(measured, dict) else None)
    if problems:
        raise BriefError(problems)
    return Brief(garment=garment, **parts)


def _order(file: Section) -> str | None:
    if not file.need("order", "the order's number, such as S-014"):
        return None
    name = file.data["order"]
    why = "the order's number is text, such as “S-014”." if not isinstance(name, str) else why_not_a_folder(name)
    if why:
        file.note("order", f"I read {shown(name)}: {why}")
        return None
    return name


def _measures(section: Section | None) -> dict[str, Length]:
    if section is None:
        return {}
    section.only(ON_BOTH_SIDES, what="measure")
    measures = {}
    for key in section.data:
        if key not in ON_BOTH_SIDES:
            continue
        length = section.length_of(key, section.data[key], "a measure", above_nothing=True)
        if length and length.mm > LONGEST_MEASURE_MM:
            section.note(key, f"I read {shown(length.written)}, over 3 m. Is the unit right?")
        elif length:
            measures[key] = length
    return measures


def _one_side(file: Section) -> dict[str, Mapping[str, Length]]:
    """Measures that were taken for one side alone, by side; empty where left and right are alike."""
    found = {}
    for side in ("left", "right"):
        section = file.section(f"measures_{side}", f"an object of measures of the {side} side")
        taken = _measures(section)
        for key in set(taken) - keys.ONE_SIDED_MEASURES:
            section.note(key, f"is not measured on one side. These are: {', '.join(sorted(keys.ONE_SIDED_MEASURES))}.")
        if taken:
            found[side] = MappingProxyType(taken)
    return found


def _dates(section: Section | None) -> Dates:
    if section is None:
        return Dates()
    section.only(keys.DATES)
    fittings = section.items("fittings", "a list of dates")
    return Dates(
        booked=section.day("booked"),
        cut=section.day("cut"),
        fittings=tuple(
            day for n, value in enumerate(fittings, 1) if (day := section.day_of(f"fittings[{n}]", value))
        ),
        collect=section.day("collect"),
    )


def _notes(file: Section) -> tuple[str, ...]:
    notes = file.items("notes", "a list of texts")
    read = (
        file.text_of(f"notes[{n}]", note, "a text", longest=2000, lines=True) for n, note in enumerate(notes, 1)
    )
    return tuple(note for note in read if note)


def _fit_notes(file: Section) -> tuple[FitNote, ...]:
    notes = []
    for n, value in enumerate(file.items("fit_notes", "a list of fit notes"), 1):
        section = file.inside(f"fit_notes[{n}]", value, "an object with place, side and amount")
        if section is None:
            continue
        section.only(keys.FIT_NOTE)
        place = section.text("place", "the place, such as “side waist”", required=True)
        side = section.choice("side", keys.SIDES, default="both")
        amount = None
        if section.need("amount", "a length, with a minus where it is to be taken in"):
            amount = section.length_of("amount", section.data["amount"], "a length", signed=True)
        if place and side and amount:
            notes.append(FitNote(place, side, amount))
    return tuple(notes)
