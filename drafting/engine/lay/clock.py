"""How long a search may go on: CPU seconds, seconds on the wall as a backstop, iterations, and a stop flag."""

from __future__ import annotations

import time
from collections.abc import Callable

Progress = Callable[[int, float], object]
"""Called with the number of tries so far and the shortest length found, mm."""

WALL_SPARE = 0.35
"""Seconds that a busy machine may take beyond the budget before the search ends all the same."""

LONGEST = 60
"""How many times their CPU seconds other processes are waited for where the wall's clock does not count."""


class Clock:
    """Counts tries and says when to end. With `tries` given (for each task) and seconds to spare, a run repeats exactly."""

    def __init__(
        self,
        seconds: float,
        *,
        tries: int | None = None,
        progress: Progress | None = None,
        stop: Callable[[], bool] | None = None,
        wall: bool = True,
    ):
        self.seconds, self.most, self.progress, self.stop = seconds, tries, progress, stop
        self.begun, self.begun_wall = time.thread_time(), time.monotonic()
        self._known, self._known_at = 0.0, self.begun_wall
        self.wall = seconds + WALL_SPARE if wall else float("inf")
        self.tries, self.counted_from = 0, 0
        self.best = float("inf")
        self.stopped = False
        self.beside: list[Callable[[], float]] = []
        self.as_lay: Callable[[float], float] | None = float

    @property
    def used(self) -> float:
        """CPU seconds so far, those of other processes that work for us with them."""
        beside = sum(each() for each in self.beside)
        self._known, self._known_at = time.thread_time() - self.begun + beside, time.monotonic()
        return self._known

    def late(self, until: float) -> bool:
        """Whether more than `until` seconds have gone on the wall, or far more where only CPU seconds count."""
        gone = time.monotonic() - self.begun_wall
        return gone >= (until + WALL_SPARE if self.wall < float("inf") else until * LONGEST)

    def over(self, until: float | None = None) -> bool:
        """Whether to end now; at the latest when `until` CPU seconds have gone since the start."""
        if self.stopped or (self.stop is not None and self.stop()):
            self.stopped = True
            return True
        if self.most is not None and self.tries - self.counted_from >= self.most:
            return True
        limit = self.seconds if until is None else min(until, self.seconds)
        now = time.monotonic()
        if now - self.begun_wall >= self.wall:
            return True
        # None of us uses more CPU than time on the wall has gone: asking for the CPU time, which is slow, can mostly be spared.
        if self._known + (now - self._known_at) * (1 + len(self.beside)) < limit:
            return False
        return self.used >= limit

    def count_anew(self) -> None:
        """Begin another task: it has its own count of tries, so that no layout takes them from the next."""
        self.counted_from = self.tries

    def tick(self) -> None:
        """Count one try."""
        self.tries += 1
        if self.tries % 50 == 0 and self.best < float("inf"):
            self._tell(self.best)

    def found(self, length: float) -> None:
        """Note a lay of `length`, mm; told at once when it is the shortest so far."""
        if length < self.best - 1e-6:
            self.best = length
            self._tell(length)

    def told_as(self, as_lay: Callable[[float], float] | None) -> None:
        """How a task's length is told as the whole lay's, mm; None where it is only part of one and says nothing yet."""
        self.as_lay = as_lay

    def _tell(self, length: float) -> None:
        if self.progress is not None and self.as_lay is not None:
            self.progress(self.tries, self.as_lay(length))
