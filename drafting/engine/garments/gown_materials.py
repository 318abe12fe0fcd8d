"""What to buy or lay ready for a gown besides cloth. Lengths in mm; all common practice, no source."""

from __future__ import annotations

import math

from ..report import Bone, Material
from ..tolerance import INCH
from .bustier_gown import Gown

LOOPS_APART = 1.0 * INCH
LACING_PER_LOOP = 6 * INCH


def materials_of(gown: Gown, bones: tuple[Bone, ...]) -> tuple[Material, ...]:
    """Return bones, tips, casing, stay, fastening and thread."""
    total = sum(b.bone * b.count for b in bones)
    number = sum(b.count for b in bones)
    width = gown.rules["bone_width"]
    casing = sum(b.casing * b.count for b in bones)
    centre = gown.outside.back.piece.edge("centre back").path.length()
    found = [
        Material("bone", total, "mm", number),
        Material("bone tips", 2 * number, "pieces", 1),
        Material("casing strip, cut width", 2 * (width + 0.5 * INCH), "mm", 1),
        Material("casing strip, folded width", width + 0.5 * INCH, "mm", 1),
        Material("casing strip, length", casing, "mm", 1),
        Material("waist stay ribbon", gown.body["waist"] - 0.5 * INCH + 3 * INCH, "mm", 1),
        Material("hooks and bars for the waist stay", 2, "pieces", 1),
    ]
    opening = gown.skirt.opening if gown.skirt else 0.0
    if gown.gap:
        loops = max(2, math.floor(centre / LOOPS_APART))
        found += [Material("lacing loops", loops, "pieces", 2),
                  Material("lacing", 2 * loops * LACING_PER_LOOP + 40 * INCH, "mm", 1)]
        if opening:
            found += [Material("zip for the skirt", opening, "mm", 1), Material("hook and bar at the skirt's waist", 1, "pieces", 1)]
    else:
        found += [Material("zip, open at the top", centre + opening, "mm", 1), Material("hook and eye above the zip", 1, "pieces", 1)]
    found.append(Material("thread", 2, "reels", 1))
    return tuple(found)
