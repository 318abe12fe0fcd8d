"""The lining of a bodice or dress: its own pieces, smaller where the seam must roll inward, raised under the arm of a sleeve."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from ..blocks.rolled import OUTWARD, Smaller, raised, raised_armhole, rolled, straight_at_underarm
from ..blocks.sleeve import Sleeve
from ..body import Body
from ..errors import DraftingError
from ..path import Path
from ..piece import Dimension, Notch, Piece
from ..point import Point
from ..report import Warning_
from ..seam import EdgeRef, Seam, dart_seams, refs
from ..tolerance import INCH
from .bustier_gown import ROLL
from .dress import Dress
from .dress_pieces import front_piece, plain_back, princess_pieces
from .sleeve_part import sleeve_part
from .sleeve_sewn import notch_sleeve, sleeve_seams

LINED_SLEEVES = ("set-in", "fitted", "short", "bell")
"""Puff, flutter and cap sleeves are made of one layer: their fullness or their free edge is the point of them."""

TUCK = 0.5 * INCH
"""A sleeve's lining is so much longer, a tuck that the arm can draw on. Source: the drafting method, section 7."""

SUFFIX = " lining"


@dataclass(frozen=True)
class DressLining:
    """The lining's pieces by the name of the outside piece that each is made from, with what changed; its sleeve, if it has one."""

    parts: dict[str, Smaller]
    sleeve: Sleeve | None
    warnings: tuple[Warning_, ...] = ()

    @property
    def pieces(self) -> tuple[Piece, ...]:
        return (*(part.piece for part in self.parts.values()), *((self.sleeve.piece,) if self.sleeve else ()))

    def pieces_from(self, dress: Dress, outside: list[Piece]) -> list[Piece]:
        """Return the lining's pieces, named for and numbered with the outside's."""
        remarks = {"sleeve": ("longer: a tuck at the hem",)}
        smaller = ("smaller at the neck: rolls inward",) if dress.sleeve else ("smaller at neck and armholes: rolls inward",)
        return [dress.layers.lining_of(piece, outside, remarks=(*remarks.get(piece.name, smaller), *piece.remarks)) for piece in self.pieces]


def dress_lining(dress: Dress) -> DressLining | None:
    """Draw the lining; None for a garment that is not lined."""
    if not dress.layers.lined:
        return None
    outside = [*(princess_pieces(dress) if dress.panels else (front_piece(dress),)), _lining_back(dress)]
    has_sleeve = dress.sleeve is not None and dress.sleeve.kind in LINED_SLEEVES
    stems = ("neck",) if dress.sleeve else ("neck", "armhole")
    at_arm = [piece for piece in outside if any(edge.name.startswith("side") for edge in piece.edges)]
    depth = min(straight_at_underarm(piece) for piece in at_arm)
    sleeve, is_raised = _sleeve(dress) if has_sleeve else (None, False)
    parts = {}
    for piece in outside:
        made = rolled(piece, [stem for stem in stems if any(e.name.startswith(stem) for e in piece.edges)], ROLL)
        if is_raised and piece in at_arm:
            higher = raised(made.piece, depth)
            made = Smaller(higher.piece, {**made.moved, **higher.moved}, made.longer)
        parts[piece.name] = made
    plain = has_sleeve and not is_raised
    return DressLining(parts, sleeve, (Warning_("sleeve-lining-not-raised", "The armhole is too small to raise the lining under the arm: it is cut "
                                               "like the outside there. Trim the outside's allowance under the arm to {0}.", (INCH / 4,)),) if plain else ())


def _lining_back(dress: Dress) -> Piece:
    """Return the back as its lining ends at the centre: at a button stand it stops at the stand's own facing."""
    piece, stand = plain_back(dress), dress.closing.stand
    if not stand:
        return piece
    x, (neck, *between, waist, centre) = stand.facing - stand.width, piece.edges
    top = neck.path.split_at(neck.path.distance_where(lambda point: point.x - x))[1]
    foot = waist.path.split_at(waist.path.distance_where(lambda point: point.x - x))[0]
    return replace(piece, edges=(replace(neck, path=top), *between, replace(waist, path=foot),
                                 replace(centre, path=Path.through(foot.end, top.start), allowance=dress.rules["seam_allowance"])),
                   dimensions=(Dimension(top.start, Point(top.start.x, foot.end.y)),), remarks=("ends at the stand's facing: fell it there",))


def _sleeve(dress: Dress) -> tuple[Sleeve, bool]:
    """Draw the sleeve again for the raised armholes: wider by what the underarm moved out on either side, longer by the tuck.

    Returns it, and whether its armholes could be raised; where they can't hold so wide a sleeve they stay as they are.
    """
    outside, spec = dress.sleeve, dress.spec
    measures = {**dress.body.measures, "upper_arm": dress.body["upper_arm"] + 2 * OUTWARD}
    body = Body(measures, dress.body.estimated)
    asked = spec.options.get("sleeve.length")
    if outside.kind == "short" and not asked:
        cap = outside.piece.edge("cap").path
        asked = outside.hem.start.y - min(point.y for point in cap.polyline())
    elif not asked:
        asked = dress.body["sleeve_length"]
    longer = replace(spec, options={**spec.options, "sleeve.length": float(asked) + TUCK})
    holes, down = (dress.front_hole, dress.back.armhole), dress.back.side[0].leaves()
    try:
        return sleeve_part(longer, body, dress.rules, *(raised_armhole(hole, down) for hole in holes))[0], True
    except DraftingError:
        return sleeve_part(longer, dress.body, dress.rules, *holes)[0], False


def lining_seams(dress: Dress, lining: DressLining, pieces: dict[str, Piece], front: Callable) -> list[Seam]:
    """Return the lining's own seams, and those that join it to the outside; `front` lists the front's edges by name."""
    own = {name: pieces[f"{name}{SUFFIX}"] for name in (*lining.parts, *(("sleeve",) if lining.sleeve else ()))}
    seams = [Seam("shoulder", refs(own["back"], "shoulder"), front(own, "shoulder"), dress.shoulder_ease),
             Seam("side", front(own, "side"), refs(own["back"], "side"))]
    if dress.panels:
        seams.append(Seam("princess seam", (("front", "princess seam"),), (("side front", "princess seam"),)))
    if lining.sleeve:
        seams += sleeve_seams(lining.sleeve, front(own, "armhole"), refs(own["back"], "armhole"))
    seams = [replace(seam, name=f"{seam.name}{SUFFIX}", a=_named(seam.a), b=_named(seam.b), layer="lining") for seam in seams]
    for name in lining.parts:
        seams += dart_seams(own[name], "lining")
    return seams + _joined(dress, lining, pieces, front)


def _named(given: tuple[EdgeRef, ...]) -> tuple[EdgeRef, ...]:
    return tuple((name if name.endswith(SUFFIX) else f"{name}{SUFFIX}", edge) for name, edge in given)


def _joined(dress: Dress, lining: DressLining, pieces: dict[str, Piece], front: Callable) -> list[Seam]:
    """Return the seams of outside to lining: necks, armholes without a sleeve, waists without a skirt. A moved edge is longer or
    shorter than the outside's by its curve alone, and is eased by that."""
    halves = {"front": lambda edge: front(pieces, edge), "back": lambda edge: refs(pieces["back"], edge)}
    wanted = ["neck", *(() if dress.sleeve else ("armhole",)), *(() if dress.skirt else ("waist",))]
    found = []
    for half, listed in halves.items():
        for edge in wanted:
            if half == "back" and dress.closing.stand and edge != "armhole":
                continue  # the stand's facing takes the rest of these edges
            outer = listed(edge)
            longer = sum(lining.parts[name].longer.get(which, 0.0) for name, which in outer)
            found.append(Seam(f"{edge}, {half} to lining", outer, _named(outer), -longer, "lining"))
    return found


def notch_lining(dress: Dress, lining: DressLining, by_name: dict[str, Piece], found: dict[str, list[Notch]]) -> None:
    """Notch the lining where the outside's seams are notched, moved with the edges' first points; then armholes and caps."""
    for name, part in lining.parts.items():
        for notch in found[name]:
            if notch.mate is None or notch.mate[0] not in lining.parts or notch.edge.startswith("armhole"):
                continue
            other = lining.parts[notch.mate[0]]
            at, their = notch.at + part.moved.get(notch.edge, 0.0), notch.mate[2] + other.moved.get(notch.mate[1], 0.0)
            found[f"{name}{SUFFIX}"].append(replace(notch, at=max(0.0, at), mate=(f"{notch.mate[0]}{SUFFIX}", notch.mate[1], max(0.0, their))))
    if not lining.sleeve:
        return
    own = {name.removesuffix(SUFFIX): piece for name, piece in by_name.items() if name.endswith(SUFFIX)}
    marks: dict[str, list[Notch]] = {name: [] for name in own}

    def pair(first: EdgeRef, at: float, second: EdgeRef, other: float, mark: str = "single") -> None:
        marks[first[0]].append(Notch(first[1], at, mark, (f"{second[0]}{SUFFIX}", second[1], other)))
        marks[second[0]].append(Notch(second[1], other, mark, (f"{first[0]}{SUFFIX}", first[1], at)))

    notch_sleeve(lining.sleeve, own, "side front" if dress.panels else "front", pair, marks)
    for name, notches in marks.items():
        found[f"{name}{SUFFIX}"] += notches
