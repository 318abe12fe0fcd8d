"""How long a search may go on: CPU seconds, seconds on the wall as a backstop, iterations, and a stop flag."""

from __future__ import annotations

import time
from collections.abc import Callable

Progress = Callable[[int, float], object]
"""Called with the number of tries so far and the shortest length found, mm."""

WALL_SPARE = 0.35
"""Seconds that a busy machine may take beyond the budget before the search ends all the same."""


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
        self.as_lay: Callable[[float], float] | None = float

    @property
    def used(self) -> float:
        """CPU seconds so far."""
        self._known, self._known_at = time.thread_time() - self.begun, time.monotonic()
        return self._known

    @property
    def by_cpu(self) -> bool:
        """Whether only CPU seconds count, however long they take."""
        return self.wall == float("inf")

    @property
    def patience(self) -> float:
        """Seconds on the wall to wait for another process that began with us: more where the wall's clock does not count."""
        return 0.0 if self.stopped else self.seconds / (4 if self.by_cpu else 20)

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
        # No thread uses more CPU than time on the wall has gone: asking for the CPU time, which is slow, can mostly be spared.
        if self._known + now - self._known_at < limit:
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
