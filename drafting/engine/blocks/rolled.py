"""A lining's smaller edges: outside edges moved inward so that the seam rolls to the wrong side, and an underarm that is raised
to pass over the armhole's allowances."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from ..curve import Cubic, Line
from ..offset import offset_points
from ..path import Path
from ..piece import Dimension, Edge, Piece
from ..point import Point, meet
from ..tolerance import INCH, TOUCHING

RAISED, OUTWARD = 0.5 * INCH, 0.25 * INCH
"""A sleeved lining's underarm lies so much higher and further out than the outside's. Source: the drafting method, section 7."""

RUNS_IN = 0.75 * INCH
"""Below its own place a raised underarm's side runs into the outside's side within this depth. Judgement."""


@dataclass(frozen=True, slots=True)
class Smaller:
    """A piece with some edges changed; `moved` says by how much places on an edge lie further from its first point, mm;
    `longer` by how much an edge that was moved inward came out longer by geometry alone."""

    piece: Piece
    moved: dict[str, float]
    longer: dict[str, float]


def rolled(piece: Piece, stems: Iterable[str], by: float) -> Smaller:
    """Return the piece with the edges named by `stems` (`armhole` for `armhole 1` too) moved inward by `by` mm.

    Their neighbours, straight where they meet, are cut back to the new corners.
    """
    edges, wanted = list(piece.edges), set(stems)
    chosen = [i for i, edge in enumerate(edges) if edge.name.rstrip(" 0123456789") in wanted]
    longer = {edges[i].name: _longer(edges, i, by) for i in chosen}
    inner = {i: offset_points(edges[i].path.polyline(), -by, (edges[i].path.leaves(), edges[i].path.arrives())) for i in chosen}
    moved: dict[str, float] = {}
    for i, line in inner.items():
        before, after = (i - 1) % len(edges), (i + 1) % len(edges)
        if before not in inner:
            corner, path = _cut_end(edges[before].path, line[0], line[1])
            line[0], edges[before] = corner, replace(edges[before], path=path)
        if after not in inner:
            whole = edges[after].path.length()
            corner, back = _cut_end(edges[after].path.reversed(), line[-1], line[-2])
            line[-1], edges[after] = corner, replace(edges[after], path=back.reversed())
            moved[edges[after].name] = edges[after].path.length() - whole
    for i, line in inner.items():
        edges[i] = replace(edges[i], path=Path.through(*line))
    made = replace(piece, edges=tuple(edges))
    return Smaller(replace(made, dimensions=_followed(piece, made)), moved, longer)


def _longer(edges: list[Edge], i: int, by: float) -> float:
    """Return by how much an edge moved inward comes out longer: twice `by` tan(t/2) at each turn t, less `by` cot of the inner
    angles at its ends."""
    line = edges[i].path.polyline()
    steps = [edges[i].path.leaves(), *(q - p for p, q in zip(line, line[1:], strict=False)), edges[i].path.arrives()]
    total = -sum(2 * by * math.tan(math.radians(_turn(a, b)) / 2) for a, b in zip(steps, steps[1:], strict=False))
    before, after = edges[i - 1], edges[(i + 1) % len(edges)]
    stem = edges[i].name.rstrip(" 0123456789")
    for beside, back, out in ((before, -before.path.arrives(), edges[i].path.leaves()), (after, -edges[i].path.arrives(), after.path.leaves())):
        if beside.name.rstrip(" 0123456789") != stem:
            total -= by / math.tan(math.radians((back.angle_deg - out.angle_deg) % 360.0))
    return total


def _followed(piece: Piece, made: Piece) -> tuple[Dimension, ...]:
    """Return the piece's dimensions between its corners as they now lie."""
    corners = [(old.path.start, new.path.start) for old, new in zip(piece.edges, made.edges, strict=True)]

    def now(point: Point) -> Point:
        return next((new for old, new in corners if old.is_at(point, TOUCHING)), point)

    return tuple(Dimension(now(each.start), now(each.end)) for each in piece.dimensions)


def _turn(a: Point, b: Point) -> float:
    """Return the turn from one step to the next, degrees, clockwise (toward the piece) positive."""
    return (b.angle_deg - a.angle_deg + 180.0) % 360.0 - 180.0


def _cut_end(path: Path, start: Point, onward: Point) -> tuple[Point, Path]:
    """Return where the line through two points meets the end of `path`, and the path up to there."""
    last = path.strokes[-1]
    if not isinstance(last, Line):
        across = (onward - start).unit()
        back = path.reversed()  # a bent edge may cross that line again further on: the corner is the crossing next to its end
        at = back.distance_where(lambda point: across.cross(point - start))
        if at is not None:
            path = back.split_at(at)[1].reversed()
        return path.end, path
    corner = meet(start, onward - start, last.start, last.end - last.start)
    if corner is None or (corner - last.start).dot(last.end - last.start) < TOUCHING:
        corner = last.end
    return corner, Path((*path.strokes[:-1], Line(last.start, corner)))


def raised_armhole(armhole: Path, down: Point) -> Path:
    """Return an armhole half (shoulder to underarm) whose underarm is raised and moved out; `down` is the side's direction."""
    last = armhole.strokes[-1]
    shift = _shift(down)
    return Path((*armhole.strokes[:-1], Cubic(last.start, last.out, last.into + shift, last.end + shift)))


def raised(piece: Piece, depth: float) -> Smaller:
    """Return the piece with its armhole raised at the underarm; its side runs in over `depth` mm of the straight that it begins
    with (the same in front and back, so that the side seams stay alike)."""
    edges = list(piece.edges)
    i = next(k for k, edge in enumerate(edges) if edge.name.startswith("side"))
    side, hole = edges[i], edges[i - 1]
    first, down = side.path.strokes[0], side.path.leaves()
    joint, start = first.start + down * depth, first.start + _shift(down)
    handle = 0.35 * (depth + RAISED)
    curve = Cubic(start, start + down * handle, joint - down * handle, joint)
    rest = (Line(joint, first.end),) if first.length() > depth + TOUCHING else ()
    path = Path((curve, *rest, *side.path.strokes[1:]))
    edges[i] = replace(side, path=path)
    edges[i - 1] = replace(hole, path=raised_armhole(hole.path, down))
    return Smaller(replace(piece, edges=tuple(edges)), {side.name: path.length() - side.path.length()}, {})


def _shift(down: Point) -> Point:
    """Return the underarm's way, out of the piece and up: the side is walked down, the piece on its right."""
    return down.outward() * OUTWARD - down * RAISED


def straight_at_underarm(piece: Piece) -> float:
    """Return how far a side runs straight from the underarm, at most RUNS_IN, mm."""
    side = next(edge for edge in piece.edges if edge.name.startswith("side"))
    first = side.path.strokes[0]
    return min(RUNS_IN, first.length()) if isinstance(first, Line) else 0.0
