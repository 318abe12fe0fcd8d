"""Brief → result: the one bridge between what a workshop writes and what the engine drafts."""

from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any

from clients.measures import BY_KEY
from drafting.brief import Brief
from drafting.cloth_width import narrow_cloths
from drafting.engine import draft
from drafting.engine.errors import ImpossibleMeasure
from drafting.engine.garments import KINDS
from drafting.engine.garments.sleeve_part import SLEEVE_MEASURES, sleeve_asks
from drafting.engine.result import as_result
from drafting.engine.rules import HouseRule
from drafting.engine.spec import FitNote, GarmentSpec
from drafting.garment_fits import choices_of
from drafting.order_section import Length
from workshop.length import print_length

FINENESS = 16
"""Steps and tables are written to the same sixteenth, so that a seam reads alike wherever it is named."""

STALE_DAYS = 90
"""After a season a figure may have changed; drafting.md section 3, 'measures go stale'."""

HAIR_MM = 0.01
"""Less than any tape can tell: rounding, not a rule beyond its limit."""

FITTED_DAYS = 14
FITTED = ("corset", "close")
"""Before a close garment is cut, the measures are taken anew within a fortnight; same table."""


def draw(brief: Brief) -> dict[str, Any]:
    """Draft the brief's garment; the result file of the contract. Raises DraftingError, which says the remedy."""
    _refuse_impossible(brief)
    drafted = draft(spec_of(brief))
    result = as_result(
        drafted,
        order=brief.order,
        plain=lambda mm: print_length(mm, brief.units, step=FINENESS),
        with_unit=lambda mm: print_length(mm, brief.units, step=FINENESS, with_unit=True),
    )
    warnings = result["warnings"]
    warnings.extend(_assumed_length(brief, drafted.spec))
    warnings.extend(_implausible(brief))
    warnings.extend(_stale(brief))
    warnings.extend(narrow_cloths(result["pieces"], brief.cloths, brief.units))
    warnings.extend(_rules_remarks(brief))
    return result


def spec_of(brief: Brief) -> GarmentSpec:
    """What the engine drafts from: millimetres, plain choices, and the cloth of each role."""
    measures = _mm(brief.measures)
    options = {key: value for key, value in choices_of(brief.garment).items() if value is not None}
    if "skirt_length" in measures and _has_skirt(brief.garment.kind, options):
        options.setdefault("skirt.length", measures["skirt_length"])
    return GarmentSpec(
        kind=brief.garment.kind,
        options=options,
        measures=measures,
        rules={rule.key: held for rule, _, held in _given_rules(brief)},
        layers=layers_of(brief),
        fit_notes=tuple(FitNote(note.place, note.side, float(note.amount.mm)) for note in brief.fit_notes),
        one_side={side: _mm(brief.one_side[side]) for side in brief.one_side},
    )


def _has_skirt(kind: str, options: Mapping[str, Any]) -> bool:
    """Whether this kind has a skirt to be that long: one who has been measured for a skirt orders a blouse too."""
    return any(option.key == "skirt.length" for option in KINDS[kind].options) and options.get("skirt.kind") != "none"


def _mm(measures: Mapping[str, Length]) -> dict[str, float]:
    return {key: float(length.mm) for key, length in measures.items()}


def layers_of(brief: Brief) -> dict[str, str]:
    """Role → cloth name, as the order names them; which role stands in for another is the engine's to say."""
    return {role: cloth.name for cloth in brief.cloths for role in cloth.used_for}


def _assumed_length(brief: Brief, drawn: GarmentSpec) -> Iterator[dict[str, str]]:
    if "skirt.length" in drawn.options and drawn.options.get("skirt.kind") != "none":
        if "skirt.length" not in spec_of(brief).options:
            length = print_length(drawn.options["skirt.length"], brief.units, with_unit=True)
            text = f"No skirt length was given: it is drafted {length} from the waist."
            yield {"code": "skirt-length-assumed", "text": text}


def _implausible(brief: Brief) -> Iterator[dict[str, str]]:
    for key, length in brief.measures.items():
        measure = BY_KEY[key]
        if not measure.is_plausible(length.mm):
            low, high = (print_length(mm, brief.units) for mm in (measure.low_mm, measure.high_mm))
            read = print_length(length.mm, brief.units, with_unit=True)
            yield {
                "code": "implausible-measure",
                "text": f"{measure.name} {read} lies outside {low} to {high}. Read the tape once more.",
            }


def _refuse_impossible(brief: Brief) -> None:
    """Raise ImpossibleMeasure for a slip of the pen that would else come out as a check that failed somewhere."""
    kind, chosen = KINDS[brief.garment.kind], choices_of(brief.garment)
    sleeve = sleeve_asks(str(chosen.get("sleeve.kind") or "none"), length_given=bool(chosen.get("sleeve.length")))
    used = {*kind.measures, *kind.optional_measures}.difference(SLEEVE_MEASURES).union(sleeve)
    for measures in (brief.measures, *brief.one_side.values()):
        for key in used & measures.keys():
            measure, mm = BY_KEY[key], measures[key].mm
            if not measure.is_possible(mm):
                read = print_length(mm, brief.units, step=16, with_unit=True)
                low, high = (print_length(each, brief.units) for each in (measure.low_mm, measure.high_mm))
                advice = "Put it right among the measures, then draft again."
                raise ImpossibleMeasure(key, float(mm), f"{measure.name} {read} can't be right: {low} to {high} is usual. {advice}")


def _stale(brief: Brief) -> Iterator[dict[str, str]]:
    cut, collect = brief.dates.cut, brief.dates.collect
    day, what = (cut, "the cutting day") if cut else (collect, "collection")
    if day is None:
        return
    age = (day - brief.measured_on).days
    taken = f"The measures of {_said(brief.measured_on)} will be {age} days old on {what}."
    if age > STALE_DAYS:
        yield {"code": "stale-measures", "text": f"{taken} Measure again before cutting."}
    elif cut and age > FITTED_DAYS and brief.garment.fit in FITTED:
        yield {"code": "measures-before-cutting", "text": f"{taken} A close fit is measured within {FITTED_DAYS} days."}


def _given_rules(brief: Brief) -> Iterator[tuple[HouseRule, float, float]]:
    """Each rule of this kind that the order sets: what it says, and that held to the rule's limits (mm, or a share)."""
    for rule in KINDS[brief.garment.kind].rules:
        if rule.key in brief.garment.rules:
            value = brief.garment.rules[rule.key]
            said = float(value.mm) if isinstance(value, Length) else value
            yield rule, said, min(max(said, rule.in_mm(rule.low)), rule.in_mm(rule.high))


def _rules_remarks(brief: Brief) -> Iterator[dict[str, str]]:
    """Rules held at a limit, and rules that this kind has no use for."""
    for rule, said, held in _given_rules(brief):
        if abs(said - held) > HAIR_MM:
            read, used = (f"{v:g}" if rule.is_share else print_length(v, brief.units, step=16, with_unit=True) for v in (said, held))
            text = f"House rule “{rule.name}”: {read} is beyond its limit, so {used} was drafted."
            yield {"code": "rule-held-at-limit", "text": text}
    known = {rule.key for rule in KINDS[brief.garment.kind].rules}
    for key in brief.garment.rules:
        if key not in known:
            text = f"The house rule {key.replace('_', ' ')} has no part in a {brief.garment.kind}; nothing follows from it."
            yield {"code": "rule-not-used", "text": text}


def _said(day: date) -> str:
    return f"{day.day} {day:%B %Y}"
