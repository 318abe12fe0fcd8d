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
from .errors import BadCloth, BadPiece, LayDidNotHold, NothingToLay, TooWide, Unlayable
from .outline import Points
from .motif import with_motifs
from .place import Places
from .recheck import faults
from .second import Second, may_help, outline_of, places_of
from .shapes import BOTH, UNDER
from .shelves import in_shelves
from .solve import go_on, solve
from .things import Task, clean_rings, task_for

MAIN_SHARE = 0.7
"""Part of the time for the folded cloth where some pieces lie on an opened end."""

SECOND_SHARE = 0.4
"""Part of the time for each of both engines where the second helps; the rest goes on from the shorter lay."""


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
    """Return the shortest lay of `pieces` on `cloth` found within `seconds` of CPU time; rechecked. Millimetres.

    `progress(tries, length)` tells how it goes; `stop()` ends it with the best lay so far. With `tries` given (they count
    for each layout and each opened end) and seconds to spare, the same seed gives the same lay: the second engine, which
    ends by the clock, is then left out. On a cloth of fixed length the search ends when the lay fits, unless told
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
    main_until = until if not task.opened else clock.used + (until - clock.used) * (MAIN_SHARE if task.things else 0)
    second = None
    if clock.most is None and may_help(task, until - clock.used, cloth.gap):
        share = (until - clock.used) * SECOND_SHARE
        second, main_until = Second(task, share, seed, of_cpu=clock.by_cpu), clock.used + share
    clock.told_as(None if task.opened else lambda part: part * fold)
    try:
        table, places, first = solve(task, clock, until=main_until, seed=seed, target=None if task.opened else target)
    finally:
        other = second.end(clock.patience) if second else None
    length, placed, engine = places.length, _placed(task, places), "own"
    phase, opened_from = places.phase, None
    if other is not None:
        theirs = _placed_by_second(task, other)
        their_length = max(max(y for _, y in one.outline) for one in theirs)
        if their_length < length - 1e-6:
            lay = _lay(cloth, task, their_length, theirs, matched, phase, first, engine="second")
            if not faults(lay, pieces):
                length, placed, engine = their_length, theirs, "second"
                places = places_of(task, other, their_length)
    if second and (on := go_on(table, places, clock, until=until, seed=seed + 1, target=target)) is not None:
        lay = _lay(cloth, task, on.length, _placed(task, on), matched, phase, first, engine="both")
        if not faults(lay, pieces):
            length, placed, engine = on.length, list(lay.placed), "own" if engine == "own" else "both"
    least = lower_bound(task)
    if task.opened:
        opened_from = _opened_from(task, length)
        rest = task.opened_task(opened_from, phase)
        clock.told_as(lambda part: (opened_from + part) * fold)
        _, there, _ = solve(
            rest, clock, until=until, seed=seed, target=None if target is None else target - opened_from
        )
        placed += _placed(rest, there, shift=opened_from, zone="opened")
        length, least = opened_from + there.length, least + lower_bound(rest)
        first += there.length
    lay = _lay(
        cloth,
        task,
        length * fold,
        placed,
        matched,
        phase,
        first * fold,
        engine=engine,
        least=least * fold,
        opened_from=opened_from,
    )
    wrong = faults(lay, pieces)
    if wrong and not task.opened:
        plain = in_shelves(table)
        lay = _lay(
            cloth,
            task,
            plain.length * fold,
            _placed(task, plain),
            matched,
            phase,
            first * fold,
            engine="own",
            least=least * fold,
        )
        wrong = faults(lay, pieces)
    if wrong:
        raise LayDidNotHold(wrong[0])
    return replace(lay, placed=tuple(with_motifs(lay.placed, pieces)))


def _opened_from(task: Task, length: float) -> float:
    """Where the cloth is opened out: after the folded part, a whole repeat on where a print must go on alike."""
    return math.ceil(length / task.repeat - 1e-9) * task.repeat if task.repeat else length


def _lay(cloth, task: Task, length, placed, matched, phase, first, *, engine, least=0.0, opened_from=None) -> Lay:
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
    placed = []
    for number, thing in enumerate(task.things):
        way = thing.ways[int(places.way[number])]
        ring = task.shapes[way.shape].ring + [places.row[number] * task.step, places.y[number] + shift]
        placed.append(_one(thing, way.turned, way.mirrored, way.layers, ring, zone))
    return placed


def _placed_by_second(task: Task, lying) -> list[Placed]:
    placed = []
    for number, turn, x, y in sorted(lying):
        thing = task.things[number]
        way = thing.ways[0]
        placed.append(
            _one(thing, (way.turned + turn) % 360, way.mirrored, way.layers, outline_of(task, number, turn, x, y), "")
        )
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
