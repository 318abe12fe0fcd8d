"""A piece of one draft over the same piece of another: the old one dashed, the new one solid and in chalk."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from drafting.engine.compare import PieceChange
from drafting.engine.outlines import cloth_of
from drafting.engine.tolerance import SEAM
from drafting.linework import Linework, safe
from drafting.polyline import XY

SHOWN = 6.0
"""How wide a ring marks the place that moved most, mm on paper."""

LONG = 500.0
"""Larger pieces are shown at half the size of the others, mm."""


def over_svg(old: Mapping[str, Any] | None, new: Mapping[str, Any] | None, change: PieceChange, *, scale: float = 1.0, for_paper: bool = False) -> str:
    """Return the SVG of one piece, whole and escaped: cut line and sewing line of the old one, the new sewing line on top.

    `old` or `new` is None for a piece that only one of the drafts has. The place that moved most is ringed.
    """
    sketch = Linework(scale=scale, for_paper=for_paper)
    if old:
        rim = list(cloth_of(old, mirror=change.mirror, opened=change.opened).exterior.coords)
        sketch.ground(rim, "shell")
        sketch.draw("grain", [rim])
        sketch.draw("sew", _laid(old, change))
    if new:
        lines = [[(x + change.slide[0], y + change.slide[1]) for x, y in edge["line"]] for edge in new["edges"] if edge["name"] != "fold"]
        data = sketch.path_data(lines)
        style = sketch.style("cut").replace('class="line line-cut"', 'class="line line-new"')
        sketch.raw(f'<path {style} d="{data}"/>')
    largest = change.largest
    if largest and abs(largest.amount) > SEAM:
        x, y = largest.at
        reach = sketch.on_paper(SHOWN / 2)
        sketch.raw(f'<circle class="most-moved" fill="none" stroke="currentColor" stroke-width="1.5" vector-effect="non-scaling-stroke" '
                   f'cx="{x:.2f}" cy="{y:.2f}" r="{reach:.2f}"/>')
        sketch.path_data([[(x - reach, y - reach), (x + reach, y + reach)]])
    left, top, right, bottom = sketch.box
    size = "over-long" if bottom - top > LONG or right - left > LONG else "over-short"
    return sketch.svg(title=f"{safe(change.title)}, the old one dashed, the new one in chalk", attributes={"class": f"piece-drawing over-drawing {size}"})


def _laid(piece: Mapping[str, Any], change: PieceChange) -> Iterable[list[XY]]:
    """Yield the old piece's edges as they lie under the new one."""
    for edge in piece["edges"]:
        if edge["name"] == "fold":
            continue
        line = [(-x if change.mirror else x, y) for x, y in edge["line"]]
        yield line
        if change.opened:
            yield [(-x, y) for x, y in line]
