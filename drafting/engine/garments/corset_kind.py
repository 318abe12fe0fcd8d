"""The panelled corset as a garment that can be ordered, and its finished draft."""

from __future__ import annotations

from ..body import ESTIMATED_BY_RULE, is_for_toile_only
from ..draft import Draft
from ..rules import CORSET_RULES
from ..spec import Choice, GarmentSpec, Kind, Option
from ..trace import Trace
from .corset import NEEDS, Corset, draw_corset, numbered
from .corset_bones import bones_of, materials_of
from .corset_checks import checks_of, figure_warnings, figures_of
from .corset_seams import girths_of, seams_of, with_notches
from .corset_story import tell_corset
from .defaults import with_defaults

CORSET = Kind(
    name="corset", title="Panelled corset", measures=NEEDS,
    optional_measures=tuple(key for key in ESTIMATED_BY_RULE if key != "across_back") + ("across_back",),
    options=(
        Option("fit", "Fit", (Choice("corset", "corset"), Choice("close", "close")), "corset"),
        Option("panels", "Panels in each half", (Choice(2, "two, with darts over the bust"), Choice(3, "three"), Choice(4, "four")), 4),
        Option("top_edge", "Top edge", (Choice("straight", "straight"), Choice("sweetheart", "sweetheart")), "sweetheart"),
        Option("closure", "Closes with", (Choice("back-lacing", "lacing and modesty panel"), Choice("back-zip", "zip at the centre back")), "back-lacing"),
        Option("lined", "Lined", (Choice(True, "lined"), Choice(False, "not lined")), True),
    ),
    rules=CORSET_RULES,
    limits=(
        "chest, bust, under-bust, waist and hip levels each at least ¼ in apart",
        "bust larger than under-bust; high bust not larger than bust",
        "top edge at least 2½ in above the bust and 2 in below the shoulder tip; a dip ends at least 1½ in above the bust",
        "a seam slants at most 45° from straight down (over 35° with a warning); each panel at least 1½ in wide",
        "lower edge from the waist to the hip line",
    ),
)

_PANELS = {2: "two panels a half", 3: "three panels a half", 4: "four panels a half"}


def draft_corset(spec: GarmentSpec) -> Draft:
    """Draft a panelled corset with every check; raises DraftingError where no right piece can be drawn."""
    spec = with_defaults(spec, CORSET)
    corset = draw_corset(spec)
    pieces = with_notches(corset, numbered(corset))
    by_name = {piece.name: piece for piece in pieces}
    seams, girths, bones = seams_of(corset, by_name), girths_of(corset), bones_of(corset)
    trace = Trace()
    tell_corset(corset, trace)
    q = corset.q
    return Draft(
        spec=spec, title=CORSET.title, summary=_summary(corset), body=corset.body, levels=q.front, side_levels=q.side,
        rules={**corset.rules.in_force(), "neck_width": q.neck_width, "shoulder_slope": q.front.shoulder, "lower_intake": q.lower,
               "upper_intake": q.upper, "lower_edge": corset.fig.depth,
               "top_edge_dip": corset["front"].top[0].start.y - corset.fig.top},
        pieces=pieces, seams=seams, girths=girths, bones=bones, materials=materials_of(corset), steps=tuple(trace.steps), making=(),
        warnings=(*corset.warnings, *figure_warnings(corset)), checks=checks_of(corset, by_name, seams, girths),
        toile_only=is_for_toile_only(corset.body), figures=figures_of(corset),
    )


def _summary(corset: Corset) -> str:
    o = corset.spec.options
    closure = "laced at the back" if corset.gap else "zip at the centre back"
    return f"{_PANELS[o['panels']]}, {o['top_edge']} top edge, {o['fit']} fit, {closure}, {'lined' if o['lined'] else 'not lined'}"
