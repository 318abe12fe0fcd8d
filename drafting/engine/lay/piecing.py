"""Piecing: one piece cut in two, joined by a seam, for a cloth that is too narrow or too short for the whole."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from shapely.geometry import MultiPolygon, Polygon, box

from ..tolerance import INCH
from .cloth import LayPiece
from .outline import clean_ring, opened_out

ALLOWANCE = 0.625 * INCH
"""On either side of the joining seam, mm: five eighths of an inch, common practice, no source."""

FAR = 1e6
ACROSS, ALONG = "across", "along"
LEAST = 2 * ALLOWANCE
"""A part that is less wide than its two allowances is not worth a seam, mm."""


def pieced(piece: LayPiece, how: str, *, share: float = 0.5, allowance: float = ALLOWANCE) -> tuple[LayPiece, ...] | None:
    """Return the parts of `piece` with a seam across it (level) or along it (straight down) at `share` of its extent.

    Along, a piece on the fold gets its seam where the fold was. None where the seam would leave a sliver or cut it into
    more than two parts. Lengths in mm; raises BadPiece for an outline that can't be laid.
    """
    ring = clean_ring(piece.name, piece.outline)
    if how == ALONG and piece.on_fold:
        whole = Polygon(opened_out(piece.name, ring))
        half = _one(whole & box(-allowance, -FAR, FAR, FAR))
        if half is None:
            return None
        name = f"{piece.name}, half"
        return (replace(piece, name=name, outline=half, count=2 * piece.count, on_fold=False, mirror="pair", motif=None),)
    shape = Polygon(ring)
    left, low, right, high = shape.bounds
    start, end = (low, high) if how == ACROSS else (left, right)
    at = start + (end - start) * share
    if min(at - start, end - at) < LEAST:
        return None
    if how == ACROSS:
        boxes, words = (box(-FAR, -FAR, FAR, at + allowance), box(-FAR, at - allowance, FAR, FAR)), ("upper part", "lower part")
    else:
        boxes, words = (box(-FAR, -FAR, at + allowance, FAR), box(at - allowance, -FAR, FAR, FAR)), ("left part", "right part")
    parts = [_one(shape & each) for each in boxes]
    if None in parts:
        return None
    return tuple(
        replace(piece, name=f"{piece.name}, {word}", outline=part, motif=None) for word, part in zip(words, parts, strict=True)
    )


def ways_to_piece(piece: LayPiece) -> Iterator[tuple[str, float]]:
    """The ways to try, the least seam first: across in the middle, along, then nearer either end."""
    yield ACROSS, 0.5
    yield ALONG, 0.5
    for share in (0.7, 0.3):
        yield ACROSS, share
        if not piece.on_fold:
            yield ALONG, share


def _one(shape) -> tuple[tuple[float, float], ...] | None:
    if isinstance(shape, MultiPolygon) or shape.is_empty or shape.geom_type != "Polygon":
        return None
    return tuple((float(x), float(y)) for x, y in shape.exterior.coords[:-1])
