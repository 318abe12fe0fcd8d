"""The pieces of a blouse, made from its drawn blocks: fronts with their facing, back, sleeves, collar, facings."""

from __future__ import annotations

from dataclasses import replace

from ..blocks.blouse import hem_line
from ..blocks.bodice import Block
from ..blocks.button_stand import lapped
from ..blocks.facing import FrontFacing, back_facing, facing_width, front_facing, mirrored_in
from ..offset import Finish
from ..path import Path
from ..piece import Cut, Dart, Dimension, Edge, Mark, Piece, upright_grain
from ..point import Point
from .blouse import HEM, Blouse
from .sleeve_sewn import parted_armholes

FACINGS = ("front facing", "back neck facing")
STAYED = ("collar stand", "flat collar", *FACINGS)
UNDER = {"collar stand": "under stand", "flat collar": "under collar"}
"""What a collar is sewn to round its ends and outer edge. The outer one is stayed."""


def front_piece(blouse: Blouse) -> Piece:
    """Return the front: to the edge of its button stand, or with its facing cut on beyond it."""
    q, stand, sa = blouse.q, blouse.stand, blouse.rules["seam_allowance"]
    edges, darts = _upper(blouse, blouse.front)
    edge = -stand.width
    top = edges[0].path.start
    hem = hem_line(blouse.front.side[-1], Point(0.0, q.front.waist + blouse.below.to_hem)) + Path.through(
        Point(0.0, q.front.waist + blouse.below.to_hem), Point(edge, q.front.waist + blouse.below.to_hem))
    foot = hem.end
    deep = blouse.rules.get("hem", HEM)
    if blouse.cut_on:
        facing = _front_facing(blouse)
        shoulder, inner = (mirrored_in(path, edge) for path in (facing.shoulder, facing.inner))
        turned = mirrored_in(_whole_neck(blouse), edge).reversed()
        last = (
            Edge("facing hem", Path.through(foot, inner.end), deep, Finish.HEM), Edge("outer edge", inner.reversed(), 0.25 * sa),
            Edge(_facing_end(blouse, "facing shoulder"), shoulder.reversed(), sa),
            Edge("facing neck", Path(turned.strokes[:-1]), sa), Edge("facing neck lap", Path(turned.strokes[-1:]), sa),
        )
    else:
        last = (Edge("front edge", Path.through(foot, top), sa),)
    marks = [*stand.marks(blouse.front.neck.start.y, foot.y), *(mark for dart in blouse.front_darts for mark in dart.marks())]
    if blouse.cut_on:
        marks.append(Mark("fold line", top, foot))
    return Piece(
        name="front", title="Front", seam_allowance=sa, darts=darts, marks=tuple(marks),
        edges=(*edges, Edge("hem", hem, deep, Finish.HEM), *last),
        grain=upright_grain(q.bust_point.x * 0.45, blouse.front.neck.start.y, foot.y, below=0.15),
        dimensions=(Dimension(Point(0.0, q.front.bust), Point(q.front_bust, q.front.bust)), Dimension(blouse.front.neck.start, Point(0.0, foot.y)),
                    Dimension(hem.start, Point(0.0, foot.y))),
        remarks=("buttonholes on the wearer's right, buttons on the left",),
    )


def _whole_neck(blouse: Blouse) -> Path:
    """Return the front neckline from the button stand's edge to the shoulder."""
    return lapped(blouse.front.neck, blouse.stand.width)


def shoulder_facing(blouse: Blouse) -> float:
    """Return how much of the shoulder the facings cover, mm."""
    usual = facing_width(blouse.shoulder.tip.distance(blouse.shoulder.neck), blouse.front.shoulder[0].length())
    return blouse.spec.alterations.get("facing_width", usual)


def _front_facing(blouse: Blouse) -> FrontFacing:
    block, width = blouse.front, shoulder_facing(blouse)
    return front_facing(block.neck, block.shoulder[0], width, blouse.q.front.waist + blouse.below.to_hem)


def _upper(blouse: Blouse, block: Block, *, lap: bool = True) -> tuple[list[Edge], tuple[Dart, ...]]:
    """Walk neck, shoulder, armhole and side, parted where a dart opens; `lap`: the neck goes on over the button stand."""
    sa, darts = blouse.rules["seam_allowance"], []
    whole = _whole_neck(blouse) if lap else block.neck
    edges = [Edge("neck lap", Path(whole.strokes[:1]), sa), Edge("neck", Path(whole.strokes[1:]), sa)] if lap else [Edge("neck", whole, sa)]

    def add(name: str, parts: tuple[Path, ...], width: float, finish: Finish) -> None:
        if len(parts) == 1:
            edges.append(Edge(name, parts[0], width, finish))
            return
        dart = block.bust_dart
        darts.append(dart)
        edges.extend((Edge(f"{name} 1", parts[0], width, finish), Edge("dart 1 a", dart.legs[0]), Edge("dart 1 b", dart.legs[1].reversed()),
                      Edge(f"{name} 2", parts[1], width, finish)))

    add("shoulder", block.shoulder, sa, Finish.EXTENDED)
    edges.append(Edge("armhole", block.armhole, sa))
    add("side", block.side, blouse.rules["let_out"], Finish.LET_OUT)
    return edges, tuple(darts)


def back_piece(blouse: Blouse) -> Piece:
    """Return the back, on the fold."""
    q = blouse.q
    edges, _ = _upper(blouse, blouse.back, lap=False)
    hem = hem_line(blouse.back.side[-1], Point(0.0, q.side.waist + blouse.below.to_hem))
    start = edges[0].path.start
    return Piece(
        name="back", title="Back", on_fold=True, seam_allowance=blouse.rules["seam_allowance"],
        edges=(*edges, Edge("hem", hem, blouse.rules.get("hem", HEM), Finish.HEM), Edge("fold", Path.through(hem.end, start))),
        grain=upright_grain(q.waist * 0.25, start.y, hem.end.y, below=0.15), marks=tuple(mark for dart in blouse.back_darts for mark in dart.marks()),
        dimensions=(Dimension(Point(0.0, q.side.bust), Point(q.back_bust, q.side.bust)), Dimension(start, hem.end), Dimension(hem.start, hem.end)),
    )


def _facing_end(blouse: Blouse, sewn: str) -> str:
    """Return the name of a front facing's edge at the shoulder: sewn to the back neck facing, or where there is none, its end."""
    return "end at the shoulder" if blouse.collar and blouse.collar.kind == "stand" else sewn


def facing_pieces(blouse: Blouse) -> tuple[Piece, ...]:
    """Return the front facing where it is cut by itself, and the back neck facing, which a stand collar does without."""
    found = []
    if not blouse.cut_on:
        found.append(_separate_facing(blouse))
    if blouse.collar is None or blouse.collar.kind != "stand":
        found.append(_back_neck_facing(blouse))
    return tuple(found)


def _separate_facing(blouse: Blouse) -> Piece:
    facing, sa, edge = _front_facing(blouse), blouse.rules["seam_allowance"], -blouse.stand.width
    neck = _whole_neck(blouse)
    foot = Point(edge, facing.inner.end.y)
    return Piece(
        name="front facing", title="Front facing", seam_allowance=sa, group="facing",
        edges=(Edge("neck lap", Path(neck.strokes[:1]), sa), Edge("neck", Path(neck.strokes[1:]), sa), Edge(_facing_end(blouse, "shoulder"), facing.shoulder, sa),
               Edge("outer edge", facing.inner, 0.25 * sa), Edge("hem", Path.through(facing.inner.end, foot), blouse.rules.get("hem", HEM), Finish.HEM),
               Edge("front edge", Path.through(foot, neck.start), sa)),
        grain=upright_grain(facing.inner.end.x * 0.5, neck.start.y, foot.y, above=0.3),
        dimensions=(Dimension(neck.start, foot), Dimension(foot, facing.inner.end)), remarks=("neaten the outer edge",),
    )


def _back_neck_facing(blouse: Blouse) -> Piece:
    sa, neck = blouse.rules["seam_allowance"], blouse.back.neck
    width = shoulder_facing(blouse)
    seam, outer = back_facing(neck, blouse.back.shoulder[0], width)
    return Piece(
        name="back neck facing", title="Back neck facing", on_fold=True, seam_allowance=sa, group="facing",
        edges=(Edge("neck", neck, sa), Edge("shoulder", seam, sa), Edge("outer edge", outer, 0.25 * sa), Edge("fold", Path.through(outer.end, neck.start))),
        grain=upright_grain(seam.end.x * 0.15, neck.start.y, neck.start.y + width, above=0.15, below=0.15),
        dimensions=(Dimension(neck.start, outer.end),), remarks=("neaten the outer edge",),
    )


def collar_pieces(blouse: Blouse) -> tuple[Piece, ...]:
    """Return the collar and the one under it, cut alike; none without a collar."""
    if blouse.collar is None:
        return ()
    outer = _collar_piece(blouse)
    name = UNDER[outer.name]
    lines = tuple(mark for mark in outer.marks if mark.kind == "centre line")
    return outer, outer.renamed(name, name.capitalize(), marks=lines, remarks=("its outer edge may be trimmed by ¹⁄₁₆ so that the seam rolls under",))


def _collar_piece(blouse: Blouse) -> Piece:
    """Return half the collar, on the fold."""
    collar, sa = blouse.collar, blouse.rules["seam_allowance"]
    fold = Path.through(collar.outer.end, collar.neck.start)
    if collar.kind == "flat":
        edges = (Edge("neck", collar.neck, sa), Edge("end", collar.end, sa), Edge("outer edge", collar.outer, sa), Edge("fold", fold))
        marks: tuple[Mark, ...] = ()
    else:
        edges = (Edge("top", collar.outer.reversed(), sa), Edge("end", collar.end.reversed(), sa), Edge("neck", collar.neck.reversed(), sa),
                 Edge("fold", fold.reversed()))
        marks = _stand_marks(blouse)
    x = 0.3 * collar.depth if collar.kind == "flat" else 0.3 * collar.shoulder
    grain = (Point(x, 0.2 * collar.depth), Point(x, 0.8 * collar.depth)) if collar.kind == "flat" else upright_grain(x, -collar.depth, 0.0)
    name = "flat collar" if collar.kind == "flat" else "collar stand"
    return Piece(name=name, title=name.capitalize(), on_fold=True, seam_allowance=sa, group="collar", edges=edges, grain=grain, marks=marks)


def _stand_marks(blouse: Blouse) -> tuple[Mark, ...]:
    """Return a stand's centre front line, and its buttonhole along the middle of its depth."""
    collar, hole = blouse.collar, blouse.stand.hole
    foot, along = collar.neck.at(collar.centre), collar.neck.direction_at(collar.centre)
    out = along.outward()
    middle = foot + out * (collar.depth / 2)
    begin = middle + along * (0.125 * 25.4)
    return (Mark("centre line", foot, foot + out * collar.depth), Mark("buttonhole", begin, begin - along * hole), Mark("button", middle, middle))


def numbered(blouse: Blouse) -> tuple[Piece, ...]:
    """Return all pieces with numbers and cloths."""
    outside = [front_piece(blouse), back_piece(blouse)]
    if blouse.sleeve:
        outside = [*parted_armholes(blouse.sleeve, tuple(outside), "front"), blouse.sleeve.piece]
        outside += [blouse.sleeve.band] if blouse.sleeve.band else []
    outside += collar_pieces(blouse)
    outside += facing_pieces(blouse)
    return tuple(replace(piece, number=number, cuts=_cuts(blouse, piece)) for number, piece in enumerate(outside, start=1))


def _cuts(blouse: Blouse, piece: Piece) -> tuple[Cut, ...]:
    cuts = [Cut(blouse.layers.outside(piece.name), "shell", piece.pieces_of_a_cloth)]
    if piece.name in STAYED and blouse.layers.stayed:
        cuts.append(Cut(blouse.layers.cloths["stay"], "stay", piece.pieces_of_a_cloth))
    return tuple(cuts)
