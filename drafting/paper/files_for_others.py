"""What DXF, SVG and PNG files are made of: the chosen pieces in rows on one sheet, however large.

A file is not paper: nothing is saved by laying its pieces close, and they are found more easily in rows.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from math import sqrt

from drafting.paper.about import About, heading
from drafting.paper.choice import Choice
from drafting.paper.placing import APART, Layout, Place
from drafting.paper.spread import Spread, pieces_placed, pieces_to_place
from drafting.polyline import Polyline, bounds
from workshop.length import print_length

SPREAD = 1.6
"""How much larger the sheet is than its pieces' boxes together, were it square: rows are then about as long as all of them are deep."""


def one_sheet(order_file: Mapping, result: Mapping, choice: Choice, about: About) -> Spread:
    """Return the chosen pieces in rows. Raises NothingChosen."""
    fmt = partial(print_length, unit=order_file["units"])
    pieces = pieces_to_place(order_file, result, choice, heading(order_file, result, about), fmt)
    layout = in_rows([piece.lines.outline for piece in pieces])
    return Spread(((layout.width, layout.lengths[0]),), pieces_placed(pieces, layout.places, [0]), None, None)


def in_rows(rings: Sequence[Polyline]) -> Layout:
    """Return the outlines side by side in rows, the longest first, so that each row is as high as its first."""
    boxes = [bounds(ring) for ring in rings]
    filled = sum((right - left) * (bottom - top) for left, top, right, bottom in boxes)
    widest = max(sqrt(SPREAD * filled), *(right - left for left, _, right, _ in boxes))
    places, x, y, deep, across = {}, 0.0, 0.0, 0.0, 0.0
    for index in sorted(range(len(boxes)), key=lambda index: boxes[index][1] - boxes[index][3]):
        left, top, right, bottom = boxes[index]
        if x and x + right - left > widest:
            x, y, deep = 0.0, y + deep + APART, 0.0
        places[index] = Place(0, x - left, y - top, False)
        x, deep = x + right - left + APART, max(deep, bottom - top)
        across = max(across, x - APART)
    return Layout(tuple(places[index] for index in range(len(boxes))), (y + deep,), across)
