"""Bodies in round inches for sums that can be done by hand, and lengths as a workshop reads them."""

import random
from fractions import Fraction

from drafting.engine.tolerance import INCH

ROUND = {
    "bust": 40, "high_bust": 38, "under_bust": 35, "waist": 30, "hip": 42, "neck": 15, "shoulder": 15.5,
    "bust_span": 8, "shoulder_to_bust": 10, "shoulder_to_under_bust": 13, "shoulder_to_waist": 17,
    "nape_to_waist": 15.25, "armhole_depth": 6.2, "waist_to_hip": 8,
}  # fmt: skip
"""A body whose levels come out round: D = 5, neck width 2¾, shoulder slope 1.8, chest 8, balance 1. Invented."""

NEEDED = (
    "bust", "under_bust", "waist", "hip", "shoulder", "armhole_depth", "shoulder_to_bust", "shoulder_to_under_bust",
    "shoulder_to_waist",
)  # fmt: skip
"""What no rule of ours can estimate."""


def mm(inches: dict[str, float]) -> dict[str, float]:
    return {key: value * INCH for key, value in inches.items()}


def inches(length: float) -> str:
    """Write mm as inches in sixteenths, plainly: 3 1/8 in."""
    sixteenths = Fraction(round(length / INCH * 16), 16)
    whole, part = divmod(sixteenths, 1)
    return " ".join([*([str(whole)] if whole or not part else []), *([str(part)] if part else []), "in"])


def some_bodies(count: int, *, seed: int = 1851):
    """Invented bodies from a bust of 28 to 59 in with a plain spread of every other measure, arms included."""
    chance = random.Random(seed)
    for _ in range(count):
        bust = chance.uniform(28, 59)
        under = bust - chance.uniform(2.5, 7.5)
        nape, to_bust = 15 + (bust - 34) * 0.1 + chance.uniform(-0.75, 1.25), bust / 4 + 1.25 + chance.uniform(-0.3, 0.5)
        yield {
            "bust": bust, "under_bust": under, "waist": under + chance.uniform(-4.5, 3), "hip": bust + chance.uniform(-3, 6),
            "shoulder": bust / 4 + 6.4 - max(0, bust - 46) / 8, "armhole_depth": 6 + bust / 60,
            "shoulder_to_bust": to_bust, "shoulder_to_under_bust": to_bust + chance.uniform(2.7, 3.6),
            "shoulder_to_waist": nape + 0.75 + 0.2 * (bust - under) + 0.8, "nape_to_waist": nape,
            "upper_arm": bust * 0.25 + 2.2 + chance.uniform(-0.6, 0.8), "wrist": 6.3, "sleeve_length": 23,
        }  # fmt: skip
