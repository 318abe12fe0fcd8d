"""Two drafts of one garment over each other: which pieces changed, by how much along each edge, and whether what was cut is enough.

Works on result files alone (dicts, millimetres), so that the draft that was cut stays as it was kept.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import hypot
from statistics import median
from typing import Any

from shapely import MultiLineString, Polygon, distance, points, prepare, unary_union

from .outlines import XY, Piece, cloth_of, edges_of, opened_out, sampled, without_fold
from .tolerance import INCH, SEAM, SLIVER

LEAST_ALLOWANCE = 0.25 * INCH
"""A seam holds with this much cloth beyond its stitching, not less. Common practice, no source."""

MOUTH = 80.0
"""Ends of two parts of an edge nearer than this, mm, are a dart's mouth: the edge goes on across it when the dart is closed."""

NEARLY = 0.6
"""Points that moved at least this share of the farthest say whether the edge went out or in."""

SIDES = ("left ", "right ")
"""A garment whose halves differ has its pairs cut one by one."""

SLIDES = (4.0, 2.0, 1.0, 0.5)
"""How far, mm, the new piece is slid over the old one to make it fit, coarse to fine."""


@dataclass(frozen=True, slots=True)
class EdgeChange:
    """The farthest that an edge moved: `amount` mm, more than 0 outward (let out), less inward (taken in); `at` on the new edge, as it
    lies on the old piece. Darts are all one; theirs has no sign."""

    name: str
    amount: float
    at: XY


@dataclass(frozen=True, slots=True)
class PieceChange:
    """What became of one piece. `state` is same, changed, new or lost.

    `left` is the least allowance, mm, that the old cut line leaves beyond the new sewing line, at the edge `tightest` (less than 0:
    the cloth ends before the line); `slide` is how the new piece lies over the old one; None and zeros where there are not both.
    `kept` is a piece that the new draft has not, whose seam with this one must stay for the cloth to be enough.
    `was` is the old piece that it is held against, as its mirror image or opened out from its fold.
    """

    name: str
    title: str
    number: int
    state: str
    count: int
    edges: tuple[EdgeChange, ...] = ()
    left: float | None = None
    tightest: str = ""
    slide: XY = (0.0, 0.0)
    enough: bool = True
    kept: str = ""
    was: str = ""
    mirror: bool = False
    opened: bool = False

    @property
    def largest(self) -> EdgeChange | None:
        """The edge that moved most."""
        return max(self.edges, key=lambda edge: abs(edge.amount), default=None)

    @property
    def grows(self) -> bool:
        return any(edge.amount > SEAM for edge in self.edges if edge.name != "darts")


@dataclass(frozen=True, slots=True)
class Comparison:
    """Every piece of both drafts, in the new one's order, what was lost last."""

    pieces: tuple[PieceChange, ...]
    least: float

    @property
    def changed(self) -> tuple[PieceChange, ...]:
        return tuple(piece for piece in self.pieces if piece.state != "same")

    @property
    def again(self) -> tuple[PieceChange, ...]:
        """Pieces that must be cut anew, or for the first time."""
        return tuple(piece for piece in self.pieces if piece.state == "new" or not piece.enough)

    @property
    def answer(self) -> str:
        """`same`, `taken in` (no piece needs more cloth), `let out` (what was cut is enough) or `again` (some must be cut anew)."""
        if not self.changed:
            return "same"
        if self.again:
            return "again"
        return "let out" if any(piece.grows for piece in self.changed) else "taken in"


def compare(old: Mapping[str, Any], new: Mapping[str, Any], *, least: float = LEAST_ALLOWANCE) -> Comparison:
    """Compare two result files; `old` is what was cut, `least` the allowance (mm) that every seam must keep."""
    before = {piece["name"]: piece for piece in old["pieces"]}
    after = {piece["name"] for piece in new["pieces"]}
    used: set[str] = set()
    found = []
    for piece in new["pieces"]:
        name = _before(piece["name"], before)
        if name is None:
            found.append(PieceChange(piece["name"], piece["title"], piece["number"], "new", _count(piece), enough=False))
            continue
        used.add(name)
        beside = [before[other] for other in _sewn_to(name, old["seams"]) if other in before and other not in after]
        mirror = name != piece["name"] and _is_mirror_image(before[name], piece)
        found.append(_compared(before[name], piece, beside, mirror=mirror, least=least))
    found += [PieceChange(p["name"], p["title"], p["number"], "lost", _count(p)) for p in old["pieces"] if p["name"] not in used]
    return Comparison(tuple(found), least)


def _sewn_to(name: str, seams: Sequence[Mapping[str, Any]]) -> list[str]:
    """Return the pieces that share a seam with `name`."""
    sides = [({ref["piece"] for ref in seam["a"]}, {ref["piece"] for ref in seam["b"]}) for seam in seams]
    return sorted({other for a, b in sides for mine, others in ((a, b), (b, a)) if mine == {name} for other in others} - {name})


def _before(name: str, before: Mapping[str, Piece]) -> str | None:
    """Return which old piece a new one was cut from."""
    return next((plain for plain in (name, *(name.removeprefix(side) for side in SIDES)) if plain in before), None)


def _is_mirror_image(old: Piece, new: Piece) -> bool:
    """Tell whether one of a pair is better laid on the mirror image of what was drawn: by how far their corners then lie apart."""
    now = edges_of(new)

    def apart(mirror: bool) -> float:
        was = edges_of(old, mirror=mirror)
        dx, dy = _lie(was, now, on_fold=False)
        return sum(abs(x - dx) + abs(y - dy) for x, y in _moves(was, now))

    return apart(True) < apart(False)


def _count(piece: Piece) -> int:
    return max((cut["count"] for cut in piece["cut"] if cut["role"] in ("shell", "lining")), default=1)


def _compared(old: Piece, new: Piece, beside: Sequence[Piece], *, mirror: bool, least: float) -> PieceChange:
    opened = old["on_fold"] and not new["on_fold"]
    was, now = edges_of(old, mirror=mirror, opened=opened), edges_of(new)
    start = _level(was, now) if opened else _lie(was, now, on_fold=new["on_fold"])
    named = dict(was=old["name"], mirror=mirror, opened=opened, name=new["name"], title=new["title"], number=new["number"], count=_count(new))
    if not mirror and not opened and _alike(old["net"], new["net"], start):
        return PieceChange(state="same", slide=start, **named)
    ring = [(-x, y) if mirror else (x, y) for x, y in old["net"]]
    outline = Polygon(opened_out(ring) if opened else ring)
    prepare(outline)
    at = {name: sampled(lines) for name, lines in now.items()}
    edges = tuple(_moved(name, was[name], at[name], outline, start) for name in now if name in was)
    edges += tuple(EdgeChange(name, 0.0, lines[0][0]) for name, lines in now.items() if name not in was and name != "darts")
    if not any(abs(edge.amount) > SEAM or edge.name not in was for edge in edges):
        return PieceChange(state="same", slide=start, **named)
    at.pop("darts", None)
    left, tightest, slide = _room(cloth_of(old, mirror=mirror, opened=opened), at, old["on_fold"] and not opened, start, least)
    kept = ""
    if left < least - SLIVER and not (mirror or opened):
        for other in beside:
            room = _room(unary_union([cloth_of(old), cloth_of(other)]), at, old["on_fold"], start, least)
            if room[0] >= least - SLIVER:
                (left, tightest, slide), kept = room, other["name"]
    return PieceChange(state="changed", edges=edges, left=left, tightest=tightest, slide=slide, enough=left >= least - SLIVER, kept=kept, **named)


def _alike(old: Sequence[XY], new: Sequence[XY], slide: XY) -> bool:
    """Tell whether two rings are one, point for point, without asking how far any other two points are apart."""
    return len(old) == len(new) and all(abs(a[0] - b[0] - slide[0]) + abs(a[1] - b[1] - slide[1]) <= SEAM for a, b in zip(old, new, strict=True))


def _lie(was: Mapping[str, list], now: Mapping[str, list], *, on_fold: bool) -> XY:
    """Return the slide (mm) that lays the new piece on the old one as a cutter would: most of their corners on each other, the fold on
    the fold. The middle one of the corners' moves, across and down."""
    moves = _moves(was, now)
    if not moves:
        return 0.0, 0.0
    across = 0.0 if on_fold else median(move[0] for move in moves)
    return across, median(move[1] for move in moves)


def _level(was: Mapping[str, list], now: Mapping[str, list]) -> XY:
    """Return the slide of a piece over one that was opened out: middle on middle, most of the edges' upper ends level."""
    tops = [min(y for line in was[name] for _, y in line) - min(y for line in now[name] for _, y in line) for name in now if name in was]
    return 0.0, median(tops) if tops else 0.0


def _moves(was: Mapping[str, list], now: Mapping[str, list]) -> list[XY]:
    """Return from each corner of the new piece the step to the same corner of the old one."""
    return [(a[end][0] - b[end][0], a[end][1] - b[end][1]) for name in now if name in was and name != "darts"
            and len(was[name]) == len(now[name]) for a, b in zip(was[name], now[name], strict=True) for end in (0, -1)]


def _moved(name: str, was: list, now: tuple[list[float], list[float]], outline: Polygon, slide: XY) -> EdgeChange:
    """Return the farthest that the edge's points lie from the old edge; outward positive, as most of its far points moved."""
    lines = [line for line in was if len(line) > 1]
    if name != "darts":
        lines += [[a[-1], b[0]] for a, b in zip(was, was[1:], strict=False) if 0 < hypot(a[-1][0] - b[0][0], a[-1][1] - b[0][1]) < MOUTH]
    xs, ys = [x + slide[0] for x in now[0]], [y + slide[1] for y in now[1]]
    spots = points(xs, ys)
    away = distance(spots, MultiLineString(lines))
    at = int(away.argmax())
    amount = float(away[at])
    if name != "darts" and amount > SEAM:
        far = away >= NEARLY * amount
        amount = -amount if 2 * outline.intersects(spots)[far].sum() > far.sum() else amount
    return EdgeChange(name, amount, (xs[at], ys[at]))


def _room(cloth: Polygon, sampled: Mapping[str, tuple[list[float], list[float]]], on_fold: bool, start: XY, least: float) -> tuple[float, str, XY]:
    """Return the least allowance that the cloth, as it was cut, leaves; at which edge; and the slide (mm) that leaves the most where the
    first is not enough; a piece on the fold slides along it only. Less than 0 where the cloth is in several parts."""
    if cloth.geom_type != "Polygon":
        return -INCH, next(iter(sampled)), start
    prepare(cloth)
    ring = list(cloth.exterior.coords)[:-1]
    rim = MultiLineString(without_fold(ring)) if on_fold else cloth.exterior
    xs, ys = [x for each in sampled.values() for x in each[0]], [y for each in sampled.values() for y in each[1]]
    owner = [name for name, each in sampled.items() for _ in each[0]]
    fold = SLIVER if on_fold else 0.0

    def clear(slide: XY) -> tuple[float, int]:
        spots = points([max(x + slide[0], fold) if on_fold else x + slide[0] for x in xs], [y + slide[1] for y in ys])
        away = distance(spots, rim)
        away[~cloth.intersects(spots)] *= -1.0
        at = int(away.argmin())
        return float(away[at]), at

    (best, at), slide = clear(start), start
    if best < least:
        ways = ((0.0, 1.0), (0.0, -1.0)) if on_fold else ((1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0))
        for step in SLIDES:
            better = True
            while better and best < least:
                tried = [(clear((slide[0] + step * dx, slide[1] + step * dy)), (slide[0] + step * dx, slide[1] + step * dy)) for dx, dy in ways]
                (reach, where), to = max(tried, key=lambda each: each[0][0])
                better = reach > best + SLIVER
                if better:
                    best, at, slide = reach, where, to
    return best, owner[at], slide
