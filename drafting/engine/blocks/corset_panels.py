"""The panels of a corset, from the fold to the centre back: seams that are mirror images, lower edges square to them."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ..corset_figures import LEAVES_WAIST, REACHES_HIP, CorsetFigures, Takes
from ..curve import Cubic, Line, straight_down
from ..offset import Finish
from ..path import Path
from ..piece import Dart, Dimension, Edge, Piece, upright_grain
from ..point import Point
from ..quarters import Quarters
from ..rules import Rules
from ..tolerance import INCH

SHORT_OF_POINT = 0.5 * INCH
"""Where the bust-point seam is a dart it stops so far short of the bust point, above and below. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Panel:
    """One panel: its two sides walked down, its top edge, armhole and lower edge walked away from the fold.

    Top and lower edge are in two parts where a dart opens; `darts` are then the upper and the lower one, inner leg first.
    """

    name: str
    title: str
    left: Path
    right: Path
    left_name: str
    right_name: str
    top: tuple[Path, ...]
    armhole: Path | None
    lower: tuple[Path, ...]
    darts: tuple[Dart, ...] = ()

    def narrowest(self) -> float:
        """Return its least width from side to side, mm, at any level that its seams are shaped at (darts left open)."""
        def places(path: Path) -> list[Point]:
            return [path.start, *(stroke.end for stroke in path.strokes)]

        left, right = places(self.left), places(self.right)
        if len(left) != len(right):
            return min(point.x for point in right) - max(point.x for point in left)
        return min(q.x - p.x for p, q in zip(left, right, strict=True))


@dataclass(frozen=True, slots=True)
class Levels:
    """The levels of one seam, from its head to the hip."""

    head: float
    bust: float
    under_bust: float
    waist: float
    hip: float


def seam(x: float, side: float, takes: Takes, levels: Levels, fig: CorsetFigures) -> Path:
    """Draw one edge of a seam that stands at `x`, on the left (`side` 1: the panel lies to the right of it) or right (−1)."""
    def at(take: float, level: float) -> Point:
        return Point(x + side * take, level)

    head, bust = at(takes.top, levels.head), at(takes.bust, levels.bust)
    under, waist = at(takes.under_bust, levels.under_bust), at(takes.waist, levels.waist)
    strokes = [_down(head, bust, leave=0.5), _down(bust, under), _down(under, waist)]
    if fig.depth:
        over = straight_down(waist, at(takes.hip, levels.hip), leave=LEAVES_WAIST, arrive=REACHES_HIP)
        strokes.append(over.split(fig.cut)[0] if fig.cut < 1.0 else over)
    return Path(tuple(strokes))


def _down(start: Point, end: Point, *, leave: float = 0.35):
    return Line(start, end) if abs(start.x - end.x) < 1e-9 else straight_down(start, end, leave=leave)


def square_edge(left: Path, right: Path) -> Path:
    """Draw an edge from the foot of one side to that of the other, square to both."""
    start, leaves = left.end, _across(left.arrives())
    end, arrives = right.end, _across(right.arrives())
    if abs(start.y - end.y) < 1e-9 and abs(leaves.y) < 1e-9 and abs(arrives.y) < 1e-9:
        return Path.of(Line(start, end))
    third = (end.x - start.x) / 3
    return Path.of(Cubic(start, start + leaves * (third / max(leaves.x, 0.2)), end - arrives * (third / max(arrives.x, 0.2)), end))


def _across(down: Point) -> Point:
    """Return the direction square to one that runs down a panel, away from the fold."""
    return Point(down.y, -down.x)


def corset_panels(q: Quarters, fig: CorsetFigures, centre_top: Path, holes: tuple[Path, Path], roll: float = 0.0) -> tuple[Panel, ...]:
    """Draw the panels, from the fold out and on to the centre back.

    `centre_top` is the top edge from the fold to the seam's head; `holes` are the armholes from the top edge's level down to the
    underarm, the front's with the upper dart closed: it slides out with the side front. A lining's lie `roll` mm lower.
    """
    front = Levels(fig.top + roll, q.front.bust, q.front.under_bust, q.front.waist, q.front.hip)
    side = Levels(q.side.chest + roll, q.side.bust, q.side.under_bust, q.side.waist, q.side.hip)
    back = replace(side, head=fig.top + roll)
    hole, hole_back = holes[0].moved(q.front_bust - holes[0].end.x, roll), holes[1].moved(0.0, roll)
    fold = Path.through(Point(0.0, centre_top.start.y), Point(0.0, q.front.waist + fig.depth))
    centre_back = Path.through(Point(fig.gap / 2, back.head), Point(fig.gap / 2, q.side.waist + fig.depth))
    front_side, back_side = (seam(x, -1.0, fig.side_seam, side, fig) for x in (q.front_bust, q.back_bust))
    if fig.panels == 2:
        fronts = (_darted_front(q, fig, front, fold, centre_top, hole, front_side),)
    else:
        inner, outer = (seam(q.bust_point_x, out, fig.front_seam, front, fig) for out in (-1.0, 1.0))
        fronts = (Panel("front", "Centre front", fold, inner, "fold", "front seam", (centre_top,), None, (square_edge(fold, inner),)),
                  Panel("side front", "Side front", outer, front_side, "front seam", "side", (Path.through(outer.start, hole.start),), hole,
                        (square_edge(outer, front_side),)))
    if not fig.back_seam:
        return (*fronts, Panel("back", "Back", centre_back, back_side, "centre back", "side", (Path.through(centre_back.start, hole_back.start),),
                               hole_back, (square_edge(centre_back, back_side),)))
    rear, middle = (seam(fig.back_seam_x, out, fig.back_seam, back, fig) for out in (-1.0, 1.0))
    return (*fronts,
            Panel("side back", "Side back", middle, back_side, "back seam", "side", (Path.through(middle.start, hole_back.start),), hole_back,
                  (square_edge(middle, back_side),)),
            Panel("back", "Centre back", centre_back, rear, "centre back", "back seam", (Path.through(centre_back.start, rear.start),), None,
                  (square_edge(centre_back, rear),)))


def _darted_front(q: Quarters, fig: CorsetFigures, levels: Levels, fold: Path, centre_top: Path, hole: Path, side: Path) -> Panel:
    """Draw a front whose seam over the bust point is two darts, from the top edge and from the lower edge."""
    x, b, u = q.bust_point_x, levels.bust, levels.under_bust
    short = min(SHORT_OF_POINT, 0.2 * (u - b), 0.2 * (b - levels.head))
    upper, lower = Point(x, b - short), Point(x, b + short)
    ups, downs = [], []
    for out in (-1.0, 1.0):
        whole = seam(x, out, fig.front_seam, levels, fig)
        under = whole.strokes[1].end
        ups.append(Path.of(_down(whole.start, upper, leave=0.5)))
        downs.append(Path((_down(lower, under), *whole.strokes[2:])).reversed())
    feet = (square_edge(fold, downs[0].reversed()), square_edge(downs[1].reversed(), side))
    return Panel("front", "Front", fold, side, "fold", "side", (centre_top, Path.through(ups[1].start, hole.start)), hole, feet,
                 tuple(Dart(leg[0].end, (leg[0], leg[1]), leg[0].start.distance(leg[1].start)) for leg in (ups, downs)))


def panel_piece(panel: Panel, rules: Rules) -> Piece:
    """Return the panel as a piece, walked clockwise from its top edge; a dart in it is walked to its point."""
    sa, on_fold = rules["seam_allowance"], panel.left_name == "fold"
    margins = {"fold": (0.0, Finish.EXTENDED), "centre back": (rules["centre_back_allowance"], Finish.EXTENDED),
               "side": (rules["let_out"], Finish.LET_OUT)}

    def edge(name: str, path: Path) -> Edge:
        return Edge(name, path, *margins.get(name, (sa, Finish.SQUARED)))

    darts = panel.darts and (panel.darts[0], Dart(panel.darts[1].point, panel.darts[1].legs[::-1], panel.darts[1].width))
    edges = _parted("top", panel.top, darts[:1], 1, sa)
    if panel.armhole:
        edges.append(Edge("armhole", panel.armhole, sa))
    edges.append(edge(panel.right_name, panel.right))
    edges += _parted("lower edge", tuple(path.reversed() for path in reversed(panel.lower)), darts[1:], 2, sa)
    edges.append(edge(panel.left_name, panel.left.reversed()))
    top, foot = panel.left.start, panel.lower[0].start
    waist = panel.left.strokes[2].end if len(panel.left.strokes) > 2 else None
    middle = (max(panel.top[0].start.x, foot.x, waist.x if waist else 0.0) + min(panel.right.start.x, panel.right.end.x, panel.right.strokes[2].end.x)) / 2
    if panel.darts:
        middle = panel.darts[0].point.x * 0.45
    return Piece(
        name=panel.name, title=panel.title, on_fold=on_fold, seam_allowance=sa, edges=tuple(edges), darts=tuple(darts),
        grain=upright_grain(middle, top.y, foot.y), dimensions=_dimensions(panel),
    )


def _parted(name: str, parts: tuple[Path, ...], darts: tuple[Dart, ...], number: int, sa: float) -> list[Edge]:
    """Return an edge, or its two parts with the dart between them."""
    if not darts:
        return [Edge(name, parts[0], sa)]
    first, second = darts[0].legs
    return [Edge(f"{name} 1", parts[0], sa), Edge(f"dart {number} a", first), Edge(f"dart {number} b", second.reversed()),
            Edge(f"{name} 2", parts[1], sa)]


def _dimensions(panel: Panel) -> tuple[Dimension, ...]:
    """Width at the top and at the lower edge, and the height of each side that has its own."""
    left, right = panel.left, panel.right
    found = [Dimension(panel.top[0].start, panel.top[0].end), Dimension(panel.lower[0].start, panel.lower[-1].end),
             Dimension(right.start, Point(right.start.x, right.end.y))]
    if panel.left_name in ("fold", "centre back") and abs(left.start.y - right.start.y) + abs(left.end.y - right.end.y) > 1.0:
        found.append(Dimension(left.start, left.end))
    return tuple(found)
