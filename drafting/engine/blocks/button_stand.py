"""The button stand: what an opening laps beyond its centre line, where its buttons sit, and how long their holes are.

The centre line of a half is x = 0; the stand lies beyond it, at negative x. All of it common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from ..curve import Line
from ..errors import ImpossibleMeasure
from ..path import Path
from ..piece import Mark
from ..point import Point
from ..rules import BUTTON_RULES, Rules
from ..tolerance import INCH

BESIDE_BUTTON = 0.25 * INCH
"""Cloth left between a button's rim and the edge, at the stand's side and at its top."""

__all__ = ["BUTTON_RULES", "ButtonStand", "button_stand", "lapped"]

LEAST_STAND = 0.5 * INCH
BEYOND_CENTRE = 0.125 * INCH
"""A hole begins this far beyond the centre line: the button's shank pulls it onto the line."""

HOLE_EASE = 0.125 * INCH
"""A flat button passes a hole longer than itself by its thickness."""

FACING_BEHIND = 1.0 * INCH
"""A stand's facing, turned under, reaches this far behind the centre line, behind the holes' ends."""


@dataclass(frozen=True, slots=True)
class ButtonStand:
    """`width` mm from the centre line to the edge; `button` its buttons' diameter; `places` the levels (y) of the buttons."""

    width: float
    button: float
    places: tuple[float, ...]

    @property
    def hole(self) -> float:
        """The length of a buttonhole, mm."""
        return self.button + HOLE_EASE

    @property
    def facing(self) -> float:
        """The width of the facing that is cut in one with the stand and turned under along its edge, mm."""
        return self.width + max(FACING_BEHIND, self.hole)

    def marks(self, top: float, bottom: float) -> tuple[Mark, ...]:
        """Return the centre line between two levels, and a level buttonhole and a button at each place."""
        found = [Mark("centre line", Point(0.0, top), Point(0.0, bottom))]
        for y in self.places:
            found += [Mark("buttonhole", Point(-BEYOND_CENTRE, y), Point(self.hole - BEYOND_CENTRE, y)),
                      Mark("button", Point(0.0, y), Point(0.0, y))]
        return tuple(found)


def button_stand(rules: Rules, top: float, bottom: float, *, through: Iterable[float] = ()) -> ButtonStand:
    """Return the stand of an opening between the levels `top` and `bottom` (y, at the centre line) that are both finished edges.

    Half the button and ¼ in wide (at least ½). The first and the last button keep as far from top and bottom; one sits at each
    level of `through` (the bust, where an opening gapes first) that is not too near to another; the rest evenly between, no
    further apart than the house allows, unless big buttons would then overlap. Raises ImpossibleMeasure where the opening is too short for two buttons.
    """
    button, apart = rules["button"], rules["button_spacing"]
    width = rules.get("button_stand", max(LEAST_STAND, button / 2 + BESIDE_BUTTON))
    if width < button / 2:
        raise ImpossibleMeasure("button_stand", width, "A button stand of {value} is narrower than half a button; it must be at least {needed}.",
                                needed=button / 2)
    first, last = top + button / 2 + BESIDE_BUTTON, bottom - button / 2 - BESIDE_BUTTON
    if last - first < button + BESIDE_BUTTON:
        raise ImpossibleMeasure("button", button, "Two buttons of {value} don't fit into an opening {needed} long. Take smaller ones.",
                                needed=bottom - top)
    fixed = [first]
    for level in sorted(through):
        if level - fixed[-1] > button + BESIDE_BUTTON and last - level > button + BESIDE_BUTTON:
            fixed.append(level)
    fixed.append(last)
    places = [first]
    for low, high in zip(fixed, fixed[1:], strict=False):
        gaps = max(1, min(math.ceil((high - low) / apart - 1e-9), math.floor((high - low) / (button + BESIDE_BUTTON))))
        places += [low + (high - low) * i / gaps for i in range(1, gaps + 1)]
    return ButtonStand(width, button, tuple(places))


def lapped(edge: Path, width: float) -> Path:
    """Return an edge that starts at the centre line carried on, the way it came, to the stand's own edge."""
    start, back = edge.start, -edge.leaves()
    if back.x >= -1e-9:
        raise ValueError("the edge does not run away from the centre line")
    outer = start + back * ((start.x + width) / -back.x)
    return Path((Line(outer, start), *edge.strokes))
