"""A garment with its client's fit notes drawn in, and with two sides where left and right differ."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from ..body import Body
from ..draft import Draft
from ..fitting.altering import BOTH, LEFT, MEAN, RIGHT, Altered, altered, is_two_sided, not_drawn
from ..fitting.notes import ONE_SIDED
from ..fitting.two_sides import joined
from ..piece import Edge
from ..report import Girth, Warning_
from ..spec import GarmentSpec, Kind
from ..tolerance import TOUCHING

Drafter = Callable[[GarmentSpec], Draft]
SHAPES_A_TOP = frozenset({"nape_to_waist", "across_front", "across_back"})


def draft_fitted(spec: GarmentSpec, kind: Kind, drafter: Drafter) -> Draft:
    """Draft a garment from its figures with the fit notes worked in; left and right apart where a note or a measure says so.

    Raises DraftingError where no right piece can be drawn.
    """
    if not spec.fit_notes and not any(spec.one_side.values()):
        return drafter(spec)
    if not is_two_sided(spec):
        work = altered(spec, kind)
        return _as_asked(drafter(work.spec), spec, work)
    if not kind.two_sided:
        work = altered(spec, kind, MEAN)
        made = _as_asked(drafter(work.spec), spec, work)
        return replace(made, warnings=(*made.warnings, *_shared(spec)))
    works = {side: altered(spec, kind, side) for side in (MEAN, RIGHT, LEFT)}
    drafts = {side: drafter(work.spec) for side, work in works.items()}
    rules, middle = _one_top_edge(drafts), _one_middle(drafts.values())
    if rules or middle:
        drafts = {side: drafter(_met(work.spec, rules.get(side, {}), middle)) for side, work in works.items()}
    drafts = {side: _as_asked(made, spec, works[side]) for side, made in drafts.items()}
    whole = joined(drafts[MEAN], drafts[RIGHT], drafts[LEFT])
    return replace(whole, warnings=(*whole.warnings, *_on_both(spec)))


def _as_asked(draft: Draft, spec: GarmentSpec, work: Altered) -> Draft:
    """Return the draft with the body as it was measured: what a fit note gave or took at a girth is ease."""
    taken = {key: value for key, value in spec.measures.items() if key in draft.body.measures}
    body = Body({**draft.body.measures, **taken}, draft.body.estimated | work.estimated)
    girths = tuple(_with_ease(girth, work.eases.get(girth.level, 0.0)) for girth in draft.girths)
    shapes = bool(work.estimated & SHAPES_A_TOP)
    return replace(
        draft, spec=replace(draft.spec, fit_notes=spec.fit_notes, one_side=spec.one_side, rules=spec.rules), body=body, girths=girths,
        warnings=(*draft.warnings, *work.warnings, *not_drawn(spec, work.drawn), *_estimated(work)),
        toile_only=draft.toile_only or shapes, drawn_notes=tuple(note for note in spec.fit_notes if note in work.drawn),
    )


def _with_ease(girth: Girth, more: float) -> Girth:
    return replace(girth, body=girth.body - more, ease=girth.ease + more) if more else girth


def _estimated(work: Altered) -> list[Warning_]:
    names = ", ".join(sorted(key.replace("_", " ") for key in work.estimated))
    return [Warning_("estimated", f"Not measured, worked out by rule: {names}.")] if names else []


def _shared(spec: GarmentSpec) -> list[Warning_]:
    """Return a warning for each note or measure of one side of a garment that is drafted alike on both."""
    places = [note.place for note in spec.fit_notes if note.side != BOTH and note.place in ONE_SIDED]
    places += [key.replace("_", " ") for taken in spec.one_side.values() for key in taken]
    return [Warning_("fit-note-on-both", f"{place.capitalize()} is noted for one side; this garment is drafted alike left and right, so half "
                     "of it was drawn on each. Fit it on the toile.") for place in places]


def _on_both(spec: GarmentSpec) -> list[Warning_]:
    """Return a warning for each note of one side at a place that has no sides: it was drawn on both."""
    return [Warning_("fit-note-on-both", f"The fit note at the {note.place} is for the {note.side}; it changes the middle, so it was drawn "
                     "on both sides.") for note in spec.fit_notes if note.side != BOTH and note.place not in ONE_SIDED]


def _met(spec: GarmentSpec, rules: Mapping[str, float], middle: Mapping[str, float]) -> GarmentSpec:
    return replace(spec, rules={**spec.rules, **rules}, alterations={**spec.alterations, **middle})


def _one_middle(drafts: Iterable[Draft]) -> dict[str, float]:
    """Return where both halves meet at the centre front and back of the neck, and one width for both facings."""
    found: dict[str, float] = {}
    for key, piece in (("neck_depth", "front"), ("neck_depth", "yoke"), ("back_neck_depth", "back")):
        ends = [at for made in drafts if (at := _middle(made, piece, "neck")) is not None]
        if ends and max(ends) - min(ends) > TOUCHING:
            found[key] = max(ends)
    widths = [made.edge("shoulder").path.length() for each in drafts for made in each.pieces if made.name == "front neck facing"]
    if widths and max(widths) - min(widths) > TOUCHING:
        found["facing_width"] = min(widths)
    return {**found, **_one_vent(drafts), **_one_opening(drafts)}


def _one_vent(drafts: Iterable[Draft]) -> dict[str, float]:
    """Return one height for the vent of both backs, the higher, so that the centre back is sewn as far on both."""
    backs = [p for made in drafts for p in made.pieces if p.name == "skirt back" and p.has_edge("centre back")]
    vents = [p.edge("vent").path.length() if p.has_edge("vent") else 0.0 for p in backs]
    return {"vent": max(vents)} if vents and max(vents) - min(vents) > TOUCHING else {}


def _one_opening(drafts: Iterable[Draft]) -> dict[str, float]:
    """Return one level for the button at the bust and one length at the centre front, so that both fronts of an opening agree."""
    found: dict[str, float] = {}
    opened = [made for made in drafts if any(m.kind == "buttonhole" for p in made.pieces if p.name == "front" for m in p.marks)]
    levels = [made.levels.bust for made in opened]
    lengths = [figure.value for made in opened for figure in made.figures if figure.name == "length from the waist"]
    if levels and max(levels) - min(levels) > TOUCHING:
        found["button_level"] = (max(levels) + min(levels)) / 2
    if lengths and max(lengths) - min(lengths) > TOUCHING:
        found["length_from_waist"] = max(lengths)
    return found


def _middle(draft: Draft, piece: str, edge: str) -> float | None:
    """Return the level at which a piece's edge meets the middle, mm; None where there is no such edge."""
    made = next((p for p in draft.pieces if p.name == piece and p.has_edge(edge)), None)
    return min((end.x, end.y) for end in (made.edge(edge).path.start, made.edge(edge).path.end))[1] if made else None


def _one_top_edge(drafts: Mapping[str, Draft]) -> dict[str, dict[str, float]]:
    """Return the rules by side that bring a strapless top edge to one level and one dip in the middle: the higher side's."""
    tops = {side: top for side, made in drafts.items() if (top := _top(made)) is not None}
    if not tops or max(tops.values()) - min(tops.values()) <= TOUCHING:
        return {}
    level = min(tops.values())
    dips = [dip for made in drafts.values() if (dip := made.rules.get("top_edge_dip"))]
    dip = {"top_edge_dip": min(dips)} if dips else {}
    return {side: {"top_edge_rise": made.levels.chest - level, **dip} for side, made in drafts.items()}


def _top(draft: Draft) -> float | None:
    """Return the level of a strapless top edge where it is straight: next to the front's armhole; None for any other top."""
    edges: tuple[Edge, ...] = next((p.edges for p in draft.pieces if p.name in ("side cup", "side front", "front") and p.has_edge("armhole")), ())
    top = [edge for edge in edges if edge.name.split(" ")[0] == "top"]
    return top[-1].path.start.y if top else None
