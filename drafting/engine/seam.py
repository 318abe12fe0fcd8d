"""Seams as data: which edges are sewn to which, and by how much one side may be longer."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from .piece import Piece

EdgeRef = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Seam:
    """Edges `a` are sewn to edges `b`; a is meant to be `ease` mm longer, and is eased onto b."""

    name: str
    a: tuple[EdgeRef, ...]
    b: tuple[EdgeRef, ...]
    ease: float = 0.0
    layer: str = "outside"

    def lengths(self, pieces: Mapping[str, Piece]) -> tuple[float, float]:
        """Return the lengths of both sides, mm, measured on the pieces."""
        return _length(self.a, pieces), _length(self.b, pieces)

    def difference(self, pieces: Mapping[str, Piece]) -> float:
        """Return by how much side a is longer than it should be, mm."""
        length_a, length_b = self.lengths(pieces)
        return length_a - length_b - self.ease


def dart_seams(piece: Piece, layer: str, suffix: str = "") -> list[Seam]:
    """Return a seam for each dart of `piece`, leg to leg; `suffix` is what its layer will be named with."""
    name = f"{piece.name}{suffix}"
    return [Seam(f"dart {i}, {name}", ((name, f"dart {i} a"),), ((name, f"dart {i} b"),), 0.0, layer)
            for i in range(1, len(piece.darts) + 1)]


def _length(refs: tuple[EdgeRef, ...], pieces: Mapping[str, Piece]) -> float:
    return sum(pieces[piece].edge(edge).path.length() for piece, edge in refs)
