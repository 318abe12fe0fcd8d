"""What the job sheet shows, in the words and figures that it shows: made from the order file and the result alone."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import partial

from django.utils.safestring import SafeString, mark_safe

from clients.measures import BY_KEY
from drafting.cut_list import CutCloth, cut_list
from drafting.dates_tape import long_day, marks_of, tape_image
from drafting.engine.garments import KINDS
from drafting.engine.garments.sleeve_part import SLEEVE_MEASURES
from drafting.fit_words import fit_notes_drawn
from drafting.linework import clean
from drafting.paper.about import SHORT_HASH
from drafting.paper.qr import qr_image
from drafting.sheet_extra import SheetExtra
from drafting.sheet_figures import FigureGroup, figure_groups, key_of_lines, ruler
from drafting.sheet_lays import LayFigure, lay_figures
from drafting.sheet_tables import (
    BoneRow,
    GirthRow,
    MaterialRow,
    SeamRow,
    StepGroup,
    bone_rows,
    bone_totals,
    girth_rows,
    in_two,
    material_rows,
    seam_groups,
    seam_rows,
    step_groups,
)  # fmt: skip
from workshop.length import CM, INCH, MM, print_length

LEG_MEASURES = ("height", "knee", "waist_to_knee")
UNIT_WORDS = {INCH: "inches", CM: "centimetres", MM: "millimetres"}


@dataclass(frozen=True, slots=True)
class MeasureCell:
    name: str
    value: str
    estimated: bool
    changed: bool


@dataclass(frozen=True)
class SheetPage:
    """One job sheet. Text is plain and escaped by the template; only drawings are markup."""

    order: str
    client: str
    garment: str
    summary: str
    foot: str
    stamps: tuple[str, ...]
    failed: tuple[str, ...]
    tape: SafeString
    qr: SafeString
    before: tuple[str, ...]
    signed_off: str
    unit: str
    measures_about: str
    changed_since: str
    any_estimated: bool
    measure_rows: tuple[tuple[MeasureCell | None, ...], ...]
    cloths: tuple[CutCloth, ...]
    bones: tuple[BoneRow, ...]
    bone_totals: str
    girths: tuple[GirthRow, ...]
    any_wadding: bool
    seams: tuple[SeamRow, ...]
    figures: tuple[FigureGroup, ...]
    same_layers: str
    key: tuple[tuple[SafeString, str], ...]
    ruler: SafeString
    lays: tuple[LayFigure, ...]
    steps: tuple[StepGroup, ...]
    making: tuple[tuple[tuple[int, str], ...], ...]
    materials: tuple[MaterialRow, ...]
    cautions: tuple[str, ...]
    checks_passed: int

    @property
    def seam_groups(self) -> tuple:
        return seam_groups(self.seams)

    @property
    def all_seams_meet(self) -> bool:
        return all(seam.meets for seam in self.seams)


def sheet_page(
    order_file: Mapping, result: Mapping, *, workshop_name: str, draft_number: int | None, extra: SheetExtra
) -> SheetPage:
    """Return the page of one garment; lengths in the order file's own unit."""
    unit = order_file["units"]
    fmt = partial(print_length, unit=unit)
    measures = _measures(order_file, result, extra, fmt)
    garment = result.get("garment", {})
    title = clean(garment.get("title") or order_file["garment"]["kind"].replace("-", " ").capitalize())
    cut_fine = partial(print_length, unit=unit, step=16)
    groups, same = figure_groups(order_file, result, fmt, unit)
    return SheetPage(
        order=clean(order_file["order"]),
        client=clean(order_file["client"]),
        garment=title,
        summary=clean(garment.get("summary", "")),
        foot=_foot(order_file, title, workshop_name, draft_number, extra),
        stamps=_stamps(result),
        failed=tuple(_failed(result, unit)),
        tape=mark_safe(tape_image(marks_of(order_file.get("dates") or {}, fitted=extra.fitted, is_asked=extra.is_asked), extra.days_in)),
        qr=mark_safe(qr_image(extra.address)),
        before=tuple(_before(order_file, result, fmt, extra)),
        signed_off=_signed_off(extra),
        unit=UNIT_WORDS[unit],
        measures_about=_measures_about(order_file, extra),
        changed_since=_changed_since(measures, extra),
        any_estimated=any(cell.estimated for cell in measures),
        measure_rows=in_columns(measures, 3),
        cloths=_tested(cut_list(order_file, result, fmt), extra),
        bones=tuple(bone_rows(result, fmt)),
        bone_totals=bone_totals(result, unit),
        girths=tuple(girth_rows(result, fmt)),
        any_wadding=any(girth.get("wadding") for girth in result["girths"]),
        seams=tuple(seam_rows(result, cut_fine)),
        figures=groups,
        same_layers=same,
        key=key_of_lines(),
        ruler=ruler(),
        lays=lay_figures(order_file, result, result.get("lays") or extra.lays, unit),
        steps=tuple(step_groups(result)),
        making=_making(result),
        materials=tuple(material_rows(result, unit)),
        cautions=tuple(clean(text) for text in result.get("cautions", ())),
        checks_passed=sum(check["pass"] for check in result["checks"]),
    )


def in_columns(cells: list, columns: int) -> tuple[tuple, ...]:
    """Return rows that read down the columns: the first column fills first; None where a column is shorter."""
    tall = -(-len(cells) // columns)
    padded = [*cells, *[None] * (tall * columns - len(cells))]
    return tuple(tuple(padded[column * tall + row] for column in range(columns)) for row in range(tall))


def _measures(order_file: Mapping, result: Mapping, extra: SheetExtra, fmt) -> list[MeasureCell]:
    """Return the measures that this garment is drafted from, in the order in which they are taken."""
    order, for_it = {key: place for place, key in enumerate(BY_KEY)}, measures_for(order_file["garment"])
    used = [(key, measure) for key, measure in result["measures"].items() if not for_it or key in for_it]
    used.sort(key=lambda item: order.get(item[0], 999))
    return [
        MeasureCell(
            name=BY_KEY[key].name if key in BY_KEY else key.replace("_", " ").capitalize(),
            value=fmt(measure["value"]),
            estimated=bool(measure["estimated"]),
            changed=key in extra.changed,
        )
        for key, measure in used
    ]


def measures_for(garment: Mapping) -> frozenset[str]:
    """Return the keys of the measures that a garment of an order file asks for; none for a kind that isn't known."""
    kind = KINDS.get(garment["kind"])
    if kind is None:
        return frozenset()
    has_skirt = (garment.get("skirt") or {}).get("kind", "none") != "none" or kind.name == "trousers"
    left_out = (*(() if garment.get("sleeve") else SLEEVE_MEASURES), *(() if has_skirt else LEG_MEASURES))
    return frozenset({*kind.measures, *kind.optional_measures, "skirt_length"}.difference(left_out))


def _making(result: Mapping) -> tuple[tuple[tuple[int, str], ...], ...]:
    steps = [(step["number"], clean(step["text"])) for step in result.get("making", ())]
    return in_two(steps, lambda step: 60 + len(step[1])) if steps else ()


def _tested(cloths, extra: SheetExtra) -> list:
    """The cut list, each cloth with what its scrap told of needle and iron."""
    told = [(cloth, extra.tests.get(cloth.name.casefold())) for cloth in cloths]
    return [replace(cloth, about=f"{cloth.about}. {clean(test)}") if test else cloth for cloth, test in told]


def _measures_about(order_file: Mapping, extra: SheetExtra) -> str:
    taken = f"taken {long_day(date.fromisoformat(order_file['measured_on']), extra.days_in)}"
    by = f" by {clean(extra.taken_by)}" if extra.taken_by else ""
    worn = f", in {clean(extra.worn)}" if extra.worn else ""
    return f"{taken}{by}{worn}"


def _changed_since(measures: list[MeasureCell], extra: SheetExtra) -> str:
    if not any(cell.changed for cell in measures):
        return ""
    return f"changed since {long_day(extra.changed_since, extra.days_in)}" if extra.changed_since else "changed"


def _foot(order_file: Mapping, garment: str, workshop_name: str, draft_number: int | None, extra: SheetExtra) -> str:
    drawn = f"draft {draft_number}" if draft_number is not None else "draft not kept"
    drawn += f" ({extra.digest[:SHORT_HASH]})" if extra.digest else ""
    drawn += f" of {long_day(extra.drafted_on, extra.days_in)}" if extra.drafted_on else ""
    drawn += f" by {clean(extra.drafted_by)}" if extra.drafted_by else ""
    measured = f"measures of {long_day(date.fromisoformat(order_file['measured_on']), extra.days_in)}"
    newer = f"draft {extra.newer} is newer" if extra.newer else ""
    return ", ".join(filter(None, (clean(workshop_name), f"{clean(order_file['order'])} {garment}", drawn, measured, newer)))


def _stamps(result: Mapping) -> tuple[str, ...]:
    stamps = []
    if result.get("not_for_cutting") or any(not check["pass"] for check in result["checks"]):
        stamps.append("NOT FOR CUTTING")
    if result.get("toile_only"):
        stamps.append("TOILE ONLY")
    return tuple(stamps)


def _failed(result: Mapping, unit: str) -> Iterable[str]:
    for check in result["checks"]:
        if not check["pass"]:
            figure, limit, of = check["figure"], check["limit"], clean(check["unit"])
            shown = print_length(figure, unit, step=16) if of == MM and unit != MM else "0"
            also = f" ({shown} {unit})" if shown != "0" else ""
            yield f"{clean(check['check'])} comes to {figure:.3g} {of}{also}, and at most {limit:.3g} {of} is right."


def _before(order_file: Mapping, result: Mapping, fmt, extra: SheetExtra) -> Iterable[str]:
    """Return what to look at before the shears: a newer draft, warnings, fit notes, the order's notes, what the cloth asks for."""
    if extra.newer:
        yield f"Draft {extra.newer} is newer than this one. Ask which is cut."
    for warning in result["warnings"]:
        yield clean(warning["text"])
    yield from fit_notes_drawn(result, fmt)
    for note in order_file.get("notes") or ():
        yield clean(note)
    for cloth in order_file["cloths"]:
        if cloth.get("shrink"):
            yield f"Shrink the {clean(cloth['name'])} first: {cloth['shrink'] * 100:.3g} in 100."


def _signed_off(extra: SheetExtra) -> str:
    if not extra.signed_off_by:
        return ""
    on = f", {long_day(extra.signed_off_on, extra.days_in)}" if extra.signed_off_on else ""
    signed = f"Signed off for cutting by {clean(extra.signed_off_by)}{on}"
    if not extra.cut_despite:
        return f"{signed}."
    why = f" Why: {clean(extra.why_cut)}" if extra.why_cut else ""
    return f"{signed}, all the same. Against it: {clean(extra.cut_despite)}.{why}"
