"""Lines and outlines of a result's piece, as they lie when it is held against another: mirrored, or opened out from its fold."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from shapely import LineString, Polygon, get_x, get_y, line_interpolate_point

from .tolerance import SLIVER

XY = tuple[float, float]
Piece = Mapping[str, Any]

EVERY = 10.0
"""Edges are compared at points no farther apart than this, mm: between them a drafted curve strays by less than a hair."""

ONE_LINE = {"vent": "centre back", "waist under lacing": "waist"}
"""Edges that lie in one line with another: where one ends and the other begins is a notch, not a shape."""


def edges_of(piece: Piece, *, mirror: bool = False, opened: bool = False) -> dict[str, list[list[XY]]]:
    """Return the lines of each edge by its plain name (waist for waist 1, waist 2 and waist, left), all darts together; the fold is none."""
    found: dict[str, list[list[XY]]] = {}
    for edge in piece["edges"]:
        name = plain_edge(edge["name"])
        if name == "fold":
            continue
        line = [(-x if mirror else x, y) for x, y in edge["line"]]
        found.setdefault(name, [])
        if mirror:  # the walk round a mirror image is turned about, so that it is clockwise again
            found[name].insert(0, line[::-1])
        else:
            found[name].append(line)
        if opened:
            found[name].append([(-x, y) for x, y in reversed(line)])
    return found


def plain_edge(name: str) -> str:
    """Return an edge's plain name: “waist” for “waist 2” and “waist, left”, “darts” for the legs of any."""
    plain = "darts" if name.startswith("dart ") else name.partition(", ")[0].rstrip(" 0123456789")
    return ONE_LINE.get(plain, plain)


def opened_out(ring: Sequence[XY]) -> list[XY]:
    """Return a ring with its mirror image across the fold (x = 0): the half's points off the fold, there and back."""
    off = [i for i, (x, _) in enumerate(ring) if abs(x) > SLIVER]
    first = next(i for i in off if i - 1 not in off and (i or len(ring) - 1 not in off))
    walk = [*ring[first:], *ring[:first]]
    half = [point for point in walk if abs(point[0]) > SLIVER]
    ends = [walk[-1], *half, walk[len(half)]]
    return [*ends, *((-x, y) for x, y in reversed(half))]


def cloth_of(piece: Piece, *, mirror: bool = False, opened: bool = False) -> Polygon:
    ring = [(-x if mirror else x, y) for x, y in piece["cut_line"]]
    return Polygon(opened_out(ring) if opened else ring)


def sampled(lines: list) -> tuple[list[float], list[float]]:
    xs: list[float] = []
    ys: list[float] = []
    for line in lines:
        path = LineString(line)
        many = max(2, int(path.length / EVERY) + 2)
        on = line_interpolate_point(path, [i / (many - 1) for i in range(many)], normalized=True)
        xs += get_x(on).tolist()
        ys += get_y(on).tolist()
    return xs, ys


def without_fold(ring: Sequence[XY]) -> list[list[XY]]:
    """Return the ring's line without what runs along the fold (x = 0), where the cloth goes on."""
    lines, line = [], []
    for a, b in zip(ring, [*ring[1:], ring[0]], strict=True):
        if abs(a[0]) <= SLIVER and abs(b[0]) <= SLIVER:
            if len(line) > 1:
                lines.append(line)
            line = []
        else:
            line = [*(line or [a]), b]
    if len(line) > 1:
        lines.append(line)
    return lines
