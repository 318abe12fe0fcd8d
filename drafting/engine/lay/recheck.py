"""A finished lay rechecked from its outlines alone, by Shapely, before anyone sees it."""

from __future__ import annotations

import numpy as np
from shapely import STRtree
from shapely.geometry import Polygon

from ..tolerance import LAY_RECHECKED
from .answer import Lay
from .cloth import FOLDED, LayPiece

TOP, UNDER, BOTH = 1, 2, 3


def faults(lay: Lay, pieces: tuple[LayPiece, ...]) -> list[str]:
    """Return what is wrong with the lay, one text each; nothing when it holds."""
    return [*_missing(lay, pieces), *_hanging_off(lay), *_overlapping(lay), *_against_the_print(lay, pieces)]


def _missing(lay: Lay, pieces: tuple[LayPiece, ...]):
    given: dict[str, int] = {}
    for placed in lay.placed:
        given[placed.piece] = given.get(placed.piece, 0) + placed.gives
    for name in {piece.name for piece in pieces}:
        wanted = sum(piece.count for piece in pieces if piece.name == name)
        if given.get(name, 0) != wanted:
            yield f"{name}: {given.get(name, 0)} of {wanted} pieces"


def _hanging_off(lay: Lay):
    for placed in lay.placed:
        ring = np.array(placed.outline)
        (left, low), (right, high) = ring.min(axis=0), ring.max(axis=0)
        across = lay.cloth.usable if placed.zone else lay.across
        if left < -LAY_RECHECKED or right > across + LAY_RECHECKED:
            yield f"{placed.piece} hangs off the cloth's edge"
        if low < -LAY_RECHECKED or high > lay.length + LAY_RECHECKED:
            yield f"{placed.piece} hangs off the cloth's end"
        if placed.on_fold and lay.layout == FOLDED and abs(left) > LAY_RECHECKED:
            yield f"{placed.piece} lies off the fold"
        if placed.turned == 180 and lay.cloth.one_way:
            yield f"{placed.piece} lies upside down on a one-way cloth"


def _overlapping(lay: Lay):
    shapes = [Polygon(np.array(placed.outline)) for placed in lay.placed]
    masks = [BOTH if placed.layers == 2 else UNDER if placed.under else TOP for placed in lay.placed]
    names = [placed.piece for placed in lay.placed]
    for ring, layers in lay.blocked:
        shapes.append(Polygon(ring))
        masks.append(layers)
        names.append("a flaw")
    for one, two in STRtree(shapes).query(shapes, predicate="intersects").T:
        both_flaws = min(one, two) >= len(lay.placed)
        if one < two and masks[one] & masks[two] and not both_flaws:
            common = shapes[one].intersection(shapes[two])
            if common.area > 0 and not common.buffer(-LAY_RECHECKED / 2).is_empty:
                yield f"{names[one]} overlaps {names[two]}"
    if lay.cloth.gap > LAY_RECHECKED:
        near = STRtree(shapes).query(shapes, predicate="dwithin", distance=lay.cloth.gap - LAY_RECHECKED)
        for one, two in near.T:
            if one < two and masks[one] & masks[two] and min(one, two) < len(lay.placed):
                yield f"{names[one]} lies too near {names[two]}"


def _against_the_print(lay: Lay, pieces: tuple[LayPiece, ...]):
    """Matched pieces stand on the print's lattice; read off the outlines by where the first point of each lies."""
    if lay.print_start is None:
        return
    by_name = {piece.name: piece for piece in pieces if piece.match}
    cloth = lay.cloth
    for placed in lay.placed:
        piece = by_name.get(placed.piece)
        if piece is None:
            continue
        ring, own = np.array(placed.outline), np.array(piece.outline)
        motif = np.array(piece.motif or (0.0, 0.0))
        if placed.turned == 0 and cloth.repeat:
            off = (ring[:, 1].min() + motif[1] - own[:, 1].min() - lay.print_start) / cloth.repeat
            if abs(off - round(off)) * cloth.repeat > LAY_RECHECKED:
                yield f"{placed.piece} does not match along the cloth"
        if placed.turned == 0 and cloth.repeat_across and not piece.on_fold:
            reach = own[:, 0].max() - motif[0] if placed.mirrored else motif[0] - own[:, 0].min()
            first = cloth.motif_from(lay.layout, opened=bool(placed.zone))
            off = (ring[:, 0].min() + reach - first) / cloth.repeat_across
            if abs(off - round(off)) * cloth.repeat_across > LAY_RECHECKED:
                yield f"{placed.piece} does not match across the cloth"
