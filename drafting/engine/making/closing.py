"""How a garment closes, read from its draft: where, with what, which edges stay open, and how far."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ..draft import Draft
from ..piece import Edge, Piece
from ..tolerance import INCH
from .joint import is_lining, stem

LOOPS_APART = 1.0 * INCH
"""Lacing loops, or eyelets, along an edge. Common practice, no source."""

PLACES = ("back", "front", "side")
SEWN_ON = ("buttons", "hooks", "ties", "snaps")
"""What is sewn onto finished edges, when all else is done."""

BELOW_WAIST = ("skirt", "trousers")


@dataclass(frozen=True, slots=True)
class Open:
    """An edge that no seam takes: mm of it stay open from its upper end, the rest is sewn shut below."""

    piece: Piece
    edge: Edge
    opening: float

    @property
    def sewn(self) -> float:
        return max(0.0, self.edge.path.length() - self.opening)

    @property
    def is_other_side(self) -> bool:
        """True for the left one of two pieces whose right one says all there is to say."""
        return self.piece.side == "left"

    @property
    def right(self) -> str:
        """The piece's name, or that of the right one which it is sewn to."""
        name = self.piece.name
        return f"right {name.removeprefix('left ')}" if self.is_other_side else name

    @property
    def is_lower(self) -> bool:
        return self.piece.group in BELOW_WAIST


@dataclass(frozen=True, slots=True)
class Closing:
    """`place` is back, front, side, or "" for none; `means` as the garment's choice names it: zip, lacing, buttons …"""

    place: str
    means: str
    gap: float
    edges: tuple[Open, ...]
    closed: tuple[Open, ...]

    @property
    def is_sewn_on(self) -> bool:
        """True where the edges are finished first, and what closes them is sewn on last."""
        return self.means in SEWN_ON

    @property
    def upper(self) -> tuple[Open, ...]:
        return tuple(each for each in self.edges if not each.is_lower)

    @property
    def lower(self) -> tuple[Open, ...]:
        return tuple(each for each in self.edges if each.is_lower)

    @property
    def above(self) -> float:
        """How long the opening is above the waist, mm."""
        return sum(each.opening for each in self.upper if not each.is_other_side)

    @property
    def below(self) -> float:
        """How far it opens below the waist, mm."""
        return sum(each.opening for each in self.lower if not each.is_other_side)

    @property
    def where(self) -> str:
        return {"side": "left side"}.get(self.place, f"centre {self.place}") if self.place else ""


def closing_of(draft: Draft) -> Closing:
    """Return how the draft's garment closes; its edges are the outside ones named for the centre that no seam takes."""
    sewn = {ref for seam in draft.seams for ref in (*seam.a, *seam.b)}
    free = [(piece, edge) for piece in draft.pieces if not is_lining(piece) and piece.group != "facing"
            for edge in piece.edges if edge.name.startswith("centre ") and (piece.name, edge.name) not in sewn]
    asked = str(draft.spec.options.get("closure") or "")
    place, _, means = asked.partition("-")
    if place not in PLACES:
        place, means = next((edge.name.split()[1] for _, edge in free), ""), asked or "zip"
        if not place and any(mark.kind == "button" for piece in draft.pieces for mark in piece.marks if piece.group == "top"):
            place, means = "front", "buttons"
    mine = [(p, e) for p, e in free if e.name.split()[1] == place]
    gap = draft.rules.get("lacing_gap", 0.0) if "lacing" in means else 0.0
    return Closing(place if mine or place == "side" or asked or means == "buttons" else "", means, gap,
                   tuple(_open(p, e) for p, e in mine), tuple(Open(p, e, 0.0) for p, e in free if (p, e) not in mine))


def _open(piece: Piece, edge: Edge) -> Open:
    """Below the waist an edge opens as far as its notch without a mate; above it, all the way."""
    length = edge.path.length()
    if piece.group not in BELOW_WAIST:
        return Open(piece, edge, length)
    for notch in piece.notches:
        if notch.edge == edge.name and notch.mate is None:
            return Open(piece, edge, notch.at if edge.path.start.y < edge.path.end.y else length - notch.at)
    return Open(piece, edge, length)


def unsewn(draft: Draft, names: Iterable[str]) -> list[tuple[Piece, Edge]]:
    """Return the outside edges called one of `names` (or that and a number) that no seam takes, on pieces that are sewn to others."""
    sewn = {ref for seam in draft.seams for ref in (*seam.a, *seam.b)}
    wanted = set(names)
    joined = {name for name, _ in sewn}
    return [(piece, edge) for piece in draft.pieces if not is_lining(piece) and piece.group != "facing" and piece.name in joined
            for edge in piece.edges if (edge.name in wanted or stem(edge.name) in wanted) and (piece.name, edge.name) not in sewn]
