"""What two halves say of themselves: what both say is said once, the rest for each half."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from ..draft import Draft
from ..report import Warning_
from ..tolerance import SEAM
from ..trace import Step
from .mirror import flipped, is_turned

LEFT, RIGHT = "left", "right"
SAME = 0.01


def steps_of(right: Draft, left: Draft, home: Callable[[str, str], str]) -> Iterator[Step]:
    """Yield the steps in the right half's order; `home(piece, side)` names the piece that a step is chalked on now."""
    lefts = {key: step for key, step in _counted(left.steps)}
    for key, step in _counted(right.steps):
        other = lefts.pop(key, None)
        if other and _same(step.figures, other.figures, SAME):
            yield replace(step, piece=home(step.piece, RIGHT))
            continue
        yield _of_one(step, RIGHT, home)
        if other:
            yield _of_one(other, LEFT, home)
    for step in lefts.values():
        yield _of_one(step, LEFT, home)


def _counted(steps: tuple[Step, ...]) -> Iterator[tuple[tuple[str, str, int], Step]]:
    """Yield each step with its piece, its words and how often these have come before."""
    count: dict[tuple[str, str], int] = {}
    for step in steps:
        words = (step.piece, step.text)
        count[words] = count.get(words, 0) + 1
        yield (*words, count[words]), step


def _of_one(step: Step, side: str, home: Callable[[str, str], str]) -> Step:
    points = tuple(flipped(p) for p in step.points) if is_turned(step.piece, side) else step.points
    return replace(step, piece=home(step.piece, side), text=f"{side.capitalize()} half: {step.text}", points=points)


def warnings_of(mean: Draft, right: Draft, left: Draft) -> Iterator[Warning_]:
    """Yield each warning once; where only its figures differ, one for each half."""
    lefts = {(w.code, w.text): w for w in left.warnings}
    for warning in right.warnings:
        other = lefts.pop((warning.code, warning.text), None)
        if other and _same(warning.figures, other.figures, SEAM):
            yield warning
            continue
        yield replace(warning, text=f"Right half: {warning.text}")
        if other:
            yield replace(other, text=f"Left half: {other.text}")
    for warning in lefts.values():
        yield replace(warning, text=f"Left half: {warning.text}")
    halves = {w.code for w in (*right.warnings, *left.warnings)}
    yield from (warning for warning in mean.warnings if warning.code not in halves)


def _same(figures: tuple[float, ...], others: tuple[float, ...], within: float) -> bool:
    return len(figures) == len(others) and all(abs(a - b) <= within for a, b in zip(figures, others, strict=True))
