"""The pieces of a bodice or dress, made from its drawn blocks: edges, darts, allowances, facings, layers and numbers."""

from __future__ import annotations

from dataclasses import replace
from typing import Protocol

from ..blocks.bodice import Block
from ..blocks.neck_shapes import FACING
from ..offset import Finish, offset_points
from ..path import Path
from ..piece import Cut, Dart, Dimension, Edge, Piece, upright_grain
from ..point import Point, meet
from ..rules import Rules
from .dress import Dress
from .dress_closing import closed_back, slit_facing
from .sleeve_sewn import parted_armholes

class HasPieces(Protocol):
    """A lining that names and numbers its pieces from the outside's."""

    def pieces_from(self, dress: Dress, outside: list[Piece]) -> list[Piece]: ...


FACING_ON_SHOULDER = 0.42
"""A facing covers at most this share of the shoulder, clear of a dart at its middle."""


def front_piece(dress: Dress) -> Piece:
    """Return the front, on the fold."""
    edges, darts = _edges(dress.front, dress.rules)
    start, end = edges[-1].path.end, edges[0].path.start
    q = dress.q
    return Piece(
        name="front", title="Front", on_fold=True, seam_allowance=dress.rules["seam_allowance"], darts=darts,
        edges=(*edges, Edge("fold", Path.through(start, end))), grain=upright_grain(q.bust_point.x * 0.45, end.y, start.y, below=0.15),
        dimensions=(Dimension(Point(0.0, q.front.bust), Point(q.front_bust, q.front.bust)), Dimension(end, start),
                    Dimension(dress.neck.end, dress.shoulder.tip)),
    )


def princess_pieces(dress: Dress) -> tuple[Piece, Piece]:
    """Return the centre front, on the fold, and the side front."""
    panels, sa, q = dress.panels, dress.rules["seam_allowance"], dress.q
    (lower, lower_side), start = (path.reversed() for path in panels.lower), dress.front.neck.start
    upper = [Edge("shoulder", panels.centre_shoulder, sa)]
    if panels.centre_armhole:
        upper.append(Edge("armhole", panels.centre_armhole, sa))
    centre = Piece(
        name="front", title="Centre front", on_fold=True, seam_allowance=sa,
        edges=(Edge("neck", dress.front.neck, sa), *upper, Edge("princess seam", panels.centre_seam, sa, Finish.SQUARED),
               Edge(dress.front.lower_edge, lower, sa), Edge("fold", Path.through(lower.end, start))),
        grain=upright_grain(q.bust_point.x * 0.45, start.y, lower.end.y, below=0.15),
        dimensions=(Dimension(Point(0.0, q.front.bust), q.bust_point), Dimension(start, lower.end)),
    )
    seam = panels.side_seam.reversed()
    shoulder = (Edge("shoulder", panels.side_shoulder, sa),) if panels.side_shoulder else ()
    side = Piece(
        name="side front", title="Side front", seam_allowance=sa,
        edges=(*shoulder, Edge("armhole", panels.side_armhole, sa),
               Edge("side", panels.side, dress.rules["let_out"], Finish.LET_OUT), Edge(dress.front.lower_edge, lower_side, sa),
               Edge("princess seam", seam, sa, Finish.SQUARED)),
        grain=upright_grain((q.bust_point.x + q.front_bust) / 2, q.front.chest, panels.waist_centre.start.y, below=0.15),
        dimensions=(Dimension(q.bust_point, panels.side.at(q.front.bust - q.front.chest)), Dimension(seam.start, panels.side.end)),
    )
    return centre, side


def back_piece(dress: Dress) -> Piece:
    """Return the back as it closes: with an opening at the centre, a button stand, or on the fold."""
    return closed_back(plain_back(dress), dress.closing, dress.rules)


def plain_back(dress: Dress) -> Piece:
    """Return the back with a plain edge at the centre; on the fold where it does not open there."""
    edges, darts = _edges(dress.back, dress.rules)
    start, end = edges[-1].path.end, edges[0].path.start
    q = dress.q
    last = Edge("fold", Path.through(start, end)) if dress.closing.back_on_fold else Edge(
        "centre back", Path.through(start, end), dress.rules["centre_back_allowance"])
    return Piece(
        name="back", title="Back", on_fold=dress.closing.back_on_fold, seam_allowance=dress.rules["seam_allowance"], darts=darts,
        edges=(*edges, last),
        grain=upright_grain(q.waist * 0.25, end.y, start.y, below=0.15),
        dimensions=(Dimension(Point(start.x, q.side.bust), Point(q.back_bust, q.side.bust)), Dimension(end, start)),
    )


def _edges(block: Block, rules: Rules) -> tuple[tuple[Edge, ...], tuple[Dart, ...]]:
    """Walk neck, shoulder, armhole, side and waist, each parted where a dart opens; darts are numbered as they come."""
    sa, darts = rules["seam_allowance"], []
    edges = [Edge("neck", block.neck, sa)]

    def add(name: str, parts: tuple[Path, ...], dart: Dart | None, width: float, finish: Finish = Finish.EXTENDED) -> None:
        if dart is None:
            edges.append(Edge(name, parts[0], width, finish))
            return
        darts.append(dart)
        n = len(darts)
        edges.extend((
            Edge(f"{name} 1", parts[0], width, finish), Edge(f"dart {n} a", dart.legs[0]), Edge(f"dart {n} b", dart.legs[1].reversed()),
            Edge(f"{name} 2", parts[1], width, finish),
        ))

    add("shoulder", block.shoulder, block.bust_dart if len(block.shoulder) == 2 else None, sa)
    edges.append(Edge("armhole", block.armhole, sa))
    add("side", block.side, block.bust_dart if len(block.side) == 2 else None, rules["let_out"], Finish.LET_OUT)
    lower = block.lower
    backward = tuple(section.reversed() for section in reversed(lower.sections))
    turned = Dart(lower.dart.point, tuple(reversed(lower.dart.legs)), lower.dart.width) if lower.dart else None
    add(block.lower_edge, backward, turned, sa)
    return tuple(edges), tuple(darts)


def facings(dress: Dress) -> tuple[Piece, ...]:
    """Return front and back neck facings; none for a lined bodice."""
    if dress.layers.lined:
        return ()
    return (_facing(dress, "front neck facing", "Front neck facing", dress.front.neck, dress.front.shoulder[0], on_fold=True),
            _facing(dress, "back neck facing", "Back neck facing", dress.back.neck, dress.back.shoulder[0], on_fold=dress.closing.back_on_fold))


def _facing(dress: Dress, name: str, title: str, neck: Path, shoulder: Path, *, on_fold: bool) -> Piece:
    """Draw a facing: the neckline, a stretch of shoulder, and an outer edge that follows the neckline inside."""
    sa, start = dress.rules["seam_allowance"], neck.start
    whole = dress.shoulder.tip.distance(dress.shoulder.neck)
    width = min(FACING, FACING_ON_SHOULDER * whole, 0.9 * dress.front.shoulder[0].length(),
                dress.spec.alterations.get("facing_width", FACING))
    seam = shoulder.split_at(width)[0]
    inner = offset_points(tuple(reversed(neck.polyline())), width)
    straight_in = Point(start.x, start.y + width)
    slanted = abs(neck.leaves().y) > 1e-6
    bottom = (meet(inner[-2], inner[-1] - inner[-2], Point(start.x, 0.0), Point(0.0, 1.0)) if slanted else None) or straight_in
    along = seam.arrives()
    kept = [p for p in inner[1:-1] if along.cross(p - seam.end) > 1.0 and start.x + 1.0 < p.x]
    outer = Path.through(seam.end, *kept, bottom)
    centre = Path.through(bottom, start)
    last = Edge("fold", centre) if on_fold else Edge("centre back", centre, dress.rules["centre_back_allowance"])
    return Piece(
        name=name, title=title, on_fold=on_fold, seam_allowance=sa, group="facing",
        edges=(Edge("neck", neck, sa), Edge("shoulder", seam, sa), Edge("outer edge", outer, 0.25 * sa), last),
        grain=upright_grain(seam.end.x * 0.15, start.y, start.y + width, above=0.15, below=0.15),
        dimensions=(Dimension(start, bottom),), remarks=("neaten the outer edge",),
    )


def numbered(dress: Dress, lining: HasPieces | None = None) -> tuple[Piece, ...]:
    """Return all pieces with numbers and cloths: the outside, its facings, then linings made from them."""
    outside = [*(princess_pieces(dress) if dress.panels else (front_piece(dress),)), back_piece(dress)]
    if dress.sleeve:
        outside = [*parted_armholes(dress.sleeve, tuple(outside), "side front" if dress.panels else "front"), dress.sleeve.piece]
        outside += [dress.sleeve.band] if dress.sleeve.band else []
    if dress.skirt:
        outside += dress.skirt.pieces
    outside += facings(dress)
    if dress.closing.slit and not dress.layers.lined:
        outside.append(slit_facing(dress.closing, dress.rules, dress.back.neck))
    if dress.modesty:
        outside.append(dress.modesty)
    pieces = []
    for number, piece in enumerate(outside, start=1):
        count = piece.pieces_of_a_cloth
        cuts = [Cut(dress.layers.outside(piece.name), "shell", count)]
        if dress.layers.lined and piece.name == "modesty panel":
            cuts.append(Cut(dress.layers.cloths.get("lining", "lining"), "lining", count))
        if piece.group == "facing" and dress.layers.stayed:
            cuts.append(Cut(dress.layers.cloths["stay"], "stay", count))
        pieces.append(replace(piece, number=number, cuts=tuple(cuts)))
    if lining:
        pieces += lining.pieces_from(dress, pieces)
    if dress.skirt_lining:
        pieces += [dress.layers.lining_of(piece, pieces) for piece in dress.skirt_lining.pieces]
    return tuple(pieces)
