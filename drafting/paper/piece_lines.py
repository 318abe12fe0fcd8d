"""The lines of one piece at full size, by kind: what the pattern page, the DXF and the SVG file all draw from."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace

from shapely import LineString, Polygon, make_valid

from drafting.paper.choice import Drawn
from drafting.piece_marks import dart_legs, long_lines, small_strokes
from drafting.polyline import XY, closed, length, outward, ray, turning, walked, without_side

Line = tuple[XY, ...]

ON_EDGE = 0.01
"""A channel that runs along an edge is on the piece, whatever rounding says, mm."""
INNER_NOTCH = 5.0
"""Without an allowance a notch is drawn so far into the piece, mm."""
DOUBLE_APART = 1.5
"""A double notch's two strokes stand so far either side of its place, mm."""


@dataclass(frozen=True, slots=True)
class NotchLine:
    """A notch: its strokes from the sewing line outward, and the letter that it shares with the notch that it meets."""

    at: XY
    strokes: tuple[Line, ...]
    inward: XY
    letter: str


@dataclass(frozen=True, slots=True)
class EdgeLine:
    """One edge of the sewing line, and what is said along it, the fullest wording first."""

    name: str
    line: Line
    allowance: float
    said: tuple[str, ...]


@dataclass(frozen=True)
class PieceLines:
    """One piece's lines in mm, y down. `outline` and `net` are unclosed rings; the other lines are open polylines."""

    name: str
    outline: Line
    net: Line
    cut: tuple[Line, ...]
    fold: tuple[Line, ...]
    centre: tuple[Line, ...]
    edges: tuple[EdgeLine, ...]
    let_out: tuple[Line, ...]
    bones: tuple[Line, ...]
    marks: tuple[Line, ...]
    inner_darts: tuple[Line, ...]
    levels: tuple[tuple[str, Line], ...]
    grain: Line
    notches: tuple[NotchLine, ...]
    dart_points: tuple[XY, ...]
    sewn: bool
    turn: int

    @property
    def sew(self) -> tuple[Line, ...]:
        """The sewing line but for the fold; none where the cutting line is the sewing line."""
        sewn = (edge.line for edge in self.edges if edge.name != "fold" and (self.sewn or edge.name.startswith("dart")))
        return (*sewn, *self.inner_darts)

    def mapped(self, move: Callable[[XY], XY]) -> PieceLines:
        """Return the piece with every point moved by a slide, a turn or a mirroring."""

        def moved(line: Iterable[XY]) -> Line:
            return tuple(move(point) for point in line)

        def all_of(lines: Iterable[Line]) -> tuple[Line, ...]:
            return tuple(moved(line) for line in lines)

        nought = move((0.0, 0.0))

        def direction(way: XY) -> XY:
            there = move(way)
            return (there[0] - nought[0], there[1] - nought[1])

        return replace(
            self,
            outline=moved(self.outline), net=moved(self.net), cut=all_of(self.cut), fold=all_of(self.fold),
            centre=all_of(self.centre), let_out=all_of(self.let_out), bones=all_of(self.bones), marks=all_of(self.marks), inner_darts=all_of(self.inner_darts), grain=moved(self.grain),
            edges=tuple(replace(edge, line=moved(edge.line)) for edge in self.edges),
            levels=tuple((name, moved(line)) for name, line in self.levels),
            notches=tuple(NotchLine(move(n.at), all_of(n.strokes), direction(n.inward), n.letter) for n in self.notches),
            dart_points=moved(self.dart_points),
            turn=turning(moved(self.net)),
        )  # fmt: skip


def lines_of(drawn: Drawn, result: Mapping, *, letters: Mapping, said: Mapping, allowances: bool, opened: bool) -> PieceLines:
    """Return the lines of one outline. `letters` is what notch_letters gives, `said` what edge_words gives."""
    piece = drawn.piece
    net = points(piece["net"])
    on_net = not allowances
    ring = _across_mouths(piece) if on_net else points(drawn.own_line or piece["cut_line"])
    fold = next((points(edge["line"]) for edge in piece["edges"] if edge["name"] == "fold"), None)
    cut = tuple(map(tuple, without_side(ring, fold))) if fold else (tuple(closed(ring)),)
    ends = ((cut[-1][-1], cut[0][0]) if cut[0][0] != cut[-1][-1] else (fold[0], fold[-1])) if fold else ()
    lines = PieceLines(
        name=piece["name"],
        outline=ring,
        net=net,
        cut=cut,
        fold=(ends,) if fold else (),
        centre=(),
        edges=tuple(
            EdgeLine(edge["name"], points(edge["line"]), edge["allowance"], said.get((piece["name"], edge["name"]), ()))
            for edge in piece["edges"]
        ),
        let_out=() if on_net else tuple(points(line) for line in piece.get("let_out", ())),
        bones=tuple(_bones(piece, result)),
        marks=tuple(map(tuple, (*long_lines(piece), *small_strokes(piece)))),
        inner_darts=tuple(map(tuple, dart_legs(piece))),
        levels=tuple(_levels(piece, result)),
        grain=points(piece["grain"]),
        notches=tuple(_notches(piece, ring, on_net or ring == net, letters)),
        dart_points=(*(tuple(dart["point"]) for dart in piece.get("darts", ())), *dict.fromkeys(leg[-1] for leg in dart_legs(piece))),
        sewn=not on_net and ring != net,
        turn=turning(net),
    )
    return _opened(lines, fold) if opened and fold else lines


def points(line: Iterable) -> Line:
    return tuple((float(x), float(y)) for x, y in line)


def _across_mouths(piece: Mapping) -> Line:
    """Return the sewing line as a ring that runs straight across each dart's mouth: the dart is folded, not cut out."""
    edges = [points(edge["line"]) for edge in piece["edges"] if not edge["name"].startswith("dart")]
    ring: list[XY] = []
    for line in edges:
        ring += [point for point in line if not ring or math.dist(ring[-1], point) > 1e-6]
    return tuple(ring[:-1] if math.dist(ring[0], ring[-1]) < 1e-6 else ring)


def _bones(piece: Mapping, result: Mapping) -> Iterable[Line]:
    """Return the bone channels on this piece: along the seam where a channel lies on one, else straight, to its edges.

    A channel may run on over the piece below; each piece shows its own stretch.
    """
    inside = None
    for bone in result.get("bones", ()):
        if piece["name"] in (bone["piece"], *bone.get("pieces", ())):
            ends = (tuple(bone["from"]), tuple(bone["to"]))
            seams = (points(edge["line"]) for edge in piece["edges"])
            along = next((line for line in seams if _joins(line, ends) or _joins(line[::-1], ends)), None)
            if along:
                yield along
                continue
            inside = inside or make_valid(Polygon(piece["net"])).buffer(ON_EDGE, quad_segs=1, join_style="mitre")
            part = inside.intersection(LineString(ends))
            for stretch in getattr(part, "geoms", [part]):
                if stretch.length > 1:
                    yield tuple(stretch.coords)


def _joins(line: Line, ends: tuple[XY, XY]) -> bool:
    return math.dist(line[0], ends[0]) < 0.1 and math.dist(line[-1], ends[1]) < 0.1


def _levels(piece: Mapping, result: Mapping) -> Iterable[tuple[str, Line]]:
    for girth in result.get("girths", ()):
        for across in girth["across"]:
            if across.get("piece") == piece["name"]:
                yield girth["level"].replace("_", " ").replace("under bust", "under-bust"), points(across["line"])


def _notches(piece: Mapping, ring: Line, inner: bool, letters: Mapping) -> Iterable[NotchLine]:
    turn = turning(points(piece["net"]))
    edges = {edge["name"]: (points(edge["line"]), edge["allowance"]) for edge in piece["edges"]}
    for notch in piece.get("notches", ()):
        line, allowance = edges[notch["edge"]]
        strokes, whole = [], length(line)
        middle, ahead = walked(line, notch["at"])
        out = outward(ahead, turn)
        for shift in (-DOUBLE_APART, DOUBLE_APART) if notch["mark"] == "double" else (0.0,):
            at, along = walked(line, min(max(notch["at"] + shift, 0.0), whole))
            way = outward(along, turn)
            far = -INNER_NOTCH if inner else ray(at, way, ring)
            far = allowance if far is None or far > 2.5 * max(allowance, 1.0) else far
            strokes.append((at, (at[0] + way[0] * far, at[1] + way[1] * far)))
        letter = letters.get((piece["name"], notch["edge"], round(notch["at"], 1)), "")
        yield NotchLine(middle, tuple(strokes), (-out[0], -out[1]), letter)


def _opened(lines: PieceLines, fold: Line) -> PieceLines:
    """Return an on-fold half laid out whole: itself and its mirror image, the fold now a centre line."""
    (x0, y0), (x1, y1) = fold[0], fold[-1]
    far = math.hypot(x1 - x0, y1 - y0)
    ux, uy = (x1 - x0) / far, (y1 - y0) / far

    def mirror(point: XY) -> XY:
        along = (point[0] - x0) * ux + (point[1] - y0) * uy
        foot = (x0 + along * ux, y0 + along * uy)
        return (2 * foot[0] - point[0], 2 * foot[1] - point[1])

    other = lines.mapped(mirror)
    both = tuple(replace(edge, line=edge.line[::-1]) for edge in other.edges if edge.name != "fold")
    return replace(
        lines,
        outline=_whole_ring(lines.outline, mirror, fold),
        net=_whole_ring(lines.net, mirror, fold),
        cut=(tuple(closed(_whole_ring(lines.outline, mirror, fold))),),
        fold=(),
        centre=lines.fold,
        edges=(*(edge for edge in lines.edges if edge.name != "fold"), *both),
        let_out=(*lines.let_out, *other.let_out),
        bones=tuple(dict.fromkeys((*lines.bones, *other.bones))),
        marks=(*lines.marks, *other.marks),
        inner_darts=(*lines.inner_darts, *other.inner_darts),
        levels=(*lines.levels, *other.levels),
        notches=(*lines.notches, *other.notches),
        dart_points=(*lines.dart_points, *other.dart_points),
    )


def _whole_ring(ring: Line, mirror: Callable[[XY], XY], fold: Line) -> Line:
    half = without_side(ring, fold)[0]
    return (*half, *(mirror(point) for point in half[-2:0:-1]))
