"""The bustier gown as a garment that can be ordered: what it needs, what can be chosen, and its finished draft."""

from __future__ import annotations

from dataclasses import replace

from ..body import ESTIMATED_BY_RULE, is_for_toile_only
from ..draft import Draft
from ..report import Figure, Material
from ..rules import GOWN_RULES
from ..spec import Choice, GarmentSpec, Kind, Option
from ..tolerance import INCH
from ..zips import zip_to_buy
from ..trace import Trace
from .basque_story import hung_from, tell_hung
from .bustier_gown import NEEDS, Gown, draw_gown, neckline, numbered, stay_length
from .defaults import with_defaults
from .gown_bones import bones_of
from .gown_checks import Slants, checks_of, figure_warnings, slants
from .gown_girths import chest_slack, girths_of
from .gown_seams import seams_of, with_notches
from .gown_story import tell_top
from .skirt_options import BASQUE_LIMIT, WAIST, skirt_in_words, skirt_options
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
        Option("cups", "Cup pieces", (Choice("by-rule", "by the draft"), Choice("two", "two"), Choice("three", "three")), "by-rule"),
        Option("intakes", "Bust darts", (Choice("by-rule", "worked out for this body"), Choice("fixed", "your own fixed figures")), "by-rule"),
        Option("straps", "Straps", (Choice("none", "none"), Choice("shoulder", "over the shoulders")), "none"),
        WAIST,
        *skirt_options(length=40 * INCH, none=True),
        Option("closure", "Closes with", (Choice("back-zip", "zip at the centre back"),
                                          Choice("back-lacing", "lacing and modesty panel"),
                                          Choice("side-zip", "zip in the left side seam")), "back-zip"),
        Option("lined", "Lined", (Choice(True, "lined"), Choice(False, "not lined")), True),
    ),
    rules=GOWN_RULES,
    limits=(
        "chest, bust, under-bust, waist and hip levels each at least ¼ in apart",
        "bust larger than under-bust; high bust not larger than bust",
        "top edge at least 2½ in above the bust and 2 in below the shoulder tip; a dip ends at least 1½ in above the bust",
        "front and back side seams within ½ in of each other before truing",
        "skirt at least 2 in longer than waist to hip",
        BASQUE_LIMIT,
        "straps on a strapless top only; a side zip not with a full yoke, and with one that frames the neck only where the neckline passes over the head",
    ),
)


def draft_gown(spec: GarmentSpec) -> Draft:
    """Draft a strapless bustier gown with every check; raises DraftingError where no right piece can be drawn."""
    spec = with_defaults(spec, BUSTIER_GOWN)
    gown = draw_gown(spec)
    pieces = with_notches(gown, numbered(gown))
    pieces = tuple(replace(p, remarks=_remarks(gown, p.of or p.name, p.of is not None)) for p in pieces)
    seams, girths = seams_of(gown), girths_of(gown)
    bones, slanting = bones_of(gown), slants(gown)
    trace = Trace()
    tell_top(gown, trace)
    if gown.skirt:
        if gown.basque:
            tell_hung(hung_from(gown), gown.skirt, trace)
        else:
            tell_skirt(gown.skirt, trace)
    return Draft(
        spec=spec, title=_title(gown), summary=_summary(gown), body=gown.body,
        levels=gown.q.front, side_levels=gown.q.side, rules=_rules_in_force(gown), pieces=pieces, seams=seams, girths=girths,
        bones=bones, steps=tuple(trace.steps), materials=_materials(gown),
        warnings=(*gown.warnings, *figure_warnings(gown, slanting)), checks=checks_of(gown, pieces, seams, girths),
        toile_only=is_for_toile_only(gown.body), figures=_figures(gown, slanting),
    )


def _materials(gown: Gown) -> tuple[Material, ...]:
    """Return what the pieces alone don't tell: the waist stay's ribbon, and a side seam's zip. Common practice, no source."""
    found = [Material("waist stay ribbon", stay_length(gown) + 3 * INCH, "mm", 1), Material("hooks and bars for the waist stay", 2, "pieces", 1)]
    if gown.side_opening:
        below = gown.skirt.opening if gown.skirt else 0.0
        found += [Material("zip, open at the top", zip_to_buy(gown.outside.back.piece.edge("side").path.length() + below), "mm", 1),
                  Material("hook and eye above the zip", 1, "pieces", 1)]
    return tuple(found)


def _title(gown: Gown) -> str:
    name = "bustier gown" if gown.skirt else "bustier"
    held = "with a yoke" if gown.yoke else "with straps" if gown.straps else ""
    return f"{name.capitalize()} {held}" if held else f"Strapless {name}"


def _summary(gown: Gown) -> str:
    o = gown.spec.options
    closure = {"back-lacing": "laced at the back", "back-zip": "zip at the centre back", "side-zip": "zip in the left side seam"}[str(o["closure"])]
    skirt = skirt_in_words(o)
    edge = {"straight": "straight top edge", "sweetheart": "sweetheart top edge", "v": "V top edge"}[str(o["top_edge"])]
    edge += ", basque waist" if gown.basque else " and waist" if o["top_edge"] == "straight" else ", straight waist"
    edge += ", cups in three" if gown.outside.cups.third else ""
    edge += {"none": "", "full": ", full yoke", "neck-frame": ", yoke framing the neck"}[str(o["yoke"])]
    return f"{edge}, {o['fit']} fit, {skirt}, {closure}, {'lined' if o['lined'] else 'not lined'}"


def _rules_in_force(gown: Gown) -> dict[str, float]:
    q = gown.q
    worked_out = {"neck_width": q.neck_width, "shoulder_slope": q.front.shoulder, "lower_intake": q.lower + q.second,
                  "waist_stay": gown.body["waist"] - stay_length(gown),
                  "dart_toward_centre": q.lower_to_centre, "upper_intake": q.upper,
                  "top_edge_snug": gown.outside.cups.head - q.upper, "top_edge_dip": gown.outside.cups.centre.edge("top").path.start.y - gown.top}
    if gown.straps:
        worked_out["strap_width"] = gown.straps.width
    in_force = {**gown.rules.in_force(), **{k: v for k, v in worked_out.items() if k not in gown.rules.given}}
    if gown.basque:
        return {**in_force, "basque_depth": gown.basque.depth, "basque_side": gown.basque.side}
    return {key: value for key, value in in_force.items() if key not in ("basque_depth", "basque_side")}


def _figures(gown: Gown, slanting: Slants) -> tuple[Figure, ...]:
    q, made = gown.q, gown.outside
    lengths = (("front longer than back, shoulder to waist", q.d), ("upper bust dart", q.upper), ("lower bust dart", q.lower + q.second),
               ("lower dart toward the centre", q.lower_to_centre), ("taken out at the cup seam's head", made.cups.head),
               ("side cup raised for the cup seam", made.cups.m), ("back waist moved at the side", made.back.moved),
               ("back dart", q.back_dart), ("chest looser than meant", chest_slack(gown)))
    if gown.spec.options["intakes"] == "fixed":
        lengths += (("upper bust dart worked out for this body", (q.padded_bust - q.padded_high_bust) / 2),
                    ("lower bust dart worked out for this body", q.front_bust - q.under_bust))
    if made.cups.third:
        lengths += (("of that, in the second cup seam", q.second),)
    if gown.basque:
        edge = made.band.basque.edge
        lengths += (("basque below the waist under the cup seam", edge.at_seam), ("sprung out there", edge.spring),
                    ("basque below the waist at the centre back", made.back.drop))
    if gown.straps:
        lengths += (("strap, finished", gown.straps.length), ("strap, finished width", gown.straps.width))
    lengths += (("waist stay", stay_length(gown)),)
    if gown.yoke:
        lengths += _yoke_figures(gown)
    return (*(Figure(name, value) for name, value in lengths),
            *(Figure(f"greatest slant, {edge} of the {piece}", slant, "deg") for piece, edge, slant, _ in slanting))


def _yoke_figures(gown: Gown) -> tuple[tuple[str, float], ...]:
    back, yoke, side = gown.outside.back.piece, gown.yoke, gown.outside.cups.side
    return (("finished neckline", neckline(gown.outside, yoke) + gown.gap),
            ("neck of the body", gown.body["neck"]),
            ("front armhole", yoke.edge("armhole").path.length() + side.edge("armhole").path.length()),
            ("back armhole", back.edge("armhole").path.length()))


def _remarks(gown: Gown, name: str, is_lining: bool) -> tuple[str, ...]:
    """Return short notes for the cut list beside one piece."""
    notes = {
        "centre cup": ("notch at the bust point",),
        gown.outside.cups.over_bust.name: ("notch at the bust point",),
        "back": ("loops down the centre back",) if gown.gap else ("zip in the left side",) if gown.side_opening else ("zip in the centre back",),
        "strap": ("fold along the middle", "sewn in under the top edge"),
        "skirt back": ("vent at the centre back",) if gown.skirt and gown.skirt.vent else (),
    }.get(name, ())
    if name == "side cup":
        notes += ("let-out at the side",)
    if is_lining and name.startswith("skirt"):
        return (*notes, "darts laid as tucks")
    if is_lining:
        return (*(n for n in notes if n.startswith(("notch", "let-out"))), "smaller: rolls inward")
    return notes
