"""Bodies in round inches for sums that can be done by hand, and lengths as a workshop reads them."""

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
