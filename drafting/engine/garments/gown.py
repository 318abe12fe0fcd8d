"""The bustier gown as a garment that can be ordered: what it needs, what can be chosen, and its finished draft."""

from __future__ import annotations

from dataclasses import replace

from ..body import ESTIMATED_BY_RULE, is_for_toile_only
from ..draft import Draft
from ..report import Figure
from ..rules import BUSTIER_RULES
from ..spec import Choice, GarmentSpec, Kind, Option
from ..tolerance import INCH
from ..trace import Trace
from .bustier_gown import NEEDS, Gown, draw_gown, numbered
from .defaults import with_defaults
from .gown_bones import bones_of
from .gown_checks import checks_of, figure_warnings, slants
from .gown_girths import chest_slack, girths_of
from .gown_seams import seams_of, with_notches
from .gown_story import tell_top
from .skirt_options import skirt_in_words, skirt_options
from .skirt_story import tell_skirt

BUSTIER_GOWN = Kind(
    name="bustier-gown",
    title="Bustier gown",
    measures=(*NEEDS, "hip"),
    optional_measures=(*ESTIMATED_BY_RULE, "height", "knee", "waist_to_knee"),
    options=(
        Option("fit", "Fit of the top", (Choice("corset", "corset"), Choice("close", "close"),
                                         Choice("standard", "standard"), Choice("loose", "loose")), "close"),
        Option("top_edge", "Top edge", (Choice("straight", "straight"), Choice("sweetheart", "sweetheart"), Choice("v", "V")), "straight"),
        Option("yoke", "Yoke", (Choice("none", "none"), Choice("full", "full"), Choice("neck-frame", "frames the neck")), "none"),
        Option("waist", "Waist", (Choice("straight", "straight"),), "straight"),
        *skirt_options(length=40 * INCH, none=True),
        Option("closure", "Closes with", (Choice("back-zip", "zip at the centre back"),
                                          Choice("back-lacing", "lacing and modesty panel")), "back-zip"),
        Option("lined", "Lined", (Choice(True, "lined"), Choice(False, "not lined")), True),
    ),
    rules=BUSTIER_RULES,
    limits=(
        "chest, bust, under-bust, waist and hip levels each at least ¼ in apart",
        "bust larger than under-bust; high bust not larger than bust",
        "top edge at least 2½ in above the bust and 2 in below the shoulder tip; a dip ends at least 1½ in above the bust",
        "front and back side seams within ½ in of each other before truing",
        "skirt at least 2 in longer than waist to hip",
    ),
)


def draft_gown(spec: GarmentSpec) -> Draft:
    """Draft a strapless bustier gown with every check; raises DraftingError where no right piece can be drawn."""
    spec = with_defaults(spec, BUSTIER_GOWN)
    gown = draw_gown(spec)
    pieces = with_notches(gown, numbered(gown))
    pieces = tuple(replace(p, remarks=_remarks(gown, p.of or p.name, p.of is not None)) for p in pieces)
    seams, girths = seams_of(gown), girths_of(gown)
    bones = bones_of(gown)
    trace = Trace()
    tell_top(gown, trace)
    if gown.skirt:
        tell_skirt(gown.skirt, trace)
    return Draft(
        spec=spec, title=_title(gown), summary=_summary(gown), body=gown.body,
        levels=gown.q.front, side_levels=gown.q.side, rules=_rules_in_force(gown), pieces=pieces, seams=seams, girths=girths,
        bones=bones, steps=tuple(trace.steps),
        warnings=(*gown.warnings, *figure_warnings(gown)), checks=checks_of(gown, pieces, seams, girths),
        toile_only=is_for_toile_only(gown.body), figures=_figures(gown),
    )


def _title(gown: Gown) -> str:
    name = "bustier gown" if gown.skirt else "bustier"
    return f"{name.capitalize()} with a yoke" if gown.yoke else f"Strapless {name}"


def _summary(gown: Gown) -> str:
    o = gown.spec.options
    closure = "laced at the back" if gown.gap else "zip at the centre back"
    skirt = skirt_in_words(o)
    edge = {"straight": "straight top edge and waist", "sweetheart": "sweetheart top edge, straight waist",
            "v": "V top edge, straight waist"}[str(o["top_edge"])]
    edge += {"none": "", "full": ", full yoke", "neck-frame": ", yoke framing the neck"}[str(o["yoke"])]
    return f"{edge}, {o['fit']} fit, {skirt}, {closure}, {'lined' if o['lined'] else 'not lined'}"


def _rules_in_force(gown: Gown) -> dict[str, float]:
    q = gown.q
    worked_out = {"neck_width": q.neck_width, "shoulder_slope": q.front.shoulder, "lower_intake": q.lower,
                  "dart_toward_centre": q.lower_to_centre, "upper_intake": q.upper,
                  "top_edge_snug": gown.outside.cups.head - q.upper, "top_edge_dip": gown.outside.cups.centre.edge("top").path.start.y - gown.top}
    return {**gown.rules.in_force(), **{k: v for k, v in worked_out.items() if k not in gown.rules.given}}


def _figures(gown: Gown) -> tuple[Figure, ...]:
    q, made = gown.q, gown.outside
    lengths = (("front longer than back, shoulder to waist", q.d), ("upper bust dart", q.upper), ("lower bust dart", q.lower),
               ("lower dart toward the centre", q.lower_to_centre), ("taken out at the cup seam's head", made.cups.head),
               ("side cup raised for the cup seam", made.cups.m), ("back waist moved at the side", made.back.moved),
               ("back dart", q.back_dart), ("chest looser than meant", chest_slack(gown)))
    if gown.yoke:
        lengths += _yoke_figures(gown)
    return (*(Figure(name, value) for name, value in lengths),
            *(Figure(f"greatest slant, {edge} of the {piece}", slant, "deg") for piece, edge, slant, _ in slants(gown)))


def _yoke_figures(gown: Gown) -> tuple[tuple[str, float], ...]:
    back, yoke, side = gown.outside.back.piece, gown.yoke, gown.outside.cups.side
    inner = 0.0 if yoke.on_fold else gown.outside.cups.centre.edge("top").path.length()
    return (("finished neckline", 2 * (yoke.edge("neck").path.length() + back.edge("neck").path.length() + inner) + gown.gap),
            ("neck of the body", gown.body["neck"]),
            ("front armhole", yoke.edge("armhole").path.length() + side.edge("armhole").path.length()),
            ("back armhole", back.edge("armhole").path.length()))


def _remarks(gown: Gown, name: str, is_lining: bool) -> tuple[str, ...]:
    """Return short notes for the cut list beside one piece."""
    notes = {
        "centre cup": ("notch at the bust point",),
        "side cup": ("notch at the bust point", "let-out at the side"),
        "back": ("loops down the centre back",) if gown.gap else ("zip in the centre back",),
        "skirt back": ("vent at the centre back",) if gown.skirt and gown.skirt.vent else (),
    }.get(name, ())
    if is_lining and name.startswith("skirt"):
        return (*notes, "darts laid as tucks")
    if is_lining:
        return (*(n for n in notes if n.startswith(("notch", "let-out"))), "smaller: rolls inward")
    return notes
