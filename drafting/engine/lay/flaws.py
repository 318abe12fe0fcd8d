"""Flaws and missing corners as they lie once the cloth is folded, on the layers that they spoil."""

from __future__ import annotations

from collections.abc import Iterator

from shapely.affinity import translate
from shapely.geometry import Polygon, box

from .cloth import FOLDED, LayCloth
from .outline import Points, clean_ring
from .shapes import BOTH, TOP, UNDER


def flaws_lying(cloth: LayCloth, layout: str) -> Iterator[tuple[Points, int]]:
    """Each flaw as it lies on the folded cloth, with the layers that it spoils; in x order from the fold."""
    for number, flaw in enumerate(cloth.flaws, 1):
        shape = Polygon(clean_ring(f"flaw {number}", flaw))
        if layout == FOLDED:
            half = cloth.usable / 2
            reach = shape.bounds[1] - 1, shape.bounds[3] + 1
            right = translate(shape & box(half, reach[0], half + 2 * cloth.usable, reach[1]), xoff=-half)
            left = translate(shape & box(-2 * cloth.usable, reach[0], half, reach[1]), xoff=-half)
            sides = [(right, TOP, 1), (left, UNDER, -1)]
        else:
            sides = [(shape, BOTH, 1)]
        for part, layers, side in sides:
            for polygon in getattr(part, "geoms", [part]):
                if polygon.area > 1e-6:
                    yield clean_ring("flaw", tuple((x * side, y) for x, y in polygon.exterior.coords[:-1])), layers
