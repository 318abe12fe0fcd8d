"""How wide a skirt must be to walk in: the loop round two legs, held against the skirt at every level."""

from __future__ import annotations

import math
from collections.abc import Callable

from ..report import Warning_
from ..tolerance import INCH

FULL_STEP = 0.38
SHORT_STEP = 0.6 * FULL_STEP
"""Share of the height from foot to foot in a full step; a narrow skirt allows three fifths of it."""

USUAL_HEIGHT = 65 * INCH
USUAL_KNEE = 14 * INCH
LEVELS = 12


def needed_girth(below_joint: float, height: float, knee: float, *, step: float = FULL_STEP) -> float:
    """Return the girth, mm, that a skirt must have `below_joint` mm under the hip joint for a step of `step` heights.

    The loop round two legs: g + 2 sqrt((T z/l)^2 + (g/pi)^2), step T = 0.38 of the height, leg l half of it, g the leg's
    girth there (the knee's, and a fifth of an inch more per inch above it). Source: the drafting method, section 8.
    """
    leg = knee + 0.2 * max(0.0, 0.247 * height - below_joint)
    return leg + 2 * math.hypot(step * height * below_joint / (0.5 * height), leg / math.pi)


def walking_warnings(girth_at: Callable[[float], float], depth: float, open_below: float, height: float, knee: float, *,
                     step: float = FULL_STEP, start: float | None = None) -> list[Warning_]:
    """Return a warning where the skirt is narrower than a step needs, from the hip line (or `start`) down to `open_below`, its hem
    or the top of its vent. `girth_at` answers the girth all round so far below the waist."""
    joint = depth - INCH
    start = depth if start is None else start
    worst, place = 0.0, 0.0
    for i in range(LEVELS + 1):
        level = start + (open_below - start) * i / LEVELS
        short = needed_girth(level - joint, height, knee, step=step) - girth_at(level)
        if short > worst:
            worst, place = short, level
    if worst < 0.25 * INCH:
        return []
    needed = needed_girth(place - joint, height, knee, step=step)
    return [Warning_("short-steps", "{0} below the waist the skirt measures {1} round; a full step needs {2} there. More flare or a slit, or print “short "
                     "steps” for the wearer.", (place, needed - worst, needed))]
