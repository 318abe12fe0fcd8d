"""What to buy or lay ready besides cloth, from the draft: bones, closing, thread. Lengths in mm; common practice, no source."""

from __future__ import annotations

import math

from ..draft import Draft
from ..report import Material
from ..tolerance import INCH
from ..zips import zip_to_buy
from .boning import RIBBON_TO_TURN, RIBBON_UNDER
from .closing import LOOPS_APART, Closing, closing_of
from .joint import is_lining

LACING_PER_LOOP = 6 * INCH
LACING_TO_TIE = 40 * INCH
BESIDE_BONE = 0.5 * INCH
"""A folded casing is this much wider than its bone."""
THREAD_PER_SEAM = 6.0
"""Mm of thread for a mm of edge: stitched, neatened, basted. Common practice, no source."""
REEL = 100_000.0
"""A small reel as dressmakers buy it, 100 m. Common practice, no source."""

SAME = ("zip", "tips", "casing", "waist stay", "lacing loop", "lacing", "button", "hook", "eyelet", "busk", "elastic", "tape", "band", "thread", "bone")
"""Words by which two items are known to be the same thing; the first that is found decides."""


def materials_of(draft: Draft, closing: Closing | None = None) -> tuple[Material, ...]:
    """Return what the draft itself asks for, and all that can be read from it beside; nothing twice."""
    closing = closing or closing_of(draft)
    given = {_sort(each.item) for each in draft.materials}
    found = [*_bones(draft), *_closing(draft, closing), *_tape(draft), _thread(draft)]
    return (*draft.materials, *(each for each in found if _sort(each.item) not in given))


def _sort(item: str) -> str:
    words = item.lower()
    return next((word for word in SAME if word in words), words)


def _bones(draft: Draft) -> list[Material]:
    if not draft.bones:
        return []
    number = sum(bone.count for bone in draft.bones)
    width = draft.rules.get("bone_width", 0.25 * INCH)
    found = [
        Material("bone", sum(bone.bone * bone.count for bone in draft.bones), "mm", number),
        Material("bone tips", 2 * number, "pieces", 1),
        Material("casing strip, cut width", 2 * (width + BESIDE_BONE), "mm", 1),
        Material("casing strip, folded width", width + BESIDE_BONE, "mm", 1),
        Material("casing strip, length", sum(bone.casing * bone.count for bone in draft.bones), "mm", 1),
    ]
    if "waist" in draft.body.measures:
        found += [Material("waist stay ribbon", draft.body["waist"] - RIBBON_UNDER + RIBBON_TO_TURN, "mm", 1),
                  Material("hooks and bars for the waist stay", 2, "pieces", 1)]
    return found


def _closing(draft: Draft, closing: Closing) -> list[Material]:
    if not closing.place:
        return []
    marks = [m.kind for p in draft.pieces for m in p.marks if p.of is None]
    if buttons := marks.count("button") or marks.count("buttonhole"):
        return [Material("buttons", buttons, "pieces", 1)]
    if "lacing" in closing.means:
        loops = max(2, math.floor(closing.above / LOOPS_APART))
        found = [Material("lacing loops or eyelets", loops, "pieces", 2),
                 Material("lacing", 2 * loops * LACING_PER_LOOP + LACING_TO_TIE, "mm", 1)]
        if closing.below:
            found += [Material("zip for the skirt", zip_to_buy(closing.below), "mm", 1), Material("hook and bar at the skirt's waist", 1, "pieces", 1)]
        return found
    if "zip" in closing.means and closing.edges:
        band = any("band" in p.name and p.group in ("skirt", "trousers") for p in draft.pieces)
        if closing.above:
            return [Material("zip, open at the top", zip_to_buy(closing.above + closing.below), "mm", 1), Material("hook and eye above the zip", 1, "pieces", 1)]
        return [Material("zip", zip_to_buy(closing.below), "mm", 1), Material("hook and bar" if band else "hook and eye above the zip", 1, "pieces", 1)]
    return []


def _tape(draft: Draft) -> list[Material]:
    """A waist that is cut under because it gives on the bias is held by tape as long as the waist."""
    if str(draft.spec.options.get("skirt.kind", "")) != "circle" or "waist" not in draft.body.measures:
        return []
    return [Material("stay tape for the skirt's waist", draft.body["waist"] + 2 * INCH, "mm", 1)]


def _thread(draft: Draft) -> Material:
    """Reels by the length of all edges that are sewn or turned, both halves and every layer."""
    length = 0.0
    for piece in draft.pieces:
        around = sum(edge.path.length() for edge in piece.edges if edge.name != "fold")
        layers = sum(cut.count for cut in piece.cuts if cut.role in ("shell", "lining")) or (2 if not is_lining(piece) else 1)
        length += around * layers * (2 if piece.on_fold else 1)
    return Material("thread", max(1, math.ceil(length * THREAD_PER_SEAM / REEL)), "reels", 1)
