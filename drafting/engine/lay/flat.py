"""A finished lay as it comes off the table: on the cloth opened out flat, x from the left inner edge, y from the cut end."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import shapely
from shapely.geometry import Polygon

from .cloth import CROSSWISE, FOLDED

Ring = list[tuple[float, float]]


def opened_flat(lay: Mapping[str, Any]) -> list[tuple[int, Ring]]:
    """Return (number in `placed`, outline) of every piece that comes out of one entry of `lays[]`, mm.

    Of two layers both pieces are there; a half on the fold is whole. The top layer of a folded cloth is the right half.
    """
    found = []
    for number, placed in enumerate(lay["placed"]):
        ring = [(float(x), float(y)) for x, y in placed["outline"]]
        found += [(number, out) for out in _rings(ring, placed, lay)]
    return found


def _rings(ring: Ring, placed: Mapping[str, Any], lay: Mapping[str, Any]) -> list[Ring]:
    if lay["layout"] == FOLDED and not placed.get("zone"):
        half = lay["usable"]
        top, under = [(half + x, y) for x, y in ring], [(half - x, y) for x, y in ring]
        if placed["layers"] == 2 and placed["gives"] == 1:  # a half on the fold
            return [_whole(top, under)]
    elif lay["layout"] == CROSSWISE:
        top, under = ring, [(x, lay["length"] - y) for x, y in ring]
    else:
        return [ring]
    return [top, under] if placed["layers"] == 2 else [under] if placed.get("under") else [top]


def _whole(right: Ring, left: Ring) -> Ring:
    """Both halves joined along the fold."""
    joined = shapely.union(Polygon(right), Polygon(left), grid_size=1e-6)
    return [(float(x), float(y)) for x, y in joined.exterior.coords[:-1]]


def flat_width(lay: Mapping[str, Any]) -> float:
    """The width between the selvedges of the cloth opened out, mm."""
    return lay["usable"] * (2 if lay["layout"] == FOLDED else 1)
