"""Skirt pieces made from drawn halves: edges, darts, allowances, and the vent that lets a straight skirt walk."""

from __future__ import annotations

from collections.abc import Callable

from ..errors import ImpossibleMeasure
from ..offset import Finish
from ..path import Path
from ..piece import Dart, Dimension, Edge, Piece
from ..point import Point
from ..report import Warning_
from ..rules import Rules
from ..solve import root
from ..tolerance import INCH
from .skirt import SkirtHalf
from .skirt_walking import needed_girth

LEAST_VENT = 6 * INCH
VENT_BELOW_HIP = 7 * INCH
VENT_ALLOWANCE = 2 * INCH
LEAST_BESIDE_LACING = 0.5 * INCH


def skirt_front(half: SkirtHalf, rules: Rules, *, hem: float) -> Piece:
    """Return the front, on the fold."""
    waist, darts = waist_edges(half.waist.sections, half.waist.darts, rules["seam_allowance"])
    top, bottom = half.waist.sections[0].start, half.hem.start
    return Piece(
        name="skirt front", title="Skirt front", on_fold=True, seam_allowance=rules["seam_allowance"], group="skirt",
        edges=(*waist, *_side_and_hem(half, rules, hem), Edge("fold", Path.through(bottom, top))),
        darts=darts, grain=_grain(half, 0.3), dimensions=_dimensions(half, bottom),
    )


def beside_lacing(sections: tuple[Path, ...], under: float, sa: float, where: str) -> tuple[tuple[Edge, ...], tuple[Path, ...]]:
    """Return the waist's edge that stays unsewn `under` mm of lacing (none for 0), and the waist's sections beside it.

    Raises ImpossibleMeasure where too little is left; `where` says what so wide a gap runs into.
    """
    if not under:
        return (), sections
    widest = sections[0].length() - LEAST_BESIDE_LACING
    if under > widest:
        raise ImpossibleMeasure("lacing_gap", 2 * under, f"A lacing gap of {{value}} {where}; it can be at most {{needed}}.", needed=2 * widest)
    gap, first = sections[0].split_at(under)
    return (Edge("waist under lacing", gap, sa),), (first, *sections[1:])


def skirt_back(half: SkirtHalf, rules: Rules, *, hem: float, under_lacing: float, vent: float) -> Piece:
    """Return the back. `under_lacing` mm of its waist next to the centre stay unsewn under the lacing gap; `vent` is
    how high the centre back is left open from the hem (0: sewn down)."""
    sa = rules["seam_allowance"]
    free, sections = beside_lacing(half.waist.sections, under_lacing, sa, "reaches into the skirt's darts")
    waist, darts = waist_edges(sections, half.waist.darts, sa)
    top, bottom, ca = half.waist.sections[0].start, half.hem.start, rules["centre_back_allowance"]
    split = Point(0.0, bottom.y - vent)
    centre = [Edge("centre back", Path.through(split, top), ca)]
    if vent:
        centre.insert(0, Edge("vent", Path.through(bottom, split), max(VENT_ALLOWANCE, ca)))
    return Piece(
        name="skirt back", title="Skirt back", seam_allowance=sa, group="skirt",
        edges=(*free, *waist, *_side_and_hem(half, rules, hem), *centre),
        darts=darts, grain=_grain(half, 0.3), dimensions=_dimensions(half, bottom),
    )


def waist_edges(sections: tuple[Path, ...], darts: tuple[Dart, ...], sa: float) -> tuple[tuple[Edge, ...], tuple[Dart, ...]]:
    if not darts:
        return (Edge("waist", sections[0], sa),), ()
    edges = [Edge("waist 1", sections[0], sa)]
    for i, (dart, section) in enumerate(zip(darts, sections[1:], strict=True), start=1):
        edges += [Edge(f"dart {i} a", dart.legs[0]), Edge(f"dart {i} b", dart.legs[1].reversed()),
                  Edge(f"waist {i + 1}", section, sa)]
    return tuple(edges), darts


def _side_and_hem(half: SkirtHalf, rules: Rules, hem: float) -> tuple[Edge, Edge]:
    return (Edge("side", half.side, rules["let_out"], Finish.LET_OUT),
            Edge("hem", half.hem.reversed(), hem, Finish.TAPERED_HEM if half.tapered else Finish.HEM))


def _grain(half: SkirtHalf, share: float) -> tuple[Point, Point]:
    x, top, bottom = half.hip_line.end.x * share, half.hip_line.start.y, half.hem.start.y
    return Point(x, top + 0.05 * (bottom - top)), Point(x, top + 0.75 * (bottom - top))


def _dimensions(half: SkirtHalf, bottom: Point) -> tuple[Dimension, ...]:
    top = half.waist.sections[0].start
    return (Dimension(top, half.waist.end), Dimension(half.hip_line.start, half.hip_line.end),
            Dimension(bottom, half.hem.end), Dimension(top, bottom))


def vent_height(girth_at: Callable[[float], float], length: float, depth: float, height: float, knee: float) -> tuple[float, list[Warning_]]:
    """Return how high the centre back must be open so that the wearer can walk; 0 where it need not be. `girth_at` answers the skirt's
    girth so far below the waist."""
    joint = depth - INCH

    def short_of(z: float) -> float:
        return needed_girth(z, height, knee) - girth_at(joint + z)

    hem_z = length - joint
    if hem_z <= 0 or short_of(hem_z) <= 0:
        return 0.0, []
    low = 1.0
    free = low if short_of(low) > 0 else root(short_of, low, hem_z, name="start of the vent")
    vent, warnings = max(LEAST_VENT, hem_z - free), []
    highest = length - depth - VENT_BELOW_HIP
    if vent > highest:
        warnings.append(Warning_("vent-high", "For a full step the vent would have to start {0} above the hem; it was "
                                 "stopped {1} below the hip line. Print “short steps” for the wearer, or choose an A-line.",
                                 (vent, VENT_BELOW_HIP)))
        vent = highest
    if vent < INCH:
        return 0.0, warnings
    return vent, warnings
