"""What is laid, and on what: cloth and pieces as the planner takes them. Millimetres; x across, y along the cloth."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..tolerance import INCH
from .errors import BadCloth, BadPiece

Ring = tuple[tuple[float, float], ...]
"""An unclosed outline: the last point differs from the first."""

OPEN, FOLDED, CROSSWISE, BEST = "open", "folded", "crosswise", "best"
LAYOUTS = (OPEN, FOLDED, CROSSWISE, BEST)
EIGHTH_YARD, TEN_CM = 4.5 * INCH, 100.0
MOST_SHRINK = 0.5


@dataclass(frozen=True, slots=True)
class LayCloth:
    """One cloth. `width` counts both selvedges (`selvedge` each); `length` is what is on hand, None if it is to be bought.

    `flaws` lie on the cloth opened out: x from the inner edge of the left selvedge, y from the end where the lay starts.
    `repeat` and `repeat_across` are the print's repeat, 0 for none; the first motif stands on the left inner edge, or on
    the fold; on cloth that is not folded lengthwise `first_motif` in from that edge, mm. `print_start_known` says that the first motif stands at y = 0, so that no repeat need be bought extra.
    `gap` is kept between pieces. `step` is the shop's step. Raises BadCloth.
    """

    width: float
    selvedge: float = 0.5 * INCH
    layout: str = BEST
    one_way: bool = False
    repeat: float = 0.0
    repeat_across: float = 0.0
    gap: float = 0.0
    length: float | None = None
    flaws: tuple[Ring, ...] = ()
    shrink: float = 0.0
    name: str = "cloth"
    step: float = EIGHTH_YARD
    print_start_known: bool = False
    first_motif: float = 0.0

    def __post_init__(self) -> None:
        for key in ("width", "selvedge", "repeat", "repeat_across", "gap", "shrink", "step", "first_motif"):
            value = getattr(self, key)
            if not math.isfinite(value) or value < 0:
                raise BadCloth(
                    key,
                    "The cloth's {0} is {{value}}: give a length of nothing or more.".format(key.replace("_", " ")),
                    value=value if math.isfinite(value) else None,
                )
        if self.layout not in LAYOUTS:
            raise BadCloth("layout", f"No lay is called “{self.layout}”. Choose {', '.join(LAYOUTS)}.")
        if self.usable <= 0:
            raise BadCloth(
                "width",
                "The cloth is {value} wide and its selvedges take {other}: no cloth is left between "
                "them. Give the whole width.",
                value=self.width,
                other=2 * self.selvedge,
            )
        if self.length is not None and not (math.isfinite(self.length) and self.length > 0):
            raise BadCloth(
                "length",
                "There is {value} of cloth on hand. Give what is there, or leave it out to ask how much to buy.",
                value=self.length if math.isfinite(self.length) else None,
            )
        if self.length is not None and max(self.repeat, 0) > self.length:
            raise BadCloth(
                "repeat",
                "The print repeats every {value} and the cloth is {other} long: not one whole repeat. "
                "Leave the repeat out, or find a longer piece.",
                value=self.repeat,
                other=self.length,
            )
        if self.repeat_across > self.width:
            raise BadCloth(
                "repeat_across",
                "The print repeats every {value} across and the cloth is {other} wide. Leave that repeat out.",
                value=self.repeat_across,
                other=self.width,
            )
        if self.shrink > MOST_SHRINK:
            raise BadCloth(
                "shrink", f"A shrinkage of {self.shrink:g} is over one half. Give a share such as 0.03 for 3 in 100."
            )
        if not self.step > 0:
            raise BadCloth("step", "The shop's step is {value}. Give the least amount that is sold.", value=self.step)
        if self.layout == CROSSWISE and self.one_way:
            raise BadCloth(
                "layout",
                "A crosswise fold turns the under layer upside down, so a one-way cloth can't be folded "
                "crosswise. Choose open or folded.",
            )

    @property
    def usable(self) -> float:
        """Width between the selvedges on the cloth opened out, mm."""
        return self.width - 2 * self.selvedge

    def motif_from(self, layout: str, *, opened: bool = False) -> float:
        """How far from x = 0 a motif stands across, mm: folded, the fold runs through one, also where an end is opened out."""
        if layout != FOLDED or not self.repeat_across:
            return self.first_motif
        return self.usable / 2 % self.repeat_across if opened else 0.0

    def across(self, layout: str) -> float:
        """The lay's own width: half the usable width when folded lengthwise, mm."""
        return self.usable / 2 if layout == FOLDED else self.usable


@dataclass(frozen=True, slots=True)
class LayPiece:
    """One outline to be cut `count` times; its grain runs along y. An on-fold outline is its right half, the fold at x = 0.

    `turns` are degrees it may lie at; `mirror` is "never", or "pair": every second one is the mirror image. `match` asks
    that the print falls alike on this piece and on all other matched ones: their `motif` points (the outline's own origin
    unless given) all stand on the same point of a repeat. `singly` cuts a pair one by one even from folded cloth. Raises BadPiece.
    """

    name: str
    outline: Ring
    count: int = 1
    on_fold: bool = False
    turns: tuple[float, ...] = (0, 180)
    mirror: str = "never"
    match: bool = False
    motif: tuple[float, float] | None = None
    singly: bool = False

    def __post_init__(self) -> None:
        if self.count < 1 or self.count != int(self.count):
            raise BadPiece(self.name, "count", f"a count of {self.count}. Give a whole number, 1 or more.")
        if self.mirror not in ("never", "pair"):
            raise BadPiece(self.name, "mirror", f"“{self.mirror}” is neither “never” nor “pair”.")
        if not self.turns or not all(math.isfinite(turn) for turn in self.turns):
            raise BadPiece(self.name, "turns", "no angle is given that it may lie at. Give [0], or [0, 180].")
        if len(self.outline) < 3:
            raise BadPiece(self.name, "outline", "fewer than three points. Give the whole outline.")
        if not all(math.isfinite(c) and abs(c) < 1e6 for point in self.outline for c in point):
            raise BadPiece(self.name, "outline", "a point that is no place on a cloth. Give plain lengths.")
