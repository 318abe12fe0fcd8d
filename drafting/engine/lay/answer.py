"""The finished lay: what lies where, how long it is, how much to buy, and whether the cloth on hand is enough."""

from __future__ import annotations

import math
from dataclasses import dataclass

from .cloth import FOLDED, LayCloth, Ring


@dataclass(frozen=True, slots=True)
class Placed:
    """One piece where it lies: x across (from the fold when folded), y along, mm. `layers` are cut through at once.

    `zone` is "opened" where it lies on the cloth's end that is opened out, x from the left edge; else "".
    `motif` is where the point that must stand on the print's motif has come to lie. `under` tells that it is cut from the under layer alone.
    """

    piece: str
    outline: Ring
    mirrored: bool
    turned: float
    layers: int
    gives: int
    on_fold: bool = False
    under: bool = False
    zone: str = ""
    motif: tuple[float, float] | None = None

    def as_result(self) -> dict:
        """The entry of `lays[].placed[]`."""
        result = {
            "piece": self.piece,
            "outline": [[x, y] for x, y in self.outline],
            "mirrored": self.mirrored,
            "turned": self.turned,
            "layers": self.layers,
            "gives": self.gives,
        }
        result |= {"motif": list(self.motif)} if self.motif else {}
        return result | ({"under": True} if self.under else {}) | ({"zone": self.zone} if self.zone else {})


@dataclass(frozen=True, slots=True)
class Lay:
    """A lay. Lengths in mm along the cloth; `compared` holds the length of every layout that was tried."""

    cloth: LayCloth
    layout: str
    length: float
    at_least: float
    placed: tuple[Placed, ...]
    used: float
    matched: bool
    compared: tuple[tuple[str, float], ...] = ()
    opened_from: float | None = None
    print_start: float | None = None
    blocked: tuple[tuple[Ring, int], ...] = ()
    first_length: float = 0.0
    tries: int = 0
    cpu_seconds: float = 0.0
    engine: str = "own"

    @property
    def across(self) -> float:
        return self.cloth.across(self.layout)

    @property
    def needs(self) -> float:
        """The length of cloth that this lay takes as it comes from the shop, mm: shrinkage, and a repeat to find the print."""
        return amount(self.cloth, self.length, matched=self.matched)

    @property
    def to_buy(self) -> float:
        """`needs`, rounded up to the shop's step."""
        return to_step(self.needs, self.cloth.step)

    @property
    def fits_on_hand(self) -> bool | None:
        """True: this lay fits. False: none can, by the lower bound. None: no lay was found, but none is ruled out."""
        if self.cloth.length is None or self.needs <= self.cloth.length + 1e-6:
            return True
        certain = self.at_least / (1 - self.cloth.shrink)
        return False if certain > self.cloth.length + 1e-6 else None

    @property
    def shorter_by(self) -> float | None:
        """How much shorter this layout is than the other one that was tried, mm; None where there was no other."""
        others = [length for layout, length in self.compared if layout != self.layout]
        return min(others) - self.length if others else None

    def as_result(self) -> dict:
        """One entry of `lays[]` of the result file."""
        result = {
            "cloth": self.cloth.name,
            "width": self.cloth.width,
            "usable": self.across,
            "layout": self.layout,
            "length": self.length,
            "to_buy": self.to_buy,
            "on_hand": self.cloth.length,
            "fits_on_hand": self.fits_on_hand if self.cloth.length is not None else None,
            "used": self.used,
            "at_least": self.at_least,
            "placed": [placed.as_result() for placed in self.placed],
            "needs": self.needs,
            "selvedge": self.cloth.selvedge,
            "one_way": self.cloth.one_way,
            "compared": [{"layout": layout, "length": length} for layout, length in self.compared],
            "first_length": self.first_length,
            "tries": self.tries,
        }
        if self.opened_from is not None:
            result["opened_from"] = self.opened_from
            result["opened_usable"] = self.cloth.usable
        if self.print_start is not None:
            result["print"] = {
                "start": self.print_start,
                "repeat": self.cloth.repeat,
                "across": self.cloth.repeat_across,
                "first": self.cloth.motif_from(self.layout),
            }
        if self.blocked:
            result["blocked"] = [[[x, y] for x, y in ring] for ring, _ in self.blocked]
        return result


def amount(cloth: LayCloth, length: float, *, matched: bool) -> float:
    """Return length / (1 − shrinkage), and one repeat more where matched pieces meet a print whose start is not known, mm."""
    extra = cloth.repeat if matched and not cloth.print_start_known else 0.0
    return length / (1 - cloth.shrink) + extra


def length_within(cloth: LayCloth, *, matched: bool) -> float | None:
    """Return the longest lay that the cloth on hand takes, mm: `amount` turned round; None where it is to be bought."""
    if cloth.length is None:
        return None
    extra = cloth.repeat if matched and not cloth.print_start_known else 0.0
    return (cloth.length - extra) * (1 - cloth.shrink)


def to_step(length: float, step: float) -> float:
    """Return the least whole number of steps that is no less than `length`, mm; a hair over a step is that step."""
    return max(math.ceil(length / step - 1e-6), 0) * step


def finished(layout: str) -> str:
    """The layout in a dressmaker's words."""
    return {FOLDED: "folded lengthwise", "open": "open, in one layer", "crosswise": "folded crosswise"}[layout]
