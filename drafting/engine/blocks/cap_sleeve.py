"""The cap sleeve: a curved shape over the shoulder tip, set into the upper part of the armhole from notch to notch.

Its height is given, its width is solved so that its edge is as long as that part of the armhole and ½ in to ease. Source: the
drafting method, section 7.
"""

from __future__ import annotations

import math

from ..curve import Cubic
from ..errors import NoSolution
from ..path import Path
from ..point import Point
from ..report import Warning_
from ..solve import root
from ..tolerance import INCH

HEIGHT, LEAST_HEIGHT, MOST_HEIGHT = 2.5 * INCH, 2.0 * INCH, 3.0 * INCH
EASE = 0.5 * INCH
DIP = 0.5 * INCH
"""The hem dips so far below the line from notch to notch."""

RATIO = (1.1, 1.2)
"""Edge over hem: looser it stands off the arm, tighter it cuts into it."""

STEEPER_DEG = 12.0
HANDLE = 0.4
HEM_HANDLE = 0.3


def cap_edges(front: float, back: float, height: float | None) -> tuple[Path, Path, Path, list[Warning_]]:
    """Return the cap's front half (notch to crown), its back half (crown to notch) and the hem from back to front.

    `front` and `back` are the covered parts of the armhole, mm; `height` what was asked for. Without one it is 2½ in, moved
    within 2 to 3 where edge over hem would not be 1.1 to 1.2.
    """
    warnings = []
    if height is not None:
        held = min(max(height, LEAST_HEIGHT), MOST_HEIGHT)
        if held != height:
            warnings.append(Warning_("cap-sleeve-held", "A cap sleeve is {0} to {1} long at the shoulder; it was drafted {2}.",
                                     (LEAST_HEIGHT + DIP, MOST_HEIGHT + DIP, held + DIP)))
        height = held
    else:
        height = _suited(front, back)
    edges = _drawn(front, back, height)
    ratio = _ratio(edges)
    if not RATIO[0] - 1e-6 <= ratio <= RATIO[1] + 1e-6:
        warnings.append(Warning_("cap-sleeve-ratio", f"The cap sleeve's edge is {ratio:.2f} of its hem; {RATIO[0]:g} to {RATIO[1]:g} lies well. Pin it in paper "
                                 "first."))
    return *edges, warnings


def _suited(front: float, back: float) -> float:
    def ratio(height: float) -> float:
        return _ratio(_drawn(front, back, height))

    usual = ratio(HEIGHT)
    if RATIO[0] <= usual <= RATIO[1]:
        return HEIGHT
    wanted, end = (RATIO[0], MOST_HEIGHT) if usual < RATIO[0] else (RATIO[1], LEAST_HEIGHT)
    try:
        return root(lambda height: ratio(height) - wanted, *sorted((HEIGHT, end)), name="height of the cap sleeve", within=1e-6)
    except NoSolution:
        return end


def _ratio(edges: tuple[Path, Path, Path]) -> float:
    return (edges[0].length() + edges[1].length()) / edges[2].length()


def _drawn(front: float, back: float, height: float) -> tuple[Path, Path, Path]:
    halves = []
    for length, share in ((front, 0.45), (back, 0.55)):
        wanted = length + share * EASE
        width = root(lambda width, wanted=wanted: _half(width, height).length() - wanted, 0.2 * wanted, wanted, name="width of the cap sleeve",
                     within=1e-9)
        halves.append(_half(width, height))
    fore = halves[0].mapped(lambda point: Point(-point.x, point.y))
    aft = halves[1].reversed()
    left, right = fore.start, aft.end
    down, across = DIP / 0.75, HEM_HANDLE * (right.x - left.x)
    hem = Path.of(Cubic(right, Point(right.x - across, down), Point(left.x + across, down), left))
    return fore, aft, hem


def _half(width: float, height: float) -> Path:
    """Draw one half from its notch at (width, 0) up to the crown at (0, -height), level there."""
    end, crown = Point(width, 0.0), Point(0.0, -height)
    chord = end.distance(crown)
    angle = math.atan2(height, width) + math.radians(STEEPER_DEG)
    leaves = Point(-math.cos(angle), -math.sin(angle))
    return Path.of(Cubic(end, end + leaves * (HANDLE * chord), Point(HANDLE * width, -height), crown))
