"""What is marked inside a piece, as strokes to draw: a centre or fold line, buttonholes with their bars, buttons, eyelets."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping

from drafting.polyline import XY

LINES = ("centre line", "fold line")
DART = "dart"
"""A leg of a dart that lies inside the piece, from its widest place to a point."""

BAR = 0.5
"""Half of a buttonhole's end bar, and of a button's cross, mm on paper."""


def long_lines(piece: Mapping) -> list[list[XY]]:
    """Return the lines that run through the piece."""
    return [_points(mark["line"]) for mark in piece.get("marks", ()) if mark["kind"] in LINES]


def dart_legs(piece: Mapping) -> list[list[XY]]:
    """Return the legs of the darts that lie inside the piece, each drawn to its point."""
    return [_points(mark["line"]) for mark in piece.get("marks", ()) if mark["kind"] == DART]


def small_strokes(piece: Mapping, half: float = BAR) -> list[list[XY]]:
    """Return buttonholes, buttons and eyelets; `half` is half of a bar, in the drawing's own mm."""
    strokes: list[list[XY]] = []
    for mark in piece.get("marks", ()):
        if mark["kind"] not in (*LINES, DART):
            strokes += _strokes(_points(mark["line"]), half)
    return strokes


def _strokes(line: list[XY], half: float) -> Iterator[list[XY]]:
    (x0, y0), (x1, y1) = line[0], line[-1]
    far = math.hypot(x1 - x0, y1 - y0)
    if far < 1e-9:
        yield [(x0 - half, y0 - half), (x0 + half, y0 + half)]
        yield [(x0 - half, y0 + half), (x0 + half, y0 - half)]
        return
    across = (-(y1 - y0) / far * half, (x1 - x0) / far * half)
    yield line
    for x, y in (line[0], line[-1]):
        yield [(x - across[0], y - across[1]), (x + across[0], y + across[1])]


def _points(line: Iterable) -> list[XY]:
    return [(float(x), float(y)) for x, y in line]
