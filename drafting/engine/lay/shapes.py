"""One outline as it may lie: turned, mirrored, on certain layers; with its convex parts as chains for the no-fit tables."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from shapely.geometry import Polygon

from .outline import Points, convex_parts, outwards, standing_off

FAR = 1e30
TOP, UNDER, BOTH = 1, 2, 3
"""Which layers of the cloth a shape takes, as bits. Shapes on different layers are free of each other."""


@dataclass(frozen=True, slots=True, eq=False)
class Chains:
    """The lower and upper borders of convex parts, y over x, as padded steps. Shapes: (parts,) and (parts, steps)."""

    left: NDArray[np.float64]
    right: NDArray[np.float64]
    low_first: NDArray[np.float64]
    low_last: NDArray[np.float64]
    up_first: NDArray[np.float64]
    up_last: NDArray[np.float64]
    low_dx: NDArray[np.float64]
    low_slope: NDArray[np.float64]
    up_dx: NDArray[np.float64]
    up_slope: NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Shape:
    """A shape at its reference point: moved by (x, y) it lies on the cloth at `ring` + (x, y).

    `left` and `right` are its extent across from the reference point, `low` and `high` along; mm.
    It is the outline numbered `base` with x and y multiplied by `flip`: what flips of two outlines bar of each other follows
    from one table.
    """

    ring: Points
    chains: Chains
    layers: int
    left: float
    right: float
    low: float
    high: float
    area: float
    base: int
    flip: tuple[int, int]

    @property
    def wide(self) -> float:
        return self.right - self.left

    @property
    def long(self) -> float:
        return self.high - self.low


def turned(ring: Points, angle_deg: float, mirrored: bool) -> Points:
    """Return the ring mirrored in the grain (x → −x) if asked, then turned counter-clockwise, exactly for right angles."""
    out = ring * [-1.0, 1.0] if mirrored else ring
    quarter, rest = divmod(angle_deg % 360, 90)
    if rest == 0:
        cos, sin = ((1, 0), (0, 1), (-1, 0), (0, -1))[int(quarter)]
    else:
        cos, sin = np.cos(np.radians(angle_deg)), np.sin(np.radians(angle_deg))
    out = out @ np.array([[cos, sin], [-sin, cos]], dtype=float)
    return out[::-1].copy() if mirrored else out


def spread(ring: Points, gap: float) -> Points:
    """Return the ring standing `gap` / 2 off, so that two of them keep the gap; the ring itself for no gap."""
    if gap <= 0:
        return ring
    grown = Polygon(ring).buffer(gap / 2, join_style="mitre", mitre_limit=2)
    return (
        np.array(grown.exterior.coords[:-1])[::-1]
        if not grown.exterior.is_ccw
        else np.array(grown.exterior.coords[:-1])
    )


def parts_of(ring: Points, *, gap: float, tolerance: float, rough: bool) -> list[Points]:
    """Return convex rings that cover `ring` and half the gap round it. `rough` takes the hull alone, for very many shapes."""
    outer = outwards(spread(standing_off(ring, tolerance / 4), gap), tolerance)
    if rough:
        return [np.array(Polygon(outer).convex_hull.exterior.coords[:-1])]
    return convex_parts(outer)


def chains_of(parts: list[Points]) -> Chains:
    """Return the borders of the convex `parts`."""
    lows, ups = zip(*(_borders(part) for part in parts), strict=True)
    low_dx, low_slope = _padded(lows, FAR)
    up_dx, up_slope = _padded(ups, -FAR)
    return Chains(
        left=np.array([low[0][0] for low in lows]),
        right=np.array([low[-1][0] for low in lows]),
        low_first=np.array([low[0][1] for low in lows]),
        low_last=np.array([low[-1][1] for low in lows]),
        up_first=np.array([up[0][1] for up in ups]),
        up_last=np.array([up[-1][1] for up in ups]),
        low_dx=low_dx,
        low_slope=low_slope,
        up_dx=up_dx,
        up_slope=up_slope,
    )


def _padded(chains: tuple[Points, ...], fill: float) -> tuple[Points, Points]:
    steps = max(max(len(chain) - 1 for chain in chains), 1)
    dx, slope = np.zeros((len(chains), steps)), np.full((len(chains), steps), fill)
    for at, chain in enumerate(chains):
        run = np.diff(chain, axis=0)
        if len(run):
            dx[at, : len(run)] = run[:, 0]
            slope[at, : len(run)] = run[:, 1] / run[:, 0]
    return dx, slope


def _borders(part: Points) -> tuple[Points, Points]:
    """The lower and the upper hull of the points, each from left to right with rising x."""
    points = sorted(map(tuple, part))
    low, up = _hull_side(points, 1.0), _hull_side(points, -1.0)
    return np.array(low), np.array(up)


def _hull_side(points: list[tuple[float, float]], side: float) -> list[tuple[float, float]]:
    chain: list[tuple[float, float]] = []
    for x, y in points:
        if chain and x - chain[-1][0] <= 1e-9:
            if side * (y - chain[-1][1]) < 0:
                chain.pop()
            else:
                continue
        while len(chain) >= 2:
            (x0, y0), (x1, y1) = chain[-2:]
            if side * ((x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)) <= 0:
                chain.pop()
            else:
                break
        chain.append((x, y))
    return chain
