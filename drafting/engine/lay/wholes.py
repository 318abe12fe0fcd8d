"""A piece as a layout takes it up: halved on a fold, opened out, in mirrored pairs or singly."""

from __future__ import annotations

from dataclasses import dataclass

from shapely.geometry import Polygon

from .cloth import FOLDED, OPEN, LayPiece
from .errors import TooFine, TooMany
from .outline import MOST_AT_ONCE, Points, check_fold, clean_ring, opened_out
from .shapes import BOTH, TOP

MOST_THINGS = 2000
MOST_LONG_POINTS, MOST_LAID_POINTS = 60_000, 1_000_000
"""Points laid in outlines that have more than MOST_AT_ONCE, and in all. With more a lay's recheck would not end in time."""


@dataclass(frozen=True, slots=True, eq=False)
class Whole:
    """A piece as it is taken up by this layout: its ring (halved for a fold), how it may be mirrored, what it gives."""

    piece: LayPiece
    ring: Points
    on_fold: bool
    mirrors: tuple[bool, ...]
    layers: int
    gives: int

    @property
    def matched(self) -> bool:
        return self.piece.match


def clean_rings(pieces: tuple[LayPiece, ...]) -> dict[str, Points]:
    """Return each piece's outline, checked, by its name; raises BadPiece, TooMany, TooFine."""
    count = sum(piece.count for piece in pieces)
    if count > MOST_THINGS:
        raise TooMany(count, MOST_THINGS)
    points = [(len(piece.outline), piece.count) for piece in pieces]
    long = sum(each * times for each, times in points if each > MOST_AT_ONCE)
    if long > MOST_LONG_POINTS or sum(each * times for each, times in points) > MOST_LAID_POINTS:
        finest = max(pieces, key=lambda piece: len(piece.outline) * piece.count)
        raise TooFine(finest.name, points=len(finest.outline), count=finest.count, most=MOST_AT_ONCE)
    return {piece.name: clean_ring(piece.name, piece.outline) for piece in pieces}


def taken_up(piece: LayPiece, layout: str, half: Points) -> list[Whole]:
    """Return what is to be placed for all the counted pieces of `piece`, its checked outline `half`; raises BadPiece."""
    if piece.on_fold:
        check_fold(piece.name, half)
        if layout == FOLDED:
            return [Whole(piece, half, True, (False,), BOTH, 1)] * piece.count
        whole, even = opened_out(piece.name, half), True
    else:
        whole, even = half, layout != OPEN and piece.mirror == "never" and piece.count > 1 and _is_even(half)
    if layout == OPEN:
        odd = (True,) if piece.mirror == "pair" and not piece.on_fold else (False,)
        return [Whole(piece, whole, False, odd if n % 2 else (False,), TOP, 1) for n in range(piece.count)]
    paired = 0 if piece.singly else piece.count // 2 if piece.mirror == "pair" or even else 0
    both = [Whole(piece, whole, False, (False, True), BOTH, 2)] * paired
    singles = [
        Whole(piece, whole, False, (bool(n % 2) and piece.mirror == "pair",), TOP, 1)
        for n in range(piece.count - 2 * paired)
    ]
    return both + singles


def _is_even(ring: Points) -> bool:
    """Whether the piece is its own mirror image, so that a face-down layer gives the same piece. Long outlines are not asked."""
    if len(ring) > MOST_AT_ONCE:
        return False
    shape = Polygon(ring)
    middle = (ring[:, 0].min() + ring[:, 0].max()) / 2
    mirror = Polygon((ring - [middle, 0]) * [-1, 1] + [middle, 0])
    return shape.symmetric_difference(mirror).area <= 1e-3 * shape.length * 1e-2
