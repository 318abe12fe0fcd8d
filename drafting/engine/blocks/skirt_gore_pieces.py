"""The pieces of a gored, panelled or mermaid skirt, from its drawn gores."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from ..curve import arc
from ..offset import Finish
from ..path import Path
from ..piece import Dart, Dimension, Edge, Piece
from ..point import Point
from ..rules import Rules
from ..tolerance import TOUCHING
from .skirt_gores import Gore
from .skirt_hem import HemLengths, ended_at, uneven_hem
from .skirt_pieces import beside_lacing, waist_edges

NAMES = {
    4: (("skirt front", "Skirt front", "centre front", "side"), ("skirt back", "Skirt back", "centre back", "side")),
    6: (("skirt front", "Skirt front", "fold", "front seam"), ("skirt side front", "Skirt side front", "front seam", "side"),
        ("skirt side back", "Skirt side back", "back seam", "side"), ("skirt back", "Skirt back", "centre back", "back seam")),
    8: (("skirt front", "Skirt front", "centre front", "front seam"), ("skirt side front", "Skirt side front", "front seam", "side"),
        ("skirt side back", "Skirt side back", "back seam", "side"), ("skirt back", "Skirt back", "centre back", "back seam")),
}  # fmt: skip
"""For each number of gores the pieces from centre front to centre back: name, title, edge toward the centre, edge toward the side."""


@dataclass(frozen=True, slots=True)
class GorePieces:
    """The pieces, and the hip line on each."""

    pieces: tuple[Piece, ...]
    hip_lines: tuple[tuple[str, Path], ...]


def gore_pieces(gores: tuple[Gore, ...], rules: Rules, lengths: HemLengths, *, hem: float, under_lacing: float, godets: bool = False) -> GorePieces:
    """Return every gore's piece, front to back, from the gores drawn about their own middles with a plain hem; with `godets` each
    seam is parted at the narrowest line."""
    pieces, lines, names = [], [], NAMES[sum(1 if _is_half(gore) else 2 for gore in gores)]
    places = (*_places(gores[:len(gores) // 2]), *reversed(_places(tuple(reversed(gores[len(gores) // 2:])))))
    for gore, (name, title, inner, outer), (slide, along) in zip(gores, names, places, strict=True):
        drawn = _moved(_lengthened(gore, lengths, along, is_back=name.endswith("back")), slide)
        pieces.append(_piece(drawn, rules, (name, title, inner, outer), hem, under_lacing if name == "skirt back" else 0.0, godets))
        lines.append((name, drawn.hip_line))
    return GorePieces(tuple(pieces), tuple(lines))


def _is_half(gore: Gore) -> bool:
    """Whether a gore is drawn beside the middle of the skirt, half of it: its inner edge is that middle."""
    return abs(gore.inner.start.x) + abs(gore.inner.end.x) < TOUCHING


def _places(gores: tuple[Gore, ...]) -> list[tuple[float, float]]:
    """Return how far each of one half's gores, from its centre outward, is slid away from there, and how much hem lies before it."""
    found, across, along = [], 0.0, 0.0
    for gore in gores:
        found.append((across - gore.hip_line.start.x, along))
        across, along = across + gore.hip_line.end.x - gore.hip_line.start.x, along + gore.hem.length()
    return found


def _lengthened(gore: Gore, lengths: HemLengths, along: float, *, is_back: bool) -> Gore:
    """Return a gore with its hem lowered by `lengths`; its own hem begins `along` mm from the centre of its half."""
    if lengths.is_plain:
        return gore

    def extra(at: float) -> tuple[float, float]:
        if not is_back:
            return lengths.at(at)
        more, slope = lengths.at(lengths.whole - at)
        return more, -slope

    hem = uneven_hem(gore.hem, extra, start=along)
    return replace(gore, hem=hem, inner=ended_at(gore.inner, hem.start), outer=ended_at(gore.outer, hem.end))


def _moved(gore: Gore, slide: float) -> Gore:
    """Return a gore slid away from the centre."""
    if not slide:
        return gore
    darts = tuple(Dart(d.point + Point(slide, 0.0), tuple(leg.moved(slide, 0.0) for leg in d.legs), d.width) for d in gore.darts)
    inner, outer, hip_line, hem = (path.moved(slide, 0.0) for path in (gore.inner, gore.outer, gore.hip_line, gore.hem))
    return Gore(tuple(section.moved(slide, 0.0) for section in gore.sections), darts, inner, outer, hip_line, hem)


def _piece(gore: Gore, rules: Rules, named: tuple[str, str, str, str], hem: float, under_lacing: float, godets: bool) -> Piece:
    name, title, inner, outer = named
    sa = rules["seam_allowance"]
    free, sections = beside_lacing(gore.sections, under_lacing, sa, "is wider than the skirt's back gore allows")
    waist, darts = waist_edges(sections, gore.darts, sa)
    middle = (gore.hip_line.start.x + gore.hip_line.end.x) / 2 if inner not in ("fold", "centre back") or name != "skirt back" else None
    x = middle if middle is not None and inner != "fold" else gore.hip_line.start.x + 0.3 * (gore.hip_line.end.x - gore.hip_line.start.x)
    top, low = gore.hip_line.start.y, gore.hem.start.y
    return Piece(
        name=name, title=title, on_fold=inner == "fold", seam_allowance=sa, group="skirt",
        edges=(*free, *waist, *_edges(outer, gore.outer, rules, godets, down=True), Edge("hem", gore.hem.reversed(), hem, Finish.HEM),
               *_edges(inner, gore.inner, rules, godets, down=False)),
        darts=darts, grain=(Point(x, top + 0.05 * (low - top)), Point(x, top + 0.7 * (low - top))),
        dimensions=(Dimension(gore.sections[0].start, gore.sections[-1].end), Dimension(gore.hip_line.start, gore.hip_line.end),
                    Dimension(gore.hem.start, gore.hem.end), Dimension(gore.outer.start, gore.outer.end)),
    )


def _edges(name: str, path: Path, rules: Rules, godets: bool, *, down: bool) -> list[Edge]:
    """Return a gore's edge as walked round the piece; parted at the narrowest line where godets go in."""
    width, finish = rules["seam_allowance"], Finish.EXTENDED
    if name == "side":
        width, finish = rules["let_out"], Finish.LET_OUT
    elif name == "centre back":
        width = rules["centre_back_allowance"]
    elif name == "fold":
        return [Edge("fold", path.reversed())]
    if not godets or len(path.strokes) < 4:
        return [Edge(name, path if down else path.reversed(), width, finish)]
    upper, lower = Path(path.strokes[:2]), Path(path.strokes[2:])
    sa = rules["seam_allowance"]
    if down:
        return [Edge(name, upper, width, finish), Edge(f"{name} godet", lower, sa)]
    return [Edge(f"{name} godet", lower.reversed(), sa), Edge(name, upper.reversed(), width, finish)]


def godet_piece(length: float, spread: float, rules: Rules, *, hem: float, count: int) -> Piece:
    """Return half a godet, on the fold: its side `length` mm, its whole angle `spread` radians, its hem an arc about its point."""
    sa, turn = rules["seam_allowance"], spread / 2
    tip, middle = Point(0.0, 0.0), Point(0.0, length)
    hem_line = Path(arc(middle, 0.0, -math.degrees(turn), length * turn))
    return Piece(
        name="godet", title="Godet", on_fold=True, seam_allowance=sa, group="skirt", repeats=count,
        edges=(Edge("side", Path.through(tip, hem_line.end), sa), Edge("hem", hem_line.reversed(), hem, Finish.HEM),
               Edge("fold", Path.through(middle, tip))),
        grain=(Point(length * 0.02, 0.35 * length), Point(length * 0.02, 0.85 * length)),
        dimensions=(Dimension(tip, middle), Dimension(middle, hem_line.end)),
    )
