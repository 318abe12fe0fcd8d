"""A second engine for open lays of many pieces: spyrrow, in a process of its own that can be stopped.

It is an extra: without the package nothing is lost but length. What it does badly is met here: it ends by the clock, it
panics outside of Exception, it can't be stopped from within, and a piece exactly as wide as the cloth breaks it. The
child process (second_run.py) writes every valid lay as a line and ends when it has used its CPU seconds; the parent keeps
the last one, and ends the child when time is up.
"""

from __future__ import annotations

import importlib.util
import json
import subprocess
import sys
import threading
import time
from pathlib import Path

import numpy as np

from ..tolerance import LAY_EXACT_WIDTH
from .clock import Clock
from .cloth import OPEN
from .place import Places
from .shapes import turned
from .things import Task

FROM_PIECES = 12
"""With fewer pieces our own search finds as short a lay; measured in tests/benchmarks/lay.py."""

FROM_SECONDS = 4.0

ASKED_EVERY = 0.05

Lying = list[tuple[int, float, float, float]]
"""For each thing: its number, the degrees it is turned beyond its first way, and where its reference point lies, x and y."""


def may_help(task: Task, seconds: float) -> bool:
    """Whether the package is there and the task is one that it can take."""
    return (
        len(task.things) >= FROM_PIECES
        and seconds >= FROM_SECONDS
        and task.layout == OPEN
        and not task.flaws
        and task.cloth.gap <= 0
        and not any(thing.matched for thing in task.things)
        and importlib.util.find_spec("spyrrow") is not None
    )


def cpu_seconds() -> float:
    """CPU seconds of this process, and of what the second engine has used for it."""
    return time.process_time() + Second.of_all


class Second:
    """One run in a child process, begun when made. `best` is its shortest lay so far, `cpu` the CPU seconds it has told of."""

    of_all = 0.0
    """CPU seconds that all runs of this process have told of."""

    def __init__(self, task: Task, seconds: float, seed: int):
        """`seconds` are of CPU: it ends by itself when it has used them."""
        self.task = task
        self.best: dict | None = None
        self.cpu = 0.0
        height = task.across + LAY_EXACT_WIDTH
        job = json.dumps({"height": height, "seconds": seconds, "seed": seed, "items": self.items_of(task)})
        self.child = subprocess.Popen(
            [sys.executable, "-P", str(Path(__file__).with_name("second_run.py"))],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
        )
        self.reader = threading.Thread(target=self._read, args=(job,), daemon=True)
        self.reader.start()

    @staticmethod
    def items_of(task: Task) -> list[dict]:
        """The task as the child takes it: each different outline, how many there are, how it may be turned."""
        items = []
        for members in _kinds(task):
            thing = task.things[members[0]]
            first = thing.ways[0]
            turns = sorted({(way.turned - first.turned) % 360 for way in thing.ways})
            items.append({"ring": task.shapes[first.shape].ring.tolist(), "count": len(members), "turns": turns})
        return items

    def _read(self, job: str) -> None:
        try:
            self.child.stdin.write(job)
            self.child.stdin.close()
            for line in self.child.stdout:
                found = json.loads(line)
                Second.of_all += found["cpu"] - self.cpu
                self.cpu = found["cpu"]
                if "items" in found and (self.best is None or found["length"] <= self.best["length"]):
                    self.best = found
        except (OSError, ValueError):
            return  # the child was ended, or died half way through a line: what was read before stands

    def run(self, clock: Clock, until: float, target: float | None = None) -> None:
        """Wait for its end, at most until `until` seconds of the clock; a lay no longer than `target` ends it at once."""
        while self.reader.is_alive() and not clock.over(until) and not clock.late(until):
            clock.tick()
            if self.best:
                clock.found(self.best["length"])
                if target is not None and self.best["length"] <= target:
                    break
            self.reader.join(ASKED_EVERY)

    def end(self) -> Lying | None:
        """End the child, and return where its best lay has everything; None where it has none."""
        self.child.kill()
        self.child.wait()
        self.reader.join(0.5)
        if not self.reader.is_alive():
            self.child.stdout.close()
        return self._lying(self.best["items"]) if self.best else None

    def _lying(self, items: list) -> Lying | None:
        left = _kinds(self.task)
        lying: Lying = []
        for number, turn, x, y in items:
            if not left[number]:
                return None
            lying.append((left[number].pop(0), turn, x, y))
        return None if any(left) else lying


def _kinds(task: Task) -> list[list[int]]:
    """The numbers of the things that are alike, kind by kind."""
    kinds: dict[int, list[int]] = {}
    for number, thing in enumerate(task.things):
        kinds.setdefault(id(thing), []).append(number)
    return list(kinds.values())


def places_of(task: Task, lying: Lying) -> Places:
    """Return its lay as ours: exactly where it put everything, and each on the nearest step across."""
    count = len(task.things)
    places = Places(np.zeros(count, np.int32), np.zeros(count, np.int32), np.zeros(count), 0.0, x=np.zeros(count))
    for number, turn, x, y in lying:
        thing = task.things[number]
        angle = (thing.ways[0].turned + turn) % 360
        way = min(range(len(thing.ways)), key=lambda at: abs(thing.ways[at].turned % 360 - angle))
        shape, (first, end, _) = task.shapes[thing.ways[way].shape], thing.rows[way]
        left, low = (turned(task.shapes[thing.ways[0].shape].ring, turn, False) + [x, y]).min(axis=0)
        places.way[number], places.x[number], places.y[number] = way, left - shape.left, low - shape.low
        places.row[number] = min(max(round(places.x[number] / task.step), first), end - 1)
        places.length = max(places.length, float(places.y[number] + shape.high))
    return places
