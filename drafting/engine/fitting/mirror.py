"""A piece as it is cut for the wearer's left: the mirror image, still walked clockwise."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from ..piece import Dart, Dimension, Edge, Mark, Notch, Piece
from ..path import Path
from ..point import Point

HAIR = 0.02
"""Ends of two halves nearer than this (mm) are one point: as much as flattening may miss."""

_DART = re.compile(r"dart (\d+) ([ab])")
_PART = re.compile(r"(.+) (\d+)")


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


def opened(right: Piece, left: Piece) -> tuple[Piece, dict[str, str], dict[str, str]]:
    """Return one piece of two different halves, its middle marked instead of folded, and its edges' names by half.

    The right half lies where x is positive, as the wearer stands; each edge's name says its half, darts are numbered on.
    """
    other = mirrored(left)
    halves = ((right, {e.name: e.name for e in right.edges}, "right", 0), (other.piece, dict(other.names), "left", len(right.darts)))
    edges: list[Edge] = []
    notches: list[Notch] = []
    found = []
    for half, names, side, before in halves:
        said = {e.name: _sided(e.name, side, before) for e in half.edges if e.name != "fold"}
        walk = _from_the_fold(half)
        if side == "left":
            walk = _met(walk, right.edge("fold").path)
        edges += [replace(e, name=said[e.name]) for e in walk]
        notches += [replace(n, edge=said[n.edge]) for n in half.notches if n.edge in said]
        found.append({first: said[now] for first, now in names.items() if now in said})
    fold = right.edge("fold").path
    piece = replace(
        right, edges=tuple(edges), on_fold=False, notches=tuple(notches), darts=(*right.darts, *other.piece.darts),
        dimensions=(*right.dimensions, *other.piece.dimensions),
        marks=(Mark("centre line", fold.start, fold.end), *right.marks, *other.piece.marks),
        remarks=(*right.remarks, "left and right differ: cut once, right side of the cloth up"),
    )
    return piece, found[0], found[1]


def _met(walk: list[Edge], fold: Path) -> list[Edge]:
    """Return a left half's edges, from the fold's start round to its end, with both ends laid on the right half's: flattening
    leaves a facing's outer edge a hair off."""
    first, last = walk[0], walk[-1]
    if max(first.path.start.distance(fold.start), last.path.end.distance(fold.end)) > HAIR:
        return walk
    begin = Path((replace(first.path.strokes[0], start=fold.start), *first.path.strokes[1:]))
    walk = [replace(first, path=begin), *walk[1:]]
    last = walk[-1]
    return [*walk[:-1], replace(last, path=Path((*last.path.strokes[:-1], replace(last.path.strokes[-1], end=fold.end))))]


def _sided(name: str, side: str, before: int) -> str:
    dart = _DART.fullmatch(name)
    return f"dart {int(dart[1]) + before} {dart[2]}" if dart else f"{name}, {side}"


def _from_the_fold(piece: Piece) -> list[Edge]:
    """Return the edges from the one after the fold to the one before it."""
    at = next(i for i, e in enumerate(piece.edges) if e.name == "fold")
    return [*piece.edges[at + 1:], *piece.edges[:at]]
