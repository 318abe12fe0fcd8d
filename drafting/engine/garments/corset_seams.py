"""Seams, notches and finished girths of a panelled corset."""

from __future__ import annotations

from dataclasses import replace

from ..curve import level_both_ends
from ..path import Path
from ..piece import Notch, Piece
from ..point import Point
from ..report import Girth, Stretch
from ..seam import EdgeRef, Seam, dart_seams
from ..tolerance import INCH
from .bustier_gown import ROLL
from .corset import Corset

BUST, UNDER_BUST, WAIST = range(3)
"""A seam's joints, by which of its strokes ends there."""

BESIDE_POINT = 1.5 * INCH
"""Notches on the bust-point seam either side of the bust point. Common practice, no source."""

JOINED = (("front seam", "front", "side front"), ("back seam", "back", "side back"))


def seams_of(corset: Corset, pieces: dict[str, Piece]) -> tuple[Seam, ...]:
    """Return every pair of mated edges: outside, lining, and lining to outside along top and lower edge."""
    seams: list[Seam] = []
    for suffix in ("", " lining") if corset.lining else ("",):
        layer = "lining" if suffix else "outside"
        for name, a, b in _pairs(pieces):
            seams.append(Seam(f"{name}{suffix}", ((f"{a}{suffix}", name),), ((f"{b}{suffix}", name),), 0.0, layer))
        for panel in corset.outside:
            seams += dart_seams(pieces[panel.name], layer, suffix)
    if corset.lining:
        for half in ("front", "back"):
            names = [p.name for p in corset.outside if ("back" in p.name) == (half == "back")]
            top, low = _edges(pieces, names, ("top", "armhole")), _edges(pieces, names, ("lower edge",))
            seams += [Seam(f"top edge, {half} to lining", top, _lined(top), ROLL if half == "front" else 0.0, "lining"),
                      Seam(f"lower edge, {half} to lining", low, _lined(low), 0.0, "lining")]
    return tuple(seams)


def _pairs(pieces: dict[str, Piece]) -> list[tuple[str, str, str]]:
    """Return (edge, piece, piece) for each seam between two outside panels."""
    found = [pair for pair in JOINED if pair[2] in pieces]
    sides = [name for name in ("side front", "front", "side back", "back") if name in pieces and pieces[name].has_edge("side")]
    return [*found, ("side", sides[0], sides[1])]


def _edges(pieces: dict[str, Piece], names: list[str], wanted: tuple[str, ...]) -> tuple[EdgeRef, ...]:
    return tuple((name, e.name) for name in names for e in pieces[name].edges if e.name.rstrip(" 0123456789") in wanted)


def _lined(refs: tuple[EdgeRef, ...]) -> tuple[EdgeRef, ...]:
    return tuple((f"{piece} lining", edge) for piece, edge in refs)


def with_notches(corset: Corset, pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
    """Return the pieces with notches and their mates: at the bust point and beside it, at the waist, at the bust behind."""
    found: dict[str, list[Notch]] = {piece.name: [] for piece in pieces}
    by_name = {piece.name: piece for piece in pieces}
    for suffix in ("", " lining") if corset.lining else ("",):
        for name, a, b in _pairs(by_name):
            first, second = (f"{a}{suffix}", name), (f"{b}{suffix}", name)
            path = by_name[first[0]].edge(name).path
            other = by_name[second[0]].edge(name).path.length()
            down, places = _notch_places(name, path)
            for at, mark in places:
                mine, theirs = (at, _mate(by_name, second, at, other)) if down else (path.length() - at, _mate(by_name, second, at, other))
                found[first[0]].append(Notch(name, mine, mark, (*second, theirs)))
                found[second[0]].append(Notch(name, theirs, mark, (*first, mine)))
    return tuple(replace(piece, notches=tuple(found[piece.name])) for piece in pieces)


def _notch_places(name: str, path: Path) -> tuple[bool, list[tuple[float, str]]]:
    """Return whether the edge is walked down, and the distances from its head at which it is notched."""
    down = path.start.y < path.end.y
    lengths = [stroke.length() for stroke in (path.strokes if down else reversed(path.strokes))]
    bust, waist = lengths[0], sum(lengths[:3])
    total, mark = path.length(), "double" if name == "back seam" else "single"
    places = [bust, waist] if name != "front seam" else [bust - BESIDE_POINT, bust, bust + BESIDE_POINT, waist]
    return down, [(at, mark) for at in places if 0.5 * INCH < at < total - 0.25 * INCH]


def _mate(by_name: dict[str, Piece], ref: EdgeRef, at: float, total: float) -> float:
    path = by_name[ref[0]].edge(ref[1]).path
    return at if path.start.y < path.end.y else total - at


def girths_of(corset: Corset) -> tuple[Girth, ...]:
    """Return bust, under-bust, waist, and the hip or the lower edge above it. Every half goes round twice."""
    q, body, fig = corset.q, corset.body, corset.fig
    girths = [
        Girth("bust", body["bust"], q.ease_bust, _at(corset, BUST), corset.gap),
        Girth("under_bust", body["under_bust"], q.ease_waist, _at(corset, UNDER_BUST), corset.gap),
        Girth("waist", body["waist"], q.ease_waist, _at(corset, WAIST), corset.gap),
    ]
    if not fig.depth:
        return tuple(girths)
    edges = tuple(Stretch(panel.name, path.polyline(), "length", 2) for panel in corset.outside for path in panel.lower)
    if fig.cut >= 1.0:
        return (*girths, Girth("hip", body["hip"], q.ease_hip, edges, corset.gap))
    there = Girth("lower edge", lower_body(corset), 0.0, edges, corset.gap)
    return (*girths, replace(there, ease=there.finished - there.body))


def lower_body(corset: Corset) -> float:
    """Return the body's girth at the lower edge, reckoned between waist and hip as the seams let out."""
    return corset.body["waist"] + (corset.body["hip"] - corset.body["waist"]) * corset.fig.let_out


def lower_ease(corset: Corset) -> float:
    """Return the ease that is meant there, between the waist's and the hip's: less than nothing where the waist is laced in."""
    q = corset.q
    return q.ease_waist + (q.ease_hip - q.ease_waist) * corset.fig.let_out


def _at(corset: Corset, level: int) -> tuple[Stretch, ...]:
    """Return the stretches at a level, from seam to seam as they are drawn. Across the side front it climbs, as its lower edge
    does; at the bust, where the front stands out, its extent counts."""
    y = (corset.q.front.bust, corset.q.front.under_bust, corset.q.front.waist)[level]
    side_y = (corset.q.side.bust, corset.q.side.under_bust, corset.q.side.waist)[level]
    found = []
    for panel in corset.outside:
        behind = "back" in panel.name
        left, right = (_joint(line, level, side_y if behind else y) for line in (panel.left, panel.right))
        if panel.darts and level != BUST:
            inner, outer = (leg.reversed().strokes[level - 1].end for leg in panel.darts[1].legs)
            found += [_level(panel.name, left, inner), _climb(panel.name, outer, right)]
        elif panel.right_name != "side" or behind:
            found.append(_level(panel.name, left, right))
        else:
            found.append(_climb(panel.name, left, right) if level != BUST else _level(panel.name, left, right))
    return tuple(found)


def _joint(line: Path, level: int, y: float) -> Point:
    """Return where a panel's side meets a level: a seam has a joint there, a fold or centre back runs straight through."""
    return line.strokes[level].end if len(line.strokes) > level + 1 or level == WAIST and len(line.strokes) == 3 else Point(line.start.x, y)


def _climb(piece: str, start: Point, end: Point) -> Stretch:
    return Stretch(piece, Path.of(level_both_ends(start, end)).polyline(), "length", 2)


def _level(piece: str, start: Point, end: Point) -> Stretch:
    return Stretch(piece, (start, end), "extent", 2)
