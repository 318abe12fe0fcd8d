"""One short bracketing solver. SciPy is too heavy a thing to ask of a workshop's laptop; the tests hold this against it."""

from __future__ import annotations

from collections.abc import Callable

from .errors import NoSolution
from .tolerance import SOLVED


def root(
    f: Callable[[float], float], low: float, high: float, *, name: str, within: float = SOLVED, remedy: str = ""
) -> float:
    """Return x between `low` and `high` with f(x) = 0, by the Illinois variant of false position.

    `f` must have unlike signs at the two ends; raises NoSolution(name) where it has not. Source: Dowell & Jarratt,
    "A modified regula falsi method", BIT 11 (1971). Every fourth step is a bisection, so that no kink can stall it.
    """
    at_low, at_high = f(low), f(high)
    if at_low == 0.0:
        return low
    if at_high == 0.0:
        return high
    if at_low * at_high > 0:
        raise NoSolution(name, low, high, remedy or "Check the measures around it.")
    side = 0
    for step in range(200):
        width = abs(high - low)
        if width <= within:
            break
        if step % 4 == 3:
            x = (low + high) / 2
        else:
            x = (low * at_high - high * at_low) / (at_high - at_low)
        value = f(x)
        if value == 0.0:
            return x
        if value * at_high > 0:
            high, at_high = x, value
            at_low = at_low / 2 if side == -1 else at_low
            side = -1
        else:
            low, at_low = x, value
            at_high = at_high / 2 if side == 1 else at_high
            side = 1
        if abs(value) < within:
            return x
    return (low + high) / 2
