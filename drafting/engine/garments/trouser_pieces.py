"""The pieces, seams, notches, girths and corners of plain trousers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from ..blocks.skirt_pieces import waist_edges
from ..blocks.trousers import BACK_STRETCHED, Leg, draw_legs
from ..layers import Layers
from ..offset import Finish
from ..path import Path
from ..piece import Cut, Dimension, Edge, Mark, Notch, Piece
from ..point import Point
from ..report import Girth, Stretch
from ..rules import Rules
from ..seam import Seam, dart_seams
from ..tolerance import INCH
from ..trouser_figures import TrouserFigures
from ..zips import SKIRT_ZIP
from .skirt_finish import waistband

NAMES = ("trousers front", "trousers back")
SEAT_NOTCH = 2.0 * INCH
"""The notches on the crotch seams lie this far below the hip line, double behind. Judgement."""


FLY = 1.5 * INCH
"""A fly's facing, and its shield, folded, are so wide. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Trousers:
    """Both drawn halves, and how far they open below the waist, at the `place`: side, back or front (a fly)."""

    figures: TrouserFigures
    front: Leg
    back: Leg
    opening: float
    place: str


def draw_trousers(figures: TrouserFigures, waist: float, hip: float, *, place: str) -> Trousers:
    """Draw both halves; the opening passes the hips (finished waist + 2z at least hip + 1 in) and ends above the fork, at a centre above
    its curve."""
    front, back = draw_legs(figures)
    most = min({"front": front.straight, "back": back.straight}.get(place, figures.levels.fork), figures.levels.fork - 3 * INCH)
    opening = min(max(SKIRT_ZIP, (hip + INCH - waist) / 2), most)
    return Trousers(figures, front, back, opening, place)


def trouser_pieces(made: Trousers, rules: Rules, layers: Layers, waist: float) -> tuple[Piece, ...]:
    """Return front, back and waistband, numbered, with their notches."""
    band = waistband(rules, waist)
    band = replace(band, group="trousers", cuts=(Cut(layers.outside("waistband"), "shell", 1),
                                                 *((Cut(layers.cloths["stay"], "stay", 1),) if layers.stayed else ())))
    halves = [replace(_piece(made, leg, name, rules), cuts=(Cut(layers.outside(name), "shell", 2),))
              for leg, name in ((made.front, NAMES[0]), (made.back, NAMES[1]))]
    fly = fly_pieces(made.opening, rules, layers) if made.place == "front" else ()
    return _notched(made, tuple(replace(p, number=i) for i, p in enumerate((*halves, band, *fly), start=1)))


def fly_pieces(opening: float, rules: Rules, layers: Layers) -> tuple[Piece, Piece]:
    """Draw a fly's facing, for the front that laps over, and the shield that lies behind its zip: folded, an inch longer than that."""
    shield = replace(_strip("fly shield", 2 * FLY, opening + INCH, rules, layers), remarks=("fold along the middle",))
    middle = Point(FLY, 0.0), Point(FLY, opening + INCH)
    return (replace(_strip("fly facing", FLY, opening, rules, layers), remarks=("for the wearer's right", "round its lower outer corner")),
            replace(shield, marks=(Mark("fold line", *middle),)))


def _strip(name: str, width: float, deep: float, rules: Rules, layers: Layers) -> Piece:
    sa = rules["seam_allowance"]
    a, b, c, d = Point(0.0, 0.0), Point(width, 0.0), Point(width, deep), Point(0.0, deep)
    return Piece(
        name=name, title=name.capitalize(), seam_allowance=sa, group="trousers", cuts=(Cut(layers.outside(name), "shell", 1),),
        edges=(Edge("end", Path.through(a, b), sa), Edge("outer edge", Path.through(b, c), sa), Edge("other end", Path.through(c, d), sa),
               Edge("inner edge", Path.through(d, a), sa)),
        grain=(Point(width * 0.25, 0.15 * deep), Point(width * 0.25, 0.85 * deep)), dimensions=(Dimension(a, b), Dimension(b, c)),
    )


def _piece(made: Trousers, leg: Leg, name: str, rules: Rules) -> Piece:
    sa, levels = rules["seam_allowance"], made.figures.levels
    waist, darts = waist_edges(leg.waist.sections, leg.waist.darts, sa)
    return Piece(
        name=name, title=name.capitalize(), seam_allowance=sa, group="trousers", darts=darts,
        edges=(*waist, Edge("side", leg.side, rules["let_out"], Finish.LET_OUT), Edge("hem", leg.hem.reversed(), rules["hem"], Finish.HEM),
               Edge("inside leg", leg.inside.reversed(), sa), *_centre(made, leg, name, rules)),
        grain=(Point(0.0, levels.hip + 0.1 * (levels.hem - levels.hip)), Point(0.0, levels.hem - 0.15 * (levels.hem - levels.hip))),
        dimensions=(Dimension(leg.waist.sections[0].start, leg.waist.end), Dimension(*leg.hip_line), Dimension(leg.hem.start, leg.hem.end),
                    Dimension(leg.inside.start, leg.inside.end)),
        remarks=("stretch the inside leg above the notch",) if name == NAMES[1] else (),
    )


def _centre(made: Trousers, leg: Leg, name: str, rules: Rules) -> tuple[Edge, ...]:
    """Return the crotch seam from fork to waist; its upper part stays open for a zip at the back, or for a fly."""
    sa, path = rules["seam_allowance"], leg.crotch
    seam, half = ("crotch seam", "front") if name == NAMES[0] else ("seat seam", "back")
    if made.place != half:
        return (Edge(seam, path.reversed(), sa),)
    upper, lower = (part.reversed() for part in path.split_at(made.opening))
    if half == "front":
        return Edge(seam, lower, sa), Edge("centre front", upper, sa)
    return Edge(seam, lower, sa), Edge("centre back", upper, rules["centre_back_allowance"])


def trouser_seams(made: Trousers, pieces: Mapping[str, Piece]) -> tuple[Seam, ...]:
    """Return every seam; the back's inside leg is stretched onto the front's."""
    front, back = NAMES
    waists = tuple((name, e.name) for name in NAMES for e in pieces[name].edges if e.name.startswith("waist"))
    return (
        *(seam for name in NAMES for seam in dart_seams(pieces[name], "outside")),
        Seam("side, trousers", ((front, "side"),), ((back, "side"),)),
        Seam("inside leg", ((front, "inside leg"),), ((back, "inside leg"),), BACK_STRETCHED),
        Seam("crotch seam", ((front, "crotch seam"),), ((front, "crotch seam"),)),
        Seam("seat seam", ((back, "seat seam"),), ((back, "seat seam"),)),
        Seam("waistband", (("waistband", "waist"),), (*waists, *waists)),
    )


def _notched(made: Trousers, pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
    by_name, found = {p.name: p for p in pieces}, {p.name: [] for p in pieces}
    front, back = NAMES

    def pair(edge: str, at: float, other: float) -> None:
        found[front].append(Notch(edge, at, "single", (back, edge, other)))
        found[back].append(Notch(edge, other, "single", (front, edge, at)))

    for leg_stroke in (0, 1):
        at = sum(stroke.length() for stroke in made.front.side.strokes[:leg_stroke + 1])
        pair("side", at, at)
    if made.place == "side":
        pair("side", made.opening, made.opening)
    below = made.front.inside.strokes[1].length()
    pair("inside leg", below, made.back.inside.strokes[1].length())
    for name, edge, mark in ((front, "crotch seam", "single"), (back, "seat seam", "double")):
        leg = made.front if name == front else made.back
        level = made.figures.levels.hip + min(SEAT_NOTCH, 0.4 * (made.figures.levels.fork - made.figures.levels.hip))
        path = by_name[name].edge(edge).path
        at = path.length() - (leg.crotch.distance_at_level(level) - (leg.crotch.length() - path.length()))
        found[name].append(Notch(edge, at, mark, (name, edge, at)))
    return tuple(replace(p, notches=tuple(found[p.name])) for p in pieces)


def trouser_girths(made: Trousers, pieces: Mapping[str, Piece], waist: float, hip: float) -> tuple[Girth, ...]:
    """Return waist (the band's) and hip, the latter looser than meant where the waist is larger."""
    line, f = pieces["waistband"].edge("waist").path, made.figures
    widths = 2 * sum(leg.hip_line[1].x - leg.hip_line[0].x for leg in (made.front, made.back))
    return (
        Girth("waist", waist, f.ease_waist, (Stretch("waistband", (line.start, line.end), "extent", 1),)),
        Girth("hip", hip, max(f.ease_hip, widths - hip), tuple(Stretch(name, leg.hip_line, "extent", 2) for name, leg in
                                                               zip(NAMES, (made.front, made.back), strict=True))),
    )


def trouser_corners(pieces: Mapping[str, Piece]):
    """Yield the corners that run on across the seams: waist, hem, fork, darts and the centres."""
    front, back = (pieces[name] for name in NAMES)
    waists = [[e.name for e in p.edges if e.name.startswith("waist")] for p in (front, back)]
    yield "waist at the side", ((front, waists[0][-1], "side"), (back, waists[1][-1], "side"))
    yield "hem at the side", ((front, "side", "hem"), (back, "side", "hem"))
    yield "hem at the inside leg", ((front, "hem", "inside leg"), (back, "hem", "inside leg"))
    yield "crotch at the fork", ((front, "inside leg", "crotch seam"), (back, "inside leg", "seat seam"))
    yield "waist at the centre front", ((front, front.edges[-1].name, waists[0][0]),)
    yield "waist at the centre back", ((back, back.edges[-1].name, waists[1][0]),)
    for piece in (front, back):
        for i in range(1, len(piece.darts) + 1):
            yield f"waist over dart {i}, {piece.name}", ((piece, f"waist {i}", f"dart {i} a"), (piece, f"dart {i} b", f"waist {i + 1}"))
