"""How short the lays are and what they cost: python -m tests.benchmarks.lay first|dress|nesting|many [--seconds 8] [--data FOLDER]

Everything compared is run here, one after the other, and CPU seconds are counted: spyrrow (if installed) runs by the clock,
longer on a busy machine, so that it gets about the given CPU seconds; ours then gets exactly those that it used. `both` is
the lay as planned, the two engines together, on the same CPU seconds in all. rectpack (if installed) packs bounding boxes,
best of sixteen settings. Ratios are of lengths; over 1 means that ours is the shorter.
"""

from __future__ import annotations

import argparse
import json
import resource
import statistics
import time
from pathlib import Path

from drafting.engine.lay import LayCloth, plan
from drafting.engine.lay.clock import Clock
from drafting.engine.lay.solve import solve
from drafting.engine.lay.taut import pulled_taut
from drafting.engine.lay.things import Task, task_for
from drafting.lay_file import read_lay_file
from tests.benchmarks.lay_dress import dress, dresses
from tests.benchmarks.lay_second import cpu_of_children, second_alone

INCH = 25.4
PUBLISHED = {"albano": 0.8982, "shirts": 0.9092, "trousers": 0.9262}
"""Best density on record, 1,200 s a run on a fast machine (arXiv 2509.13329 and its repository)."""


def installed(name: str) -> bool:
    import importlib.util

    return importlib.util.find_spec(name) is not None


def both_engines(cloth: LayCloth, pieces: tuple, cpu: float, seed: int) -> tuple[float, float, str]:
    """The lay as planned, its engine, and the CPU seconds of both processes."""
    before, begun = cpu_of_children(), time.process_time()
    lay = plan(cloth, pieces, seconds=cpu, seed=seed, wall=False)
    return lay.length, time.process_time() - begun + cpu_of_children() - before, lay.engine


def boxes(task: Task) -> float | None:
    """The best of rectpack's settings on bounding boxes, not turned; the fold is not held, which favours it."""
    import rectpack

    scale, best = 10, None
    for algorithm in (rectpack.MaxRectsBssf, rectpack.MaxRectsBl, rectpack.SkylineBl, rectpack.SkylineMwf):
        for sort in (rectpack.SORT_AREA, rectpack.SORT_LSIDE, rectpack.SORT_SSIDE, rectpack.SORT_PERI):
            packer = rectpack.newPacker(
                mode=rectpack.PackingMode.Offline,
                bin_algo=rectpack.PackingBin.BBF,
                pack_algo=algorithm,
                sort_algo=sort,
                rotation=False,
            )
            packer.add_bin(int(task.across * scale), 10**7)
            for number, thing in enumerate(task.things):
                shape = task.shapes[thing.ways[0].shape]
                packer.add_rect(-int(-shape.wide * scale // 1), -int(-shape.long * scale // 1), number)
            packer.pack()
            if len(packer.rect_list()) == len(task.things):
                length = max(y + h for _, _, y, _, h, _ in packer.rect_list()) / scale
                best = length if best is None else min(best, length)
    return best


def own(task: Task, seconds: float, seed: int = 1) -> tuple[float, float]:
    """Our own search alone, without the second engine: the length and that of its first answer."""
    clock = Clock(seconds, wall=False)
    _, places, first = solve(task, clock, until=None, seed=seed)
    taut = pulled_taut(task, places)
    return (taut or places).length, first


def first_answers() -> None:
    print("First answer, CPU seconds (budget 0.3 for 20 pieces) and memory")
    for width in (36, 45, 54, 60):
        for layout in ("folded", "open"):
            for one_way in (True, False):
                begun = time.process_time()
                lay = plan(LayCloth(width=width * INCH, layout=layout, one_way=one_way), dress(), seconds=0)
                cpu = time.process_time() - begun
                full = plan(LayCloth(width=width * INCH, layout=layout, one_way=one_way), dress(), seconds=0.3, wall=False)
                print(
                    f"  {width} {layout:6} {'one-way' if one_way else 'two-way'}  at once {cpu:.3f} s {lay.length / INCH:7.2f} in"
                    f"   0.3 s {full.length / INCH:7.2f} in"
                )


def dress_table(seconds: float, layouts: tuple[str, ...], seed: int) -> None:
    print("The dress, lengths in inches; ours at the CPU seconds under CPU, both engines at those in the last column")
    print("   W layout way       bound   first    ours   boxes  second    both ours:boxes second:ours second:both   CPU  both's")
    against_boxes, against_second, both_against = [], [], []
    for width in (36, 45, 54, 60):
        for layout in layouts:
            for one_way in (False, True):
                cloth = LayCloth(width=width * INCH, layout=layout, one_way=one_way)
                task = task_for(cloth, dress(), layout)
                theirs, cpu = (
                    second_alone(task, seconds, seed) if layout == "open" and installed("spyrrow") else (None, seconds)
                )
                length, first = own(task, cpu, seed)
                boxed = boxes(task) if installed("rectpack") else None
                least = plan(cloth, dress(), seconds=0).at_least
                if boxed:
                    against_boxes.append(length / boxed)
                both, both_cpu, engine = (None, 0.0, "")
                if theirs:
                    both, both_cpu, engine = both_engines(cloth, dress(), cpu, seed)
                    against_second.append(theirs / length)
                    both_against.append(theirs / both)
                print(
                    f"  {width} {layout:6} {'one-way' if one_way else 'two-way'} {least / INCH:7.2f} {first / INCH:7.2f} "
                    f"{length / INCH:7.2f} {_in(boxed)} {_in(theirs)} {_in(both)}   {_ratio(length, boxed)}      "
                    f"{_ratio(theirs, length)}       {_ratio(theirs, both)}   {cpu:5.2f} {both_cpu:5.2f} {engine}",
                    flush=True,
                )
    if against_boxes:
        print(
            f"  against boxes: mean {statistics.mean(against_boxes):.3f}, that is {1 - statistics.mean(against_boxes):.1%} shorter"
        )
    for who, ratios in (("ours alone", against_second), ("both", both_against)):
        if ratios:
            print(f"  {who} against spyrrow: mean {statistics.mean(ratios):.4f}, worst {min(ratios):.4f}")


def many_table(seconds: float) -> None:
    print("Several dresses, 54 in, open, two-way: our search alone, spyrrow alone, equal CPU")
    for count in (2, 3):
        cloth = LayCloth(width=54 * INCH, layout="open")
        task = task_for(cloth, dresses(count), "open")
        theirs, cpu = second_alone(task, seconds) if installed("spyrrow") else (None, seconds)
        length, first = own(task, cpu)
        both = plan(cloth, dresses(count), seconds=cpu, wall=False)
        print(
            f"  {count} dresses, {len(task.things)} pieces: first {first / INCH:.2f} ours {length / INCH:.2f} spyrrow {_in(theirs)} "
            f"spyrrow:ours {_ratio(theirs, length)} as planned {both.length / INCH:.2f} ({both.engine}) CPU {cpu:.2f} s, memory {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024} MB",
            flush=True,
        )


def nesting_table(seconds: float, data: Path) -> None:
    print("Published instances, density; our search alone and spyrrow alone at equal CPU, and the best on record")
    ratios = []
    for name, record in PUBLISHED.items():
        file = read_lay_file(json.loads((data / f"{name}.json").read_text(encoding="utf-8")))
        task = task_for(file.cloth, file.pieces, "open")
        area = sum(task.shapes[thing.ways[0].shape].area for thing in task.things) / task.across
        theirs, cpu = second_alone(task, seconds) if installed("spyrrow") else (None, seconds)
        length, first = own(task, cpu)
        ratios.append(theirs / length if theirs else 0)
        both = plan(file.cloth, file.pieces, seconds=cpu, wall=False)
        print(
            f"  {name:9} {len(task.things):3} pieces  first {area / first:.4f}  ours {area / length:.4f}  spyrrow "
            f"{area / theirs if theirs else 0:.4f}  ratio {_ratio(theirs, length)}  as planned {both.used:.4f} ({both.engine})  record {record:.4f}  CPU {cpu:.2f} s",
            flush=True,
        )
    print(f"  mean ratio {statistics.mean(ratios):.4f} (wanted: 0.985)")


def _in(length: float | None) -> str:
    return "      –" if length is None else f"{length / INCH:7.2f}"


def _ratio(one: float | None, other: float | None) -> str:
    return "    –" if not one or not other else f"{one / other:.3f}"


def main() -> None:
    reader = argparse.ArgumentParser()
    reader.add_argument("what", choices=("first", "dress", "nesting", "many"))
    reader.add_argument("--seconds", type=float, default=8.0)
    reader.add_argument("--seed", type=int, default=1, help="the dress: of all engines")
    reader.add_argument("--layout", choices=("folded", "open"), help="the dress: only this one")
    reader.add_argument("--data", type=Path, help="folder with the published instances as lay files")
    wanted = reader.parse_args()
    if wanted.what == "first":
        first_answers()
    elif wanted.what == "dress":
        dress_table(wanted.seconds, (wanted.layout,) if wanted.layout else ("folded", "open"), wanted.seed)
    elif wanted.what == "many":
        many_table(wanted.seconds)
    else:
        nesting_table(wanted.seconds, wanted.data or Path("tests/benchmarks/nesting"))


if __name__ == "__main__":
    main()
