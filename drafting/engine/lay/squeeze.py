"""A lay made shorter by force: cut a little off its length, let pieces overlap, and move them until none does.

Pieces that go on overlapping weigh more and more (guided local search; Gardeyn, Vanden Berghe and Wauters describe the
same idea for outlines in arXiv 2509.13329). Each move looks at random places, then at the very edges of the forbidden
intervals near the best of them, so that pieces come to touch exactly.
"""

from __future__ import annotations

import numpy as np

from .clock import Clock
from .place import Layer, Places, Table

LOOKS, NEAR_LOOKS, KEPT_LOOKS, ENDS = 48, 24, 3, 10
"""Looks anywhere and near where the thing lies; how many are followed up; how many interval ends are tried in a row."""

WHICH = np.array([0, 0, 0, 0, 0, 0, 0, 1, 1, 1, 2, 2])
STEPS = np.array([0, 1, -1, 3, -3, 8, -8, 0, 2, -2, 0, 1], np.int32)
"""Which of the kept looks each row near them belongs to, and how many steps across it lies from it."""

GROW_MOST, GROW_LEAST, FADE = 2.0, 1.2, 0.95
PASSES, STRIKES, DISTURB_AFTER = 60, 2, 1
FROM_NEAR, MOST_NEAR = 0.5, 6
"""After a failure the next try begins, as often as not, from one of the lays that came nearest, else from the best; with
two things exchanged. Measured over many settings of all these: none was clearly better."""

SHRINK_FIRST, SHRINK_LEAST, SHRINK_MOST = 0.01, 0.0004, 0.02


class Squeeze:
    """One squeezing search on a table, seeded."""

    def __init__(self, table: Table, start: Places, seed: int):
        self.table, self.nofit = table, table.nofit
        self.rng = np.random.default_rng(seed)
        self.count, fast = table.count, len(table.barred)
        self.total = self.count + fast
        self.best = start.copy()
        self.near: list[tuple[float, tuple]] = []
        self.way = start.way.copy()
        self.shape = np.zeros(self.total, np.int32)
        self.shape[self.count :] = table.barred
        self.row, self.y = np.zeros(self.total, np.int32), np.zeros(self.total)
        self.phase = start.phase
        self.depth = np.zeros((self.total, self.total))
        self.weight = np.ones((self.total, self.total))
        area = np.array([shape.area for shape in table.task.shapes])
        self.take(start)
        size = np.sqrt(np.sqrt(area[self.shape]))
        self.size = size[:, None] * size[None, :]
        self.size /= self.size.mean()
        np.fill_diagonal(self.size, 0)
        self.big = np.argsort(-area[self.shape[: self.count]])
        self.shapes_of = [np.array(shapes, np.int32) for shapes in table.shape_of]
        self.spans = [
            np.array(
                [(rows[0], rows[-1], rows[1] - rows[0] if len(rows) > 1 else 1, len(rows)) for rows in ways], np.int32
            )
            for ways in table.rows
        ]
        self.firsts = [
            np.array([table.first_y(i, s, self.phase) for s in ways]) for i, ways in enumerate(table.shape_of)
        ]
        self.lasts = self.firsts
        self.limit = start.length

    def take(self, places: Places) -> None:
        """Begin from these places."""
        self.way[:], self.row[: self.count], self.y[: self.count] = places.way, places.row, places.y
        self.shape[: self.count] = [self.table.shape_of[i][w] for i, w in enumerate(places.way)]

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
        self.lasts = [np.array([self._last(i, s) for s in ways]) for i, ways in enumerate(table.shape_of)]
        self.lasts = [np.maximum(last, first) for last, first in zip(self.lasts, self.firsts, strict=True)]
        for i in range(self.count):
            last = self._last(i, self.shape[i])
            if self.y[i] > last + 1e-9:
                self.y[i] = last
        for i in range(self.count):
            table.needs(int(self.shape[i]), self.shape)
        for i in range(self.count):
            self._measure(i)
        self.weight[:] = 1

    def _last(self, thing: int, shape: int) -> float:
        """The greatest y at which the shape ends within the limit, on the print's lattice where it must."""
        last = self.limit - self.table.high[shape]
        if self.table.matched[thing]:
            repeat = self.table.task.repeat
            last = np.floor((last - self.phase) / repeat + 1e-9) * repeat + self.phase
            return max(last, self.table.first_y(thing, shape, self.phase))
        return last

    def _measure(self, i: int) -> None:
        depth = self._depths(self.shape[i : i + 1], self.row[i : i + 1], self.y[i : i + 1])[:, 0]
        depth[i] = 0
        self.depth[i] = depth
        self.depth[:, i] = depth

    def _depths(self, shape, rows, y):
        """(things, looks): how deep each look at (shape, row, y) lies in each thing; the lesser of along and across, mm."""
        bars = self.nofit.look(self.shape, self.row, shape, rows)
        return _inside(bars, (y[None, :] - self.y[:, None]).astype(np.float32))

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
                for turn, i in enumerate(hurt.tolist(), 1):
                    if self.depth[i].any():
                        self._move(i)
                        if turn % 16 == 0 and clock.over(until):
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

    def _move(self, i: int) -> None:
        """Put thing i where its weighted overlap is least, if that is less than now."""
        weight = self.weight[i] * self.size[i]
        now = float(weight @ self.depth[i])
        way, row, y = self._looks(i)
        shapes, spans = self.shapes_of[i], self.spans[i]
        for one in shapes.tolist():
            self.table.needs(one, self.shape)
        cost = weight @ self._depths(shapes[way], row, y)
        kept = np.argpartition(cost, KEPT_LOOKS)[:KEPT_LOOKS]
        kept = kept[np.argsort(cost[kept])][WHICH]
        way = way[kept]
        span = spans[way]
        row = np.minimum(np.maximum(row[kept] + STEPS * span[:, 2], span[:, 0]), span[:, 1])
        best = self._along(i, weight, shapes[way], row, y[kept], way)
        if best[0] < now:
            _, self.way[i], self.row[i], self.y[i] = best
            self.shape[i] = shapes[best[1]]
            self._measure(i)

    def _looks(self, i: int):
        """Random ways, rows and places along for thing i, some of them near where it lies."""
        chance = self.rng.random((3, LOOKS + NEAR_LOOKS))
        mine = self.way[i]
        way = (chance[0] * len(self.spans[i])).astype(np.int32)
        way[LOOKS:] = mine
        span, first, last = self.spans[i][way], self.firsts[i][way], self.lasts[i][way]
        row = span[:, 0] + (chance[1] * span[:, 3]).astype(np.int32) * span[:, 2]
        y = first + chance[2] * (last - first)
        low, high, each, count = self.spans[i][mine].tolist()
        near = self.row[i] + ((chance[1, LOOKS:] - 0.5) * 2 * max(count // 8, 1)).astype(np.int32) * each
        row[LOOKS:] = np.minimum(np.maximum(near, low), high)
        near = self.y[i] + (chance[2, LOOKS:] - 0.5) * (0.2 * self.limit)
        y[LOOKS:] = np.minimum(np.maximum(near, first[-1]), last[-1])
        return way, row, y

    def _along(self, i: int, weight, shape, row, y, way) -> tuple[float, int, int, float]:
        """Return (cost, way, row, y) of the best place on these rows, looking where intervals near y end."""
        table = self.table
        bars = self.nofit.look(self.shape, self.row, shape, row)
        middle = bars[..., :2] + self.y[:, None, None]
        half = bars[..., 2:4]
        ends_low = (middle - half).transpose(0, 2, 1).reshape(-1, len(row))
        ends_high = (middle + half).transpose(0, 2, 1).reshape(-1, len(row))
        first, last = self.firsts[i][way], self.lasts[i][way]
        if table.matched[i]:
            ends_high = table.snapped(ends_high, self.phase)
            ends_low = table.snapped(ends_low, self.phase) - table.task.repeat
            y = table.snapped(y, self.phase)
        ends = np.concatenate([ends_low, ends_high, first[None], last[None], y[None]])
        ends = np.where((ends >= first) & (ends <= last), ends, 1e9)
        if len(ends) > ENDS:
            near = np.argpartition(np.abs(ends - y), ENDS, axis=0)[:ENDS]
            ends = np.take_along_axis(ends, near, 0)
        ends = np.where(ends < 1e9, ends, first)
        off = (ends.T[None] - self.y[:, None, None]).astype(np.float32)  # (things, looks, ends)
        cost = (weight @ _inside(bars[:, :, None], off).reshape(self.total, -1)).reshape(ends.T.shape)
        at = int(np.argmin(cost))
        look, end = divmod(at, cost.shape[1])
        return float(cost[look, end]), int(way[look]), int(row[look]), float(ends[end, look])

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


def _inside(bars, off):
    """How deep shifts `off` lie in the intervals of `bars`, the lesser of along and across; 0 where they are free."""
    inside = bars[..., 2] - np.abs(off - bars[..., 0])
    np.maximum(inside, bars[..., 3] - np.abs(off - bars[..., 1]), out=inside)
    np.minimum(inside, bars[..., 4], out=inside)
    return np.maximum(inside, 0, out=inside)


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
