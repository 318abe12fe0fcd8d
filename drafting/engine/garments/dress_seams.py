"""Seams, notches and finished girths of a bodice or dress."""

from __future__ import annotations

from dataclasses import replace

from ..path import Path
from ..piece import Notch, Piece
from ..point import Point
from ..report import Girth, Stretch
from ..seam import EdgeRef, Seam, dart_seams, refs
from ..tolerance import INCH
from .dress import Dress
from .dress_closing import opening_below, side_opening
from .dress_lining import DressLining, lining_seams, notch_lining
from .skirt_part import Skirt, hip_girth
from .skirt_seams import BACKS, FRONTS, notch_skirt, skirt_seams, waist_refs
from .sleeve_part import NOTCH_SHARE
from .sleeve_sewn import notch_sleeve, sleeve_notch, sleeve_seams

BESIDE_POINT = 1.5 * INCH
"""Notches on a princess seam either side of the bust point. Common practice, no source."""


def seams_of(dress: Dress, pieces: dict[str, Piece], lining: DressLining | None = None) -> tuple[Seam, ...]:
    """Return every pair of mated edges; the back shoulder and the cap are eased onto what they meet."""
    seams = [
        Seam("shoulder", refs(pieces["back"], "shoulder"), _front(pieces, "shoulder"), dress.shoulder_ease),
        Seam("side", _front(pieces, "side"), refs(pieces["back"], "side")),
    ]
    if dress.panels:
        seams.append(Seam("princess seam", (("front", "princess seam"),), (("side front", "princess seam"),)))
    for piece in pieces.values():
        if piece.of not in (lining.parts if lining else ()):
            seams += dart_seams(piece, "lining" if piece.of else "outside")
    if lining:
        seams += lining_seams(dress, lining, pieces, _front)
    if dress.sleeve:
        seams += sleeve_seams(dress.sleeve, _front(pieces, "armhole"), refs(pieces["back"], "armhole"))
    if "front neck facing" in pieces:
        seams += [Seam(f"neck, {half} facing", ((half, "neck"),), ((f"{half} neck facing", "neck"),)) for half in ("front", "back")]
        seams.append(Seam("shoulder, facings", (("front neck facing", "shoulder"),), (("back neck facing", "shoulder"),)))
    if dress.skirt:
        seams += _skirt_seams(dress.skirt, pieces, "", False)
        if dress.skirt_lining:
            seams += _skirt_seams(dress.skirt_lining, pieces, " lining", dress.closing.stand is not None)
    return tuple(seams)


def _skirt_seams(skirt: Skirt, pieces: dict[str, Piece], suffix: str, stand: bool) -> list[Seam]:
    layer = "lining" if suffix else "outside"
    tops = {name: pieces[f"{name}{suffix}"] for name in ("front", "side front", "back") if f"{name}{suffix}" in pieces}
    lower = "basque edge" if any(edge.name.startswith("basque edge") for edge in tops["back"].edges) else "waist"
    front, back = _front(tops, lower), refs(tops["back"], lower)
    seams = [
        Seam(f"waist, front{suffix}", front, waist_refs(pieces, FRONTS, suffix), skirt.waist_ease[0], layer),
        Seam(f"waist, back{suffix}", back, waist_refs(pieces, BACKS, suffix), skirt.waist_ease[1], layer),
        *skirt_seams(pieces, suffix, darts=False),
    ]
    if suffix and stand:
        del seams[1]  # the lining stops at a button stand's facing: there the skirt's is felled
    return seams


def _front(pieces: dict[str, Piece], name: str) -> tuple[EdgeRef, ...]:
    """Return the edges called `name` on the front and, where it is cut in two, on the side front."""
    return tuple(ref for piece in ("front", "side front") if piece in pieces for ref in refs(pieces[piece], name))


def with_notches(dress: Dress, pieces: tuple[Piece, ...], lining: DressLining | None = None) -> tuple[Piece, ...]:
    """Return the pieces with notches and their mates: armhole and cap, sides, skirt hip, waist."""
    found: dict[str, list[Notch]] = {piece.name: [] for piece in pieces}
    by_name = {piece.name: piece for piece in pieces}

    def pair(first: EdgeRef, at: float, second: EdgeRef, other: float, mark: str = "single") -> None:
        found[first[0]].append(Notch(first[1], at, mark, (*second, other)))
        found[second[0]].append(Notch(second[1], other, mark, (*first, at)))

    outer = "side front" if dress.panels else "front"
    if dress.sleeve:
        notch_sleeve(dress.sleeve, by_name, outer, pair, found)
    else:
        _notch_armholes(by_name, outer, found)
    sides = [by_name[name] for name in (outer, "back")]
    lower = [[e for e in p.edges if e.name == "side" or e.name.startswith("side ")][-1] for p in sides]
    up = min(2.5 * INCH, 0.6 * min(edge.path.length() for edge in lower))
    if dress.basque:
        up = dress.back.below.tail.length()  # where the waist lies
    pair((outer, lower[0].name), lower[0].path.length() - up, ("back", lower[1].name), lower[1].path.length() - up)
    if dress.panels:
        seam = dress.panels.centre_seam
        at, total = seam.strokes[0].length(), seam.length()
        for place in (at - BESIDE_POINT, at, at + BESIDE_POINT):
            pair(("front", "princess seam"), place, ("side front", "princess seam"), total - place)
    side_opening(dress.closing, by_name, outer, pair)
    for suffix, skirt in (("", dress.skirt), (" lining", dress.skirt_lining)):
        if skirt:
            notch_skirt(skirt, by_name, suffix, pair, found)
    if dress.closing.kind == "side-zip" and dress.skirt:
        opening_below(by_name, dress.skirt.opening, found, pair)
    if lining:
        notch_lining(dress, lining, by_name, found)
    return tuple(replace(piece, notches=tuple(found[piece.name])) for piece in pieces)


def _notch_armholes(by_name: dict[str, Piece], outer: str, found: dict[str, list[Notch]]) -> None:
    """Notch the armholes of a sleeveless bodice: front single, back double."""
    arm, back = (by_name[name].edge("armhole").path.length() for name in (outer, "back"))
    found[outer].append(Notch("armhole", arm - min(sleeve_notch(by_name, outer), arm)))
    found["back"].append(Notch("armhole", back - NOTCH_SHARE * back, "double"))


def girths_of(dress: Dress) -> tuple[Girth, ...]:
    """Return bust, waist and, with a skirt, hip: between matched points, every half twice."""
    q, body = dress.q, dress.body
    girths = [
        Girth("bust", body["bust"], q.ease_bust, _bust(dress), dress.closing.gap),
        Girth("waist", body["waist"], q.ease_waist, tuple(
            _along(name, section) for name, block in (("front", dress.front), ("back", dress.back)) for section in block.waist.sections)
            if not dress.panels else (_along("front", dress.panels.waist_centre), _along("side front", dress.panels.waist_side),
                                      *(_along("back", section) for section in dress.back.waist.sections)), dress.closing.gap),
    ]
    if dress.skirt:
        girths.append(hip_girth(dress.skirt, body, q.ease_hip))
    return tuple(girths)


def _bust(dress: Dress) -> tuple[Stretch, ...]:
    q = dress.q
    start, back = Point(0.0, q.front.bust), Stretch("back", (Point(dress.closing.gap / 2, q.side.bust), Point(q.back_bust, q.side.bust)), "extent", 2)
    side = dress.front.side[0]
    if dress.panels:
        out = dress.panels.side.at(q.front.bust - q.front.chest)
        return (Stretch("front", (start, q.bust_point), "extent", 2), Stretch("side front", (q.bust_point, out), "length", 2), back)
    if len(dress.front.shoulder) == 2:
        return (Stretch("front", (start, q.bust_point, side.at(q.front.bust - q.front.chest)), "length", 2), back)
    return (Stretch("front", (start, Point(q.front_bust, min(q.front.bust, side.end.y))), "extent", 2), back)


def _along(piece: str, path: Path) -> Stretch:
    return Stretch(piece, path.polyline(), "length", 2)
