"""Two measurings of one client beside each other."""

from __future__ import annotations

from dataclasses import dataclass

from clients.measures import BY_KEY, GIRTH, Measure
from clients.models import Measuring
from workshop.house_rules import in_force
from workshop.length import print_length
from workshop.models import Workshop


@dataclass(frozen=True, slots=True)
class Difference:
    """`much` is more than the tape's own noise; “·” where one of the two was not taken."""

    measure: Measure
    old: str
    new: str
    change: str
    much: bool


def differences(older: Measuring, newer: Measuring, unit: str) -> list[Difference]:
    """Every measure that either has, in the order of the list."""
    old, new = older.lengths(), newer.lengths()
    tape_noise = in_force("tape_noise", Workshop.current())  # less in a girth is the tape and the breath, not the body
    rows = []
    for measure in BY_KEY.values():
        before, after = old.get(measure.key), new.get(measure.key)
        if before is None and after is None:
            continue
        by = after - before if before is not None and after is not None else None
        change = "" if not by else print_length(by, unit, step=16, signed=True)
        noise = tape_noise if measure.kind == GIRTH else tape_noise / 2
        told = ["·" if mm is None else print_length(mm, unit, step=16) for mm in (before, after)]
        rows.append(Difference(measure, *told, "" if change == "0" else change, by is not None and abs(by) > noise))
    return rows
