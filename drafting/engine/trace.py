"""The story of a draft: each construction step, in words that hold the client's own numbers, and why it is done."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from .point import Point


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to chalk. `text` and `why` hold {0}, {1} … for the lengths in `figures` (mm)."""

    piece: str
    text: str
    figures: tuple[float, ...] = ()
    marks: tuple[str, ...] = ()
    points: tuple[Point, ...] = ()
    why: str = ""

    def written(self, fmt: Callable[[float], str]) -> tuple[str, str]:
        """Return text and reason with every length written by `fmt`."""
        words = [fmt(figure) for figure in self.figures]
        return self.text.format(*words), self.why.format(*words)


class Trace:
    """Collects steps in the order in which they are chalked."""

    def __init__(self) -> None:
        self.steps: list[Step] = []

    def chalk(self, piece: str, text: str, *figures: float, marks: str = "", at: tuple[Point, ...] = (), why: str = "") -> None:
        """Add one step on `piece`."""
        names = tuple(marks.split()) if marks else ()
        self.steps.append(Step(piece, text, figures, names, at, why))
