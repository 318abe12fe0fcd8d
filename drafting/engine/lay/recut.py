"""A miscut: will what is left of the cloth give the spoiled piece again, whole or pieced?"""

from __future__ import annotations

from collections.abc import Mapping
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


@dataclass(frozen=True, slots=True)
class Recut:
    """What was found: `lay` is the new piece on the cloth that is left, `how` is "" whole, or across or along where pieced.

    Without a lay, `sure` tells that none can be; else none was found.
    """

    lay: Lay | None
    how: str = ""
    sure: bool = False


def recut(cloth: LayCloth, lay: Mapping[str, Any], piece: LayPiece, *, seconds: float = SECONDS) -> Recut:
    """Return whether `piece` can be cut from what `lay`, an entry of `lays[]`, leaves of the cloth, whose length is given.

    All that lies on the lay is gone, cut or not, and the spoiled piece with it. Millimetres; raises BadPiece for an
    outline that can't be read.
    """
    left = _left(cloth, lay)
    found = _fits(left, (piece,), seconds)
    if found is not None:
        return Recut(found)
    for how, share in ways_to_piece(piece):
        parts = pieced(piece, how, share=share)
        if parts and (found := _fits(left, parts, seconds)) is not None:
            return Recut(found, how)
    return Recut(None, sure=_is_too_little(left, piece))


def print_ahead(cloth: LayCloth, lay: Mapping[str, Any]) -> float:
    """How much cloth is thought before the cut end, so that the print begins with it, mm: the recut lay's y counts from there."""
    start = (lay.get("print") or {}).get("start") or 0.0
    return (cloth.repeat - start) % cloth.repeat if cloth.repeat else 0.0


def _left(cloth: LayCloth, lay: Mapping[str, Any]) -> LayCloth:
    """The cloth opened out, what is cut from it as flaws; a print goes on where it began."""
    ahead = print_ahead(cloth, lay)
    gone = [tuple((x, y + ahead) for x, y in ring) for _, ring in opened_flat(lay)]
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


def _is_too_little(cloth: LayCloth, piece: LayPiece) -> bool:
    """Whether the cloth that is left is less than the piece itself, wherever it may lie: only then is it sure."""
    if cloth.length is None:
        return False
    long = cloth.length * (1 - cloth.shrink)
    there = box(0, 0, cloth.usable, long)
    for ring in cloth.flaws:
        there = there.difference(Polygon(ring).buffer(0))
    try:
        wanted = area_bound(task_for(replace(cloth, flaws=()), (piece,), OPEN)) * cloth.usable
    except LayError:
        return False
    return there.area < wanted
