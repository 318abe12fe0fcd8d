"""The strapless bustier gown: cups in two or three, a band or basque, a back with its dart, and a skirt mated edge for edge."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ..blocks.armhole import Armhole, armhole, top_level
from ..blocks.back import Back, BelowWaist, back
from ..blocks.band import Band, Shaping, band, shaping
from ..blocks.basque import Basque, basque_for
from ..blocks.cups import Cups, Roll, cups, head_intake
from ..blocks.neck import Frame, framed_necklines, necklines, shoulder_seam
from ..blocks.panel import modesty_panel
from ..blocks.straps import Straps, straps
from ..blocks.top_edge import dip_of
from ..blocks.top_facing import top_facings
from ..blocks.yoke import framing_yoke, full_yoke
from ..body import Body, body_from
from ..errors import UnknownChoice
from ..layers import Layers
from ..path import Path
from ..piece import Cut, Edge, Piece
from ..point import Point
from ..quarters import Quarters, quarters_for, with_fixed_darts
from ..report import Warning_
from ..rules import GOWN_RULES, Rules
from ..spec import GarmentSpec
from ..tolerance import INCH
from .basque_part import traced_of
from .dress_closing import OVER_THE_HEAD
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
        """The length of the front half's lower edge: at the waist, or a basque's."""
        return self.band.front_length

    @property
    def back_waist(self) -> float:
        return self.back.back_length

    @property
    def pieces(self) -> tuple[Piece, ...]:
        return (*self.cups.pieces, *self.band.pieces, self.back.piece)


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
    basque: Basque | None = None
    straps: Straps | None = None
    facings: tuple[Piece, ...] = ()

    @property
    def side_opening(self) -> bool:
        """Whether it opens in the left side seam, the back's centre lying on the fold."""
        return self.spec.options["closure"] == "side-zip"


def draw_gown(spec: GarmentSpec) -> Gown:
    """Draw every block of the gown; raises DraftingError where one can't be right."""
    rules = Rules(with_fixed_darts(spec.rules, str(spec.options["intakes"])), str(spec.options["fit"]), GOWN_RULES)
    layers = Layers(spec.layers, bool(spec.options["lined"]))
    check_choices(spec)
    with_skirt, with_basque = spec.options["skirt.kind"] != "none", spec.options["waist"] == "basque"
    needs = NEEDS + (("hip",) if with_skirt or with_basque else ())
    warnings = rules.check()
    body = body_from(spec.measures, rules, needs=needs)
    q, found = quarters_for(body, rules, wadded=layers.wadded, cups=str(spec.options["cups"]))
    warnings += found
    shape = shaping(q)
    basque, found_basque = basque_for(body, rules, q) if with_basque else (None, [])
    front_hole, found = armhole(body, q, half="front")
    back_hole, found_back = armhole(body, q, half="back")
    top, raised = top_level(front_hole, q, rules)
    kind = str(spec.options["top_edge"])
    head, held = head_intake(q, rules, top, kind if spec.options["yoke"] == "none" else "yoke")
    dip, dip_held = dip_of(kind, rules, top, q.front.bust)
    warnings += found_basque + found + found_back + raised + held + dip_held
    gap = rules["lacing_gap"] if spec.options["closure"] == "back-lacing" else 0.0
    necks = _necks(spec, body, rules, q, top, head)

    def layer(roll: Roll) -> Top:
        both = cups(q, rules, front_hole, top, head, kind=kind, dip=dip, roll=roll)
        under = band(q, rules, both.centre.edge("under-bust").path.length(), basque)
        below = BelowWaist(basque, under.basque.tail) if basque else None
        made, moved = back(q, rules, back_hole, top, shape, both.side_length + under.side_length, gap=gap, lower_edge=roll.lower,
                           neck=necks[1] if necks else None, on_fold=spec.options["closure"] == "side-zip", below=below)
        if not roll.narrower:
            warnings.extend(moved)
        return Top(both, under, made)

    outside = layer(Roll())
    lining = layer(Roll(0.0 if necks else ROLL, ROLL)) if layers.lined else None
    yoke = _yoke(spec, body, rules, q, necks, front_hole, top, outside.cups) if necks else None
    if yoke and spec.options["closure"] == "side-zip" and neckline(outside, yoke) < OVER_THE_HEAD:
        raise UnknownChoice("closure", "side-zip", ("back-zip", "back-lacing"), why="With this yoke the head would not pass through the neck.")
    hung = straps(body, rules, shoulder_seam(body, q), outside.cups.centre.edge("cup seam").path.start, _ends(outside.back.piece.edge("top"))
                  ) if spec.options["straps"] != "none" else None
    skirt = skirt_lining = None
    if with_skirt:
        skirt, found = _skirt(spec, body, rules, q, outside, gap)
        warnings += found
        if lining:
            skirt_lining, _ = _skirt(spec, body, rules, q, lining, gap, lining=True)
    facings = () if lining or yoke else top_facings((*outside.cups.pieces, outside.back.piece), top, q.front.chest)
    panel = modesty_panel(rules, outside.back.centre.start.y, outside.back.centre.end.y) if gap else None
    return Gown(spec, body, rules, layers, q, top, shape, gap, outside, lining, yoke, skirt, skirt_lining, panel,
                tuple(warnings + layers.warnings()), front_hole, back_hole, basque, hung, facings)


def check_choices(spec: GarmentSpec) -> None:
    """Raise UnknownChoice for choices that exclude each other, with what would work."""
    o = spec.options
    if o["straps"] != "none" and o["yoke"] != "none":
        raise UnknownChoice("straps", o["straps"], ("none",), why="The yoke already goes over the shoulder: leave out the straps, or the yoke.")
    if o["closure"] == "side-zip" and o["yoke"] == "full":
        raise UnknownChoice("closure", "side-zip", ("back-zip", "back-lacing"), why="With a full yoke the head would not pass through the neck.")


def neckline(top: Top, yoke: Piece) -> float:
    """Return the finished neckline round the neck, mm, without a lacing gap."""
    inner = 0.0 if yoke.on_fold else top.cups.centre.edge("top").path.length()
    return 2 * (yoke.edge("neck").path.length() + top.back.piece.edge("neck").path.length() + inner)


STRAPLESS_STAY = 0.5 * INCH
"""A strapless top's stay is this much less than the waist, up to twice it: it carries the weight. Common practice, no source."""


def stay_length(gown: Gown) -> float:
    """Return the finished length of the waist stay, mm."""
    return gown.body["waist"] - gown.rules.get("waist_stay", 0.0 if gown.yoke else STRAPLESS_STAY)


def _ends(edge: Edge) -> tuple[Point, Point]:
    return edge.path.start, edge.path.end


def _skirt(spec: GarmentSpec, body: Body, rules: Rules, q: Quarters, top: Top, gap: float, *, lining: bool = False) -> tuple[
    Skirt, list[Warning_]]:
    traced = traced_of(top.band, top.back, q.front.waist, gap) if top.band.basque else None
    return skirt_part(spec, body, rules, q, (top.front_waist, top.back_waist), gap, lining=lining, traced=traced)


def _necks(spec, body, rules, q, top: float, head: float) -> tuple[Path | Frame, Path] | None:
    """Return the front neckline (or the frame) and the back neckline, where a yoke makes them; None for a strapless top."""
    kind = spec.options["yoke"]
    if kind == "none":
        return None
    seam = shoulder_seam(body, q)
    if kind == "full":
        return necklines(body, rules, seam, spec.alterations)
    frame = framed_necklines(rules, seam, Point(q.bust_point_x - head / 2, top), spec.alterations)
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
    if gown.straps:
        outside.append(gown.straps.piece)
    if gown.panel:
        outside.append(gown.panel)
    pieces = []
    for number, piece in enumerate(outside, start=1):
        cuts = gown.layers.cuts_outside(piece.name, piece.pieces_of_a_cloth)
        if gown.layers.lined and piece.name in ("band", "side band", "modesty panel", "yoke"):
            cuts += gown.layers.cuts_lining(piece.name, piece.pieces_of_a_cloth)
        pieces.append(replace(piece, number=number, cuts=_merged(cuts)))
    for number, piece in enumerate(gown.facings, start=len(pieces) + 1):
        cloth = gown.layers.outside(piece.name.removesuffix(" facing"))
        pieces.append(replace(piece, number=number, cuts=(Cut(cloth, "shell", piece.pieces_of_a_cloth),)))
    lining: list[Piece] = []
    if gown.lining:
        lining = [*gown.lining.cups.pieces, gown.lining.back.piece]
    if gown.skirt_lining:
        lining += gown.skirt_lining.pieces
    return (*pieces, *(gown.layers.lining_of(piece, pieces, remarks=()) for piece in lining))


def _merged(cuts: tuple[Cut, ...]) -> tuple[Cut, ...]:
    """Add up cuts of one cloth and role: a band takes stay for the outside cloth and for its lining."""
    counts: dict[tuple[str, str, bool], int] = {}
    for cut in cuts:
        counts[cut.cloth, cut.role, cut.plain] = counts.get((cut.cloth, cut.role, cut.plain), 0) + cut.count
    return tuple(Cut(cloth, role, count, plain) for (cloth, role, plain), count in counts.items())
