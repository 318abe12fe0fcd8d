"""A piece as its mirror image, still walked clockwise; and as it lies on the cloth for one side of the wearer."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from ..piece import Dart, Dimension, Edge, Mark, Notch, Piece
from ..path import Path
from ..point import Point

HAIR = 0.02
"""Ends of two halves nearer than this (mm) are one point: as much as flattening may miss."""

FREE_GIVES = 6.0
"""A facing's outer edge, which nothing is sewn to, may be led this far (mm) to meet the other half's at the middle."""

_DART = re.compile(r"dart (\d+) ([ab])")
_PART = re.compile(r"(.+) (\d+)")


def is_behind(name: str) -> bool:
    """Tell whether a piece is worn behind."""
    return "back" in name.split() or name.startswith("modesty")


def is_turned(name: str, side: str) -> bool:
    """Tell whether one side's piece is the mirror image of the half that is drafted, as it lies on the cloth right side up.

    Seen from before, the wearer's right is on the left of the picture; from behind, on its right.
    """
    return (side == "left") if is_behind(name) else (side == "right")


def way_up(piece: Piece) -> tuple[str, ...]:
    """Return which side of each cloth is up when a piece of one side is cut: what is turned inside is cut the other way up."""
    if piece.of or piece.group in ("lining", "facing"):
        return ("cut once, the wrong side of the cloth up",)
    roles = {cut.role for cut in piece.cuts}
    inside = (("its lining with the wrong side up",) if "lining" in roles else ()) + (("its stay with the glue up",) if "stay" in roles else ())
    return ("cut once, the right side of the cloth up", *inside)


def flipped(point: Point) -> Point:
    """Return the point on the other side of the middle."""
    return Point(-point.x, point.y)


@dataclass(frozen=True)
class Mirrored:
    """A mirrored piece, and what each edge of the first one is called on it."""

    piece: Piece
    names: Mapping[str, str]


def mirrored(piece: Piece) -> Mirrored:
    """Return the mirror image of a piece. Its edges are walked the other way, so darts and the parts of an edge count anew from
    where the walk now begins; the fold stays last."""
    edges = [*reversed([e for e in piece.edges if e.name != "fold"]), *(e for e in piece.edges if e.name == "fold")]
    names = _renamed([e.name for e in edges], len(piece.darts))
    turned = tuple(replace(e, name=names[e.name], path=e.path.mapped(flipped).reversed()) for e in edges)
    lengths = {e.name: e.path.length() for e in piece.edges}
    darts = tuple(Dart(flipped(d.point), (d.legs[1].mapped(flipped), d.legs[0].mapped(flipped)), d.width) for d in reversed(piece.darts))
    notches = tuple(replace(n, edge=names[n.edge], at=lengths[n.edge] - n.at) for n in piece.notches)
    made = replace(piece, edges=turned, darts=darts, notches=notches, grain=tuple(flipped(p) for p in piece.grain),
                   dimensions=tuple(Dimension(flipped(d.start), flipped(d.end)) for d in piece.dimensions),
                   marks=tuple(Mark(m.kind, flipped(m.start), flipped(m.end)) for m in piece.marks))
    return Mirrored(made, names)


def _renamed(walked: list[str], darts: int) -> dict[str, str]:
    """Return new names for edges in the order in which they are walked now."""
    parts: dict[str, int] = {}
    names = {}
    for name in walked:
        dart, part = _DART.fullmatch(name), _PART.fullmatch(name)
        if dart:
            names[name] = f"dart {darts + 1 - int(dart[1])} {'b' if dart[2] == 'a' else 'a'}"
        elif part:
            parts[part[1]] = parts.get(part[1], 0) + 1
            names[name] = f"{part[1]} {parts[part[1]]}"
        else:
            names[name] = name
    return names


def opened(plain: tuple[str, Piece], turned: tuple[str, Piece]) -> tuple[Piece, dict[str, dict[str, str]]]:
    """Return one piece of two different halves, its middle marked instead of folded, and its edges' names by half.

    Each half comes with its side; the plain one lies where x is positive. Each edge's name says its side, darts are numbered on.
    """
    first, other = plain[1], mirrored(turned[1])
    halves = ((first, {e.name: e.name for e in first.edges}, plain[0], 0), (other.piece, dict(other.names), turned[0], len(first.darts)))
    edges: list[Edge] = []
    notches: list[Notch] = []
    found = {}
    for half, names, side, before in halves:
        said = {e.name: _sided(e.name, side, before) for e in half.edges if e.name != "fold"}
        walk = _from_the_fold(half)
        if half is other.piece:
            walk = _met(walk, first.edge("fold").path)
        edges += [replace(e, name=said[e.name]) for e in walk]
        notches += [replace(n, edge=said[n.edge]) for n in half.notches if n.edge in said]
        found[side] = {then: said[now] for then, now in names.items() if now in said}
    fold = first.edge("fold").path
    piece = replace(
        first, edges=tuple(edges), on_fold=False, notches=tuple(notches), darts=(*first.darts, *other.piece.darts),
        dimensions=(*first.dimensions, *other.piece.dimensions),
        marks=(Mark("centre line", fold.start, fold.end), *first.marks, *other.piece.marks),
    )
    return piece, found


def _met(walk: list[Edge], fold: Path) -> list[Edge]:
    """Return the turned half's edges, from the fold's end round to its start, with both ends laid on the plain half's: flattening
    leaves a facing's outer edge a hair off."""
    first, last = walk[0], walk[-1]
    if first.path.start.distance(fold.start) > _give(first) or last.path.end.distance(fold.end) > _give(last):
        return walk
    begin = Path((replace(first.path.strokes[0], start=fold.start), *first.path.strokes[1:]))
    walk = [replace(first, path=begin), *walk[1:]]
    last = walk[-1]
    return [*walk[:-1], replace(last, path=Path((*last.path.strokes[:-1], replace(last.path.strokes[-1], end=fold.end))))]


def _give(edge: Edge) -> float:
    """Return by how much (mm) an edge's end may be moved to meet the other half's: one that is sewn to nothing may give."""
    return FREE_GIVES if edge.name == "outer edge" else HAIR


def _sided(name: str, side: str, before: int) -> str:
    dart = _DART.fullmatch(name)
    return f"dart {int(dart[1]) + before} {dart[2]}" if dart else f"{name}, {side}"


def _from_the_fold(piece: Piece) -> list[Edge]:
    """Return the edges from the one after the fold to the one before it."""
    at = next(i for i, e in enumerate(piece.edges) if e.name == "fold")
    return [*piece.edges[at + 1:], *piece.edges[:at]]
