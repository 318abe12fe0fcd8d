"""A lay made shorter by force: cut a little off its length, let pieces overlap, and move them until none does.

Pieces that go on overlapping weigh more and more (guided local search; Gardeyn, Vanden Berghe and Wauters describe the
same idea for outlines in arXiv 2509.13329). Each move looks at random places, then at the very edges of the forbidden
intervals near the best of them, so that pieces come to touch exactly.
"""

from __future__ import annotations

import numpy as np

from .clock import Clock
from .lying import Lying
from .place import Layer, Places, Table

MOST_GROUP, GROUPED_THINGS = 12, 400
"""How many overlapping things are moved at once, and how many things they may be looked at among: with more, memory is slow."""

GROW_MOST, GROW_LEAST, FADE = 2.0, 1.2, 0.95
PASSES, STRIKES, DISTURB_AFTER = 30, 2, 1
FROM_NEAR, MOST_NEAR = 0.5, 6
"""After a failure the next try begins, as often as not, from one of the lays that came nearest, else from the best; with
two things exchanged. Measured over many settings of all these: none was clearly better."""

SHRINK_FIRST, SHRINK_LEAST, SHRINK_MOST = 0.01, 0.0004, 0.02


class Squeeze(Lying):
    """One squeezing search on a table, seeded."""

    def __init__(self, table: Table, start: Places, seed: int):
        super().__init__(table, start, seed)
        self.best = start.copy()
        self.near: list[tuple[float, tuple]] = []
        self.depth = np.zeros((self.total, self.total))
        self.weight = np.ones((self.total, self.total))
        area = np.array([shape.area for shape in table.task.shapes])
        size = np.sqrt(np.sqrt(area[self.shape]))
        self.size = size[:, None] * size[None, :]
        self.size /= self.size.mean()
        np.fill_diagonal(self.size, 0)
        self.big = np.argsort(-area[self.shape[: self.count]])
        self.group = max(min(MOST_GROUP, GROUPED_THINGS // self.total), 1)

    def run(
        self, clock: Clock, until: float | None = None, target: float | None = None, *, shrink: float = SHRINK_FIRST
    ) -> Places:
        """Squeeze until time is up, or until the lay is no longer than `target`; return the shortest lay found."""
        least = max(self.table.high[s] - self.table.low[s] for s in self.shape[: self.count])
        fails = 0
        while not clock.over(until) and not (target is not None and self.best.length <= target):
            limit = self.best.length * (1 - shrink)
            if limit < least:
                if shrink <= SHRINK_LEAST:
                    break
                shrink /= 2
                continue
            self._shorten(limit)
            if self._separate(clock, until):
                self._keep(clock)
                shrink, fails = min(shrink * 1.25, SHRINK_MOST), 0
                self.near.clear()
            else:
                shrink, fails = max(shrink * 0.5, SHRINK_LEAST), fails + 1
                if self.rng.random() < FROM_NEAR and self.near:
                    self.near.sort(key=lambda state: state[0])
                    del self.near[MOST_NEAR:]
                    at = min(int(abs(self.rng.normal()) * 0.4 * len(self.near)), len(self.near) - 1)
                    self.way[:], self.row[:], self.y[:], self.shape[:] = self.near[at][1]
                else:
                    self.take(self.best)
                if fails >= DISTURB_AFTER:
                    self._disturb()
        return self.best

    def _shorten(self, limit: float) -> None:
        self.limit = limit
        table = self.table
        self.lasts = self.at_each(self.last_y)
        for i in range(self.count):
            last = self.last_y(i, self.shape[i])
            if self.y[i] > last + 1e-9:
                self.y[i] = last
        for i in range(self.count):
            table.needs(int(self.shape[i]), self.shape)
        for i in range(self.count):
            self._measure(i)
        self.weight[:] = 1

    def _measure(self, i: int) -> None:
        self._note(i, self.depth_at(self.shape[i], self.row[i], self.y[i]))

    def _note(self, i: int, depth) -> None:
        depth[i] = 0
        self.depth[i] = depth
        self.depth[:, i] = depth

    def _separate(self, clock: Clock, until: float | None) -> bool:
        count, strikes = self.count, 0
        best_loss = np.inf
        kept = None
        while strikes < STRIKES:
            still = 0
            while still < PASSES:
                loss = float((self.depth * self.size).sum())
                if loss == 0:
                    return True
                if loss < best_loss * 0.98:
                    best_loss, still = loss, 0
                    kept = self.way.copy(), self.row.copy(), self.y.copy(), self.shape.copy()
                else:
                    still += 1
                if clock.over(until):
                    return False
                clock.tick()
                hurt = np.flatnonzero(self.depth[:count].any(axis=1))
                self.rng.shuffle(hurt)
                for at in range(0, len(hurt), self.group):
                    group = hurt[at : at + self.group]
                    group = group[self.depth[group].any(axis=1)]
                    if len(group):
                        self._move(group)
                    if at and clock.over(until):
                        return False
                self._reweigh()
            strikes += 1
            if kept is not None and strikes < STRIKES:
                self.way[:], self.row[:], self.y[:], self.shape[:] = kept
                for i in range(count):
                    self._measure(i)
        if kept is not None:
            self.near.append((best_loss, kept))
        return False

    def _reweigh(self) -> None:
        deepest = self.depth.max()
        if deepest > 0:
            grown = self.weight * (GROW_LEAST + (GROW_MOST - GROW_LEAST) * self.depth / deepest)
            self.weight = np.where(self.depth > 0, grown, np.maximum(self.weight * FADE, 1.0))

    def _move(self, group) -> None:
        """Put each thing of the group where its weighted overlap is least, if that is less than now.

        The places are looked for together, which is what makes it fast; each is looked at again when those before it moved.
        """
        self.make_tables(group)
        weight = self.weight[group] * self.size[group]
        weight = (weight / weight.max(axis=1, keepdims=True)).astype(np.float32)  # they grow beyond what this type holds
        for i, (way, row, y) in zip(group.tolist(), self.best_places(group, weight), strict=True):
            shape = self.shapes_of[i, way]
            depth = self.depth_at(shape, row, y)
            depth[i] = 0
            weighs = self.weight[i] * self.size[i]
            if weighs @ depth < weighs @ self.depth[i]:
                self.way[i], self.shape[i], self.row[i], self.y[i] = way, shape, row, y
                self._note(i, depth)

    def _keep(self, clock: Clock) -> None:
        """Keep a lay without overlap, moved together along the cloth; the search goes on from it."""
        table = self.table
        found = Places(self.way.copy(), self.row[: self.count].copy(), self.y[: self.count].copy(), 0.0, self.phase)
        found.length = max(found.y[i] + table.high[s] for i, s in enumerate(self.shape[: self.count]))
        closed = closed_up(table, found)
        self.best = closed if closed.length < found.length else found
        self.take(self.best)
        clock.found(self.best.length)

    def _disturb(self) -> None:
        """Exchange two things, large ones more often, each where the other began."""
        if self.count < 2:
            return
        large = self.big[: max(self.count // 2, 2)]
        one, two = self.rng.choice(large, 2, replace=False)
        self.y[one], self.y[two] = self.y[two], self.y[one]
        self.row[one], self.row[two] = self.row[two], self.row[one]
        for i in (one, two):
            rows, shape = self.table.rows[i][self.way[i]], int(self.shape[i])
            at = np.searchsorted(rows, self.row[i])
            self.row[i] = rows[min(at, len(rows) - 1)]
            first = self.table.first_y(i, shape, self.phase)
            self.y[i] = max(self.y[i], first)
            if self.table.matched[i]:
                self.y[i] = self.table.snapped(self.y[i], self.phase)


def closed_up(table: Table, places: Places) -> Places:
    """Return the lay with every thing moved back along its own row as far as those before it let it."""
    layer = Layer(table, places.phase)
    out = places.copy()
    out.length = 0.0
    for i in np.argsort(places.y, kind="stable"):
        thing, way = int(i), int(places.way[i])
        rows = table.rows[thing][way]
        table.rows[thing][way] = np.array([places.row[i]], np.int32)
        try:
            end, row, y = layer.best(thing, way)
        finally:
            table.rows[thing][way] = rows
        layer.put(thing, way, row, y)
        out.y[i] = y
        out.length = max(out.length, end)
    return out
