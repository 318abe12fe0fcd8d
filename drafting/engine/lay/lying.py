"""Where things lie while they may overlap, and better places for them: looked for at random, then where they come to touch.

Many things are looked at in one go: the tables are read in few large steps, which is what makes it fast in Python.
"""

from __future__ import annotations

import numpy as np

from .place import Places, Table

LOOKS, NEAR_LOOKS, KEPT_LOOKS, ENDS = 48, 24, 3, 8
"""Looks anywhere and near where the thing lies; how many are followed up; how many interval ends are tried in a row."""

WHICH = np.array([0, 0, 0, 0, 0, 1, 1, 2])
STEPS = np.array([0, 1, -1, 4, -4, 0, 2, 0], np.int32)
"""Which of the kept looks each row near them belongs to, and how many steps across it lies from it."""

FAR_OFF = 1e9


class Lying:
    """Each thing's way, shape, row and y at its number, mm; after them what is barred. `limit` is the length allowed."""

    def __init__(self, table: Table, start: Places, seed: int):
        self.table, self.nofit = table, table.nofit
        self.rng = np.random.default_rng(seed)
        self.count, fast = table.count, len(table.barred)
        self.total = self.count + fast
        self.way = start.way.copy()
        self.shape = np.zeros(self.total, np.int32)
        self.shape[self.count :] = table.barred
        self.row, self.y = np.zeros(self.total, np.int32), np.zeros(self.total)
        self.phase = start.phase
        self.take(start)
        self._read_ways()
        self.firsts = self.at_each(lambda i, shape: table.first_y(i, shape, self.phase))
        self.lasts = self.firsts
        self.matched = np.array(table.matched)
        self.limit = start.length

    def take(self, places: Places) -> None:
        """Begin from these places."""
        self.way[:], self.row[: self.count], self.y[: self.count] = places.way, places.row, places.y
        self.shape[: self.count] = [self.table.shape_of[i][w] for i, w in enumerate(places.way)]

    def last_y(self, thing: int, shape: int) -> float:
        """The greatest y at which the shape ends within the limit, on the print's lattice where it must."""
        last = self.limit - self.table.high[shape]
        if self.table.matched[thing]:
            repeat = self.table.task.repeat
            last = np.floor((last - self.phase) / repeat + 1e-9) * repeat + self.phase
        return max(last, self.table.first_y(thing, shape, self.phase))

    def depth_at(self, shape, row, y):
        """How deep a shape at (row, y) lies in each thing; the lesser of along and across, mm."""
        return _inside(self.nofit.look(self.shape, self.row, shape, row), (y - self.y).astype(np.float32))

    def make_tables(self, group) -> None:
        """Make what tables are still missing for looking at these things, any way that they may lie."""
        for i in group[~self.ready[group]].tolist():
            mine = self.shapes_of[i]
            for shape in set(mine.tolist()):
                self.table.needs(shape, self.shape)
            self.ready[i] = self.nofit.made[np.ix_(mine, self.used_shapes)].all()

    def best_places(self, group, weight):
        """Yield the best (way, row, y) that was found for each thing of the group; `weight` is (group, things)."""
        thing, way, row, y = self._looks(group)
        bars = self.nofit.look_each(self.shape, self.row, self.shapes_of[thing, way], row)
        depth = _inside(bars, (y[:, None] - self.y[None]).astype(np.float32))
        cost = (depth.reshape(len(group), -1, self.total) @ weight[:, :, None])[..., 0]
        each = np.arange(len(group))[:, None]
        kept = np.argpartition(cost, KEPT_LOOKS, axis=1)[:, :KEPT_LOOKS]
        kept = kept[each, np.argsort(cost[each, kept], axis=1)]
        kept = (kept[:, WHICH] + each * cost.shape[1]).ravel()
        thing, way, y = thing[kept], way[kept], y[kept]
        span = self.spans[thing, way]
        row = np.minimum(np.maximum(row[kept] + np.tile(STEPS, len(group)) * span[:, 2], span[:, 0]), span[:, 1])
        cost, ends = self._along(thing, way, row, y, np.repeat(weight, len(WHICH), axis=0))
        for best in cost.reshape(len(group), -1).argmin(axis=1) + np.arange(len(group)) * len(WHICH) * ENDS:
            look, end = divmod(int(best), ENDS)
            yield int(way[look]), int(row[look]), float(ends[look, end])

    def _looks(self, group):
        """Random things' ways, rows and places along, those of each thing of the group in a row; the last near where it lies."""
        count, looks = len(group), LOOKS + NEAR_LOOKS
        chance = self.rng.random((3, count, looks))
        thing = group[:, None]
        way = (chance[0] * self.ways[thing]).astype(np.int32)
        way[:, LOOKS:] = mine = self.way[thing]
        span, first, last = self.spans[thing, way], self.firsts[thing, way], self.lasts[thing, way]
        row = span[..., 0] + (chance[1] * span[..., 3]).astype(np.int32) * span[..., 2]
        y = first + chance[2] * (last - first)
        low, high, each, rows = self.spans[thing, mine].transpose(2, 0, 1)
        near = self.row[thing] + ((chance[1, :, LOOKS:] - 0.5) * 2 * np.maximum(rows // 8, 1)).astype(np.int32) * each
        row[:, LOOKS:] = np.minimum(np.maximum(near, low), high)
        near = self.y[thing] + (chance[2, :, LOOKS:] - 0.5) * (0.2 * self.limit)
        y[:, LOOKS:] = np.minimum(np.maximum(near, first[:, -1:]), last[:, -1:])
        return np.repeat(group, looks), way.ravel(), row.ravel(), y.ravel()

    def _along(self, thing, way, row, y, weight):
        """Return (looks, ENDS) costs and places along: on each look's row, where intervals near its y end."""
        bars = self.nofit.look_each(self.shape, self.row, self.shapes_of[thing, way], row)
        middle, half = bars[:2] + self.y, bars[2:4]
        low, high = (edge.transpose(1, 0, 2).reshape(len(row), -1) for edge in (middle - half, middle + half))
        first, last = self.firsts[thing, way][:, None], self.lasts[thing, way][:, None]
        y = y[:, None]
        if self.matched.any():
            on_print = self.matched[thing][:, None]
            low = np.where(on_print, self.table.snapped(low, self.phase) - self.table.task.repeat, low)
            high = np.where(on_print, self.table.snapped(high, self.phase), high)
            y = np.where(on_print, self.table.snapped(y, self.phase), y)
        ends = np.concatenate([low, high, first, last, y], axis=1)
        apart = np.abs(ends - y)
        apart[(ends < first) | (ends > last)] = FAR_OFF
        near = np.argpartition(apart, ENDS, axis=1)[:, :ENDS]
        ends = ends[np.arange(len(row))[:, None], near]
        ends = np.minimum(np.maximum(ends, first), last)
        off = (ends.T[:, :, None] - self.y).astype(np.float32)  # (ends, looks, things)
        return np.einsum("elt,lt->le", _inside(bars, off), weight), ends

    def _read_ways(self) -> None:
        """Each thing's shapes and rows (first, last, apart, count) by its ways, padded to the most ways that any has."""
        table = self.table
        self.ways = np.array([len(shapes) for shapes in table.shape_of])
        self.shapes_of = np.array([of + of[:1] * (self.ways.max() - len(of)) for of in table.shape_of], np.int32)
        self.spans = np.zeros((*self.shapes_of.shape, 4), np.int32)
        for i, ways in enumerate(table.rows):
            for way, rows in enumerate(ways):
                self.spans[i, way] = rows[0], rows[-1], rows[1] - rows[0] if len(rows) > 1 else 1, len(rows)
        self.used_shapes = np.unique(np.concatenate([self.shapes_of.ravel(), np.array(table.barred, np.int32)]))
        self.ready = np.zeros(self.count, bool)

    def at_each(self, value):
        """`value(thing, shape)` for each thing and each of its ways, padded alike."""
        return np.array([[value(i, int(shape)) for shape in shapes] for i, shapes in enumerate(self.shapes_of)])


def _inside(bars, off):
    """How deep shifts `off`, which it spoils, lie in the intervals of `bars`, the lesser of along and across; 0 where free."""
    inside = off - bars[0]
    np.subtract(bars[2], np.abs(inside, out=inside), out=inside)
    off -= bars[1]
    np.subtract(bars[3], np.abs(off, out=off), out=off)
    np.maximum(inside, off, out=inside)
    np.minimum(inside, bars[4], out=inside)
    return np.maximum(inside, 0, out=inside)
