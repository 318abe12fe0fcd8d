"""The lays of one drafted order, for whoever can't wait long: by count of tries unless seconds are given."""

from __future__ import annotations

import logging
from collections.abc import Mapping
from typing import Any

from drafting.lays import cloths_of, lays_and_warnings, pieces_from

TRIES = 100
"""For each cloth. Counted, not timed, so that one order file always gives one result. Measured on the demo's gown: with
24 tries its two-way brocade, 54 in wide, took 2.18 m, with 60 or more 1.61 m; past 100 little more comes for long. The
tables, made once, are most of the time: a hundred tries take 0.1 s more than 24."""

BACKSTOP = 20.0
"""CPU seconds for an order whose count is not reached by then: a cloth of very many pieces."""

log = logging.getLogger(__name__)


def add_lays(order_file: Mapping[str, Any], result: dict[str, Any], *, seconds: float | None = None) -> None:
    """Put `lays` and what they warn of into a result; nothing is laid from a draft that is not for cutting.

    `seconds` of CPU go to all cloths together; two runs may then differ. A cloth that can't be laid is told and left out.
    """
    if result["not_for_cutting"] or not all(check["pass"] for check in result["checks"]):
        return
    shares = _shares(order_file, result)
    for cloth, share in shares.items():
        alone = {**order_file, "cloths": [one for one in order_file["cloths"] if one["name"] == cloth]}
        how = {"seconds": BACKSTOP * share, "tries": TRIES} if seconds is None else {"seconds": seconds * share}
        try:
            lays, warnings = lays_and_warnings(alone, result, wall=False, **how)
        except Exception:  # whatever befalls a lay, the draft and its sheet are not lost to it
            log.exception("%s: the lay broke off", cloth)
            text = f"{cloth} is not laid out: the planner broke off. The draft itself stands. Lay this cloth by hand."
            lays, warnings = [], [{"code": "no-lay", "text": text}]
        result["lays"] += lays
        result["warnings"] += warnings


def _shares(order_file: Mapping[str, Any], result: Mapping[str, Any]) -> dict[str, float]:
    """Each cloth that something is cut from, with its part of the time: by the pieces that it takes."""
    counts = {cloth.name: len(pieces_from(cloth, result)) for cloth in cloths_of(order_file)}
    total = sum(counts.values())
    return {name: count / total for name, count in counts.items() if count}
