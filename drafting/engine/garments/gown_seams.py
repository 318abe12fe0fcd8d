"""The gown's seams as data, and the notches that show how they meet."""

from __future__ import annotations

from dataclasses import replace

from ..blocks.cups import Cups
from ..piece import Notch, Piece
from ..seam import EdgeRef, Seam, dart_seams
from ..tolerance import INCH
from .bustier_gown import ROLL, Gown, Top
from .dress_closing import opening_below
from .skirt_part import Skirt
from .skirt_seams import BACKS, FRONTS, notch_skirt, skirt_seams, waist_at_side, waist_refs

LEAST_BELOW = 0.25 * INCH
"""A waist nearer to the edge than this needs no notch of its own. Judgement."""

BESIDE_POINT = 1.5 * INCH
"""Notches on a cup seam either side of the bust point, where the curve must be eased a little. Common practice."""


def seams_of(gown: Gown) -> tuple[Seam, ...]:
    """Return every pair of edges that are sewn to each other, outside, lining, and lining to outside."""
    seams = _layer(gown, gown.outside, gown.skirt, "")
    if gown.straps:
        seams.append(Seam("strap", (("strap", "long edge"),), (("strap", "other long edge"),)))
    if gown.facings:
        seams += _facing_seams(gown)
    if gown.lining:
        seams += _layer(gown, gown.lining, gown.skirt_lining, " lining")
        if not gown.yoke:
            seams += _rolled(gown)
    return tuple(seams)


def _layer(gown: Gown, top: Top, skirt: Skirt | None, suffix: str) -> list[Seam]:
    layer = "lining" if suffix else "outside"
    bands, outer = [p.name for p in top.band.pieces], top.cups.over_bust.name
    seams = [
        Seam(f"cup seam{suffix}", (_ref("centre cup", suffix, "cup seam"),), (_ref(outer, suffix, "cup seam"),), 0.0, layer),
        Seam(f"under-bust{suffix}", tuple(_ref(cup.name, suffix, "under-bust") for cup in top.cups.pieces),
             tuple((name, "under-bust") for name in bands), 0.0, layer),
        Seam(f"side, top{suffix}", (_ref("side cup", suffix, "side"), (bands[-1], "side")), (_ref("back", suffix, "side"),),
             0.0, layer),
    ]
    if top.cups.middle:
        seams.insert(1, Seam(f"side cup seam{suffix}", (_ref("middle cup", suffix, "side cup seam"),),
                             (_ref("side cup", suffix, "side cup seam"),), 0.0, layer))
    if len(bands) == 2 and not suffix:
        seams.append(Seam("band seam", ((bands[0], "band seam"),), ((bands[1], "band seam"),)))
    seams += dart_seams(top.back.piece, layer, suffix)
    if gown.yoke:
        seams += _yoke_seams(gown, suffix, layer)
    if skirt:
        pieces = {f"{p.name}{suffix}": p.renamed(f"{p.name}{suffix}", p.title) for p in skirt.pieces}
        lower = top.band.lower_edge
        back = tuple((f"back{suffix}", edge.name) for edge in top.back.lower_edges)
        seams += [
            Seam(f"{lower}, front{suffix}", tuple((name, lower) for name in bands), waist_refs(pieces, FRONTS, suffix), skirt.waist_ease[0], layer),
            Seam(f"{lower}, back{suffix}", back, waist_refs(pieces, BACKS, suffix), skirt.waist_ease[1], layer),
            *skirt_seams(pieces, suffix),
        ]
    return seams


def _yoke_seams(gown: Gown, suffix: str, layer: str) -> list[Seam]:
    """The yoke on the cups (a lining's cups are an eighth narrower: the yoke is eased onto them) and on the back."""
    cups = tuple(_ref(cup.name, suffix, "top") for cup in gown.outside.cups.pieces)
    lower = cups if gown.yoke.on_fold else cups[1:]
    return [Seam(f"yoke seam{suffix}", (("yoke", "yoke seam"),), lower, ROLL if suffix else 0.0, layer),
            Seam(f"shoulder{suffix}", (("yoke", "shoulder"),), (_ref("back", suffix, "shoulder"),), 0.0, layer)]


def _rolled(gown: Gown) -> list[Seam]:
    """The lining's top edge against the outside's: an eighth shorter over each side cup, so that it rolls inward."""
    front = (*((cup.name, "top") for cup in gown.outside.cups.pieces), ("side cup", "armhole"))
    lined = tuple((f"{piece} lining", edge) for piece, edge in front)
    back = (("back", "top"), ("back", "armhole"))
    return [Seam("top edge, front to lining", front, lined, ROLL, "lining"),
            Seam("top edge, back to lining", back, tuple((f"{p} lining", e) for p, e in back), 0.0, "lining")]


def _facing_seams(gown: Gown) -> list[Seam]:
    """The facings to each other and to the top edge."""
    cups, seams = gown.outside.cups, []
    for name, one, other in (("cup seam", cups.centre, cups.over_bust), ("side cup seam", cups.middle, cups.side),
                             ("side", cups.side, gown.outside.back.piece)):
        if one:
            seams.append(Seam(f"{name}, facings", ((f"{one.name} facing", name),), ((f"{other.name} facing", name),)))
    front = (*((cup.name, "top") for cup in cups.pieces), ("side cup", "armhole"))
    back = (("back", "top"), ("back", "armhole"))
    return seams + [Seam(f"top edge, {half} facing", edges, tuple((f"{piece} facing", edge) for piece, edge in edges))
                    for half, edges in (("front", front), ("back", back))]


def _ref(piece: str, suffix: str, edge: str) -> EdgeRef:
    return (f"{piece}{suffix}", edge)


def with_notches(gown: Gown, pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
    """Return the pieces with their notches, each with its mate on the edge that it meets."""
    found: dict[str, list[Notch]] = {piece.name: [] for piece in pieces}
    by_name = {piece.name: piece for piece in pieces}
    for suffix in ("", " lining") if gown.lining else ("",):
        _notch_cups(gown.outside.cups, by_name, suffix, found)
        _notch_top_side(gown, by_name, suffix, found)
        if gown.skirt:
            _notch_skirt(gown, by_name, suffix, found)
    if gown.side_opening and gown.skirt:
        opening_below(by_name, gown.skirt.opening, found, lambda *ends: _pair(found, *ends))
    if gown.yoke:
        _notch_yoke(gown, by_name, found)
    if gown.straps:
        found["back"].append(Notch("top", gown.straps.behind.x - by_name["back"].edge("top").path.start.x))
    at = gown.outside.band.cup_seam_at
    if len(gown.outside.band.pieces) == 1:
        found["band"].append(Notch("under-bust", at))
    return tuple(replace(piece, notches=tuple(found[piece.name])) for piece in pieces)


def _pair(found, first: EdgeRef, at: float, second: EdgeRef, at_second: float, mark: str = "single") -> None:
    found[first[0]].append(Notch(first[1], at, mark, (*second, at_second)))
    found[second[0]].append(Notch(second[1], at_second, mark, (*first, at)))


def _notch_cups(cups: Cups, by_name, suffix: str, found) -> None:
    centre, side = (f"centre cup{suffix}", "cup seam"), (f"{cups.over_bust.name}{suffix}", "cup seam")
    seam = by_name[centre[0]].edge("cup seam").path
    to_point, total = seam.strokes[0].length(), seam.length()
    for at in (to_point - BESIDE_POINT, to_point, to_point + BESIDE_POINT):
        if 0.5 * INCH < at < total - 0.5 * INCH:
            _pair(found, centre, at, side, total - at)
    if cups.middle:
        middle, outer = (f"middle cup{suffix}", "side cup seam"), (f"side cup{suffix}", "side cup seam")
        seam = by_name[middle[0]].edge("side cup seam").path
        _pair(found, middle, seam.strokes[0].length(), outer, seam.length() - seam.strokes[0].length(), "double")


def _notch_yoke(gown: Gown, by_name, found) -> None:
    """The armhole's pitch: one notch in front, two behind; and, on a full yoke, where the cup seam meets it."""
    arm, whole = gown.yoke.edge("armhole").path, gown.front_hole.path
    at = whole.strokes[0].length()
    if at < arm.length():
        found["yoke"].append(Notch("armhole", at))
    back = by_name["back"].edge("armhole").path
    found["back"].append(Notch("armhole", back.strokes[0].length(), "double"))
    if gown.yoke.on_fold:
        outer = gown.outside.cups.pieces[1:]
        found["yoke"].append(Notch("yoke seam", sum(by_name[cup.name].edge("top").path.length() for cup in outer)))


def _notch_top_side(gown: Gown, by_name, suffix: str, found) -> None:
    side, back = (f"side cup{suffix}", "side"), (f"back{suffix}", "side")
    path = by_name[side[0]].edge("side").path
    _pair(found, side, path.strokes[0].length(), back, path.strokes[0].length())
    found[back[0]].append(Notch("side", path.length()))
    if gown.basque:
        below = path.length() + _to_waist(gown)
        band = gown.outside.band.pieces[-1].name
        if gown.basque.side > LEAST_BELOW:
            found[back[0]].append(Notch("side", below))
            if not suffix:
                found[band].append(Notch("side", below - path.length()))


def _to_waist(gown: Gown) -> float:
    """How far down the band's side the waist lies; the back's lies as far below its under-bust notch, for their tails are alike."""
    return gown.outside.band.side_length - gown.outside.band.basque.tail_length


def _notch_skirt(gown: Gown, by_name, suffix: str, found) -> None:
    def pair(first: EdgeRef, at: float, second: EdgeRef, at_second: float, mark: str = "single") -> None:
        _pair(found, first, at, second, at_second, mark)

    notch_skirt(gown.skirt, by_name, suffix, pair, found)
    band = gown.outside.band.pieces[-1].name
    for top, half, mark in ((band, FRONTS, "single"), (f"back{suffix}", BACKS, "double")):
        upper = next(e.name for e in by_name[top].edges if e.name.startswith(("waist", "basque edge")))
        skirt, lower = waist_at_side(by_name, half, suffix)
        lengths = by_name[top].edge(upper).path.length(), by_name[skirt].edge(lower).path.length()
        at = min(2 * INCH, 0.6 * min(lengths))
        if top == band and suffix:
            found[skirt].append(Notch(lower, lengths[1] - at, mark))
        else:
            _pair(found, (top, upper), at, (skirt, lower), lengths[1] - at, mark)
