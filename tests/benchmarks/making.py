"""Time the order of making and the comparing of two gowns: python tests/benchmarks/making.py (nothing else running).

Order of making with materials 5 ms of CPU, two gowns over each other 30 ms: medians and bests of warm calls, for the gown with most seams.
"""

import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

ROUNDS = 60


def cpu_ms(act: Callable[[], object]) -> tuple[float, float]:
    """Median and best CPU of one call, warm, in ms."""
    act()
    taken = []
    for _ in range(ROUNDS):
        start = time.process_time()
        act()
        taken.append((time.process_time() - start) * 1000)
    return statistics.median(taken), min(taken)


def main() -> int:
    from drafting.engine.compare import compare
    from drafting.engine.garments import draft
    from drafting.engine.making import with_making
    from drafting.engine.result import as_result
    from drafting.engine.spec import GarmentSpec
    from tests.engine.bodies import ROUND, inches, mm

    layers = {"shell": "silk", "lining": "lawn", "stay": "fusible", "wadding": "wadding"}
    options = {"closure": "back-lacing", "lined": True, "skirt.kind": "straight", "skirt.length": 1016.0}
    drafts = [draft(GarmentSpec("bustier-gown", options, mm({**ROUND, "waist": waist}), {}, layers)) for waist in (31, 30)]
    old, new = (as_result(each, order="S-001", plain=inches, with_unit=inches) for each in drafts)
    figures = (("order of making", cpu_ms(lambda: with_making(drafts[0])), 5), ("two gowns compared", cpu_ms(lambda: compare(old, new)), 30))
    for name, (middle, best), budget in figures:
        print(f"{name:<22}{middle:>6.1f} (best {best:.1f}) of {budget} ms CPU{'' if middle <= budget else '   OVER'}")
    return int(any(middle > budget for _, (middle, _), budget in figures))


if __name__ == "__main__":
    sys.exit(main())
