"""Plain trousers: a front, a back and a waistband. A first pair is for a toile."""

from __future__ import annotations

from ..body import Body, estimate_warnings
from ..checks import corner_checks, dart_checks, girth_checks, notch_checks, outline_checks, seam_checks
from ..draft import Draft
from ..errors import MissingMeasure
from ..layers import Layers
from ..report import Figure, Material, Warning_
from ..rules import BUSTIER_RULES, Rules
from ..spec import Choice, GarmentSpec, Kind, Option
from ..tolerance import INCH
from ..trace import Trace
from ..trouser_figures import THIGH_EASE, trouser_figures
from ..zips import zip_to_buy
from .defaults import with_defaults
from .trouser_pieces import Trousers, draw_trousers, trouser_corners, trouser_girths, trouser_pieces, trouser_seams
from .trouser_story import tell_trousers

TROUSERS = Kind(
    name="trousers", title="Trousers", measures=("waist", "hip", "body_rise", "inside_leg"), optional_measures=("waist_to_hip", "knee", "thigh"),
    options=(Option("trousers.hem", "Hem of a leg, all round", (), None, blank="Left blank, the usual width."),
             Option("trousers.length", "Length down the side from the waist", (), None, blank="Left blank, body rise and inside leg."),
             Option("closure", "Closes with", (Choice("side-zip", "zip at the left side"), Choice("back-zip", "zip at the centre back"),
                                              Choice("front-zip", "zip in a fly at the centre front")), "side-zip"),
             Option("lined", "Lined", (Choice(False, "not lined"),), False)),
    rules=tuple(rule for rule in BUSTIER_RULES if rule.key in ("seam_allowance", "let_out", "centre_back_allowance", "hem")),
    two_sided=False,
    limits=("body rise at least ½ in more than waist to hip", "hem of a leg 11 to 32 in round", "long enough to cover the knee",
            "a toile first: the seat is fitted, not reckoned"),
)

TOILE_FIRST = Warning_("toile-first", "Make a toile first: how a seat is shaped can't be read off these measures. Sit down in it before anything is cut.")


def draft_trousers(spec: GarmentSpec) -> Draft:
    """Draft plain trousers with every check; raises DraftingError where no right piece can be drawn."""
    spec = with_defaults(spec, TROUSERS)
    rules = Rules(spec.rules, "standard", TROUSERS.rules)
    warnings = rules.check()
    body, layers = _body(spec), Layers(spec.layers, False)
    figures, found = trouser_figures(body, spec.options)
    waist = body["waist"] + figures.ease_waist
    made = draw_trousers(figures, waist, body["hip"], place=str(spec.options["closure"]).removesuffix("-zip"))
    pieces = trouser_pieces(made, rules, layers, waist)
    by_name = {piece.name: piece for piece in pieces}
    seams, girths = trouser_seams(made, by_name), trouser_girths(made, by_name, body["waist"], body["hip"])
    trace = Trace()
    tell_trousers(made, by_name, trace)
    place = {"back": "zip at the centre back", "side": "zip at the left side", "front": "fly at the centre front"}[made.place]
    return Draft(
        spec=spec, title="Trousers", summary=f"plain, {place}, waistband, not lined", body=body, levels=figures.levels,
        side_levels=figures.levels, rules=rules.in_force(), pieces=pieces, seams=seams, girths=girths, bones=(), steps=tuple(trace.steps),
        materials=(Material("zip", zip_to_buy(made.opening), "mm", 1), Material("hook and bar", 1, "pieces", 1)),
        warnings=(*warnings, TOILE_FIRST, *found, *_thigh(made, body), *estimate_warnings(body)),
        checks=tuple(seam_checks(seams, by_name) + girth_checks(girths) + outline_checks(pieces) + notch_checks(pieces) + dart_checks(pieces)
                     + corner_checks(trouser_corners(by_name))),
        toile_only=True, figures=_figures(made),
    )


def _body(spec: GarmentSpec) -> Body:
    missing = tuple(key for key in TROUSERS.measures if key not in spec.measures)
    if missing:
        raise MissingMeasure(missing)
    known = (*TROUSERS.measures, *TROUSERS.optional_measures)
    measures = {key: value for key, value in spec.measures.items() if key in known}
    return Body({"waist_to_hip": 8 * INCH, **measures}, frozenset({"waist_to_hip"} - set(measures)))


def _thigh_round(made: Trousers) -> float:
    """Return the leg's girth an inch below the front's fork, where the thigh is fullest."""
    level = made.figures.levels.fork + INCH
    total = 0.0
    for leg in (made.front, made.back):
        inner = leg.inside.at(leg.inside.distance_at_level(max(level, leg.inside.start.y)) or 0.0)
        total += leg.side.at(leg.side.distance_at_level(level)).x - inner.x
    return total


def _thigh(made: Trousers, body: Body) -> list[Warning_]:
    if "thigh" not in body.measures:
        return []
    round_ = _thigh_round(made)
    if round_ >= body["thigh"] + THIGH_EASE:
        return []
    return [Warning_("thigh-tight", "The leg measures {0} round the thigh, which measures {1}: {2} of ease is usual. Let it out at the toile.",
                     (round_, body["thigh"], THIGH_EASE))]


def _figures(made: Trousers) -> tuple[Figure, ...]:
    crotch = made.front.crotch.length() + made.back.crotch.length()
    values = (("crotch seams, waist to waist through the legs", crotch), ("back's fork lower than the front's", made.back.inside.start.y - made.front.inside.start.y),
              ("taken in at the side", made.front.side_take), ("a leg round the thigh", _thigh_round(made)),
              ("a leg round the knee", 2 * (made.front.figures.knee + made.back.figures.knee)),
              ("a leg's hem", made.front.hem.length() + made.back.hem.length()), ("opens below the waist", made.opening))
    return tuple(Figure(name, value) for name, value in values)
