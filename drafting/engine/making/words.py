"""A dressmaker's words for seams, pieces and how to press them."""

from __future__ import annotations

from ..path import Path
from ..piece import Piece
from ..act import listed
from .joint import EASED, Joint, named

CURVED = 6.0
"""A seam that leaves its straight line by more than this many mm is clipped and pressed over a ham. Judgement."""


def plain(name: str) -> str:
    return name.removesuffix(" lining")


def pieces_in_words(joint: Joint, side) -> str:
    return listed(plain(name) for name, _ in side)


def called(joint: Joint) -> str:
    """Return the seam's name for a sentence, in the plural where there is one on each side of the body."""
    base, of, rest = named(joint).partition(" of the ")
    if not (joint.crosses_centre or joint.is_mirrored or base.endswith(("s", "band"))):
        base += "s"
    return f"{base}{of}{rest}"


def capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def bends(path: Path) -> bool:
    """Tell whether a path leaves the straight line between its ends by more than CURVED."""
    chord = path.end - path.start
    size = chord.size
    if not size:
        return True
    return any(abs(chord.cross(stroke.at(t) - path.start)) > CURVED * size for stroke in path.strokes for t in (0.5, 1.0))


def is_curved(joint: Joint) -> bool:
    return any(bends(joint.pieces[name].edge(edge).path) for name, edge in joint.refs)


def eases(joint: Joint) -> float:
    """Return how much is eased in over both sides of the seam's half, mm; 0 for what is gathered or within play."""
    if joint.gathers:
        return 0.0
    total = abs(sum(x - y for x, y in joint.lengths))
    return total if total > EASED else 0.0


def has_notches(joint: Joint) -> bool:
    refs = set(joint.refs)
    return any((piece.name, notch.edge) in refs and notch.mate for piece in map(joint.pieces.__getitem__, joint.piece_names)
               for notch in piece.notches)


def both(piece: Piece) -> str:
    """Return a piece's name, in the plural where there is a mirrored pair of it."""
    name = plain(piece.name)
    return name if piece.on_fold or name.endswith("s") or sum(c.count for c in piece.cuts[:1]) == 1 else f"{name}s"
