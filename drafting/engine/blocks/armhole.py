"""The armhole, drawn with its dart closed, and the level at which a strapless top edge cuts it."""

from __future__ import annotations

from dataclasses import dataclass

from ..body import Body
from ..curve import Cubic
from ..errors import ImpossibleMeasure
from ..path import Path
from ..point import Point
from ..quarters import Quarters
from ..report import Warning_
from ..rules import Rules
from ..solve import root
from ..tolerance import INCH

PITCH = {"front": 0.60, "back": 0.52}
"""How far down from the shoulder tip the armhole is at its deepest, as a share of the way to the chest line."""

LEAST_SCOOP = {"front": 0.75 * INCH, "back": 0.6 * INCH}
"""The least that the armhole must scoop out from there to the side seam."""

_SCOOP_HANDLE = 0.58


@dataclass(frozen=True, slots=True)
class Armhole:
    """The armhole from the shoulder tip to the underarm (`path`), with its lower curve apart."""

    path: Path
    lower: Cubic

    def at_level(self, y: float) -> float:
        """Return how far along the path it crosses level `y`; raises ImpossibleMeasure where it does not."""
        distance = self.path.distance_at_level(y)
        if distance is None:
            raise ImpossibleMeasure("armhole_depth", y, "The top edge at {value} misses the armhole. Measure armhole "
                                    "depth and shoulder to bust again.")
        return distance

    def level_at_half_slant(self) -> float:
        """Return the level at which the lower curve slants 45 degrees: below it, it runs out more than down."""
        t = root(lambda t: self.lower.direction(t).x - self.lower.direction(t).y, 0.0, 1.0, name="armhole slant")
        return self.lower.at(t).y


def armhole(body: Body, q: Quarters, *, half: str) -> tuple[Armhole, list[Warning_]]:
    """Draw one half's armhole: in from the tip square to the shoulder, plumb at the pitch, level at the underarm.

    Raises ImpossibleMeasure where the across measure comes within an inch of the neck.
    """
    tip = Point(body["shoulder"] / 2, q.front.shoulder)
    chest = q.front_chest if half == "front" else q.back_bust
    underarm = Point(chest, q.front.chest)
    across, warnings = _across(body, q, half, chest)
    pitch = Point(across, tip.y + PITCH[half] * (underarm.y - tip.y))
    shoulder = Point(tip.x - q.neck_width, tip.y).unit()
    inward = Point(-shoulder.y, shoulder.x)
    reach = 0.35 * (pitch.y - tip.y)
    room = tip.x - pitch.x
    if inward.x < 0 and room > 0:
        reach = min(reach, 0.9 * room / -inward.x)
    upper = Cubic(tip, tip + inward * reach, Point(pitch.x, pitch.y - 0.4 * (pitch.y - tip.y)), pitch)
    step = underarm - pitch
    lower = Cubic(
        pitch,
        Point(pitch.x, pitch.y + _SCOOP_HANDLE * step.y),
        Point(underarm.x - _SCOOP_HANDLE * step.x, underarm.y),
        underarm,
    )
    return Armhole(Path.of(upper, lower), lower), warnings


def _across(body: Body, q: Quarters, half: str, chest: float) -> tuple[float, list[Warning_]]:
    key, least = f"across_{half}", LEAST_SCOOP[half]
    across = body[key] / 2
    warnings = []
    if chest - across < least:
        held = chest - least
        warnings.append(Warning_("across-held", f"Across {half} was held to {{0}} (measured {{1}}) so that the armhole "
                                 "scoops enough. Measure it once more.", (held * 2, body[key])))
        across = held
    if across < q.neck_width + INCH:
        raise ImpossibleMeasure(key, body[key], f"Across {half} {{value}} leaves no room between neck and armhole. "
                                f"Measure across {half} and bust again.")
    return across, warnings


def top_level(front: Armhole, q: Quarters, rules: Rules) -> tuple[float, list[Warning_]]:
    """Return the level of a strapless top edge: `top_edge_rise` above the chest line or where the front armhole slants
    45 degrees, whichever is higher; at least 2½ in above the bust and 2 in below the shoulder tip."""
    wanted = min(q.front.chest - rules["top_edge_rise"], front.level_at_half_slant())
    highest, lowest = q.front.shoulder + 2 * INCH, q.front.bust - 2.5 * INCH
    if highest > lowest:
        raise ImpossibleMeasure(
            "shoulder_to_bust", q.front.bust, "Shoulder to bust {value} leaves no room for a top edge between shoulder "
            "and bust; it must be at least {needed}. Measure it again.", needed=highest + 2.5 * INCH,
        )
    level = max(highest, min(wanted, lowest))
    if level < wanted - 1e-6:
        return level, [Warning_("top-edge-raised", "The top edge was raised by {0}, to stand {1} above the bust.",
                                (wanted - level, q.front.bust - level))]
    if level > wanted + 1e-6:
        return level, [Warning_("top-edge-lowered", "The top edge was lowered by {0}, to stay clear of the shoulder.",
                                (level - wanted,))]
    return level, []
