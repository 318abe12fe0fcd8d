"""The back: strapless or up to the shoulder, a dart from the back bust line, a side seam as long as the front's."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ..curve import Line, level_both_ends, straight_down
from ..errors import ImpossibleMeasure, UnknownChoice
from ..offset import Finish
from ..path import Path
from ..piece import Dart, Dimension, Edge, Piece, upright_grain
from ..point import Point
from ..quarters import Quarters
from ..report import Warning_
from ..rules import Rules
from ..solve import root
from ..tolerance import INCH, MOVE_REFUSED, MOVE_REPORTED
from .armhole import Armhole
from .band import Shaping
from .basque import Basque, SideTail, back_edge

LEAST_DART_AT_EDGE = 0.125 * INCH
"""A dart that is sewn through a basque's edge keeps this width there: less could not be marked. Judgement."""


@dataclass(frozen=True, slots=True)
class Back:
    """The back, how far its waist end was moved to true the side seam, and the dart's width at the under-bust.

    `at_waist` are the lines along its waist, which is an edge where there is no basque; a basque is `drop` deep at the centre and
    lacks `short` over the dart. `dart_at_edge` is the dart's width where it is sewn off.
    """

    piece: Piece
    moved: float
    dart_width: float
    dart_x: float
    at_waist: tuple[Path, ...]
    dart_at_edge: float
    drop: float = 0.0
    short: float = 0.0

    @property
    def lower_edges(self) -> tuple[Edge, ...]:
        """The edges that a skirt is sewn to, from the side to the centre."""
        return tuple(e for e in self.piece.edges if e.name.startswith(("waist", "basque edge")))

    @property
    def back_length(self) -> float:
        """The length of the half's lower edge, darts closed, mm."""
        return sum(edge.path.length() for edge in self.lower_edges)

    @property
    def centre(self) -> Path:
        """The centre from the top down: a seam, or the fold."""
        return self.piece.edges[-1].path.reversed()


@dataclass(frozen=True, slots=True)
class BelowWaist:
    """What a back's basque is drawn from: its figures, and the front's side below the waist."""

    figures: Basque
    tail: SideTail


def back(q: Quarters, rules: Rules, hole: Armhole, top: float, shape: Shaping, side_length: float, *, gap: float,
         lower_edge: float = 0.0, neck: Path | None = None, on_fold: bool = False, below: BelowWaist | None = None) -> tuple[
    Back, list[Warning_]]:
    """Draw the back with a side seam of `side_length`; `gap` is the lacing gap, half of it left out at the centre.

    `lower_edge` is how much lower a lining's edge lies. A `neck` (from the centre to the shoulder) makes a back that
    goes up to the shoulder; `on_fold` one without a seam at the centre; `below` one with a basque. Raises ImpossibleMeasure where
    the side seams differ too much, UnknownChoice where the waist can't be shaped without a seam at the centre.
    """
    width, waist_width = q.back_dart, q.back_dart + (shape.rest if on_fold else shape.rest / 2)
    if waist_width < 0 or not width:
        waist_width = width
    centre_take = shape.rest - (waist_width - width)
    if on_fold and abs(centre_take) > 1e-9:
        raise UnknownChoice("closure", "side-zip", ("back-zip", "back-lacing"), why="The waist is so much smaller (or larger) than the "
                            "under-bust that the centre back needs a seam.")
    if below and below.tail.path:
        side_length -= below.tail.path.length()
    upper, arm = _upper_edges(hole, top, gap / 2, lower_edge, neck)
    w = q.side.waist
    centre = _centre_back(upper[0].path.start, q.side.under_bust, w, centre_take)
    dart_x = q.under_bust / 2
    net_waist = q.waist - gap / 2
    moved, side, side_x = 0.0, None, (q.back_bust if width else q.under_bust) - shape.side
    for _ in range(6):
        side, moved = _trued_side(q, arm.end, side_x, w, side_length, width)
        lower = _waist(centre.end, dart_x, waist_width, side.end)
        excess = sum(path.length() for path in lower) - net_waist
        if abs(excess) < 1e-7:
            break
        side_x -= excess
    _check_move(q, moved)
    foot = _at_waist(q, rules, side, centre, lower, dart_x, width, waist_width)
    if below:
        foot = _with_basque(foot, below, rules)
    piece = _piece(q, rules, foot, (*upper, Edge("armhole", arm)), on_fold)
    warnings = []
    if abs(moved) > MOVE_REPORTED:
        warnings.append(Warning_("back-waist-moved", "The back's waist was moved {0} at the side so that the side seams "
                                 "are equally long.", (abs(moved),)))
    return Back(piece, moved, width, dart_x, lower, foot.dart_at_edge, foot.drop, foot.short), warnings


def _upper_edges(hole: Armhole, top: float, centre_x: float, lower: float, neck: Path | None) -> tuple[
    tuple[Edge, ...], Path]:
    """Return what lies above the armhole (a level top edge, or neck and shoulder) and the armhole itself."""
    if neck is None:
        drop = Point(0.0, lower)
        arm = hole.path.split_at(hole.at_level(top))[1].mapped(lambda point: point + drop)
        return (Edge("top", Path.through(Point(centre_x, top + lower), arm.start)),), arm
    start = neck.distance_where(lambda point: point.x - centre_x) or 0.0
    sewn = neck.split_at(start)[1] if start else neck
    return (Edge("neck", sewn), Edge("shoulder", Path.through(sewn.end, hole.path.start))), hole.path


def _centre_back(top: Point, under_bust: float, waist: float, take: float) -> Path:
    """Walk the centre back from the edge to the waist; shaped below the under-bust where `take` is not 0."""
    if abs(take) < 1e-9:
        return Path.through(top, Point(top.x, waist))
    joint = Point(top.x, under_bust)
    return Path.of(Line(top, joint), straight_down(joint, Point(top.x + take, waist)))


def _side_strokes(q: Quarters, underarm: Point, end: Point, width: float) -> Path:
    bust, under = Point(q.back_bust, q.side.bust), q.side.under_bust
    joint = Point(q.back_bust if width else q.under_bust, under)
    middle = Line(bust, joint) if width else straight_down(bust, joint)
    return Path.of(Line(underarm, bust), middle, straight_down(joint, end))


def _trued_side(q: Quarters, underarm: Point, x: float, waist: float, target: float, width: float) -> tuple[Path, float]:
    """Return the side seam with its waist end moved straight up or down until it is `target` mm long."""
    def excess(move: float) -> float:
        return _side_strokes(q, underarm, Point(x, waist + move), width).length() - target

    most, least = 2 * INCH, -min(2 * INCH, 0.8 * (waist - q.side.under_bust))
    if excess(least) > 0 or excess(most) < 0:
        raise _unequal(q, excess(0.0))
    moved = root(excess, least, most, name="move of the back's waist at the side")
    return _side_strokes(q, underarm, Point(x, waist + moved), width), moved


def _unequal(q: Quarters, difference: float) -> ImpossibleMeasure:
    return ImpossibleMeasure(
        "waist", abs(difference), "Front and back side seams would differ by {value}; {needed} is the most that can be "
        "trued. Measure nape to waist, shoulder to waist, waist and under bust again.", needed=MOVE_REFUSED,
    )


def _check_move(q: Quarters, moved: float) -> None:
    if abs(moved) > MOVE_REFUSED:
        raise _unequal(q, moved)


def _waist(centre: Point, dart_x: float, width: float, side: Point) -> tuple[Path, ...]:
    """Return the waist from the side to the centre: one path, or two with the dart's mouth between them."""
    if not width:
        return (Path.of(level_both_ends(centre, side)).reversed(),)
    inner, outer = Point(dart_x - width / 2, centre.y), Point(dart_x + width / 2, centre.y)
    return Path.of(level_both_ends(outer, side)).reversed(), Path.through(inner, centre)


@dataclass(frozen=True, slots=True)
class _Foot:
    """The lower part of a back: side and centre, its lower edges, and its dart."""

    side: Path
    centre: Path
    edges: tuple[Edge, ...]
    darts: tuple[Dart, ...]
    dart_x: float
    dart_at_edge: float
    drop: float = 0.0
    short: float = 0.0


def _at_waist(q, rules, side, centre, lower, dart_x, width, waist_width) -> _Foot:
    if not width:
        return _Foot(side, centre, _lower_edges("waist", rules, lower, ()), (), dart_x, 0.0)
    point = Point(dart_x, q.side.bust)
    legs = tuple(_leg(point, dart_x + sign * width / 2, dart_x + sign * waist_width / 2, q.side.under_bust, lower[0].end.y) for sign in (1, -1))
    return _Foot(side, centre, _lower_edges("waist", rules, lower, legs), (Dart(point, legs, waist_width),), dart_x, waist_width)


def _lower_edges(name: str, rules: Rules, lower: tuple[Path, ...], legs: tuple[Path, ...]) -> tuple[Edge, ...]:
    sa = rules["seam_allowance"]
    if not legs:
        return (Edge(name, lower[0], sa),)
    return (Edge(f"{name} 1", lower[0], sa), Edge("dart 1 a", legs[0]), Edge("dart 1 b", legs[1].reversed()), Edge(f"{name} 2", lower[1], sa))


def _with_basque(foot: _Foot, below: BelowWaist, rules: Rules) -> _Foot:
    """Carry side, dart and centre on below the waist: the dart narrows there by what the body grows, as far as it can."""
    end, basque = foot.side.end, below.figures
    tail = SideTail(below.tail.path and below.tail.path.moved(end.x - below.tail.path.start.x, end.y - below.tail.path.start.y),
                    end, below.tail.slant)
    side = foot.side + tail.path if tail.path else foot.side
    tail = replace(tail, end=side.end)
    drop = basque.back
    level = foot.centre.end.y + drop
    centre = foot.centre + Path.through(foot.centre.end, Point(foot.centre.end.x, level))
    needs = basque.back_needs(drop)
    if not foot.darts:
        edges = _lower_edges("basque edge", rules, (back_edge(tail, centre.end),), ())
        return replace(foot, side=side, centre=centre, edges=edges, drop=drop, short=max(0.0, needs - basque.ease_at(drop)))
    wide = foot.dart_at_edge
    narrow = min(wide, max(LEAST_DART_AT_EDGE, wide - needs))
    mouths = tuple(Point(foot.dart_x + sign * narrow / 2, level) for sign in (1, -1))
    legs = tuple(Path.of(straight_down(leg.start, mouth).reversed()) + leg for leg, mouth in zip(foot.darts[0].legs, mouths, strict=True))
    lower = (back_edge(tail, mouths[0]), Path.through(mouths[1], centre.end))
    return _Foot(side, centre, _lower_edges("basque edge", rules, lower, legs), (Dart(foot.darts[0].point, legs, wide),), foot.dart_x,
                 narrow, drop, max(0.0, needs - (wide - narrow) - basque.ease_at(drop)))


def _piece(q: Quarters, rules: Rules, foot: _Foot, upper: tuple[Edge, ...], on_fold: bool) -> Piece:
    sa, centre, side = rules["seam_allowance"], foot.centre, foot.side
    top, top_left = upper[-1].path.start, centre.start
    middle = Edge("fold", centre.reversed()) if on_fold else Edge("centre back", centre.reversed(), rules["centre_back_allowance"])
    return Piece(
        name="back", title="Back", seam_allowance=sa, darts=foot.darts, on_fold=on_fold,
        edges=(
            *(replace(edge, allowance=sa) for edge in upper),
            Edge("side", side, rules["let_out"], Finish.LET_OUT),
            *foot.edges,
            middle,
        ),
        grain=upright_grain(foot.dart_x * 0.5, top.y, centre.end.y),
        dimensions=(
            Dimension(Point(top_left.x, top.y), top),
            Dimension(Point(centre.start.x, q.side.bust), Point(q.back_bust, q.side.bust)),
            Dimension(centre.start, Point(centre.start.x, centre.end.y)),
            Dimension(side.start, Point(side.start.x, side.end.y)),
        ),
    )


def _leg(point: Point, under_x: float, waist_x: float, under_bust: float, waist: float) -> Path:
    """Return a dart leg from the mouth at the waist up to the point: parallel to the under-bust, then curving in."""
    joint, mouth = Point(under_x, under_bust), Point(waist_x, waist)
    upper = straight_down(point, joint).reversed()
    lower = straight_down(joint, mouth).reversed() if abs(under_x - waist_x) > 1e-9 else Line(mouth, joint)
    return Path.of(lower, upper)
