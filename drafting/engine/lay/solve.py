"""One task solved: first answers, the search over orders, the squeeze; the shortest lay met is kept."""

from __future__ import annotations

import random

import numpy as np

from .clock import Clock
from .place import Places, Table
from .sequence import Sequence, first_answer
from .settle import settled
from .shelves import in_shelves
from .squeeze import Squeeze
from .things import Task

ORDER_SHARE = 0.04
"""Part of the time that goes to the search over orders; the squeeze, which is stronger, has the rest. Measured."""

SHRINK_ON = 0.002
"""What is first cut off a lay that was searched for long already."""

MOST_FOR_ORDERS, MOST_FOR_TURNING = 120, 400
ORDER_TRIES = 4000


def solve(
    task: Task, clock: Clock, *, until: float | None, seed: int, target: float | None = None
) -> tuple[Table, Places, float]:
    """Return (table, places, length of the first answer).

    `until` ends the search at that CPU second of the clock; a lay no longer than `target` ends it at once.
    """
    table = Table(task)
    clock.best = float("inf")
    clock.count_anew()
    if not task.things:
        return table, Places(np.zeros(0, np.int32), np.zeros(0, np.int32), np.zeros(0), 0.0), 0.0
    best = in_shelves(table)
    clock.found(best.length)
    found = first_answer(table, clock)
    if found:
        best = shorter(best, found[0])
    first = best.length
    order = found[1] if found else list(range(table.count))

    def met() -> bool:
        return (target is not None and best.length <= target) or clock.over(until)

    if not met() and table.count <= MOST_FOR_TURNING:
        again = first_answer(table, clock, turning=True)
        if again and again[0].length < best.length - 1e-6:
            best, order = again
    if not met() and found and table.count <= MOST_FOR_ORDERS:
        end = clock.used + max((clock.seconds if until is None else until) - clock.used, 0) * ORDER_SHARE
        sequence = Sequence(table, best, order, random.Random(seed))
        best = shorter(best, sequence.run(clock, end, ORDER_TRIES if clock.most is None else clock.most // 3))
    if not met() and table.count > 1:
        best = shorter(best, Squeeze(table, best, seed).run(clock, until, target))
    return table, settled(table, best), first


def go_on(table: Table, start: Places, clock: Clock, *, until: float, seed: int, target: float | None) -> Places | None:
    """Return a lay shorter than `start`, squeezed on from there, or None; pieces of `start` may overlap a little."""
    clock.count_anew()
    found = Squeeze(table, start, seed).run(clock, until, target, shrink=SHRINK_ON)
    return settled(table, found) if found.length < start.length - 1e-6 else None


def shorter(one: Places, two: Places) -> Places:
    return two if two.length < one.length - 1e-6 else one
