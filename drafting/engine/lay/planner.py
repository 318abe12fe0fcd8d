"""Pieces and a cloth in, a lay out: layouts tried, opened ends, the second engine, the recheck."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np

from .answer import Lay, Placed, length_within
from .bounds import lower_bound
from .clock import Clock, Progress
from .cloth import BEST, CROSSWISE, FOLDED, OPEN, LayCloth, LayPiece
from .engines import shortest
from .errors import BadCloth, BadPiece, LayDidNotHold, NothingToLay, TooWide, Unlayable
from .outline import Points
from .motif import with_motifs
from .place import Places
from .recheck import faults
from .shapes import BOTH, UNDER
from .shelves import in_shelves
from .solve import solve
from .things import Task, clean_rings, task_for

MAIN_SHARE = 0.7
"""Part of the time for the folded cloth where some pieces lie on an opened end."""


def plan(
    cloth: LayCloth,
    pieces: tuple[LayPiece, ...],
    *,
    seconds: float,
    seed: int = 1,
    progress: Progress | None = None,
    stop: Callable[[], bool] | None = None,
    tries: int | None = None,
    stop_when_it_fits: bool = True,
    wall: bool = True,
) -> Lay:
    """Return the shortest lay of `pieces` on `cloth` found within `seconds` of CPU time, the second engine's counted in;
    rechecked. Millimetres.

    `progress(tries, length)` tells how it goes; `stop()` ends it with the best lay so far. With `tries` given (they count
    for each layout and each opened end) and seconds to spare, the same seed gives the same lay: the second engine, which
    ends by its time, is then left out. On a cloth of fixed length the search ends when the lay fits, unless told
    otherwise. `wall` ends it by the clock on the wall too, if the machine is busy. Raises LayError's children: a cloth or
    a piece that can't be laid, and a lay that fails its recheck.
    """
    if not pieces:
        raise NothingToLay
    names = [piece.name for piece in pieces]
    if len(set(names)) < len(names):
        twice = next(name for name in names if names.count(name) > 1)
        raise BadPiece(twice, "name", "two pieces have this name. Give each its own.")
    clock = Clock(seconds, tries=tries, progress=progress, stop=stop, wall=wall)
    layouts, rings = _layouts(cloth), clean_rings(pieces)
    lays, refused = [], []
    for number, layout in enumerate(layouts):
        share = seconds * (number + 1) / len(layouts)
        try:
            lays.append(
                _one_layout(
                    replace(cloth, layout=layout),
                    pieces,
                    clock,
                    rings=rings,
                    until=share,
                    seed=seed,
                    stop_early=stop_when_it_fits,
                )
            )
        except (TooWide, Unlayable) as bad:
            refused.append(bad)
        if lays and stop_when_it_fits and cloth.length is not None and lays[-1].fits_on_hand:
            break
    if not lays:
        raise refused[-1]
    best = min(lays, key=lambda lay: lay.length)
    best = replace(
        best,
        cloth=cloth,
        compared=tuple((lay.layout, lay.length) for lay in lays),
        at_least=min(lay.at_least for lay in lays),
        tries=clock.tries,
        cpu_seconds=clock.used,
    )
    return best


def _layouts(cloth: LayCloth) -> tuple[str, ...]:
    if cloth.layout == CROSSWISE and cloth.flaws:
        raise BadCloth(
            "layout",
            "Where the crosswise fold meets a flaw can't be foreseen. Lay this cloth open, or fold it lengthwise.",
        )
    if cloth.layout == CROSSWISE and cloth.repeat:
        raise BadCloth(
            "layout",
            "A crosswise fold turns the print on the under layer upside down. Lay this cloth open, or fold it lengthwise.",
        )
    return (FOLDED, OPEN) if cloth.layout == BEST else (cloth.layout,)


def _one_layout(cloth: LayCloth, pieces, clock: Clock, *, rings, until: float, seed: int, stop_early: bool) -> Lay:
    layout = cloth.layout
    task = task_for(cloth, pieces, layout, rings)
    fold = 2 if layout == CROSSWISE else 1
    matched = task.has_match and bool(cloth.repeat)
    within = length_within(cloth, matched=matched) if stop_early else None
    target = None if within is None else within / fold
    opened_from, least = None, lower_bound(task)

    def lay_of(places: Places, placed: list[Placed] | None = None, length: float | None = None, **more) -> Lay:
        placed = _placed(task, places) if placed is None else placed
        length = (places.length if length is None else length) * fold
        return _lay(cloth, task, length, placed, matched, places.phase, **more)

    if task.opened:
        main_until = clock.used + (until - clock.used) * (MAIN_SHARE if task.things else 0)
        clock.told_as(None)
        table, places, first = solve(task, clock, until=main_until, seed=seed)
        engine, placed, length = "own", _placed(task, places), places.length
        opened_from = _opened_from(task, length)
        rest = task.opened_task(opened_from, places.phase)
        clock.told_as(lambda part: (opened_from + part) * fold)
        _, there, first_there = solve(
            rest, clock, until=until, seed=seed, target=None if target is None else target - opened_from
        )
        placed += _placed(rest, there, shift=opened_from, zone="opened")
        length, least, first = opened_from + there.length, least + lower_bound(rest), first + first_there
    else:
        clock.told_as(lambda part: part * fold)
        table, places, first, engine = shortest(
            task, clock, until=until, seed=seed, target=target, holds=lambda places: not faults(lay_of(places), pieces)
        )
        placed, length = _placed(task, places), places.length
    told = {"first": first * fold, "least": least * fold}
    lay = lay_of(places, placed, length, engine=engine, opened_from=opened_from, **told)
    wrong = faults(lay, pieces)
    if wrong and not task.opened:
        lay = lay_of(in_shelves(table), **told)
        wrong = faults(lay, pieces)
    if wrong:
        raise LayDidNotHold(wrong[0])
    return replace(lay, placed=tuple(with_motifs(lay.placed, pieces)))


def _opened_from(task: Task, length: float) -> float:
    """Where the cloth is opened out: after the folded part, a whole repeat on where a print must go on alike."""
    return math.ceil(length / task.repeat - 1e-9) * task.repeat if task.repeat else length


def _lay(
    cloth, task: Task, length, placed, matched, phase, *, first=0.0, engine="own", least=0.0, opened_from=None
) -> Lay:
    area = sum(_area(one.outline) * one.layers for one in placed)
    return Lay(
        cloth=cloth,
        layout=cloth.layout,
        length=float(length),
        at_least=float(least),
        placed=tuple(placed),
        used=float(area / (cloth.usable * length)) if length else 0.0,
        matched=matched,
        opened_from=opened_from,
        print_start=float(phase) if matched or (task.has_match and cloth.repeat_across) else None,
        blocked=tuple((tuple(map(tuple, ring.tolist())), layers) for ring, layers in task.flaws),
        first_length=float(first),
        engine=engine,
    )


def _placed(task: Task, places: Places, *, shift: float = 0.0, zone: str = "") -> list[Placed]:
    placed, across = [], places.across(task.step)
    for number, thing in enumerate(task.things):
        way = thing.ways[int(places.way[number])]
        ring = task.shapes[way.shape].ring + [across[number], places.y[number] + shift]
        placed.append(_one(thing, way.turned, way.mirrored, way.layers, ring, zone))
    return placed


def _one(thing, turn: float, mirrored: bool, layers: int, ring: Points, zone: str) -> Placed:
    return Placed(
        piece=thing.piece,
        outline=tuple(map(tuple, ring.tolist())),
        mirrored=mirrored,
        turned=int(turn) if turn == int(turn) else turn,
        layers=2 if layers == BOTH and thing.doubled else 1,
        gives=thing.gives,
        on_fold=thing.on_fold,
        under=layers == UNDER,
        zone=zone,
    )


def _area(ring) -> float:
    x, y = np.array(ring).T
    return float(abs((x * np.roll(y, -1) - y * np.roll(x, -1)).sum()) / 2)
