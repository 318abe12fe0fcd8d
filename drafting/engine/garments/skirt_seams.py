"""A skirt's seams, notches and corners, read from its pieces: one front and one back, or gores."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from ..piece import Notch, Piece
from ..seam import EdgeRef, Seam, dart_seams
from ..tolerance import INCH
from .skirt_part import Skirt

FRONTS = ("skirt front", "skirt side front")
BACKS = ("skirt back", "skirt side back")
"""From the centre outward; whichever of a skirt's pieces are there."""

LONG_SEAMS = (
    ("centre front", ("skirt front", "centre front"), ("skirt front", "centre front")),
    ("front seam", ("skirt front", "front seam"), ("skirt side front", "front seam")),
    ("side", ("skirt side front", "side"), ("skirt side back", "side")),
    ("side", ("skirt front", "side"), ("skirt back", "side")),
    ("back seam", ("skirt back", "back seam"), ("skirt side back", "back seam")),
)

Pieces = Mapping[str, Piece]


def halves_of(pieces: Pieces, names: tuple[str, ...], suffix: str = "") -> list[Piece]:
    """Return the pieces of one half of the skirt, from the centre to the side."""
    return [pieces[f"{name}{suffix}"] for name in names if f"{name}{suffix}" in pieces]


def waist_refs(pieces: Pieces, names: tuple[str, ...], suffix: str = "") -> tuple[EdgeRef, ...]:
    """Return the waist edges of FRONTS or BACKS that are sewn; what lies under a lacing gap is left unsewn."""
    return tuple((piece.name, e.name) for piece in halves_of(pieces, names, suffix) for e in piece.edges
                 if e.name.startswith("waist") and e.name != "waist under lacing")


def waist_at_side(pieces: Pieces, names: tuple[str, ...], suffix: str = "") -> EdgeRef:
    """Return the waist edge that ends at the side seam."""
    return waist_refs(pieces, names, suffix)[-1]


def long_seams(pieces: Pieces, suffix: str = "") -> Iterator[tuple[str, EdgeRef, EdgeRef]]:
    """Yield each seam from waist to hem that these pieces have: its name and its two edges."""
    for name, (one, edge), (other, second) in LONG_SEAMS:
        a, b = f"{one}{suffix}", f"{other}{suffix}"
        if a in pieces and b in pieces and pieces[a].has_edge(edge) and pieces[b].has_edge(second):
            yield name, (a, edge), (b, second)


def skirt_seams(pieces: Pieces, suffix: str = "", *, darts: bool = True) -> list[Seam]:
    """Return the skirt's own seams: darts, side, gores, godets. The waist seam belongs to whatever it hangs from."""
    layer = "lining" if suffix else "outside"
    seams = []
    for name, a, b in long_seams(pieces, suffix):
        seams.append(Seam(f"{name}, skirt{suffix}", (a,), (b,), 0.0, layer))
    for piece in (*halves_of(pieces, FRONTS, suffix), *halves_of(pieces, BACKS, suffix)):
        if darts:
            seams += dart_seams(piece, layer)
        seams += [Seam(f"{e.name}, {piece.name}", ((piece.name, e.name),), (("godet", "side"),), 0.0, layer)
                  for e in piece.edges if e.name.endswith(" godet")]
    return seams


def notch_skirt(skirt: Skirt, pieces: Pieces, suffix: str, pair: Callable[..., None], found: dict[str, list[Notch]]) -> None:
    """Notch every long seam at the hip, each with its mate, and the centre back where the opening ends."""
    for name, a, b in long_seams(pieces, suffix):
        down = _to_the_hip(pieces[a[0]], a[1])
        ats = [_from_waist(pieces[piece], edge, down) for piece, edge in (a, b)]
        if a == b:
            found[a[0]].append(Notch(a[1], ats[0], "single", (*a, ats[0])))
        else:
            pair(a, ats[0], b, ats[1], "double" if name == "back seam" else "single")
    back = f"skirt back{suffix}"
    centre = pieces[back].edge("centre back").path.length()
    if skirt.opening < centre - INCH:
        found[back].append(Notch("centre back", centre - skirt.opening))


def _to_the_hip(piece: Piece, edge: str) -> float:
    """Return how far down a seam the hip lies: its uppermost stroke ends there."""
    strokes = piece.edge(edge).path.strokes
    return strokes[0 if _walks_down(piece, edge) else -1].length()


def _from_waist(piece: Piece, edge: str, distance: float) -> float:
    """Return the place on the edge so far below the waist."""
    return distance if _walks_down(piece, edge) else piece.edge(edge).path.length() - distance


def _walks_down(piece: Piece, edge: str) -> bool:
    """Edges toward the side are walked down, those toward the centre up."""
    names = [e.name for e in piece.edges]
    return names.index(edge) < names.index("hem")


def skirt_corners(pieces: Pieces, suffix: str = "", *, pointed: bool = False):
    """Yield the corners that run on across the skirt's seams: at waist and hem, at each seam, dart and fold. A `pointed` edge, below
    a basque, has its corner at the centre front."""
    for where, corner in _at_seams(pieces, suffix):
        if not (pointed and where.startswith("skirt waist at the centre front")):
            yield where, corner
    for piece in (*halves_of(pieces, FRONTS, suffix), *halves_of(pieces, BACKS, suffix)):
        if piece.on_fold:
            yield f"hem at the fold, {piece.name}", ((piece, "hem", "fold"),)
        for i in range(1, len(piece.darts) + 1):
            yield (f"waist over dart {i}, {piece.name}",
                   ((piece, f"waist {i}", f"dart {i} a"), (piece, f"dart {i} b", f"waist {i + 1}")))


def _at_seams(pieces: Pieces, suffix: str):
    for name, a, b in long_seams(pieces, suffix):
        ends = [_ends(pieces[piece], edge) for piece, edge in (a, b)]
        for place in (0, 1):
            where = ("skirt waist", "hem")[place]
            yield f"{where} at the {name}{suffix}", tuple((pieces[ref[0]], *end[place]) for ref, end in zip((a, b), ends, strict=True))


def _ends(piece: Piece, edge: str) -> tuple[tuple[str, str], tuple[str, str]]:
    """Return the two edges, in the order walked, that meet at the seam's waist end and at its hem end."""
    names = [e.name for e in piece.edges]
    parts = [i for i, name in enumerate(names) if name in (edge, f"{edge} godet")]
    first, last = parts[0], parts[-1]
    before, after = (names[first - 1], names[first]), (names[last], names[(last + 1) % len(names)])
    return (before, after) if names.index(edge) < names.index("hem") else (after, before)
