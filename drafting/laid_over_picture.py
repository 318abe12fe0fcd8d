"""A sleeve's cap drawn over the armhole at the underarm, from a result's `laid_over`: for the sheet and for the screen."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping

from drafting.linework import Linework
from drafting.polyline import XY, length, walked

Fmt = Callable[[float], str]
BESIDE = 2.4
"""Words stand so far beside their line, mm on paper."""


def laid_over_title(one: Mapping) -> str:
    half, _, side = one["name"].partition(", ")
    return f"Cap over the {side} {half} armhole" if side else f"Cap over the {half} armhole"


def laid_over_words(one: Mapping, fmt: Fmt) -> str:
    """Say how far cap and armhole part."""
    apart = fmt(one["apart"])
    return "they meet at the notch" if apart == "0" else f"they part by {apart} at the notch"


def laid_over_svg(one: Mapping, *, scale: float, for_paper: bool, fmt: Fmt) -> str:
    """Return the drawing: the armhole's line, the cap's dashed over it, the notch, and what parts them there."""
    sketch = Linework(scale=scale, for_paper=for_paper)
    armhole, cap, parts = (_points(one[key]) for key in ("armhole", "cap", "parts"))
    under = armhole[-1]
    sketch.draw("level", [[(min(x for x, _ in (*armhole, *cap)), under[1]), under]])
    sketch.draw("cut", [armhole])
    sketch.draw("sew", [cap])
    if math.dist(*parts) > 0.01:
        sketch.draw("notch", [parts])
    sketch.ring(parts[0])
    reach = sketch.on_paper(BESIDE)
    for words, line, share in (("armhole", armhole, 0.25), ("cap", cap, 0.75)):
        at, _ = walked(line, length(line) * share)
        sketch.words(words, (at[0] + 0.6 * reach, at[1] - (0.0 if line is armhole else 0.6 * reach)), anchor="start")
    low = max(y for _, y in (*armhole, *cap)) + sketch.on_paper(1.5) + sketch.text_height
    sketch.words(laid_over_words(one, fmt).removeprefix("they "), ((armhole[0][0] + under[0]) / 2, low))
    return sketch.svg(title=laid_over_title(one), attributes={"class": "piece-drawing"})


def _points(line: Iterable) -> list[XY]:
    return [(float(x), float(y)) for x, y in line]
