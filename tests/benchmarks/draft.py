"""Time the main job against its budgets: python tests/benchmarks/draft.py (two cores, nothing else running).

Draft with checks 40 ms of CPU, a skirt alone 15; result.json 60 ms more; one order from a cold process 3 s; ten orders in one call 12 s.
All are CPU time, warm ones medians, cold ones the least of a few: a busy machine must not fail a good program.
"""

import json
import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))
os.environ.setdefault("DJANGO_SETTINGS_MODULE", "workshop.settings")

import django  # noqa: E402

ROUNDS = 30


def cpu_ms(act: Callable[[], object]) -> float:
    """Median CPU of one call, warm, in ms."""
    act()
    taken = []
    for _ in range(ROUNDS):
        start = time.process_time()
        act()
        taken.append((time.process_time() - start) * 1000)
    return statistics.median(taken)


def cold_s(orders: list[Path], out: Path, *, rounds: int, options: tuple[str, ...] = ()) -> float:
    """Least CPU time of the whole command in a new process, in s: on a quiet machine about as much as on the wall."""
    command = [sys.executable, str(ROOT / "manage.py"), "jobsheet", *map(str, orders), "--out", str(out), *options]
    taken = []
    for _ in range(rounds):
        start = resource.getrusage(resource.RUSAGE_CHILDREN)
        subprocess.run(command, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        end = resource.getrusage(resource.RUSAGE_CHILDREN)
        taken.append(end.ru_utime + end.ru_stime - start.ru_utime - start.ru_stime)
    return min(taken)


def skirts():
    """An unlined skirt of each kind, with what it takes to walk in it."""
    from drafting.engine import GarmentSpec

    measures = {"waist": 711.2, "hip": 990.6, "waist_to_hip": 203.2, "height": 1651.0, "knee": 355.6, "waist_to_knee": 584.2}
    for kind in ("straight", "a-line", "gored", "circle", "gathered", "mermaid"):
        options = {"skirt.kind": kind, "skirt.length": 1016.0} | ({"skirt.gores": 8} if kind in ("gored", "mermaid") else {})
        yield kind, GarmentSpec("skirt", options, measures, {}, {"shell": "wool"})


def main() -> int:
    with tempfile.TemporaryDirectory() as folder:
        os.environ["CHALK_DATA"] = str(Path(folder) / "data")
        django.setup()
        from drafting.brief import read_brief
        from drafting.drawing import draw, spec_of
        from drafting.engine import draft
        from drafting.order_folder import result_bytes
        from tests.drafting.orders import example

        brief = read_brief(example())
        paths = []
        for number in range(10):
            paths.append(Path(folder) / f"order-{number}.json")
            paths[-1].write_text(json.dumps(example() | {"order": f"S-{number:03}"}), "utf-8")
        out = Path(folder) / "out"
        drafted = cpu_ms(lambda: draft(spec_of(brief)))
        figures = (
            ("draft with checks", drafted, 40, "ms CPU"),
            ("result.json more", cpu_ms(lambda: result_bytes(draw(brief))) - drafted, 60, "ms CPU"),
            *((f"skirt alone, {name}", cpu_ms(lambda spec=spec: draft(spec)), 15, "ms CPU") for name, spec in skirts()),
            ("one order, cold", cold_s(paths[:1], out, rounds=3), 3, "s CPU"),
            ("one order, cold, --no-sheet", cold_s(paths[:1], out, rounds=3, options=("--no-sheet",)), 3, "s CPU"),
            ("ten orders, one call", cold_s(paths, out, rounds=2), 12, "s CPU"),
        )
    for name, figure, budget, unit in figures:
        print(f"{name:<28}{figure:>8.1f} of {budget} {unit}{'' if figure <= budget else '   OVER'}")
    return int(any(figure > budget for _, figure, budget, _ in figures))


if __name__ == "__main__":
    sys.exit(main())
