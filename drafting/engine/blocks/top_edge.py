"""The top edge over the centre cup: straight, sweetheart or V, from the fold to the cup seam's head."""

from __future__ import annotations

from ..curve import Cubic, Line
from ..path import Path
from ..point import Point
from ..report import Warning_
from ..rules import Rules
from ..tolerance import INCH

DIPS = {"straight": 0.0, "sweetheart": 1.5 * INCH, "v": 2.5 * INCH}
LEAST_ABOVE_BUST = 1.5 * INCH
SNUG = {"straight": 0.25 * INCH, "sweetheart": 0.0, "v": 0.0, "yoke": 0.0}
"""A straight strapless edge is taken in a little at each cup seam's head; a dipped one lies snug by its slant, and under a
yoke the closed upper dart must be just the slide between its two halves."""


def dip_of(kind: str, rules: Rules, top: float, bust: float) -> tuple[float, list[Warning_]]:
    """Return how far the edge dips at the fold, held so that its lowest point stays 1½ in above the bust."""
    if kind == "straight":
        return 0.0, []
    wanted, most = rules.get("top_edge_dip", DIPS[kind]), bust - LEAST_ABOVE_BUST - top
    if wanted <= most:
        return wanted, []
    return most, [Warning_("dip-held", "The top edge dips {0} at the centre (house rule {1}), to stay {2} above the bust.",
                           (most, wanted, LEAST_ABOVE_BUST))]


def centre_edge(kind: str, top: float, dip: float, head: Point) -> Path:
    """Draw the edge from the fold to the seam head, level where it arrives. Shapes: the drafting method, section 6."""
    start = Point(0.0, top + dip)
    if kind == "straight":
        return Path.of(Line(start, head))
    if kind == "sweetheart":
        return Path.of(Cubic(start, Point(0.25 * head.x, top + 0.75 * dip), Point(0.55 * head.x, top), head))
    return Path.of(Cubic(start, Point(0.3 * head.x, top + 0.62 * dip), Point(0.6 * head.x, top), head))
