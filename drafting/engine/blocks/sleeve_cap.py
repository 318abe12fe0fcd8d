"""The set-in sleeve's cap: its height and the front's share of the bicep line are solved for both armhole halves.

Each half is two cubics that meet at M on the chord from underarm to crown, with one inflection there. Shares, angles and
handle lengths: the drafting method, section 7, tried on many armholes.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..curve import Cubic
from ..errors import ImpossibleMeasure
from ..path import Path
from ..point import Point, meet
from ..solve import root

PLACE = {"front": 0.40, "back": 0.35}
STEEPER_DEG = {"front": 19.0, "back": 15.0}
STEEPEST_DEG = 78.0
TOO_FLAT = 0.92
FLAT = 0.87
CROWN_HANDLE = 0.55


@dataclass(frozen=True, slots=True)
class Cap:
    """A cap drawn from the front underarm over the crown (x = 0, y = -height) to the back underarm; bicep line at y = 0.

    `front` runs from its underarm to the crown, `back` from the crown to its underarm.
    """

    height: float
    front_width: float
    back_width: float
    front: Path
    back: Path

    @property
    def bicep(self) -> float:
        return self.front_width + self.back_width


def cap(bicep: float, front_armhole: float, back_armhole: float, ease: float, taper_deg: float) -> Cap:
    """Draw the cap for a bicep line of `bicep` mm over armhole halves, with `ease` mm: 0.45 of it in front, 0.55 behind.

    `taper_deg` is the sleeve seam's slant, so that the underarm runs on without a corner. Raises ImpossibleMeasure where the
    armhole is too small for the arm.
    """
    whole = front_armhole + back_armhole
    ratio = bicep / (whole + ease)
    if ratio > TOO_FLAT:
        raise ImpossibleMeasure(
            "upper_arm", bicep, "The armhole is too small for a sleeve {value} wide: it must measure at least {needed} round. Lower the "
            "armhole, or measure upper arm and armhole depth again.", needed=bicep / FLAT - ease,
        )
    wanted_front, wanted_back = front_armhole + 0.45 * ease, back_armhole + 0.55 * ease

    remedy = "Measure upper arm and armhole depth again."

    def width(half: str, steep: float, wanted: float) -> float:
        """Half a cap is as long as its width times what one of width 1 and height `steep` measures: shapes scale."""
        return wanted / _half(half, 1.0, steep, taper_deg).length()

    def steep_of_back(height: float, near: float) -> float:
        def excess(steep: float) -> float:
            return steep * width("back", steep, wanted_back) - height

        low, high = (0.85 * near, 1.18 * near) if excess(0.85 * near) < 0 < excess(1.18 * near) else (0.02, 4.0)
        return root(excess, low, high, name="back half of the sleeve", within=1e-9, remedy=remedy)

    def excess_width(steep: float) -> float:
        front = width("front", steep, wanted_front)
        return front + width("back", steep_of_back(steep * front, steep), wanted_back) - bicep

    steep = root(excess_width, 0.08, 1.8, name="sleeve cap height", within=1e-10, remedy=remedy)
    front_width = width("front", steep, wanted_front)
    height = steep * front_width
    front = _half("front", front_width, height, taper_deg)
    back = _half("back", bicep - front_width, height, taper_deg)
    return Cap(height, front_width, bicep - front_width, _mirrored(front), back.reversed())


def _mirrored(path: Path) -> Path:
    return path.mapped(lambda point: Point(-point.x, point.y))


def _half(half: str, width: float, height: float, taper_deg: float) -> Path:
    """Draw one half from its underarm at (width, 0) up and in to the crown at (0, -height)."""
    under, crown = Point(width, 0.0), Point(0.0, -height)
    chord = math.degrees(math.atan2(height, width))
    middle = under.toward(crown, PLACE[half])
    tangent = _up(min(chord + STEEPER_DEG[half], STEEPEST_DEG))
    start = _up(min(max(taper_deg, 0.0), chord / 2))
    x1 = meet(under, start, middle, tangent)
    x2 = meet(middle, tangent, crown, Point(1.0, 0.0))
    if x1 is None or x2 is None:
        raise ImpossibleMeasure("sleeve", width, "No smooth sleeve cap can be drawn {value} wide.")
    lower = Cubic(under, x1, x1.toward(middle, 0.5), middle)
    upper = Cubic(middle, middle.toward(x2, CROWN_HANDLE), x2, crown)
    return Path.of(lower, upper)


def _up(angle_deg: float) -> Point:
    """Return the direction that rises by `angle_deg` while running in toward the crown."""
    return Point(-math.cos(math.radians(angle_deg)), -math.sin(math.radians(angle_deg)))
