"""A linear programme solved by an interior-point method: predictor and corrector, after Mehrotra (1992, from memory)."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

MOST_STEPS = 60
NEARLY, HELD_BACK = 1e-9, 0.995
RIDGE, TINY = 1e-13, 1e-13
HARD, NEVER = 1e-7, 1e12

ONE_THREAD, ONE_THREAD_LINE = 200_000, 9_000
"""Products of matrices are taken in blocks so small that the library does not begin threads for them, which wait on each
other for longer than the product takes."""


def least(cost: NDArray[np.float64], rows: NDArray[np.float64], most: NDArray[np.float64]) -> NDArray[np.float64] | None:
    """Return x for which cost·x is least among those with rows·x <= most, all of about the size of 1; None where none was found.

    Shapes: (n,), (m, n), (m,). Where several are least, one in their midst is returned.
    """
    count, n = rows.shape
    high = max(min(ONE_THREAD // n**2, ONE_THREAD_LINE // n, count), 1)
    spare = -count % high
    rows = np.concatenate([rows, np.zeros((spare, n))]).reshape(-1, high, n)
    turned = np.ascontiguousarray(rows.transpose(0, 2, 1))
    most = np.concatenate([most, np.ones(spare)])
    x, slack, price = np.zeros(n), np.maximum(most, 1e-2), np.ones(count + spare)

    def of(move):
        return (rows @ move).ravel()

    def back(value):
        return (turned @ value.reshape(-1, high, 1)).sum(axis=0)[:, 0]

    for _ in range(MOST_STEPS):
        over, left = of(x) + slack - most, cost + back(price)
        gap = float(slack @ price) / len(slack)
        if gap < NEARLY and np.abs(over).max() < NEARLY and np.abs(left).max() < NEARLY:
            return x
        if gap > NEVER:
            break
        matrix = (turned @ (rows * (price / slack).reshape(-1, high, 1))).sum(axis=0)
        matrix[np.diag_indices(n)] += RIDGE * (1 + np.abs(matrix.diagonal()))
        try:
            factor = np.linalg.inv(np.linalg.cholesky(matrix))
        except np.linalg.LinAlgError:
            break

        def towards(aim):
            move = factor.T @ (factor @ (-left - back((aim + price * over) / slack)))
            of_slack = -over - of(move)
            return move, of_slack, (aim - price * of_slack) / slack

        _, of_slack, of_price = towards(-slack * price)
        ahead = float((slack + _reach(slack, of_slack) * of_slack) @ (price + _reach(price, of_price) * of_price))
        aim = (ahead / len(slack) / gap) ** 3 * gap
        move, of_slack, of_price = towards(aim - slack * price - of_slack * of_price)
        along, across = _reach(slack, of_slack, HELD_BACK), _reach(price, of_price, HELD_BACK)
        x = x + along * move
        slack, price = np.maximum(slack + along * of_slack, TINY), np.maximum(price + across * of_price, TINY)
    return x if np.abs(of(x) + slack - most).max() < HARD else None


def _reach(value, change, share: float = 1.0) -> float:
    """`share` of the longest step that leaves every value above nothing, 1 at most."""
    falling = change < 0
    return min(1.0, share * float((-value[falling] / change[falling]).min())) if falling.any() else 1.0
