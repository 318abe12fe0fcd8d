"""Centre and side cup of a bustier: a seam over the bust point takes the lower and the upper bust dart; a lower dart too wide for it
is shared with a second seam further out, between a middle and a side cup."""

from __future__ import annotations

from dataclasses import dataclass

from ..curve import Cubic, Line, level_both_ends, straight_down
from ..errors import ImpossibleMeasure
from ..offset import Finish
from ..path import Path
from ..piece import Dimension, Edge, Piece, upright_grain
from ..point import Point
from ..quarters import Quarters
from ..report import Warning_
from ..rules import Rules
from ..solve import root
from ..tolerance import INCH
from .armhole import Armhole
from .third_cup import ThirdCup, outer_cups
from .top_edge import SNUG, centre_edge


@dataclass(frozen=True, slots=True)
class Roll:
    """How much smaller a lining is than the outside, so that it rolls inward: lower at its edge, narrower in each cup."""

    lower: float = 0.0
    narrower: float = 0.0


@dataclass(frozen=True, slots=True)
class Cups:
    """The cups, and the figures that were solved for them: the truing move m and the side's under-bust place X. `third` is what a
    cup in three pieces has besides."""

    centre: Piece
    side: Piece
    m: float
    side_x: float
    head: float
    top: float
    bust_point: Point
    third: ThirdCup | None = None

    @property
    def middle(self) -> Piece | None:
        return self.third.middle if self.third else None

    @property
    def over_bust(self) -> Piece:
        """The piece on the outer side of the cup seam."""
        return self.middle or self.side

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """The cups from the fold to the side."""
        return (self.centre, self.middle, self.side) if self.middle else (self.centre, self.side)

    @property
    def side_length(self) -> float:
        return self.side.edge("side").path.length()


def head_intake(q: Quarters, rules: Rules, top: float, kind: str) -> tuple[float, list[Warning_]]:
    """Return what the cup seam takes out at the top edge: the upper dart and the snugness of a strapless edge."""
    wanted, most = q.upper + rules.get("top_edge_snug", SNUG[kind]), 0.9 * (q.front.bust - top)
    if wanted > most:
        return most, [Warning_("upper-dart-held", "The upper bust dart was held to {0} (worked out {1}).", (most, wanted))]
    return wanted, []


def cups(q: Quarters, rules: Rules, hole: Armhole, top: float, head: float, *, kind: str = "straight", dip: float = 0.0,
         roll: Roll = Roll()) -> Cups:
    """Draw both cups, their top edge of `kind` with its `dip` at the fold; `roll` makes them a lining's.

    Raises NoSolution or ImpossibleMeasure where the seam can't be made to agree.
    """
    bp = Point(q.bust_point_x, q.front.bust)
    u, side_u, edge_y = q.front.under_bust, q.side.under_bust, top + roll.lower
    centre_x, side_start = bp.x - q.lower_to_centre, bp.x + q.lower - q.lower_to_centre - roll.narrower
    if centre_x < 0.5 * INCH:
        raise ImpossibleMeasure("bust_span", 2 * bp.x, "Bust span {value} is too small for the lower bust dart. "
                                "Measure it again.")
    upper_centre = straight_down(Point(bp.x - head / 2, edge_y), bp, leave=0.5)
    upper_side = straight_down(Point(bp.x + head / 2, edge_y), bp, leave=0.5)
    lower_centre = straight_down(bp, Point(centre_x, u))
    m = _true_cup_seam(bp, side_start, u, lower_centre.length())
    lower_side = straight_down(bp, Point(side_start, u - m))
    drop = Point(q.upper - roll.narrower, roll.lower)
    cut = hole.at_level(top)
    arm = hole.path.split_at(cut)[1].mapped(lambda point: point + drop)
    underarm, side_bust = arm.end, Point(q.front_bust - roll.narrower, q.side.bust)
    top_side = Line(upper_side.start, arm.start)
    if top_side.end.x - top_side.start.x < 0.5 * INCH:
        raise ImpossibleMeasure("across_front", 2 * hole.path.at(cut).x, "The side cup's top edge comes out too short. "
                                "Measure across front and bust span again.")
    centre = _centre_cup(rules, Path.of(upper_centre, lower_centre), centre_edge(kind, edge_y, dip, upper_centre.start), u)
    seam, target = Path.of(lower_side.reversed(), upper_side.reversed()), q.under_bust - centre_x
    if q.second:
        third = outer_cups(q, rules, bp, seam, top_side, Path.of(Line(underarm, side_bust)), arm, target)
        return Cups(centre, third.side, m, third.side_x, head, edge_y, bp, third)
    side_x = _side_place(lower_side.end, side_u, target)
    side = Path.of(Line(underarm, side_bust), straight_down(side_bust, Point(side_x, side_u)))
    lower = level_both_ends(lower_side.end, Point(side_x, side_u))
    return Cups(centre, _side_cup(rules, top_side, arm, side, lower, seam), m, side_x, head, edge_y, bp)


def _true_cup_seam(bp: Point, side_x: float, u: float, target: float) -> float:
    """Return m: how much the side cup's end of the seam is raised so that both halves are equally long."""
    def excess(m: float) -> float:
        return straight_down(bp, Point(side_x, u - m)).length() - target

    if abs(excess(0.0)) < 1e-9:
        return 0.0
    return root(excess, -(u - bp.y) * 0.3, (u - bp.y) * 0.9, name="raise of the side cup's seam",
                remedy="Measure bust, under bust and shoulder to under bust again.")


def _side_place(start: Point, side_u: float, target: float) -> float:
    """Return X: where the side cup's lower edge must end to be as long as its part of the band."""
    def excess(x: float) -> float:
        return level_both_ends(start, Point(x, side_u)).length() - target

    return root(excess, start.x + 1e-3, start.x + target * 1.02 + 1.0, name="width of the side cup at the under-bust",
                remedy="Measure under bust, bust span and nape to waist again.")


def _centre_cup(rules: Rules, seam: Path, edge: Path, u: float) -> Piece:
    sa = rules["seam_allowance"]
    fold_top, fold_under = edge.start, Point(0.0, u)
    level_top = Point(0.0, seam.start.y)
    grain_x = seam.end.x * 0.45
    return Piece(
        name="centre cup", title="Centre cup", on_fold=True, seam_allowance=sa,
        edges=(
            Edge("top", edge, sa),
            Edge("cup seam", seam, sa, Finish.SQUARED),
            Edge("under-bust", Path.through(seam.end, fold_under), sa),
            Edge("fold", Path.through(fold_under, fold_top)),
        ),
        grain=upright_grain(grain_x, fold_top.y, u),
        dimensions=(Dimension(level_top, seam.start), Dimension(fold_under, seam.end), Dimension(fold_top, fold_under)),
    )


def _side_cup(rules: Rules, top: Line, arm: Path, side: Path, lower: Cubic, seam: Path) -> Piece:
    sa = rules["seam_allowance"]
    return Piece(
        name="side cup", title="Side cup", seam_allowance=sa,
        edges=(
            Edge("top", Path.of(top), sa),
            Edge("armhole", arm, sa),
            Edge("side", side, rules["let_out"], Finish.LET_OUT),
            Edge("under-bust", Path.of(lower.reversed()), sa),
            Edge("cup seam", seam, sa, Finish.SQUARED),
        ),
        grain=upright_grain((top.start.x + side.end.x) / 2, top.start.y, side.end.y),
        dimensions=(
            Dimension(top.start, top.end),
            Dimension(seam.start, side.end),
            Dimension(side.start, Point(side.start.x, side.end.y)),
        ),
    )
