"""The engine against its budgets, in this process, no files: python -m tests.benchmarks.engine [--drafts 10000] [--bodies 1000]

Median CPU of a complete draft with all its checks: bodice 15 ms, gown with sleeves 40 ms, skirt 15 ms; order of making 5 ms;
1,000 bodies with one gown each 45 s on one core; memory flat (± 5 MB) over 10,000 drafts, once the first hundred are done.
CPU time, because neighbours on the machine spoil the wall's; even so a crowded machine shows more than an idle one. The first
line says what the machine is worth now: a million additions in a loop, about 30 ms on an idle core of 3 GHz.
"""

import argparse
import gc
import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path

from drafting.engine.errors import DraftingError
from drafting.engine.garments import KINDS, draft
from drafting.engine.making import order_of_making
from drafting.engine.spec import GarmentSpec
from tests.engine.reference_paths import BODY, LAYERS
from tests.outside.many_bodies import generated
from tests.outside.proving import spec_for

ROUNDS = 40
WARM = 100
MB = 1 << 20
INCH = 25.4

GARMENTS = (
    ("bodice", "bodice", {}, 15), ("dress with sleeves", "fitted-dress", {"sleeve.kind": "set-in"}, 40),
    ("gown", "bustier-gown", {}, 40), ("blouse with sleeves", "blouse", {"sleeve.kind": "set-in", "collar": "stand"}, 40),
    ("corset", "corset", {}, 40), ("skirt", "skirt", {}, 15), ("trousers", "trousers", {}, 15),
)  # fmt: skip


def spec(kind: str, options: dict) -> GarmentSpec:
    asked = (*KINDS[kind].measures, *KINDS[kind].optional_measures)
    return GarmentSpec(kind, options, {key: BODY[key] * INCH for key in asked if key in BODY}, layers=LAYERS)


def cpu_ms(act: Callable[[], object]) -> float:
    act()
    taken = []
    for _ in range(ROUNDS):
        start = time.process_time()
        act()
        taken.append((time.process_time() - start) * 1000)
    return statistics.median(taken)


def additions() -> int:
    total = 0
    for number in range(1_000_000):
        total += number
    return total


def held() -> float:
    """Memory of this process that is in use now, MB (Linux: its resident set)."""
    gc.collect()
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * 4096 / MB


def bodies_s(count: int) -> float:
    """CPU seconds of one dress with sleeves for so many bodies."""
    start = time.process_time()
    for body in generated()[:count]:
        try:
            draft(spec_for(KINDS["fitted-dress"], body, {"sleeve.kind": "short"}))
        except DraftingError:
            pass
    return time.process_time() - start


def drift_mb(count: int) -> float:
    """How much more memory is held after so many drafts than after the first hundred."""
    bodies, first = generated(), 0.0
    for number in range(count + WARM):
        if number == WARM:
            first = held()
        kind, options = list(KINDS)[number % len(KINDS)], {}
        try:
            draft(spec_for(KINDS[kind], bodies[number % len(bodies)], options))
        except DraftingError:
            pass
    return held() - first


def main() -> int:
    asked = argparse.ArgumentParser()
    asked.add_argument("--drafts", type=int, default=10_000)
    asked.add_argument("--bodies", type=int, default=1_000)
    given = asked.parse_args()
    print(f"{'a million additions':<34}{cpu_ms(additions):>8.1f} ms CPU")
    over = 0

    def told(name: str, figure: float, budget: float, unit: str) -> None:
        nonlocal over
        late = abs(figure) > budget
        over += late
        print(f"{name:<34}{figure:>8.1f} of {budget:g} {unit}{'   OVER' if late else ''}", flush=True)

    for name, kind, options, budget in GARMENTS:
        if kind in KINDS:
            told(name, cpu_ms(lambda kind=kind, options=options: draft(spec(kind, options))), budget, "ms CPU")
    gown = draft(spec("bustier-gown", {}))
    told("order of making, gown", cpu_ms(lambda: order_of_making(gown)), 5, "ms CPU")
    told(f"{given.bodies} bodies, one dress each", bodies_s(given.bodies), 45 * given.bodies / 1000, "s CPU")
    if Path("/proc/self/statm").exists():
        told(f"memory after {given.drafts} drafts more", drift_mb(given.drafts), 5, "MB")
    return int(over > 0)


if __name__ == "__main__":
    sys.exit(main())
