"""What a bodice or dress takes besides cloth that can't be read from its pieces."""

from __future__ import annotations

from ..report import Material
from .dress import Dress
from .dress_closing import closing_materials
from .sleeve_sewn import sleeve_materials


def materials_of(dress: Dress) -> tuple[Material, ...]:
    """Return what closes it and its sleeves. Common practice, no source."""
    below = dress.skirt.opening if dress.skirt else 0.0
    return (*closing_materials(dress.closing, dress.back.side_length(), below), *(sleeve_materials(dress.sleeve) if dress.sleeve else ()))
