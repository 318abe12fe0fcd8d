"""A miscut: will what is left of the cloth give the spoiled piece again, whole or pieced?"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from typing import Any

from shapely.geometry import Polygon, box

from .answer import Lay
from .bounds import area_bound
from .cloth import OPEN, LayCloth, LayPiece
from .errors import LayError
from .flat import opened_flat
from .piecing import pieced, ways_to_piece
from .planner import plan
from .things import task_for

SECONDS = 0.4
"""CPU seconds for each way that is tried: one or two pieces among those that are cut already."""


SECONDS_ANEW = 1.5
"""CPU seconds where all pieces that are not cut yet are laid anew with it."""

WAYS_ANEW = 2
"""In how many ways the spoiled piece is parted where the others are laid anew besides."""


@dataclass(frozen=True, slots=True)
class Recut:
    """What was found: `lay` is the new piece on the cloth that is left, `how` is "" whole, or across or along where pieced.

    `anew` tells that the pieces that are not cut yet lie on it too, otherwise than before; else they stay where they were.
    Without a lay, `sure` tells that none can be; else none was found.
    """

    lay: Lay | None
    how: str = ""
    sure: bool = False
    anew: bool = False


def recut(
    cloth: LayCloth,
    lay: Mapping[str, Any],
    piece: LayPiece,
    *,
    uncut: tuple[LayPiece, ...] = (),
    seconds: float = SECONDS,
    seconds_anew: float = SECONDS_ANEW,
) -> Recut:
    """Return whether `piece` can be cut from what `lay`, an entry of `lays[]`, leaves of the cloth, whose length is given.

    The spoiled piece's own place is gone. `uncut` are pieces of the lay that are not cut yet, and must still be: they keep
    their places, or where that leaves no room are laid anew, open, together with it. All others are cut. Millimetres;
    raises BadPiece for an outline that can't be read.
    """
    left, free = _left(cloth, lay, ()), _left(cloth, lay, {each.name for each in uncut})
    if (found := _fits(left, (piece,), seconds)) is not None:
        return Recut(found)
    if uncut and (found := _fits(free, (piece, *uncut), seconds_anew)) is not None:
        return Recut(found, anew=True)
    ways = [(how, parts) for how, share in ways_to_piece(piece) if (parts := pieced(piece, how, share=share))]
    for how, parts in ways:
        if (found := _fits(left, parts, seconds)) is not None:
            return Recut(found, how)
    for how, parts in ways[:WAYS_ANEW] if uncut else ():
        if (found := _fits(free, (*parts, *uncut), seconds_anew)) is not None:
            return Recut(found, how, anew=True)
    return Recut(None, sure=_is_too_little(free, (piece, *uncut)))


def print_ahead(cloth: LayCloth, lay: Mapping[str, Any]) -> float:
    """How much cloth is thought before the cut end, so that the print begins with it, mm: the recut lay's y counts from there."""
    start = (lay.get("print") or {}).get("start") or 0.0
    return (cloth.repeat - start) % cloth.repeat if cloth.repeat else 0.0


def _left(cloth: LayCloth, lay: Mapping[str, Any], uncut: Collection[str]) -> LayCloth:
    """The cloth opened out, all that lies on it but for `uncut` as flaws; a print goes on where it began."""
    ahead = print_ahead(cloth, lay)
    gone = [tuple((x, y + ahead) for x, y in ring) for number, ring in opened_flat(lay) if lay["placed"][number]["piece"] not in uncut]
    gone += [tuple((x, y + ahead) for x, y in ring) for ring in cloth.flaws]
    if ahead:
        gone.append(((0.0, 0.0), (cloth.usable, 0.0), (cloth.usable, ahead), (0.0, ahead)))
    length = None if cloth.length is None else cloth.length + ahead / (1 - cloth.shrink)
    first = cloth.motif_from(lay["layout"], opened=True)
    return replace(
        cloth, layout=OPEN, flaws=tuple(gone), length=length, print_start_known=bool(cloth.repeat), first_motif=first
    )


def _fits(cloth: LayCloth, pieces: tuple[LayPiece, ...], seconds: float) -> Lay | None:
    try:
        lay = plan(cloth, pieces, seconds=seconds)
    except LayError:
        return None
    return lay if lay.fits_on_hand else None


def _is_too_little(cloth: LayCloth, pieces: tuple[LayPiece, ...]) -> bool:
    """Whether the cloth that is left is less than the pieces themselves, wherever they may lie: only then is it sure."""
    if cloth.length is None:
        return False
    long = cloth.length * (1 - cloth.shrink)
    there = box(0, 0, cloth.usable, long)
    for ring in cloth.flaws:
        there = there.difference(Polygon(ring).buffer(0))
    try:
        wanted = area_bound(task_for(replace(cloth, flaws=()), pieces, OPEN)) * cloth.usable
    except LayError:
        return False
    return there.area < wanted
