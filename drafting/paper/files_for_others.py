"""What DXF and SVG files are made of: the chosen pieces on one sheet, however large."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial

from drafting.paper.about import About, heading
from drafting.paper.choice import Choice
from drafting.paper.papers import Paper
from drafting.paper.spread import Spread, spread_of
from workshop.length import print_length

ONE_SHEET = Paper("sheet", "One sheet", 1320.0, 20000.0, tiled=True)
"""A sheet that nothing is too large for: a plotter's or a screen's, not a printer's."""


def one_sheet(order_file: Mapping, result: Mapping, choice: Choice, about: About) -> Spread:
    """Return the chosen pieces placed together. Raises NothingChosen."""
    fmt = partial(print_length, unit=order_file["units"])
    return spread_of(order_file, result, ONE_SHEET, choice, heading(order_file, result, about), fmt)
