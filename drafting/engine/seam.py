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


def refs(piece: Piece, name: str) -> tuple[EdgeRef, ...]:
    """Return the edges called `name`, or `name 1`, `name 2` … where a dart parts it, in the order walked."""
    return tuple((piece.name, e.name) for e in piece.edges if e.name == name or (e.name.startswith(f"{name} ") and e.name[-1].isdigit()))


def first_part(piece: Piece, name: str) -> str:
    """Return the first of the edges called `name`, where darts part it: `name 1`."""
    return refs(piece, name)[0][1]


def last_part(piece: Piece, name: str) -> str:
    """Return the last of the edges called `name`, where darts part it."""
    return refs(piece, name)[-1][1]


def dart_seams(piece: Piece, layer: str, suffix: str = "") -> list[Seam]:
    """Return a seam for each dart of `piece`, leg to leg; `suffix` is what its layer will be named with."""
    name = f"{piece.name}{suffix}"
    return [Seam(f"dart {i}, {name}", ((name, f"dart {i} a"),), ((name, f"dart {i} b"),), 0.0, layer)
            for i in range(1, len(piece.darts) + 1)]


def _length(refs: tuple[EdgeRef, ...], pieces: Mapping[str, Piece]) -> float:
    return sum(pieces[piece].edge(edge).path.length() for piece, edge in refs)
