"""The pieces of a gored, panelled or mermaid skirt, from one drawn half gore in front and one behind."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..curve import arc
from ..offset import Finish
from ..path import Path
from ..piece import Dart, Dimension, Edge, Piece
from ..point import Point
from ..rules import Rules
from .skirt import SkirtHalf
from .skirt_gores import mirrored, whole_waist
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
class Gore:
    """One drawn gore: waist from the centre's side to the side, the two edges walked down, hip line and hem walked outward."""

    sections: tuple[Path, ...]
    darts: tuple[Dart, ...]
    inner: Path
    outer: Path
    hip_line: Path
    hem: Path


@dataclass(frozen=True, slots=True)
class GorePieces:
    """The pieces, and the hip line on each."""

    pieces: tuple[Piece, ...]
    hip_lines: tuple[tuple[str, Path], ...]


def gore_pieces(gores: int, halves: tuple[SkirtHalf, SkirtHalf], rules: Rules, lengths: HemLengths, *, hem: float, under_lacing: float,
                godets: bool = False) -> GorePieces:
    """Return every gore's piece, front to back; with `godets` each seam is parted at the narrowest line."""
    pieces, lines = [], []
    for name, title, inner, outer in NAMES[gores]:
        is_back = name.endswith("back")
        half = halves[1] if is_back else halves[0]
        one_half = gores == 6 and name in ("skirt front", "skirt back")
        steps = 0 if one_half else 2 if gores == 6 else 3 if name.startswith("skirt side") else 1
        gore = _gore(half, lengths, steps, is_back=is_back, whole=not one_half)
        pieces.append(_piece(gore, rules, (name, title, inner, outer), hem, under_lacing if name == "skirt back" else 0.0, godets))
        lines.append((name, gore.hip_line))
    return GorePieces(tuple(pieces), tuple(lines))


def _gore(half: SkirtHalf, lengths: HemLengths, steps: int, *, is_back: bool, whole: bool) -> Gore:
    """Draw a gore whose middle lies `steps` half gores from the centre, its hem lowered by `lengths`, and slide it there."""
    across = half.hem.length()
    plain = mirrored(half.hem) + half.hem if whole else half.hem
    first = (steps - 1) * across if whole else 0.0

    def extra(at: float) -> tuple[float, float]:
        if not is_back:
            return lengths.at(at)
        more, slope = lengths.at(lengths.whole - at)
        return more, -slope

    hem = plain if lengths.is_plain else uneven_hem(plain, extra, start=first)
    hip = mirrored(half.hip_line) + half.hip_line if whole else half.hip_line
    edge = whole_waist(half.waist) if whole else half.waist
    outer = ended_at(half.side, hem.end)
    if whole:
        inner = ended_at(half.side.mapped(lambda p: Point(-p.x, p.y)), hem.start)
    else:
        inner = Path.through(edge.sections[0].start, hem.start)
    slide = steps * half.hip_line.end.x

    def moved(path: Path) -> Path:
        return path.moved(slide, 0.0) if slide else path

    darts = tuple(Dart(d.point + Point(slide, 0.0), tuple(moved(leg) for leg in d.legs), d.width) for d in edge.darts)
    return Gore(tuple(moved(s) for s in edge.sections), darts, moved(inner), moved(outer), moved(hip), moved(hem))


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
