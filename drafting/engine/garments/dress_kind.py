"""Bodice and fitted dress as garments that can be ordered, and their finished drafts."""

from __future__ import annotations

from ..body import ESTIMATED_BY_RULE, is_for_toile_only
from ..draft import Draft
from ..rules import BODICE_RULES, FITTED_DRESS_RULES
from ..spec import Choice, GarmentSpec, Kind, Option
from ..tolerance import INCH
from ..trace import Trace
from .defaults import with_defaults
from .dress import NEEDS, Dress, draw_dress
from .dress_closing import CLOSURE, IN_WORDS
from .dress_checks import checks_of, figure_warnings, figures_of
from .dress_lining import dress_lining
from .dress_materials import materials_of
from .dress_pieces import numbered
from .dress_seams import girths_of, seams_of, with_notches
from .dress_basque_story import tell_dress_basque
from .dress_story import tell_dress
from .skirt_options import BASQUE_LIMIT, WAIST, skirt_in_words, skirt_options
from .skirt_story import tell_skirt
from .sleeve_part import SLEEVE_MEASURES, SLEEVE_OPTIONS

_FITS = (Choice("close", "close"), Choice("standard", "standard"), Choice("loose", "loose"))
_SHAPED = {"side": "side darts", "shoulder": "shoulder darts", "princess-shoulder": "princess seams from the shoulder",
           "princess-armhole": "princess seams from the armhole"}
_OPTIONS = (
    Option("fit", "Fit of the top", _FITS, "standard"),
    Option("neckline", "Neckline", (Choice("round", "round"), Choice("v", "V"), Choice("square", "square"), Choice("boat", "boat")), "round"),
    Option("darts", "Shaped over the bust by", (
        Choice("side", "dart at the side"), Choice("shoulder", "dart at the shoulder"),
        Choice("princess-shoulder", "princess seam from the shoulder"), Choice("princess-armhole", "princess seam from the armhole")), "side"),
    Option("waist", "Waist", (Choice("straight", "straight"),), "straight"),
    *SLEEVE_OPTIONS,
    CLOSURE,
    Option("lined", "Lined", (Choice(True, "lined"), Choice(False, "not lined")), False),
)
_LIMITS = (
    "chest, bust, under-bust, waist and hip levels each at least ¼ in apart",
    "bust larger than under-bust; side dart at most 2½ in",
    "sleeve at the upper arm at most 0.92 of the armhole with its ease",
)

BODICE = Kind(name="bodice", title="Fitted bodice", measures=NEEDS,
              optional_measures=(*(key for key in ESTIMATED_BY_RULE if key != "waist_to_hip"), *SLEEVE_MEASURES),
              options=_OPTIONS, rules=BODICE_RULES, limits=_LIMITS,
              alterations=frozenset({"back_waist"}))

FITTED_DRESS = Kind(
    name="fitted-dress", title="Fitted dress", measures=(*NEEDS, "hip"),
    optional_measures=(*ESTIMATED_BY_RULE, "height", "knee", "waist_to_knee", *SLEEVE_MEASURES),
    options=(*_OPTIONS[:3], WAIST,
             *skirt_options(length=26 * INCH), *_OPTIONS[4:]),
    rules=FITTED_DRESS_RULES, limits=(*_LIMITS, "skirt at least 2 in longer than waist to hip", BASQUE_LIMIT),
    alterations=frozenset({"back_waist"}),
)


def draft_dress(spec: GarmentSpec) -> Draft:
    """Draft a bodice or dress with every check; raises DraftingError where no right piece can be drawn."""
    kind = BODICE if spec.kind == BODICE.name else FITTED_DRESS
    spec = with_defaults(spec, kind)
    dress = draw_dress(spec)
    lining = dress_lining(dress)
    pieces = with_notches(dress, numbered(dress, lining), lining)
    by_name = {piece.name: piece for piece in pieces}
    seams, girths = seams_of(dress, by_name, lining), girths_of(dress)
    trace = Trace()
    tell_dress(dress, trace)
    if dress.basque:
        tell_dress_basque(dress, trace)
    elif dress.skirt:
        tell_skirt(dress.skirt, trace)
    return Draft(
        spec=spec, title=kind.title, summary=_summary(dress), body=dress.body, levels=dress.q.front, side_levels=dress.q.side,
        rules={**_in_force(dress), "neck_width": dress.q.neck_width, "shoulder_slope": dress.q.front.shoulder}, pieces=pieces,
        seams=seams, girths=girths, bones=(), materials=materials_of(dress), steps=tuple(trace.steps), making=(),
        warnings=(*dress.warnings, *(lining.warnings if lining else ()), *figure_warnings(dress)), checks=checks_of(dress, by_name, seams, girths),
        toile_only=is_for_toile_only(dress.body), figures=figures_of(dress),
        laid_over=dress.sleeve.laid if dress.sleeve else (),
    )


def _in_force(dress: Dress) -> dict[str, float]:
    in_force = {key: value for key, value in dress.rules.in_force().items() if key not in ("basque_depth", "basque_side")}
    return {**in_force, "basque_depth": dress.basque.depth, "basque_side": dress.basque.side} if dress.basque else in_force


def _summary(dress: Dress) -> str:
    o = dress.spec.options
    titles = {option.key: {c.value: c.title for c in option.choices} for option in FITTED_DRESS.options}
    sleeve = "no sleeves" if o["sleeve.kind"] == "none" else f"{titles['sleeve.kind'][o['sleeve.kind']]} sleeves"
    skirt = f"{', basque waist' if dress.basque else ''}, {skirt_in_words(o)}" if dress.skirt else ""
    return (f"{titles['neckline'][o['neckline']]} neck, {_SHAPED[o['darts']]}, {o['fit']} fit, {sleeve}{skirt}, {IN_WORDS[o['closure']]}, "
            f"{'lined' if o['lined'] else 'not lined'}")
