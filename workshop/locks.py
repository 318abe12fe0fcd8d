"""Locks between processes, by the system's own file locks: a crash or a power cut leaves none behind.

Standard library only: the bootstrap uses them.
"""

import contextlib
import os
import time
from collections.abc import Iterator
from pathlib import Path

from workshop.machine import say


@contextlib.contextmanager
def only_one(path: Path, waiting: str) -> Iterator[int]:
    """Hold the lock of this file; while another process holds it, wait, and say so with the given words."""
    with opened(path) as descriptor:
        if not taken(descriptor):
            say(waiting)
            while not taken(descriptor):
                time.sleep(0.1)
        yield descriptor


@contextlib.contextmanager
def if_free(path: Path) -> Iterator[bool]:
    """Hold the lock of this file if nobody has it; gives whether it was had."""
    with opened(path) as descriptor:
        yield taken(descriptor)


@contextlib.contextmanager
def opened(path: Path) -> Iterator[int]:
    descriptor = os.open(path, os.O_RDWR | os.O_CREAT, 0o600)
    try:
        yield descriptor
    finally:
        os.close(descriptor)


def taken(descriptor: int) -> bool:
    """Take the lock of an open file; False where another process has it."""
    try:
        if os.name == "posix":
            import fcntl

            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        else:
            import msvcrt

            msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
    except OSError:
        return False
    return True
