"""Doing the jobs of the background: one after the other, at low priority, until none waits.

The pages start such a process (ringing.py) when a job is asked for, or looked at while it waits and nobody works. It ends
with them: its standard input is a pipe that nothing is written to, and closes when the program that started it is gone.
"""

import logging
import os
import threading
import time
from collections.abc import Callable
from typing import Any

from django.conf import settings
from django.utils import timezone
from django.utils.module_loading import import_string

from workshop.jobs import Job, break_off, lock_file
from workshop.locks import opened, taken
from workshop.models import Workshop

NICE = 10
WRITES_APART = 0.4
"""Seconds between two looks into the book: whether to stop, and how far the job is."""

LONGEST_WAIT_FOR_LOCK = 2.0
"""Seconds. A page that looks whether anybody works holds the lock for a moment."""

log = logging.getLogger(__name__)


class Telling:
    """A job's way to say how far it is, and to hear whether it is to end. It may be asked as often as one likes."""

    def __init__(self, job: Job, program_is_gone: threading.Event):
        self._job, self._gone = job, program_is_gone
        self._looked_at, self._stopped = 0.0, False
        self.done, self.told = 0.0, dict(job.told)

    def so_far(self, done: float, **told: Any) -> None:
        """What is done, of the job's total, and what else there is to say of it."""
        self.done = done
        self.told |= told
        self.is_to_end()

    def is_to_end(self) -> bool:
        if self._stopped or self._gone.is_set():
            return True
        if time.monotonic() - self._looked_at >= WRITES_APART:
            mine = Job.objects.filter(pk=self._job.pk)
            mine.update(done=self.done, told=self.told)
            self._stopped = mine.filter(stop_asked=True).exists()
            self._looked_at = time.monotonic()
        return self._stopped

    @property
    def program_is_gone(self) -> bool:
        return self._gone.is_set()


def work_until_none_waits(program_is_gone: threading.Event) -> int:
    """Do every job that waits; how many were done. Nothing is done where another process is at it."""
    if hasattr(os, "nice"):
        os.nice(NICE)
    count = 0
    with opened(lock_file()) as lock:
        tries_end = time.monotonic() + LONGEST_WAIT_FOR_LOCK
        while not taken(lock):
            if time.monotonic() > tries_end:
                return 0
            time.sleep(0.05)
        break_off()
        while not program_is_gone.is_set() and (job := Job.claim()):
            do(job, program_is_gone)
            count += 1
    return count


def do(job: Job, program_is_gone: threading.Event) -> None:
    """Do one job and write what came of it; whatever befalls it is told in its row."""
    telling, came, state = Telling(job, program_is_gone), {}, Job.State.DONE
    try:
        work: Callable = import_string(settings.JOBS[job.kind])
        with Workshop.kept():
            came = work(job.asked, telling)
        if telling.program_is_gone:
            state = Job.State.BROKEN
        elif Job.objects.filter(pk=job.pk, stop_asked=True).exists():
            state = Job.State.STOPPED
    except Exception:
        log.exception("The job %s broke", job)
        state = Job.State.FAILED
    Job.objects.filter(pk=job.pk).update(
        state=state, came=came, done=telling.done, told=telling.told, ended_at=timezone.now()
    )


def watch(descriptor: int, gone: threading.Event) -> None:
    """Set `gone` once the other end of the pipe is closed."""

    def wait() -> None:
        while os.read(descriptor, 1):
            pass
        gone.set()

    threading.Thread(target=wait, daemon=True, name="is the program there").start()
