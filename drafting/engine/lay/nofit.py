"""No-fit tables: for two shapes, at each step across, which places along the cloth the second may not take.

The no-fit polygon of two convex shapes is their Minkowski sum; its lower border is that of the two chains merged by
slope. The no-fit polygon of two outlines is the union over their convex parts, so a row across it is a union of
intervals: no polygon is ever built, and no sliver can arise. (For the sum of convex sets see any text on computational
geometry, as de Berg et al., chapter 13.)
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from ..tolerance import LAY_TOUCHING, TOUCHING
from .shapes import FAR, Chains, Shape

KEPT = 2
"""Intervals kept in a row. A third is rare; its gap is then counted as taken, which is always safe."""


class NoFit:
    """The tables of all pairs of `shapes`, each made when first asked for.

    A column of the pool holds what a row across the cloth bars, up to two intervals relative to the first shape's y: the
    middles of both, half the lengths of both (less what may touch), and how far across it is to get free. `blocks` has each
    pair's first row number, its number of rows, and where they begin in the pool: a free row lies before and after them, so
    that a row number only needs to be clipped into them. (Five long lines rather than one of fives: numpy is faster so.)
    """

    def __init__(self, shapes: list[Shape], step: float):
        self.shapes, self.step = shapes, step
        count = len(shapes)
        self.made = np.zeros((count, count), bool)
        self.blocks = np.zeros((3, count, count), np.int32)
        self.used = 1
        self.known: dict[tuple[int, int, int, int], tuple[int, int]] = {}
        self.pool = _free_rows(4096)

    def need(self, a: int, b: int) -> None:
        """Make the tables of the pair, both ways round."""
        if self.made[a, b]:
            return
        self.made[a, b] = self.made[b, a] = True
        one, two = self.shapes[a], self.shapes[b]
        if not one.layers & two.layers:
            return
        flips = one.flip[0] * two.flip[0], one.flip[1] * two.flip[1]
        like = self.known.get((one.base, two.base, *flips))
        if like:
            self._store_like(a, b, like)
            if a != b:
                self._store_like(b, a, like[::-1])
            return
        self.known[one.base, two.base, *flips], self.known[two.base, one.base, *flips] = (a, b), (b, a)
        first, low, high, depth = forbidden(one.chains, two.chains, self.step)
        if not len(depth):
            return
        self._store(a, b, first, low, high, depth)
        if a != b:
            back_low, back_high = -high[::-1, ::-1], -low[::-1, ::-1]
            self._store(b, a, -(first + len(depth) - 1), back_low, back_high, depth[::-1])

    def _store_like(self, a: int, b: int, like: tuple[int, int]) -> None:
        """Store the table of a pair that is another pair flipped, both of it alike, about the cloth's axes."""
        first, count, start = self.blocks[:, like[0], like[1]].tolist()
        if not count:
            return
        (x, y), (of_x, of_y) = self.shapes[a].flip, self.shapes[like[0]].flip
        rows = self.pool[:, start : start + count]
        if x != of_x:
            rows, first = rows[:, ::-1], -(first + count - 1)
        block = self._block(a, b, first, count)
        block[:] = rows
        if y != of_y:
            block[:2] *= -1

    def look(self, placed, at_row, shape: int, rows) -> NDArray[np.float32]:
        """Return the pool's (5, …): how each of `placed` (shape numbers, at `at_row`) bars `shape` at `rows`.

        All but `shape` are broadcast against each other.
        """
        first, count, start = self.blocks[:, placed, shape]
        return self._rows_of(rows - at_row - first, count, start)

    def look_each(self, placed, at_row, shapes, rows) -> NDArray[np.float32]:
        """Return (5, looks, placed): how each of `placed` (shape numbers, at `at_row`) bars each of `shapes` at its row."""
        if len(shapes) > len(self.shapes):
            blocks = self.blocks[:, placed].astype(np.intp)
            blocks[0] += at_row[:, None]
            first, count, start = blocks.transpose(0, 2, 1).take(shapes, axis=1)
        else:
            first, count, start = self.blocks[:, placed[None], shapes[:, None]]
            first = first + at_row
        return self._rows_of(rows[:, None] - first, count, start)

    def _rows_of(self, into, count, start) -> NDArray[np.float32]:
        into = np.minimum(into, count, dtype=np.intp)
        np.maximum(into, -1, out=into)
        into += start
        return self.pool.take(into, axis=1, mode="clip")

    def _store(self, a: int, b: int, first: int, low, high, depth) -> None:
        block, many = self._block(a, b, first, len(depth)), low.shape[1]
        real = low < FAR
        block[:many] = np.where(real, (low + high) / 2, 0).T
        block[2 : 2 + many] = np.where(real, (high - low) / 2 - LAY_TOUCHING, -FAR).T
        block[4] = depth

    def _block(self, a: int, b: int, first: int, count: int) -> NDArray[np.float32]:
        """Make room in the pool for the rows of a pair; they are free until they are written."""
        start, room = self.used, self.pool.shape[1]
        if start + count + 2 > room:
            self.pool = np.concatenate([self.pool, _free_rows(max(room, count + 2))], axis=1)
        self.blocks[:, a, b] = first, count, start + 1
        self.used = start + count + 2
        return self.pool[:, start + 1 : start + 1 + count]


def _free_rows(count: int) -> NDArray[np.float32]:
    rows = np.zeros((5, count), np.float32)
    rows[2:4] = -FAR
    return rows


def forbidden(one: Chains, two: Chains, step: float, *, only: int | None = None):
    """Return (first, low, high, depth): at the shifts across k·step, k = first, first + 1 …, the open intervals of shifts
    along at which `two` would run into `one`, and how far across it would have to move to be free; mm. `only` asks for
    one k alone.
    """
    start = one.left[:, None] - two.right[None, :]
    end = one.right[:, None] - two.left[None, :]
    first, last = int(np.ceil((start.min() + TOUCHING) / step)), int(np.floor((end.max() - TOUCHING) / step))
    if only is not None:
        first, last = max(first, only), min(last, only)
    if last < first:
        return 0, np.empty((0, 1)), np.empty((0, 1)), np.empty(0)
    x = np.arange(first, last + 1) * step
    low_x, low_y = _merged(one.low_dx, one.low_slope, two.up_dx, two.up_slope, 1)
    up_x, up_y = _merged(one.up_dx, one.up_slope, two.low_dx, two.low_slope, -1)
    low_0 = (one.low_first[:, None] - two.up_last[None, :]).ravel()
    up_0 = (one.up_first[:, None] - two.low_last[None, :]).ravel()
    from_, to = start.ravel(), end.ravel()
    k0 = np.maximum(np.ceil((from_ + TOUCHING) / step).astype(int) - first, 0)
    k1 = np.minimum(np.floor((to - TOUCHING) / step).astype(int) - first + 1, len(x))
    count = np.maximum(k1 - k0, 0)
    # All pairs of parts are looked up in one go: each pair's chain stands in a stretch of its own of one long axis.
    pair = np.repeat(np.arange(len(count)), count)
    row = np.arange(len(pair)) - np.repeat(np.cumsum(count) - count - k0, count)
    apart = 2 * float((to - from_).max()) + 1
    at = x[row] - from_[pair] + pair * apart
    low, high = np.full((len(x), len(count)), FAR), np.full((len(x), len(count)), -FAR)
    cell = row * len(count) + pair
    low.ravel()[cell] = _along(at, low_x, low_y, apart) + low_0[pair]
    high.ravel()[cell] = _along(at, up_x, up_y, apart) + up_0[pair]
    depth = np.minimum(x - start.min(), end.max() - x)
    low, high = united(low, high)
    return first, low, high, depth


def _along(at, chain_x, chain_y, apart: float):
    """The chains' heights at the places `at` of the long axis, on which every chain begins `apart` after the last."""
    pairs, steps = chain_x.shape[0] * chain_x.shape[1], chain_x.shape[2]
    axis = chain_x.reshape(pairs, steps) + (np.arange(pairs) * apart)[:, None]
    return np.interp(at, axis.ravel(), chain_y.ravel())


def _merged(dx_a, slope_a, dx_b, slope_b, side: int):
    """The chain of the sum of every part of a with every part of b, from (0, 0): steps in the order of their slopes."""
    parts_a, parts_b = len(dx_a), len(dx_b)
    shape = (parts_a, parts_b)
    dx = np.concatenate(
        [np.broadcast_to(dx_a[:, None], (*shape, dx_a.shape[1])), np.broadcast_to(dx_b[None], (*shape, dx_b.shape[1]))],
        axis=2,
    )
    slope = np.concatenate(
        [
            np.broadcast_to(slope_a[:, None], (*shape, slope_a.shape[1])),
            np.broadcast_to(slope_b[None], (*shape, slope_b.shape[1])),
        ],
        axis=2,
    )
    order = np.argsort(slope * side, axis=2, kind="stable")
    dx = np.take_along_axis(dx, order, 2)
    slope = np.take_along_axis(slope, order, 2)
    zeros = np.zeros((*shape, 1))
    x = np.concatenate([zeros, np.cumsum(dx, axis=2)], axis=2)
    y = np.concatenate([zeros, np.cumsum(np.where(dx > 0, dx * slope, 0.0), axis=2)], axis=2)
    return x, y


def united(low, high):
    """Return the union of each row's intervals as at most two, the widest gap kept; an empty one is (FAR, −FAR)."""
    if low.shape[1] == 1:
        return low, high
    begin, reach = low.min(axis=1), _reach_from_first(low, high)
    beyond = np.where(low > reach[:, None] + LAY_TOUCHING, low, FAR)
    parted = (beyond < FAR).any(axis=1)
    if not parted.any():
        return begin[:, None], reach[:, None]
    out_low, out_high = np.full((len(low), 2), FAR), np.full((len(low), 2), -FAR)
    out_low[:, 0], out_high[:, 0] = begin, reach
    out_low[parted], out_high[parted] = _widest_gap(low[parted], high[parted])
    return out_low, out_high


def _reach_from_first(low, high):
    """How far the intervals of each row reach without a gap, from the one that begins first."""
    reach = high[np.arange(len(low)), low.argmin(axis=1)]
    going = np.arange(len(low))
    while len(going):
        further = np.where(low <= reach[going, None] + LAY_TOUCHING, high, -FAR).max(axis=1)
        on = further > reach[going]
        going, low, high = going[on], low[on], high[on]
        reach[going] = further[on]
    return reach


def _widest_gap(low, high):
    """The two intervals on either side of the widest gap of rows that have one."""
    order = np.argsort(low, axis=1)
    low, high = np.take_along_axis(low, order, 1), np.take_along_axis(high, order, 1)
    reach = np.maximum.accumulate(high, axis=1)
    gaps = np.where(low[:, 1:] < FAR, low[:, 1:] - reach[:, :-1], -1.0)
    cut, each = np.argmax(gaps, axis=1), np.arange(len(low))
    return (
        np.stack([low[:, 0], low[each, cut + 1]], axis=1),
        np.stack([reach[each, cut], reach[:, -1]], axis=1),
    )
