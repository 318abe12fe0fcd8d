"""The invariants that every draft is held to, measured on its pieces. A draft that fails one is not for cutting."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from shapely import Polygon, prepare

from .piece import Piece
from .report import Check, Girth
from .seam import Seam
from .tolerance import CORNER_DEG, GIRTH, SEAM, SLIVER

HELD_GIRTHS = ("bust", "under_bust", "waist", "hip")
"""Girths held to body + ease; the chest only reports its slack."""


def seam_checks(seams: Iterable[Seam], pieces: Mapping[str, Piece]) -> list[Check]:
    """Every pair of mated edges agrees, less its stated ease, to SEAM."""
    found = []
    for seam in seams:
        difference = abs(seam.difference(pieces))
        found.append(Check(f"seam: {seam.name}", difference <= SEAM, difference, SEAM))
    return found


def girth_checks(girths: Iterable[Girth]) -> list[Check]:
    """Bust, under-bust, waist and hip come to body + ease within GIRTH."""
    return [_girth_check(girth) for girth in girths if girth.level in HELD_GIRTHS]


def _girth_check(girth: Girth) -> Check:
    miss = abs(girth.finished - girth.body - girth.ease)
    return Check(f"girth: {girth.level}", miss <= GIRTH, miss, GIRTH)


def outline_checks(pieces: Iterable[Piece]) -> list[Check]:
    """Outlines don't cross themselves or their fold, cutting lines contain sewing lines, and notches lie on their edges."""
    found = []
    for piece in pieces:
        net = Polygon([(p.x, p.y) for p in piece.net])
        cut = Polygon([(p.x, p.y) for p in piece.cut_line])
        over_fold = piece.on_fold and cut.bounds[0] < -SLIVER
        simple = net.is_valid and cut.is_valid and not over_fold
        found.append(Check(f"outline: {piece.name}", simple, 0.0 if simple else 1.0, 0.0, ""))
        if simple:
            wide = cut.buffer(SLIVER, quad_segs=1)
            prepare(wide)
            inside = wide.covers(net)
            found.append(Check(f"allowance: {piece.name}", inside, 0.0 if inside else net.difference(cut).area, 0.0, "mm²"))
    return found


def notch_checks(pieces: Iterable[Piece]) -> list[Check]:
    """Each notch lies on its edge, and its mate on the other piece points back to it."""
    by_name = {piece.name: piece for piece in pieces}
    found = []
    for piece in by_name.values():
        worst = 0.0
        for notch in piece.notches:
            length = piece.edge(notch.edge).path.length()
            worst = max(worst, -notch.at, notch.at - length)
            if notch.mate:
                mates = by_name[notch.mate[0]].notches
                back = [m.mate for m in mates if m.edge == notch.mate[1] and abs(m.at - notch.mate[2]) <= SEAM]
                if not any(m and m[0] == piece.name and m[1] == notch.edge and abs(m[2] - notch.at) <= SEAM for m in back):
                    worst = float("inf")
        if piece.notches:
            found.append(Check(f"notches: {piece.name}", worst <= SEAM, worst, SEAM))
    return found


def dart_checks(pieces: Iterable[Piece]) -> list[Check]:
    """The legs of each dart are equally long."""
    found = []
    for piece in pieces:
        for i, dart in enumerate(piece.darts, start=1):
            difference = abs(dart.legs[0].length() - dart.legs[1].length())
            found.append(Check(f"dart {i}: {piece.name}", difference <= SEAM, difference, SEAM))
    return found


def inner_angle(piece: Piece, first: str, second: str) -> float:
    """Return the inside angle in degrees between an edge and the one that follows it round the piece."""
    arrives, leaves = -piece.edge(first).path.arrives(), piece.edge(second).path.leaves()
    return (arrives.angle_deg - leaves.angle_deg) % 360.0


def corner_checks(
    corners: Iterable[tuple[str, tuple[tuple[Piece, str, str], ...]]], limit: float = CORNER_DEG
) -> list[Check]:
    """The angles of the pieces that come together at a seam's end add up to a straight line (or a square at a fold)."""
    found = []
    for name, parts in corners:
        total = sum(inner_angle(piece, first, second) for piece, first, second in parts)
        meant = 90.0 if len(parts) == 1 else 180.0
        miss = abs(total - meant)
        found.append(Check(f"corner: {name}", miss <= limit, miss, limit, "deg"))
    return found


