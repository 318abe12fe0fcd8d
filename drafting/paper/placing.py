"""Placing outlines on a sheet of paper: close together, never nearer than asked, the grain upright.

Each outline goes where it ends highest up the sheet, then farthest left, its head up or down. Everything is reckoned on
square cells; a cell that an outline touches is taken whole, so what is placed is never nearer than `apart`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from shapely import Polygon

from drafting.paper.raster import Mask, cells_inside, grid_round
from drafting.polyline import XY, Polyline, bounds

APART = 10.0
"""Millimetres between pieces: room for shears that cut paper roughly first."""
CELL = 8.0
"""Side of a cell, mm: finer ones save one or two parts in a hundred of the paper and take twice as long."""
BEYOND = 6
"""Cells beyond a sheet's last, for what must be free round a piece there: none of it may come round again at the first."""
SMOOTHED = 1.0
"""While placing, an outline may stand this far outside its true line, mm."""
ROUNDING = 1e-6
"""Sums of the same lengths may differ by so much, mm; it is no play, so it isn't one of the engine's tolerances."""


class TooLargeForPaper(Exception):
    """A piece that no sheet of that width or length holds; `width`, `length` in mm are what it needs."""

    def __init__(self, piece: int, width: float, length: float) -> None:
        self.piece, self.width, self.length = piece, width, length
        super().__init__(f"piece {piece} needs {width:.0f} × {length:.0f} mm")


@dataclass(frozen=True, slots=True)
class Place:
    """Where an outline lies: on which sheet, and how it moves there; `turned` is head down (about its own origin)."""

    sheet: int
    dx: float
    dy: float
    turned: bool

    def moved(self, point: XY) -> XY:
        x, y = point
        return (self.dx - x, self.dy - y) if self.turned else (self.dx + x, self.dy + y)


@dataclass(frozen=True, slots=True)
class Layout:
    """All places, in the order of the outlines given; sheets' used lengths, mm."""

    places: tuple[Place, ...]
    lengths: tuple[float, ...]
    width: float


@dataclass(frozen=True, slots=True)
class _Shape:
    """An outline one way up, its corner at nought: the cells that it takes, and those that must be free round it."""

    corner: XY
    turned: bool
    taken: Mask
    cleared: Mask
    size: tuple[float, float]


class Placing:
    """Outlines made ready once, to be placed on sheets of several widths."""

    def __init__(self, outlines: Sequence[Polyline], *, cell: float = CELL, turning: bool = True) -> None:
        """With `turning`, an outline may lie head down where that saves paper."""
        self._cell = cell
        self._shapes = [_shapes(ring, cell, turning) for ring in outlines]
        self._areas = [Polygon(ring).area for ring in outlines]

    def on(self, *, width: float, length: float, first: int | None = None) -> Layout:
        """Return where each outline lies on sheets of `width` mm that may grow to `length` mm. Raises TooLargeForPaper.

        Longest first and largest first are both tried, the better one is kept; `first` is placed before all others.
        """
        sizes = [ways[0].size for ways in self._shapes]
        for index, (wide, high) in enumerate(sizes):
            if wide > width + ROUNDING or high > length + ROUNDING:
                raise TooLargeForPaper(index, wide, high)
        longest = sorted(range(len(sizes)), key=lambda i: (i != first, -sizes[i][1]))
        largest = sorted(range(len(sizes)), key=lambda i: (i != first, -self._areas[i]))
        orders = [longest] if longest == largest else [longest, largest]
        found = [_placed(self._shapes, order, width, length, self._cell) for order in orders]
        return min(found, key=lambda layout: (len(layout.lengths), sum(layout.lengths)))


def _shapes(ring: Polyline, cell: float, turning: bool) -> list[_Shape]:
    """Return the outline head up and, with `turning`, head down."""
    ways = []
    for turned in (False, True)[: 2 if turning else 1]:
        points = [(-x, -y) for x, y in ring] if turned else list(ring)
        left, top, right, bottom = bounds(points)
        at_nought = Polygon([(x - left, y - top) for x, y in points]).buffer(0).simplify(SMOOTHED)
        taken = _cells_of(at_nought.buffer(SMOOTHED + cell * 0.71, quad_segs=2), cell)
        cleared = _cells_of(at_nought.buffer(SMOOTHED + APART + cell * 0.71, quad_segs=2), cell, rim=_rim(cell))
        ways.append(_Shape((left, top), turned, taken, cleared, (right - left, bottom - top)))
    return ways


def _rim(cell: float) -> int:
    """Return how many cells of the free margin stand before the outline's own corner."""
    return int(np.ceil(APART / cell))


def _cells_of(shape, cell: float, rim: int = 0) -> Mask:
    ring = list(shape.exterior.coords)[:-1]
    _, rows, columns = grid_round(ring, cell)
    mask = cells_inside(ring, cell, origin=(-rim * cell, -rim * cell), rows=rows + 2 * rim, columns=columns + 2 * rim)
    down, across = np.nonzero(mask.any(axis=1))[0][-1], np.nonzero(mask.any(axis=0))[0][-1]
    return mask[: down + 1, : across + 1]


class _Sheet:
    """One sheet being filled; its transform is kept, so that each trial is one product and one way back."""

    def __init__(self, rows: int, columns: int, rim: int) -> None:
        self.rows, self.rim = rows, rim
        around = 2 * rim + BEYOND
        self.taken = np.zeros((rows + around, columns + around), dtype=np.float32)
        self.used = 0.0
        self.bottom = 0
        self._transforms: dict[tuple[int, int], np.ndarray] = {}

    def spot(self, shape: _Shape, rows_most: int, columns_most: int) -> tuple[int, int] | None:
        """Return row and column of the first free spot for the shape, looking no lower than needed; None where none is."""
        high = shape.cleared.shape[0]
        last_row = min(rows_most, self.bottom)
        part = self.taken[: last_row + high, :]
        if columns_most < 0 or rows_most < 0:
            return None
        shape_of = (_fast(part.shape[0]), _fast(part.shape[1]))
        if part.shape not in self._transforms:
            self._transforms[part.shape] = np.fft.rfft2(part, shape_of)
        product = self._transforms[part.shape] * np.conj(np.fft.rfft2(shape.cleared.astype(np.float32), shape_of))
        free = np.fft.irfft2(product, shape_of)[: last_row + 1, : columns_most + 1] < 0.5
        spots = np.argwhere(free)
        return (int(spots[0][0]), int(spots[0][1])) if len(spots) else None

    def put(self, shape: _Shape, row: int, column: int, length: float) -> None:
        high, wide = shape.taken.shape
        top, left = row + self.rim, column + self.rim
        part = self.taken[top : top + high, left : left + wide]
        np.maximum(part, shape.taken[: part.shape[0], : part.shape[1]], out=part)
        self._transforms.clear()
        self.used = max(self.used, length)
        self.bottom = max(self.bottom, min(row + high + self.rim, self.rows))


def _fast(size: int) -> int:
    """Return the next size that a transform is quick at: twos, threes and fives only."""
    while True:
        left = size
        for factor in (2, 3, 5):
            while left % factor == 0:
                left //= factor
        if left == 1:
            return size
        size += 1


def _placed(shapes: list[list[_Shape]], order: Iterable[int], width: float, length: float, cell: float) -> Layout:
    rim, sheets, places = _rim(cell), [], {}
    columns = int(np.ceil(width / cell))
    longest = min(length, sum(ways[0].size[1] + APART + 2 * cell for ways in shapes))
    rows = int(np.ceil(longest / cell)) + 2
    for index in order:
        best = None
        for number in range(len(sheets) + 1):
            sheet = sheets[number] if number < len(sheets) else _Sheet(rows, columns, rim)
            for shape in shapes[index]:
                rows_most, columns_most = int((longest - shape.size[1]) / cell + 1e-9), int((width - shape.size[0]) / cell + 1e-9)
                spot = sheet.spot(shape, rows_most, columns_most)
                if spot is not None:
                    end = spot[0] * cell + shape.size[1]
                    better = best is None or end < best[0] - cell / 2
                    best = (end, sheet, number, shape, spot) if better else best
            if best is not None:
                break
        end, sheet, number, shape, (row, column) = best
        if number == len(sheets):
            sheets.append(sheet)
        sheet.put(shape, row, column, end)
        dx, dy = column * cell - shape.corner[0], row * cell - shape.corner[1]
        places[index] = Place(number, dx, dy, shape.turned)
    return Layout(tuple(places[i] for i in range(len(shapes))), tuple(sheet.used for sheet in sheets), width)
