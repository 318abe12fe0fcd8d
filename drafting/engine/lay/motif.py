"""Where a motif's point has come to lie: read off the placed outline, not from how it was placed."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from .answer import Placed
from .cloth import LayPiece
from .shapes import turned


def with_motifs(placed: list[Placed], pieces: tuple[LayPiece, ...]) -> list[Placed]:
    """Return what is placed, with the places of the points that the pieces name as their `motif`; mm."""
    named = {piece.name: piece for piece in pieces if piece.motif is not None}
    return [replace(one, motif=_motif(one, named[one.piece])) if one.piece in named else one for one in placed]


def _motif(one: Placed, piece: LayPiece) -> tuple[float, float]:
    own = np.array(piece.outline)
    if piece.on_fold and not one.on_fold:
        own = np.concatenate([own, own * [-1, 1]])
    # Turned about its fold, the half on the fold is its own mirror image.
    mirrored = one.mirrored or (one.on_fold and one.turned == 180)
    low = turned(own, one.turned, mirrored).min(axis=0)
    (point,) = turned(np.array([piece.motif]), one.turned, mirrored)
    x, y = point - low + np.array(one.outline).min(axis=0)
    return float(x), float(y)
