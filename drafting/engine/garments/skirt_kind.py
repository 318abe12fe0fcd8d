"""A skirt alone, of any kind, on a waistband, a facing or petersham. It asks for two girths and little more."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ..body import Body, estimate_warnings
from ..checks import corner_checks, dart_checks, girth_checks, notch_checks, outline_checks, seam_checks
from ..draft import Draft
from ..errors import ImpossibleMeasure, MissingMeasure
from ..layers import Layers
from ..piece import Cut, Notch, Piece
from ..report import Figure, Girth, Stretch
from ..rules import BUSTIER_RULES, Rules
from ..seam import Seam
from ..spec import Choice, GarmentSpec, Kind, Option
from ..tolerance import INCH
from ..trace import Trace
from .defaults import with_defaults
from .skirt_finish import (
    BAND_DEPTH, BAND_OVERLAP, FACING_DEPTH, WAIST_FINISH, check_finish, facings, finish_materials, finish_seams, waistband,
)
from .skirt_options import skirt_in_words, skirt_options
from .skirt_part import Skirt, hip_girth, skirt_part
from .skirt_seams import BACKS, FRONTS, notch_skirt, skirt_corners, skirt_seams, waist_refs
from .skirt_story import tell_skirt

WAIST_EASE = 1.0 * INCH
"""A skirt on a band is this much easier than the waist. drafting method, section 8: alone (W + 1)/4."""

HIP_EASE = 2.0 * INCH

SKIRT_RULES = tuple(rule for rule in BUSTIER_RULES if rule.key in ("seam_allowance", "let_out", "centre_back_allowance", "hem"))

_FINISHES = {"band": "waistband", "facing": "faced waist", "petersham": "petersham inside the waist"}

SKIRT = Kind(
    name="skirt", title="Skirt", measures=("waist", "hip"), optional_measures=("waist_to_hip", "height", "knee", "waist_to_knee"),
    options=(*skirt_options(length=26 * INCH),
             Option("closure", "Closes with", (Choice("back-zip", "zip at the centre back"),), "back-zip"),
             WAIST_FINISH,
             Option("lined", "Lined", (Choice(True, "lined"), Choice(False, "not lined")), False)),
    rules=SKIRT_RULES,
    limits=("skirt at least 2 in longer than waist to hip; a mermaid at least 6 in below its narrowest line, 3 in above the knee",
            "gores flare up to 20° a seam side; a hem of uneven length falls by at most 1.2 of its run",
            "a circle wide enough for the hips, its waist no smaller than 1 in in radius"),
)


@dataclass(frozen=True, slots=True)
class SkirtLevels:
    """Levels in mm below the waist."""

    waist: float
    hip: float

    def as_dict(self) -> dict[str, float]:
        return {"waist": self.waist, "hip": self.hip}


@dataclass(frozen=True, slots=True)
class SkirtQuarters:
    """What the skirt's blocks ask of a top, for a skirt that has none. Lengths in mm."""

    front: SkirtLevels
    side: SkirtLevels
    ease_waist: float
    ease_hip: float


def draft_skirt(spec: GarmentSpec) -> Draft:
    """Draft a skirt with every check; raises DraftingError where no right piece can be drawn."""
    spec = with_defaults(spec, SKIRT)
    rules = Rules(spec.rules, "standard", SKIRT_RULES)
    warnings = rules.check()
    body = _body(spec)
    layers = Layers(spec.layers, bool(spec.options["lined"]))
    depth = body["waist_to_hip"]
    if body["waist"] <= 0 or depth < 4 * INCH:
        raise ImpossibleMeasure("waist_to_hip", depth, "Waist to hip {value} is too little; it must be at least {needed}. Measure it again.",
                                needed=4 * INCH)
    finish = str(spec.options["waist_finish"])
    check_finish(finish, str(spec.options["skirt.kind"]))
    levels = SkirtLevels(0.0, depth)
    q = SkirtQuarters(levels, levels, WAIST_EASE, HIP_EASE)
    quarter = (body["waist"] + WAIST_EASE) / 4
    made, found = skirt_part(spec, body, rules, q, (quarter, quarter), 0.0)
    lining = skirt_part(spec, body, rules, q, (quarter, quarter), 0.0, lining=True)[0] if layers.lined else None
    pieces = _pieces(rules, layers, made, lining, body["waist"] + WAIST_EASE, finish)
    by_name = {piece.name: piece for piece in pieces}
    seams, girths = _seams(made, lining, by_name, finish), _girths(made, body, q, by_name)
    trace = Trace()
    tell_skirt(made, trace)
    _tell_finish(finish, body, by_name, trace)
    return Draft(
        spec=spec, title=_title(spec),
        summary=f"zip at the centre back, {_FINISHES[finish]}, {'lined' if layers.lined else 'not lined'}", body=body, levels=levels, side_levels=levels,
        rules=rules.in_force(), pieces=pieces, seams=seams, girths=girths, bones=(), steps=tuple(trace.steps),
        materials=finish_materials(finish, made, body["waist"] + WAIST_EASE), warnings=(*warnings, *found, *estimate_warnings(body)),
        checks=tuple(seam_checks(seams, by_name) + girth_checks(girths) + outline_checks(pieces) + notch_checks(pieces)
                     + dart_checks(pieces) + corner_checks(skirt_corners(by_name))),
        toile_only=False, figures=(Figure("sewn in at the side", made.front.side_take), Figure("hem, all round", made.hem_round),
                                    Figure("opens below the waist", made.opening)),
    )


def _tell_finish(finish: str, body: Body, pieces: dict[str, Piece], trace: Trace) -> None:
    waist = body["waist"] + WAIST_EASE
    if finish == "band":
        trace.chalk("waistband", "Cut a straight strip {0} long and {1} wide, folded along its middle: {2} finished, with {3} to overlap.",
                    waist + BAND_OVERLAP, 2 * BAND_DEPTH, BAND_DEPTH, BAND_OVERLAP, marks="waist")
    for name in ("skirt front facing", "skirt back facing") if finish == "facing" else ():
        trace.chalk(name, "Close the darts and lay the pieces edge to edge along the waist; trace the waist, {0}, and a line {1} below it.",
                    pieces[name].edge("waist").path.length(), FACING_DEPTH, marks="waist outer-edge", why="So it meets the skirt's waist edge for edge.")


def _title(spec: GarmentSpec) -> str:
    words = skirt_in_words(spec.options)
    return words[0].upper() + words[1:]


def _body(spec: GarmentSpec) -> Body:
    missing = tuple(key for key in SKIRT.measures if key not in spec.measures)
    if missing:
        raise MissingMeasure(missing)
    measures = {key: value for key, value in spec.measures.items() if key in (*SKIRT.measures, *SKIRT.optional_measures)}
    estimated = frozenset({"waist_to_hip"} - set(measures))
    return Body({"waist_to_hip": 8 * INCH, **measures}, estimated)


def _pieces(rules: Rules, layers: Layers, made: Skirt, lining: Skirt | None, waist: float, finish: str) -> tuple[Piece, ...]:
    pieces = [replace(piece, number=i, cuts=(Cut(layers.outside(piece.name), "shell", piece.pieces_of_a_cloth),))
              for i, piece in enumerate(made.pieces, start=1)]
    ends = {"band": (waistband(rules, waist),), "facing": facings(made, rules), "petersham": ()}[finish]
    for piece in ends:
        cuts = [Cut(layers.outside("skirt front"), "shell", 1 if piece.name == "waistband" else piece.pieces_of_a_cloth)]
        if layers.stayed:
            cuts.append(Cut(layers.cloths["stay"], "stay", cuts[0].count))
        pieces.append(replace(piece, number=len(pieces) + 1, cuts=tuple(cuts)))
    if lining:
        pieces += [layers.lining_of(piece, pieces, remarks=("darts laid as tucks",) if piece.darts else ()) for piece in lining.pieces]
    return _notched(tuple(pieces), made, lining)


def _seams(made: Skirt, lining: Skirt | None, pieces: dict[str, Piece], finish: str) -> tuple[Seam, ...]:
    seams = skirt_seams(pieces)
    if lining:
        seams += skirt_seams(pieces, " lining")
    return (*seams, *finish_seams(finish, made, pieces))


def _girths(made: Skirt, body: Body, q: SkirtQuarters, pieces: dict[str, Piece]) -> tuple[Girth, ...]:
    """The waist is the band's, or else the skirt's own: a circle's, cut under, gives on the bias and is held at the measure."""
    if "waistband" in pieces:
        line = pieces["waistband"].edge("waist").path
        waist = Girth("waist", body["waist"], q.ease_waist, (Stretch("waistband", (line.start, line.end), "extent", 1),))
    else:
        refs = (*waist_refs(pieces, FRONTS), *waist_refs(pieces, BACKS))
        waist = Girth("waist", body["waist"], q.ease_waist - 2 * sum(made.waist_ease), tuple(
            Stretch(name, pieces[name].edge(edge).path.polyline(), "length", 2) for name, edge in refs))
    return waist, hip_girth(made, body, q.ease_hip)


def _notched(pieces: tuple[Piece, ...], made: Skirt, lining: Skirt | None) -> tuple[Piece, ...]:
    by_name = {piece.name: piece for piece in pieces}
    found: dict[str, list[Notch]] = {piece.name: [] for piece in pieces}

    def pair(first, at: float, second, other: float, mark: str = "single") -> None:
        found[first[0]].append(Notch(first[1], at, mark, (*second, other)))
        found[second[0]].append(Notch(second[1], other, mark, (*first, at)))

    notch_skirt(made, by_name, "", pair, found)
    if lining:
        notch_skirt(lining, by_name, " lining", pair, found)
    return tuple(replace(piece, notches=tuple(found[piece.name])) for piece in pieces)
