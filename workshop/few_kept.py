"""The few things that were made last, kept in memory by all that they were made from."""

from collections.abc import Callable, Hashable
from threading import Lock
from typing import Generic, TypeVar

T = TypeVar("T")


class FewKept(Generic[T]):
    """What was made for the `most` keys asked for last. Two threads that ask for the same new thing may both make it."""

    def __init__(self, most: int):
        self._most, self._made, self._lock = most, {}, Lock()

    def __call__(self, key: Hashable, make: Callable[[], T]) -> T:
        """Return what is kept for the key, or make it and keep it; what `make` raises is passed on and nothing kept."""
        with self._lock:
            found = self._made.pop(key, None)
            if found is not None:
                self._made[key] = found  # asked for last, so the last to go
                return found
        made = make()
        with self._lock:
            self._made[key] = made
            while len(self._made) > self._most:
                del self._made[next(iter(self._made))]
        return made

    def keys(self) -> list[Hashable]:
        """Those of what is kept now."""
        with self._lock:
            return list(self._made)

    def forget(self) -> None:
        with self._lock:
            self._made.clear()
