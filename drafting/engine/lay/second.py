"""A second engine for open lays of many pieces: spyrrow, in a process of its own that can be stopped.

It is an extra: without the package nothing is lost but length. What it does badly is met here: it ends by the clock, it
panics outside of Exception, it can't be stopped from within, and a piece exactly as wide as the cloth breaks it. The
child process writes every valid lay as a line; the parent keeps the last one and ends the child when time is up.
"""

from __future__ import annotations

import importlib.util
import json
import os
import subprocess
import sys
import threading
import time
from datetime import timedelta

import numpy as np

from ..tolerance import LAY_EXACT_WIDTH
from .cloth import OPEN
from .place import Places
from .things import Task

FROM_PIECES = 12
"""With fewer pieces our own search finds as short a lay; measured in tests/benchmarks/lay.py."""

FROM_SECONDS = 4.0

CPU_SPARE, BUSY_ASKED = 1.1, 0.1
"""How much more CPU than its share it may take where that counts; how many seconds of CPU show how busy the machine is."""

Lying = list[tuple[int, float, float, float]]
"""For each thing: its number, the degrees it is turned beyond its first way, and where its reference point lies, x and y."""


def may_help(task: Task, seconds: float, gap: float) -> bool:
    """Whether the package is there and the task is one that it can take."""
    return (
        len(task.things) >= FROM_PIECES
        and seconds >= FROM_SECONDS
        and task.layout == OPEN
        and not task.flaws
        and gap <= 0
        and not any(thing.matched for thing in task.things)
        and importlib.util.find_spec("spyrrow") is not None
    )


class Second:
    """One run in a child process, begun when made."""

    def __init__(self, task: Task, seconds: float, seed: int, *, of_cpu: bool = False):
        """`seconds` go by the clock on the wall; `of_cpu`, about as many of CPU, however busy the machine is."""
        self.task = task
        self.kinds: dict[int, list[int]] = {}
        for number, thing in enumerate(task.things):
            self.kinds.setdefault(id(thing), []).append(number)
        self.best: dict | None = None
        job = json.dumps({"width": task.across, "seconds": seconds, "of_cpu": of_cpu, "seed": seed, "items": self._items()})
        self.child = subprocess.Popen(
            [sys.executable, "-m", "drafting.engine.lay.second"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
            cwd=_root(),
        )
        self.reader = threading.Thread(target=self._read, args=(job,), daemon=True)
        self.reader.start()

    def _items(self) -> list[dict]:
        items = []
        for members in self.kinds.values():
            thing = self.task.things[members[0]]
            first = thing.ways[0]
            ring = self.task.shapes[first.shape].ring
            turns = sorted({(way.turned - first.turned) % 360 for way in thing.ways})
            items.append({"ring": ring.tolist(), "count": len(members), "turns": turns})
        return items

    def _read(self, job: str) -> None:
        try:
            self.child.stdin.write(job)
            self.child.stdin.close()
            for line in self.child.stdout:
                found = json.loads(line)
                if self.best is None or found["length"] <= self.best["length"]:
                    self.best = found
        except (OSError, ValueError):
            return  # the child was ended, or died half way through a line: what was read before stands

    def end(self, wait: float = 0.0) -> Lying | None:
        """Wait `wait` seconds at most, end the child, and return where its best lay has everything; None where it has none."""
        try:
            self.child.wait(max(wait, 0.01))
        except subprocess.TimeoutExpired:
            self.child.kill()
            self.child.wait()
        self.reader.join(0.5)
        if not self.reader.is_alive():
            self.child.stdout.close()
        return self._lying(self.best["items"]) if self.best else None

    def _lying(self, items: list) -> Lying | None:
        left = {number: list(members) for number, members in enumerate(self.kinds.values())}
        lying: Lying = []
        for number, turn, x, y in items:
            if not left[number]:
                return None
            lying.append((left[number].pop(0), turn, x, y))
        return None if any(left.values()) else lying


def places_of(task: Task, lying: Lying, length: float) -> Places:
    """Return its lay on our steps across, `length` mm long: pieces may overlap by as much as they were moved to a step."""
    count = len(task.things)
    places = Places(np.zeros(count, np.int32), np.zeros(count, np.int32), np.zeros(count), length)
    for number, turn, x, y in lying:
        thing = task.things[number]
        turned = (thing.ways[0].turned + turn) % 360
        way = min(range(len(thing.ways)), key=lambda at: abs(thing.ways[at].turned % 360 - turned))
        shape, (first, end, _) = task.shapes[thing.ways[way].shape], thing.rows[way]
        left, low = outline_of(task, number, turn, x, y).min(axis=0)
        places.way[number] = way
        places.row[number] = min(max(round((left - shape.left) / task.step), first), end - 1)
        places.y[number] = low - shape.low
    return places


def _root() -> str:
    from pathlib import Path

    return str(Path(__file__).resolve().parents[3])


def _child(job: dict) -> None:
    import spyrrow

    # Its x runs along the strip and its y across, so that its turns run the other way round than ours.
    items = [
        spyrrow.Item(
            str(number),
            [(y, x) for x, y in [*item["ring"], item["ring"][0]]],
            demand=item["count"],
            allowed_orientations=[-turn % 360 for turn in item["turns"]],
        )
        for number, item in enumerate(job["items"])
    ]
    task = spyrrow.StripPackingInstance("lay", strip_height=job["width"] + LAY_EXACT_WIDTH, items=items)
    seconds = job["seconds"] * (busy() if job["of_cpu"] else 1)
    config = spyrrow.StripPackingConfig(
        early_termination=False, total_computation_time=max(int(seconds), 1), seed=job["seed"], num_workers=1
    )
    config.exploration_time = timedelta(seconds=seconds * 0.8)
    config.compression_time = timedelta(seconds=seconds * 0.2)
    queue = spyrrow.ProgressQueue()
    over = threading.Event()

    def tell() -> None:
        while not over.wait(0.2):
            for kind, solution in queue.drain():
                if "Infeas" not in str(kind) and "Improving" not in str(kind):
                    _write(solution)
            if job["of_cpu"] and time.process_time() > job["seconds"] * CPU_SPARE:
                os._exit(0)  # it can't be stopped otherwise; what it found is told

    teller = threading.Thread(target=tell, daemon=True)
    teller.start()
    try:
        solution = task.solve(config, queue)
    finally:
        over.set()
        teller.join()
    _write(solution)


def busy() -> float:
    """How many seconds go by on the wall for one of CPU just now."""
    begun, wall = time.process_time(), time.monotonic()
    while time.process_time() - begun < BUSY_ASKED:
        pass
    return max((time.monotonic() - wall) / BUSY_ASKED, 1.0)


def _write(solution) -> None:
    items = [
        (int(item.id), -item.rotation % 360, item.translation[1], item.translation[0]) for item in solution.placed_items
    ]
    print(json.dumps({"length": solution.width, "items": items}), flush=True)


def outline_of(task: Task, thing: int, turn: float, x: float, y: float) -> np.ndarray:
    """The outline of a thing as the second engine laid it, mm."""
    from .shapes import turned

    ring = task.shapes[task.things[thing].ways[0].shape].ring
    return turned(ring, turn, False) + [x, y]


if __name__ == "__main__":
    try:
        _child(json.load(sys.stdin))
    except (
        BaseException
    ) as bad:  # a panic of the package is no Exception; there is then no lay from it, and none is needed
        sys.exit(f"no lay: {type(bad).__name__}")
