"""How a bodice or dress closes, and what that changes: a gap and its panel, a stand with its buttons, a side seam left open.

All of it common practice, no source, unless said otherwise.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from ..blocks.button_stand import ButtonStand, button_stand
from ..blocks.neck_shapes import Neck
from ..bodice_quarters import BodiceQuarters
from ..errors import UnknownChoice
from ..offset import Finish
from ..path import Path
from ..piece import Edge, Mark, Notch, Piece, upright_grain
from ..point import Point
from ..report import Material, Warning_
from ..rules import Rules
from ..spec import Choice, Option
from ..tolerance import INCH
from ..zips import zip_to_buy

CLOSURE = Option("closure", "Closes with", (
    Choice("back-zip", "zip at the centre back"), Choice("side-zip", "zip in the left side seam"),
    Choice("back-lacing", "lacing and modesty panel"), Choice("buttons", "buttons down the back")), "back-zip")

IN_WORDS = {"back-zip": "zip at the centre back", "side-zip": "zip in the left side", "back-lacing": "laced at the back", "buttons": "buttoned down the back"}

OVER_THE_HEAD = 23.0 * INCH
"""A neckline that does not open must be this long to pass over a head about 22 in round."""

MOST_SLIT = 7.0 * INCH
BELOW_UNDERARM = 1.0 * INCH
"""A side opening begins this far below the underarm, so that the armhole's seam stays whole."""

SLIT_FACING, STUDS_APART = 1.25 * INCH, 1.5 * INCH


@dataclass(frozen=True, slots=True)
class DressClosing:
    """`gap` is a lacing's, mm, shared over both halves; `slit` how far the centre back opens at the neck under a side zip."""

    kind: str
    gap: float = 0.0
    stand: ButtonStand | None = None
    slit: float = 0.0

    @property
    def back_on_fold(self) -> bool:
        return self.kind == "side-zip"


def closing_of(kind: str, rules: Rules, q: BodiceQuarters, neck: Neck, foot: float) -> tuple[DressClosing, list[Warning_]]:
    """Return the closing of `kind`, of a back that ends at the level `foot`; raises UnknownChoice for a side zip under a neckline that no slit lets over the head, and
    whatever the button stand refuses."""
    if kind == "back-lacing":
        return DressClosing(kind, gap=rules["lacing_gap"]), []
    if kind == "buttons":
        return DressClosing(kind, stand=button_stand(rules, neck.back.start.y, foot, through=(q.side.bust,))), []
    if kind != "side-zip":
        return DressClosing(kind), []
    length = 2 * (neck.front.length() + neck.back.length())
    if length >= OVER_THE_HEAD:
        return DressClosing(kind), []
    eighths = ((OVER_THE_HEAD - length) / 2 + 0.25 * INCH) / (INCH / 8)
    slit = math.ceil(eighths - 0.01) * INCH / 8
    if slit > min(MOST_SLIT, 0.6 * (q.side.waist - neck.back.start.y)):
        raise UnknownChoice("closure", kind, ("back-zip", "back-lacing", "buttons", "a wider neckline with it"),
                            why="The neckline is too small to pass over the head, however it is slit.")
    return DressClosing(kind, slit=slit), [Warning_(
        "neck-slit", "Under a side zip the neckline, {0}, does not pass over the head (about {1}): the back is slit for {2} at the centre of the "
        "neck, faced, and closed with a button and loop.", (length, OVER_THE_HEAD, slit))]


def opened_neck(neck: Path, closing: DressClosing) -> Path:
    """Return the back neckline from the centre back as it closes: half of a lacing's gap is left out."""
    if not closing.gap:
        return neck
    half = closing.gap / 2
    at = neck.distance_where(lambda point: point.x - half)
    return neck.split_at(at)[1] if at else neck


def closed_back(piece: Piece, closing: DressClosing, rules: Rules) -> Piece:
    """Return the back with the edge, the allowance and the marks that its closing needs; it comes with a plain centre."""
    centre = piece.edges[-1]
    foot, top = centre.path.start, centre.path.end
    if closing.back_on_fold:
        marks = (Mark("slit", top, top + Point(0.0, closing.slit)),) if closing.slit else ()
        return replace(piece, marks=marks, remarks=("slit at the centre of the neck",) if closing.slit else ())
    if not closing.stand:
        return replace(piece, remarks=("loops down the centre back",) if closing.gap else ("zip in the centre back",))
    width = closing.stand.width
    low, high = Point(-width, foot.y), Point(-width, top.y)
    edges = (Edge("stand foot", Path.through(foot, low), rules["seam_allowance"]),
             Edge("centre back", Path.through(low, high), closing.stand.facing, Finish.HEM),
             Edge("stand top", Path.through(high, top), rules["seam_allowance"]))
    return replace(piece, edges=(*piece.edges[:-1], *edges), marks=closing.stand.marks(top.y, foot.y),
                   remarks=("buttonholes in the left back, buttons on the right", "stand faced with its own allowance"))


def slit_facing(closing: DressClosing, rules: Rules, neck: Path) -> Piece:
    """Draw half of the strip that faces the slit at the centre back, on the fold."""
    sa, top = rules["seam_allowance"], neck.start.y
    width, foot = SLIT_FACING, top + closing.slit + INCH
    at = neck.distance_where(lambda point: point.x - width)
    upper = neck.split_at(at)[0] if at else Path.through(neck.start, Point(width, top))
    corner = Point(upper.end.x, foot)
    return Piece(
        name="slit facing", title="Slit facing", on_fold=True, seam_allowance=sa, group="facing",
        edges=(Edge("neck", upper, sa), Edge("outer edge", Path.through(upper.end, corner, Point(0.0, foot)), 0.25 * sa),
               Edge("fold", Path.through(Point(0.0, foot), neck.start))),
        grain=upright_grain(width * 0.5, top, foot), marks=(Mark("slit", neck.start, neck.start + Point(0.0, closing.slit)),),
        remarks=("stitch round the slit, cut, turn",),
    )


def side_opening(closing: DressClosing, by_name: dict[str, Piece], outer: str, pair) -> None:
    """Notch where a side opening begins, on both side seams (it opens on the left only)."""
    if closing.kind != "side-zip":
        return
    edges = [next(e for e in by_name[name].edges if e.name == "side" or e.name == "side 1") for name in (outer, "back")]
    if all(edge.path.length() > BELOW_UNDERARM for edge in edges):
        pair((outer, edges[0].name), BELOW_UNDERARM, ("back", edges[1].name), BELOW_UNDERARM)
        return
    pair((outer, edges[0].name), 0.0, ("back", edges[1].name), 0.0)


def opening_below(by_name: dict[str, Piece], opening: float, found: dict[str, list[Notch]], pair) -> None:
    """Move the notch at which a skirt's opening ends from its centre back to its side seam."""
    for suffix in ("", " lining"):
        front, back = (f"skirt {half}{suffix}" for half in ("front", "back"))
        if back not in by_name:
            continue
        found[back] = [n for n in found[back] if n.edge != "centre back" or n.mate]
        sides = [next((name for name in (f"skirt side {half}{suffix}", f"skirt {half}{suffix}") if name in by_name), "") for half in ("front", "back")]
        pair((sides[0], "side"), opening, (sides[1], "side"), opening)


def closing_materials(closing: DressClosing, side: float, below: float) -> list[Material]:
    """Return what can't be read from the pieces: `side` is the bodice's side seam, `below` the opening under the waist, mm."""
    if closing.kind == "side-zip":
        found = [Material("zip, closed at both ends" if below else "zip, open at the foot", zip_to_buy(side - BELOW_UNDERARM + below), "mm", 1),
                 Material("hook and eye at the waist", 1, "pieces", 1)]
        return found + ([Material("small button with a loop, back neck", 1, "pieces", 1)] if closing.slit else [])
    if closing.stand and below:
        return [Material("press studs for the skirt's opening", math.ceil(below / STUDS_APART), "pieces", 1),
                Material("hook and bar at the skirt's waist", 1, "pieces", 1)]
    return []
