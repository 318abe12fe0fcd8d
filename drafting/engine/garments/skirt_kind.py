"""A skirt alone: straight, A-line, circle or gathered, on a waistband. It asks for two girths and little more."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ..body import Body, estimate_warnings
from ..checks import corner_checks, dart_checks, girth_checks, notch_checks, outline_checks, seam_checks
from ..draft import Draft
from ..errors import ImpossibleMeasure, MissingMeasure
from ..layers import Layers
from ..path import Path
from ..piece import Cut, Dimension, Edge, Notch, Piece
from ..point import Point
from ..report import Figure, Girth, Material, Stretch
from ..rules import BUSTIER_RULES, Rules
from ..seam import Seam
from ..spec import Choice, GarmentSpec, Kind, Option
from ..tolerance import INCH
from ..trace import Step, Trace
from .defaults import with_defaults
from .skirt_options import skirt_in_words, skirt_options
from .skirt_part import Skirt, hip_girth, skirt_part
from .skirt_seams import BACKS, FRONTS, notch_skirt, skirt_corners, skirt_seams, waist_refs
from .skirt_story import prepare_waist, tell_skirt

WAIST_EASE = 1.0 * INCH
"""A skirt on a band is this much easier than the waist. drafting method, section 8: alone (W + 1)/4."""

HIP_EASE = 2.0 * INCH
BAND_DEPTH = 1.25 * INCH
BAND_OVERLAP = 1.25 * INCH

SKIRT_RULES = tuple(rule for rule in BUSTIER_RULES if rule.key in ("seam_allowance", "let_out", "centre_back_allowance", "hem"))

SKIRT = Kind(
    name="skirt", title="Skirt", measures=("waist", "hip"), optional_measures=("waist_to_hip", "height", "knee", "waist_to_knee"),
    options=(*skirt_options(length=26 * INCH),
             Option("closure", "Closes with", (Choice("back-zip", "zip at the centre back"),), "back-zip"),
             Option("lined", "Lined", (Choice(True, "lined"), Choice(False, "not lined")), False)),
    rules=SKIRT_RULES,
    limits=("skirt at least 2 in longer than waist to hip", "a circle wide enough for the hips, its waist no smaller than 1 in in radius"),
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
    levels = SkirtLevels(0.0, depth)
    q = SkirtQuarters(levels, levels, WAIST_EASE, HIP_EASE)
    quarter = (body["waist"] + WAIST_EASE) / 4
    made, found = skirt_part(spec, body, rules, q, (quarter, quarter), 0.0)
    lining = skirt_part(spec, body, rules, q, (quarter, quarter), 0.0, lining=True)[0] if layers.lined else None
    pieces = _pieces(rules, layers, made, lining, body["waist"] + WAIST_EASE)
    by_name = {piece.name: piece for piece in pieces}
    seams, girths = _seams(made, lining, by_name), _girths(made, body, q)
    trace = Trace()
    tell_skirt(made, trace)
    trace.chalk("waistband", "Cut a straight strip {0} long and {1} wide, folded along its middle: {2} finished, with {3} to overlap.",
                body["waist"] + WAIST_EASE + BAND_OVERLAP, 2 * BAND_DEPTH, BAND_DEPTH, BAND_OVERLAP, marks="waist")
    return Draft(
        spec=spec, title=_title(spec),
        summary=f"zip at the centre back, {'lined' if layers.lined else 'not lined'}", body=body, levels=levels, side_levels=levels,
        rules=rules.in_force(), pieces=pieces, seams=seams, girths=girths, bones=(), materials=_materials(made), steps=tuple(trace.steps),
        making=_making(made, lining, rules), warnings=(*warnings, *found, *estimate_warnings(body)),
        checks=tuple(seam_checks(seams, by_name) + girth_checks(girths) + outline_checks(pieces) + notch_checks(pieces)
                     + dart_checks(pieces) + corner_checks(skirt_corners(by_name))),
        toile_only=False, figures=(Figure("sewn in at the side", made.front.side_take), Figure("hem, all round", made.hem_round)),
    )


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


def _pieces(rules: Rules, layers: Layers, made: Skirt, lining: Skirt | None, waist: float) -> tuple[Piece, ...]:
    pieces = [replace(piece, number=i, cuts=(Cut(layers.outside(piece.name), "shell", piece.pieces_of_a_cloth),))
              for i, piece in enumerate(made.pieces, start=1)]
    band = _waistband(rules, waist)
    cuts = [Cut(layers.outside("skirt front"), "shell", 1)]
    if layers.stayed:
        cuts.append(Cut(layers.cloths["stay"], "stay", 1))
    pieces.append(replace(band, number=len(pieces) + 1, cuts=tuple(cuts)))
    if lining:
        pieces += [layers.lining_of(piece, pieces, remarks=("darts laid as tucks",) if piece.darts else ()) for piece in lining.pieces]
    return _notched(tuple(pieces), made, lining)


def _waistband(rules: Rules, waist: float) -> Piece:
    """Draw the band: its `waist` edge is sewn to the skirt; the overlap, its other edge and its ends are not."""
    sa, depth = rules["seam_allowance"], 2 * BAND_DEPTH
    a, b, c = Point(0.0, 0.0), Point(waist + BAND_OVERLAP, 0.0), Point(waist + BAND_OVERLAP, depth)
    d, e = Point(waist, depth), Point(0.0, depth)
    return Piece(
        name="waistband", title="Waistband", seam_allowance=sa, group="skirt",
        edges=(Edge("inner edge", Path.through(a, b), sa), Edge("end", Path.through(b, c), sa), Edge("overlap", Path.through(c, d), sa),
               Edge("waist", Path.through(d, e), sa), Edge("other end", Path.through(e, a), sa)),
        grain=(Point(waist * 0.1, depth / 2), Point(waist * 0.9, depth / 2)),
        dimensions=(Dimension(a, b), Dimension(b, c)), remarks=("fold along the middle",),
    )


def _seams(made: Skirt, lining: Skirt | None, pieces: dict[str, Piece]) -> tuple[Seam, ...]:
    seams = skirt_seams(pieces)
    if lining:
        seams += skirt_seams(pieces, " lining")
    both = waist_refs(pieces, FRONTS) + waist_refs(pieces, BACKS)
    return (*seams, Seam("waistband", (("waistband", "waist"),), (*both, *both), 2 * sum(made.waist_ease)))


def _girths(made: Skirt, body: Body, q: SkirtQuarters) -> tuple[Girth, ...]:
    waist = body["waist"] + WAIST_EASE
    return (
        Girth("waist", body["waist"], q.ease_waist, (Stretch("waistband", (Point(waist, 2 * BAND_DEPTH), Point(0.0, 2 * BAND_DEPTH)), "extent", 1),)),
        hip_girth(made, body, q.ease_hip),
    )


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


def _making(made: Skirt, lining: Skirt | None, rules: Rules) -> tuple[Step, ...]:
    steps: list[Step] = []

    def add(text: str, *figures: float) -> None:
        steps.append(Step("", text, figures))

    add("Thread-mark darts, fold line and notches before the paper comes off. Stiffen the waistband.")
    if any(piece.darts for piece in made.pieces):
        add("Darts: stitch from the waist to nothing, press toward the centre.")
    add("Side seams, {0}: baste for the fitting, keep the let-out of {1}; then stitch and press open.", made.front.side.length(), rules["let_out"])
    add("Centre back from the opening ({0} below the waist) to the hem; zip into the opening.", made.opening)
    if made.vent:
        add("Leave the vent open {0} above the hem; face its edges, reinforce its top.", made.vent)
    if lining:
        add("Make up the lining, its darts laid as tucks; baste it to the skirt along the waist.")
    prepare_waist(made, add)
    add("Waistband to the waist, its overlap at the wearer's left back; turn it over the seam and fell it down. Hook and bar.")
    add("Hang the skirt a day, level the hem at {0} from the waist, turn up {1} and sew it by hand.", made.length,
        made.pieces[0].edge("hem").allowance)
    return tuple(steps)


def _materials(made: Skirt) -> tuple[Material, ...]:
    return (Material("zip", made.opening, "mm", 1), Material("hook and bar", 1, "pieces", 1), Material("thread", 1, "reels", 1))
