"""Placing things one after another, each as near the start of the cloth as its rows allow."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..tolerance import LAY_TOUCHING
from .nofit import NoFit
from .things import Task

HOPELESS = 1e20


@dataclass(slots=True, eq=False)
class Places:
    """Where everything lies: for thing i its way, row and y at i; lengths in mm. `length` is the last end.

    `x` is where it lies across exactly, mm, where that is not on its row.
    """

    way: NDArray[np.int32]
    row: NDArray[np.int32]
    y: NDArray[np.float64]
    length: float
    phase: float = 0.0
    x: NDArray[np.float64] | None = None

    def copy(self) -> Places:
        """The same on the rows."""
        return Places(self.way.copy(), self.row.copy(), self.y.copy(), self.length, self.phase)

    def across(self, step: float) -> NDArray[np.float64]:
        """Where each reference point lies across, mm."""
        return self.row * step if self.x is None else self.x


class Table:
    """A task with its no-fit tables and what the placing needs of each thing and way, looked up fast."""

    def __init__(self, task: Task):
        self.task, self.nofit = task, NoFit(list(task.shapes), task.step)
        self.count = len(task.things)
        self.shape_of = [[way.shape for way in thing.ways] for thing in task.things]
        self.low = np.array([shape.low for shape in task.shapes])
        self.high = np.array([shape.high for shape in task.shapes])
        made: dict[tuple[int, int, int], NDArray[np.int32]] = {}
        self.rows = [
            [made.setdefault(rows, np.arange(*rows, dtype=np.int32)) for rows in thing.rows] for thing in task.things
        ]
        self.barred = np.array(task.barred, np.int32)
        self.matched = [bool(task.repeat) and thing.matched for thing in task.things]

    def first_y(self, thing: int, shape: int, phase: float) -> float:
        """The least y of the reference point at which the shape lies on the cloth, on the print's lattice where it must."""
        return self.snapped(-self.low[shape], phase) if self.matched[thing] else -self.low[shape]

    def snapped(self, y, phase: float):
        """Return y moved on to the next place where the print stands alike."""
        repeat = self.task.repeat
        return np.ceil((y - phase) / repeat - 1e-9) * repeat + phase

    def needs(self, shape: int, placed: NDArray[np.int32]) -> None:
        made = self.nofit.made[shape]
        if not made[placed].all():
            for other in set(placed[~made[placed]].tolist()):
                self.nofit.need(other, shape)


class Layer:
    """The things placed so far, in the order in which they were placed; things can be taken off from the end."""

    def __init__(self, table: Table, phase: float = 0.0):
        self.table, self.phase = table, phase
        fast = len(table.barred)
        self.shape = np.zeros(table.count + fast, np.int32)
        self.row = np.zeros(table.count + fast, np.int32)
        self.y = np.zeros(table.count + fast)
        self.shape[:fast] = table.barred
        self.filled = self.fast = fast

    def keep(self, count: int) -> None:
        """Keep the first `count` things only."""
        self.filled = self.fast + count

    def best(self, thing: int, way: int, limit: float = HOPELESS) -> tuple[float, int, float]:
        """Return (end, row, y) of the place with the least end, the lowest row of these; end > limit where none is."""
        table, shape = self.table, self.table.shape_of[thing][way]
        rows = table.rows[thing][way]
        start = table.first_y(thing, shape, self.phase)
        long = table.high[shape]
        filled = self.filled
        if not filled:
            return start + long, int(rows[0]), start
        placed = self.shape[:filled]
        table.needs(shape, placed)
        nofit = table.nofit
        bars = nofit.look(placed[:, None], self.row[:filled, None], shape, rows[None])
        middle = bars[:2] + self.y[:filled, None]
        low = (middle - bars[2:4]).reshape(-1, len(rows))
        high = (middle + bars[2:4]).reshape(-1, len(rows))
        return self._first_gap(thing, rows, start, long, low, high, limit)

    def _first_gap(self, thing, rows, start, long, low, high, limit) -> tuple[float, int, float]:
        """Move every row on past what bars it until it is free; rows that can't be the best any more are dropped."""
        table = self.table
        y = np.full(len(rows), start)
        best_end, best_row, best_y = math.inf, 0, 0.0
        while True:
            bars = (low < y) & (high > y)
            to = np.where(bars, high, -HOPELESS).max(axis=0)
            free = to <= -HOPELESS
            if free.any():
                done = y[free]
                at = int(np.argmin(done))
                end = done[at] + long
                row = int(rows[free][at])
                if end < best_end - 1e-6 or (end < best_end + 1e-6 and row < best_row):
                    best_end, best_row, best_y = float(end), row, float(done[at])
            y = to + LAY_TOUCHING
            if table.matched[thing]:
                y = table.snapped(y, self.phase)
            going = ~free & (y + long <= min(best_end, limit) + 1e-9)
            left = int(going.sum())
            if not left:
                return best_end, best_row, best_y
            if left < len(rows):
                rows, y, low, high = rows[going], y[going], low[:, going], high[:, going]

    def put(self, thing: int, way: int, row: int, y: float) -> None:
        at = self.filled
        self.shape[at], self.row[at], self.y[at] = self.table.shape_of[thing][way], row, y
        self.filled += 1


def lay_in_order(table: Table, order: list[int], ways: list[int] | None, phase: float, over=None) -> Places | None:
    """Place all things in `order`; each in its way of `ways`, or in its best way where that is None. None when time is up."""
    layer = Layer(table, phase)
    places = Places(np.zeros(table.count, np.int32), np.zeros(table.count, np.int32), np.zeros(table.count), 0.0, phase)
    for thing in order:
        if over is not None and over():
            return None
        choices = range(len(table.shape_of[thing])) if ways is None else (ways[thing],)
        end, row, y, way = math.inf, 0, 0.0, 0
        for choice in choices:
            found = layer.best(thing, choice, end)
            if found[0] < end - 1e-6:
                end, row, y, way = *found, choice
        layer.put(thing, way, row, y)
        places.way[thing], places.row[thing], places.y[thing] = way, row, y
        places.length = max(places.length, end)
    return places
