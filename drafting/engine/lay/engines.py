"""One layout searched with all that helps: our own search, the second engine where it is of use, and what is pulled taut."""

from __future__ import annotations

from collections.abc import Callable

from .clock import Clock
from .place import Places, Table
from .second import Second, may_help, places_of
from .solve import go_on, solve
from .taut import pulled_taut
from .things import Task

SECOND_SHARE, FIRST_SHARE = 0.82, 0.06
"""Part of the time for the second engine where it helps, and of our own search beside it; the rest goes on from the shorter
lay. Measured in tests/benchmarks/lay.py: the second gains most while it explores, and what is left between pieces is ours."""


def shortest(
    task: Task,
    clock: Clock,
    *,
    until: float,
    seed: int,
    target: float | None,
    holds: Callable[[Places], bool],
) -> tuple[Table, Places, float, str]:
    """Return (table, places, length of the first answer, the engine's name). What `holds` refuses is not taken.

    `until` ends the search at that CPU second of the clock; a lay no longer than `target` ends it at once.
    """
    second, main_until, rest = None, until, until - clock.used
    if clock.most is None and may_help(task, rest):
        # Both begin together, so that the clock runs twice as fast while ours looks for its share.
        main_until, second_until = clock.used + 2 * rest * FIRST_SHARE, clock.used + rest * (FIRST_SHARE + SECOND_SHARE)
        second = Second(task, rest * SECOND_SHARE, seed)
        clock.beside.append(lambda: second.cpu)
    try:
        table, best, first = solve(task, clock, until=main_until, seed=seed, target=target)
        if second:
            second.run(clock, second_until, target)
    finally:
        lying = second.end() if second else None
    engine = "own"
    if clock.seconds > 0:
        best = _tauter(task, best, holds)
    if lying is not None and holds(theirs := places_of(task, lying)):
        theirs = _tauter(task, theirs, holds)
        if theirs.length < best.length - 1e-6:
            best, engine = theirs, "second"
    clock.found(best.length)
    if second and (on := go_on(table, best, clock, until=until, seed=seed + 1, target=target)) and holds(on):
        best, engine = _tauter(task, on, holds), "own" if engine == "own" else "both"
        clock.found(best.length)
    return table, best, first, engine


def _tauter(task: Task, places: Places, holds: Callable[[Places], bool]) -> Places:
    taut = pulled_taut(task, places)
    return taut if taut is not None and holds(taut) else places
