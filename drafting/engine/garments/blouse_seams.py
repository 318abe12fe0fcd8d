"""Seams, notches and finished girths of a blouse."""

from __future__ import annotations

from dataclasses import replace

from ..piece import Notch, Piece
from ..point import Point
from ..report import Girth, Stretch
from ..seam import EdgeRef, Seam, dart_seams, refs
from ..tolerance import INCH
from .blouse import Blouse
from .blouse_pieces import UNDER
from .sleeve_part import NOTCH_SHARE
from .sleeve_sewn import drawn_length, notch_sleeve, sleeve_seams


def seams_of(blouse: Blouse, pieces: dict[str, Piece]) -> tuple[Seam, ...]:
    """Return every pair of mated edges; the back shoulder and the cap are eased onto what they meet."""
    front, back = pieces["front"], pieces["back"]
    seams = [
        Seam("shoulder", refs(back, "shoulder"), refs(front, "shoulder"), blouse.shoulder_ease),
        Seam("side", refs(front, "side"), refs(back, "side")),
        *(seam for piece in pieces.values() for seam in dart_seams(piece, "outside")),
    ]
    if blouse.sleeve:
        seams += sleeve_seams(blouse.sleeve, refs(front, "armhole"), refs(back, "armhole"))
    return (*seams, *_facing_seams(blouse, pieces), *_collar_seams(blouse))


def _facing_seams(blouse: Blouse, pieces: dict[str, Piece]) -> list[Seam]:
    fronts: tuple[EdgeRef, ...] = (("front", "neck lap"), ("front", "neck"))
    if blouse.cut_on:
        seams = [Seam("neck, front facing", (("front", "facing neck lap"), ("front", "facing neck")), fronts)]
        shoulder: EdgeRef = ("front", "facing shoulder")
    else:
        seams = [Seam("front edge", (("front", "front edge"),), (("front facing", "front edge"),)),
                 Seam("neck, front facing", (("front facing", "neck lap"), ("front facing", "neck")), fronts)]
        shoulder = ("front facing", "shoulder")
    if "back neck facing" in pieces:
        seams += [Seam("neck, back facing", (("back neck facing", "neck"),), (("back", "neck"),)),
                  Seam("shoulder, facings", (shoulder,), (("back neck facing", "shoulder"),))]
    return seams


def _collar_seams(blouse: Blouse) -> list[Seam]:
    if blouse.collar is None:
        return []
    name, outer = ("collar stand", "top") if blouse.collar.kind == "stand" else ("flat collar", "outer edge")
    neck: tuple[EdgeRef, ...] = (("back", "neck"), ("front", "neck"))
    if blouse.collar.kind == "stand":
        neck = (*neck, ("front", "neck lap"))
    under = UNDER[name]
    return [Seam("collar", tuple((name, edge) for edge in (outer, "end")), tuple((under, edge) for edge in (outer, "end"))),
            Seam("collar to the neck", ((name, "neck"),), neck), Seam("under collar to the neck", ((under, "neck"),), neck)]


def with_notches(blouse: Blouse, pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
    """Return the pieces with notches and their mates: armhole and cap, waist and hip on the side, collar and facing."""
    found: dict[str, list[Notch]] = {piece.name: [] for piece in pieces}
    by_name = {piece.name: piece for piece in pieces}

    def pair(first: EdgeRef, at: float, second: EdgeRef, other: float, mark: str = "single") -> None:
        found[first[0]].append(Notch(first[1], at, mark, (*second, other)))
        found[second[0]].append(Notch(second[1], other, mark, (*first, at)))

    front, back = by_name["front"], by_name["back"]
    if blouse.sleeve:
        notch_sleeve(blouse.sleeve, by_name, "front", pair, found)
    else:
        arm, arm_back = (piece.edge("armhole").path.length() for piece in (front, back))
        found["front"].append(Notch("armhole", arm * (1 - NOTCH_SHARE)))
        found["back"].append(Notch("armhole", arm_back * (1 - NOTCH_SHARE), "double"))
    fore, aft = (refs(piece, "side")[-1][1] for piece in (front, back))
    lengths = [piece.edge(name).path.length() for piece, name in ((front, fore), (back, aft))]
    strokes = back.edge(aft).path.strokes
    hem_up = strokes[-1].length() if blouse.below.to_hem - blouse.below.to_hip > 0.1 else 0.0
    waist_up = hem_up + strokes[-2 if hem_up else -1].length()
    for up in (waist_up, hem_up) if hem_up > INCH else (waist_up,):
        pair(("front", fore), lengths[0] - up, ("back", aft), lengths[1] - up)
    _notch_collar(blouse, by_name, pair, found)
    if not blouse.cut_on:
        found["front"].append(Notch("hem", front.edge("hem").path.length() - blouse.stand.width))
    return tuple(replace(piece, notches=tuple(found[piece.name])) for piece in pieces)


def _notch_collar(blouse: Blouse, by_name: dict[str, Piece], pair, found: dict[str, list[Notch]]) -> None:
    """Notch the collar where it crosses the shoulder seam and, on a stand, at the centre front."""
    collar = blouse.collar
    if collar is None:
        return
    name = "flat collar" if collar.kind == "flat" else "collar stand"
    whole = collar.neck.length()
    end = drawn_length(by_name["back"].edge("neck").path)
    at = collar.shoulder if collar.kind == "flat" else whole - collar.shoulder
    pair((name, "neck"), at, ("back", "neck"), end)
    found[UNDER[name]].append(Notch("neck", at))
    if collar.kind == "stand":
        pair((name, "neck"), whole - collar.centre, ("front", "neck"), 0.0)
        found[UNDER[name]].append(Notch("neck", whole - collar.centre))


def girths_of(blouse: Blouse) -> tuple[Girth, ...]:
    """Return bust, waist and hip: from the centre lines to the side, between the darts, every half twice."""
    q, body, below = blouse.q, blouse.body, blouse.below
    ends = [block.side[-1].end for block in (blouse.front, blouse.back)]
    hips = [Point(end.x, end.y - (below.to_hem - below.to_hip)) for end in ends]
    return (
        Girth("bust", body["bust"], q.ease_bust, _bust(blouse)),
        Girth("waist", body["waist"], q.ease_waist, (*_waist("front", q.front.waist, q.front_bust - q.front_side, blouse.front_darts, blouse.front.waist.end),
                                                     *_waist("back", q.side.waist, q.back_bust - q.back_side, blouse.back_darts, blouse.back.waist.end))),
        Girth("hip", body["hip"], below.ease_hip, (
            Stretch("front", (Point(0.0, q.front.waist + below.to_hip), hips[0]), "extent", 2),
            Stretch("back", (Point(0.0, q.side.waist + below.to_hip), hips[1]), "extent", 2))),
    )


def _waist(piece: str, y: float, side: float, darts, end: Point) -> list[Stretch]:
    """Return the waist between centre, darts and side; the last stretch ends where truing left the side's waist."""
    starts = [Point(0.0, y), *(dart.outer for dart in darts)]
    stops = [*(dart.inner for dart in darts), Point(side, end.y)]
    return [Stretch(piece, (start, stop), "extent", 2) for start, stop in zip(starts, stops, strict=True)]


def _bust(blouse: Blouse) -> tuple[Stretch, ...]:
    q, side = blouse.q, blouse.front.side[0]
    start, back = Point(0.0, q.front.bust), Stretch("back", (Point(0.0, q.side.bust), Point(q.back_bust, q.side.bust)), "extent", 2)
    if len(blouse.front.shoulder) == 2:
        return (Stretch("front", (start, q.bust_point, side.at(q.front.bust - q.front.chest)), "length", 2), back)
    low = q.front.bust if len(blouse.front.side) == 1 else min(q.front.bust, side.end.y)
    return (Stretch("front", (start, Point(q.front_bust, low)), "extent", 2), back)
