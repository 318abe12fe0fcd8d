"""The blouse as a garment that can be ordered, and its finished draft."""

from __future__ import annotations

from ..body import ESTIMATED_BY_RULE, is_for_toile_only
from ..draft import Draft
from ..report import Material
from ..spec import Choice, GarmentSpec, Kind, Option
from ..tolerance import INCH
from ..trace import Trace
from .blouse import BLOUSE_NEEDS, BLOUSE_RULES, Blouse, draw_blouse
from .blouse_checks import checks_of, figure_warnings, figures_of
from .blouse_pieces import numbered
from .blouse_seams import girths_of, seams_of, with_notches
from .blouse_story import tell_blouse
from .defaults import with_defaults
from .sleeve_part import SLEEVE_MEASURES, SLEEVE_OPTIONS
from .sleeve_sewn import sleeve_materials

BLOUSE = Kind(
    name="blouse", title="Blouse", measures=BLOUSE_NEEDS, optional_measures=(*ESTIMATED_BY_RULE, *SLEEVE_MEASURES),
    options=(
        Option("fit", "Fit of the top", (Choice("close", "close"), Choice("standard", "standard"), Choice("loose", "loose")), "standard"),
        Option("neckline", "Neckline", (Choice("round", "round"), Choice("v", "V"), Choice("square", "square"), Choice("boat", "boat")), "round"),
        Option("collar", "Collar", (Choice("none", "none"), Choice("stand", "stand"), Choice("flat", "flat")), "none"),
        Option("darts", "Shaped over the bust by", (Choice("side", "dart at the side"), Choice("shoulder", "dart at the shoulder")), "side"),
        Option("length", "Length from the waist", (), None),
        *SLEEVE_OPTIONS,
        Option("closure", "Closes with", (Choice("buttons", "buttons down the front"),), "buttons"),
        Option("facing", "Front facing", (Choice("cut-on", "cut on"), Choice("separate", "separate")), "cut-on"),
        Option("lined", "Lined", (Choice(False, "not lined"),), False),
    ),
    rules=BLOUSE_RULES,
    limits=(
        "chest, bust, under-bust, waist and hip levels each at least ¼ in apart",
        "bust larger than under-bust; side dart at most 2½ in",
        "from the waist at least to the hip; a collar only on a round neckline",
        "sleeve at the upper arm at most 0.92 of the armhole with its ease",
    ),
)


def draft_blouse(spec: GarmentSpec) -> Draft:
    """Draft a blouse with every check; raises DraftingError where no right piece can be drawn."""
    spec = with_defaults(spec, BLOUSE)
    blouse = draw_blouse(spec)
    pieces = with_notches(blouse, numbered(blouse))
    by_name = {piece.name: piece for piece in pieces}
    seams, girths = seams_of(blouse, by_name), girths_of(blouse)
    trace = Trace()
    tell_blouse(blouse, trace)
    return Draft(
        spec=spec, title=BLOUSE.title, summary=_summary(blouse), body=blouse.body, levels=blouse.q.front, side_levels=blouse.q.side,
        rules={**blouse.rules.in_force(), "neck_width": blouse.q.neck_width, "shoulder_slope": blouse.q.front.shoulder, "button_stand": blouse.stand.width},
        pieces=pieces, seams=seams, girths=girths, bones=(), materials=_materials(blouse), steps=tuple(trace.steps),
        warnings=(*blouse.warnings, *figure_warnings(blouse)), checks=checks_of(blouse, by_name, seams, girths),
        toile_only=is_for_toile_only(blouse.body), figures=figures_of(blouse), laid_over=blouse.sleeve.laid if blouse.sleeve else (),
    )


def _materials(blouse: Blouse) -> tuple[Material, ...]:
    """Return buttons and what the sleeves take. Common practice, no source."""
    count = len(blouse.stand.places) + (1 if blouse.collar and blouse.collar.kind == "stand" else 0)
    sleeve = sleeve_materials(blouse.sleeve) if blouse.sleeve else []
    return (Material("buttons, front", count, "pieces"), *sleeve)


def _summary(blouse: Blouse) -> str:
    o = blouse.spec.options
    titles = {option.key: {c.value: c.title for c in option.choices} for option in BLOUSE.options}
    sleeve = "no sleeves" if o["sleeve.kind"] == "none" else f"{titles['sleeve.kind'][o['sleeve.kind']]} sleeves"
    collar = "no collar" if o["collar"] == "none" else f"{o['collar']} collar"
    over = blouse.below.to_hem - blouse.below.to_hip
    length = "to the hip" if over < INCH / 8 else "below the hip"
    return f"{titles['neckline'][o['neckline']]} neck, {collar}, {o['darts']} darts, {o['fit']} fit, {sleeve}, {length}, buttons down the front"
