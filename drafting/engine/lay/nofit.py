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

    A row of the pool holds up to two forbidden intervals, relative to the first shape's y: the middles of both, half the
    lengths of both (less what may touch), and how far across it is to get free. `blocks` has each pair's first row number,
    its number of rows, and where they begin in the pool: a free row lies before and after them, so that a row number only
    needs to be clipped into them.
    """

    def __init__(self, shapes: list[Shape], step: float):
        self.shapes, self.step = shapes, step
        count = len(shapes)
        self.made = np.zeros((count, count), bool)
        self.blocks = np.zeros((count * count, 3), np.int32)
        self.used = 1
        self.pool = _free_rows(4096)

    @property
    def bytes_used(self) -> int:
        return self.pool.nbytes

    def need(self, a: int, b: int) -> None:
        """Make the tables of the pair, both ways round."""
        if self.made[a, b]:
            return
        self.made[a, b] = self.made[b, a] = True
        one, two = self.shapes[a], self.shapes[b]
        if not one.layers & two.layers:
            return
        first, low, high, depth = forbidden(one.chains, two.chains, self.step)
        if not len(depth):
            return
        self._store(a, b, first, low, high, depth)
        if a != b:
            back_low, back_high = -high[::-1, ::-1], -low[::-1, ::-1]
            self._store(b, a, -(first + len(depth) - 1), back_low, back_high, depth[::-1])

    def need_all(self, ones: list[int], others: list[int]) -> None:
        """Make every pair of the two lists."""
        missing = ~self.made[np.ix_(ones, others)]
        for at, to in zip(*np.nonzero(missing), strict=True):
            self.need(ones[at], others[to])

    def look(self, placed, at_row, shape, rows) -> NDArray[np.float32]:
        """Return pool rows, (placed, rows, 5): how each of `placed` (shape numbers, at `at_row`) bars `shape` at `rows`.

        `shape` is one number for all rows, or an array with one for each.
        """
        pair = placed[:, None] * len(self.shapes) + (shape if isinstance(shape, int) else shape[None, :])
        block = self.blocks.take(pair, axis=0)
        into = rows[None, :] - at_row[:, None]
        into -= block[..., 0]
        np.minimum(into, block[..., 1], out=into)
        np.maximum(into, -1, out=into)
        into += block[..., 2]
        return self.pool.take(into, axis=0)

    def _store(self, a: int, b: int, first: int, low, high, depth) -> None:
        start, count = self.used, len(depth)
        if start + count + 2 > len(self.pool):
            self.pool = np.concatenate([self.pool, _free_rows(max(len(self.pool), count + 2))])
        block = self.pool[start + 1 : start + 1 + count]
        many = low.shape[1]
        real = low < FAR
        block[:, :many] = np.where(real, (low + high) / 2, 0)
        block[:, 2 : 2 + many] = np.where(real, (high - low) / 2 - LAY_TOUCHING, -FAR)
        block[:, 4] = depth
        self.blocks[a * len(self.shapes) + b] = first, count, start + 1
        self.used = start + count + 2


def _free_rows(count: int) -> NDArray[np.float32]:
    rows = np.zeros((count, 5), np.float32)
    rows[:, 2:4] = -FAR
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
    low_0 = one.low_first[:, None] - two.up_last[None, :]
    up_0 = one.up_first[:, None] - two.low_last[None, :]
    pairs = [(i, j) for i in range(len(one.left)) for j in range(len(two.left))]
    low, high = np.full((len(x), len(pairs)), FAR), np.full((len(x), len(pairs)), -FAR)
    for at, (i, j) in enumerate(pairs):
        k0 = max(int(np.ceil((start[i, j] + TOUCHING) / step)) - first, 0)
        k1 = min(int(np.floor((end[i, j] - TOUCHING) / step)) - first + 1, len(x))
        if k1 <= k0:
            continue
        part = x[k0:k1] - start[i, j]
        low[k0:k1, at] = np.interp(part, low_x[i, j], low_y[i, j]) + low_0[i, j]
        high[k0:k1, at] = np.interp(part, up_x[i, j], up_y[i, j]) + up_0[i, j]
    depth = np.minimum(x - start.min(), end.max() - x)
    low, high = united(low, high)
    return first, low, high, depth


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
    order = np.argsort(low, axis=1)
    low, high = np.take_along_axis(low, order, 1), np.take_along_axis(high, order, 1)
    reach = np.maximum.accumulate(high, axis=1)
    gaps = np.where(low[:, 1:] < FAR, low[:, 1:] - reach[:, :-1], -1.0)
    cut = np.argmax(gaps, axis=1)
    each = np.arange(len(low))
    parted = gaps[each, cut] > LAY_TOUCHING
    if not parted.any():
        return low[:, :1], reach[:, -1:]
    out_low, out_high = np.full((len(low), 2), FAR), np.full((len(low), 2), -FAR)
    out_low[:, 0] = low[:, 0]
    out_high[:, 0] = np.where(parted, reach[each, cut], reach[:, -1])
    out_low[parted, 1] = low[each, cut + 1][parted]
    out_high[parted, 1] = reach[parted, -1]
    return out_low, out_high
