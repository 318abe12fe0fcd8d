"""The strapless bustier gown: two cups, an under-bust band, a back with its dart, and a skirt mated edge for edge."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ..blocks.armhole import Armhole, armhole, top_level
from ..blocks.back import Back, back
from ..blocks.band import Band, Shaping, band, shaping
from ..blocks.cups import Cups, Roll, cups, head_intake
from ..blocks.neck import Frame, framed_necklines, necklines, shoulder_seam
from ..blocks.panel import modesty_panel
from ..blocks.top_edge import dip_of
from ..blocks.yoke import framing_yoke, full_yoke
from ..body import Body, body_from
from ..layers import Layers
from ..path import Path
from ..piece import Cut, Piece
from ..point import Point
from ..quarters import Quarters, quarters_for
from ..report import Warning_
from ..rules import Rules
from ..spec import GarmentSpec
from ..tolerance import INCH
from .skirt_part import Skirt, skirt_part

NEEDS = ("bust", "under_bust", "waist", "shoulder", "shoulder_to_bust", "shoulder_to_under_bust", "shoulder_to_waist",
         "armhole_depth")
ROLL = 0.125 * INCH
"""A lining is this much smaller along the top edge and in the cups, so that it rolls to the inside."""



@dataclass(frozen=True, slots=True)
class Top:
    """One layer of the top: its blocks, before they are numbered and cut."""

    cups: Cups
    band: Band
    back: Back

    @property
    def front_waist(self) -> float:
        return sum(p.edge("waist").path.length() for p in self.band.pieces)

    @property
    def back_waist(self) -> float:
        return sum(e.path.length() for e in self.back.piece.edges if e.name.startswith("waist"))

    @property
    def pieces(self) -> tuple[Piece, ...]:
        return (self.cups.centre, self.cups.side, *self.band.pieces, self.back.piece)


@dataclass(frozen=True)
class Gown:
    """All that was drawn for a gown, for the reports to read."""

    spec: GarmentSpec
    body: Body
    rules: Rules
    layers: Layers
    q: Quarters
    top: float
    shape: Shaping
    gap: float
    outside: Top
    lining: Top | None
    yoke: Piece | None
    skirt: Skirt | None
    skirt_lining: Skirt | None
    panel: Piece | None
    warnings: tuple[Warning_, ...]
    front_hole: Armhole
    back_hole: Armhole


def draw_gown(spec: GarmentSpec) -> Gown:
    """Draw every block of the gown; raises DraftingError where one can't be right."""
    rules = Rules(spec.rules, str(spec.options["fit"]))
    layers = Layers(spec.layers, bool(spec.options["lined"]))
    with_skirt = spec.options["skirt.kind"] != "none"
    needs = NEEDS + (("hip",) if with_skirt else ())
    warnings = rules.check()
    body = body_from(spec.measures, rules, needs=needs)
    q, found = quarters_for(body, rules, wadded=layers.wadded)
    warnings += found
    shape = shaping(q)
    front_hole, found = armhole(body, q, half="front")
    back_hole, found_back = armhole(body, q, half="back")
    top, raised = top_level(front_hole, q, rules)
    kind = str(spec.options["top_edge"])
    head, held = head_intake(q, rules, top, kind if spec.options["yoke"] == "none" else "yoke")
    dip, dip_held = dip_of(kind, rules, top, q.front.bust)
    warnings += found + found_back + raised + held + dip_held
    gap = rules["lacing_gap"] if spec.options["closure"] == "back-lacing" else 0.0

    necks = _necks(spec, body, rules, q, top, head)

    def layer(roll: Roll) -> Top:
        both = cups(q, rules, front_hole, top, head, kind=kind, dip=dip, roll=roll)
        under = band(q, rules, both.centre.edge("under-bust").path.length())
        made, moved = back(q, rules, back_hole, top, shape, both.side_length + under.side_length, gap=gap,
                           lower_edge=roll.lower, neck=necks[1] if necks else None)
        if not roll.narrower:
            warnings.extend(moved)
        return Top(both, under, made)

    outside = layer(Roll())
    lining = layer(Roll(0.0 if necks else ROLL, ROLL)) if layers.lined else None
    yoke = _yoke(spec, body, rules, q, necks, front_hole, top, outside.cups) if necks else None
    skirt = skirt_lining = None
    if with_skirt:
        skirt, found = skirt_part(spec, body, rules, q, (outside.front_waist, outside.back_waist), gap)
        warnings += found
        if lining:
            skirt_lining, _ = skirt_part(spec, body, rules, q, (lining.front_waist, lining.back_waist), gap, lining=True)
    panel = modesty_panel(rules, outside.back.piece.edge("centre back").path.end.y, q.side.waist) if gap else None
    return Gown(spec, body, rules, layers, q, top, shape, gap, outside, lining, yoke, skirt, skirt_lining, panel,
                tuple(warnings + layers.warnings()), front_hole, back_hole)


def _necks(spec, body, rules, q, top: float, head: float) -> tuple[Path | Frame, Path] | None:
    """Return the front neckline (or the frame) and the back neckline, where a yoke makes them; None for a strapless top."""
    kind = spec.options["yoke"]
    if kind == "none":
        return None
    seam = shoulder_seam(body, q)
    if kind == "full":
        return necklines(body, rules, seam)
    frame = framed_necklines(rules, seam, Point(q.bust_point_x - head / 2, top))
    return frame, frame.back


def _yoke(spec, body, rules, q, necks, hole: Armhole, top: float, made: Cups) -> Piece:
    seam, front = shoulder_seam(body, q), necks[0]
    if isinstance(front, Frame):
        return framing_yoke(rules, seam, front, hole, top)
    return full_yoke(rules, seam, front, hole, top, made.centre.edge("top").path)


def numbered(gown: Gown) -> tuple[Piece, ...]:
    """Return all pieces with numbers, cloths and notches: the outside first, then the lining pieces made from them."""
    outside = list(gown.outside.pieces)
    if gown.yoke:
        outside.append(gown.yoke)
    if gown.skirt:
        outside += gown.skirt.pieces
    if gown.panel:
        outside.append(gown.panel)
    pieces = []
    for number, piece in enumerate(outside, start=1):
        cuts = gown.layers.cuts_outside(piece.name, piece.pieces_of_a_cloth)
        if gown.layers.lined and piece.name in ("band", "side band", "modesty panel", "yoke"):
            cuts += gown.layers.cuts_lining(piece.name, piece.pieces_of_a_cloth)
        pieces.append(replace(piece, number=number, cuts=_merged(cuts)))
    lining: list[Piece] = []
    if gown.lining:
        lining = [gown.lining.cups.centre, gown.lining.cups.side, gown.lining.back.piece]
    if gown.skirt_lining:
        lining += gown.skirt_lining.pieces
    return (*pieces, *(gown.layers.lining_of(piece, pieces, remarks=()) for piece in lining))


def _merged(cuts: tuple[Cut, ...]) -> tuple[Cut, ...]:
    """Add up cuts of one cloth and role: a band takes stay for the outside cloth and for its lining."""
    counts: dict[tuple[str, str], int] = {}
    for cut in cuts:
        counts[cut.cloth, cut.role] = counts.get((cut.cloth, cut.role), 0) + cut.count
    return tuple(Cut(cloth, role, count) for (cloth, role), count in counts.items())
