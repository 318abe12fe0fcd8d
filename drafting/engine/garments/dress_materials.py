"""What a bodice or dress takes besides cloth that can't be read from its pieces."""

from __future__ import annotations

from ..report import Material
from ..tolerance import INCH
from .dress import Dress
from .dress_closing import closing_materials
from .sleeve_sewn import sleeve_materials

RIBBON_TO_TURN = 3.0 * INCH
"""A waist stay is the body's waist and this much to turn under and hook. Common practice, no source."""


def materials_of(dress: Dress) -> tuple[Material, ...]:
    """Return what closes it and its sleeves. Common practice, no source."""
    below = dress.skirt.opening if dress.skirt else 0.0
    stay = ()
    if dress.skirt:
        stay = (Material("waist stay ribbon", dress.body["waist"] + RIBBON_TO_TURN, "mm", 1),
                Material("hooks and bars for the waist stay", 2, "pieces", 1))
    return (*stay, *closing_materials(dress.closing, dress.back.side_length(), below), *(sleeve_materials(dress.sleeve) if dress.sleeve else ()))
