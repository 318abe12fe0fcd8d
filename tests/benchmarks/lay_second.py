"""spyrrow alone, as it comes (four fifths of its time exploring, one fifth compressing), in a process of its own: its length.

It goes by the clock on the wall; on a busy machine it is given as much more of that as it takes to get about `seconds` of CPU.
"""

from __future__ import annotations

import json
import resource
import subprocess
import sys
import time

BUSY_ASKED = 0.1


def second_alone(task, seconds: float, seed: int = 1) -> tuple[float | None, float]:
    """Its length for a lay's task, mm, and the CPU seconds that its process used."""
    from drafting.engine.lay.second import Second  # not for the child, whose CPU seconds are counted
    from drafting.engine.tolerance import LAY_EXACT_WIDTH

    job = {"height": task.across + LAY_EXACT_WIDTH, "seconds": seconds, "seed": seed, "items": Second.items_of(task)}
    before = cpu_of_children()
    done = subprocess.run([sys.executable, __file__], input=json.dumps(job), capture_output=True, text=True)
    return (float(done.stdout) if done.returncode == 0 else None), cpu_of_children() - before


def cpu_of_children() -> float:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def busy() -> float:
    """How many seconds go by on the wall for one of CPU just now."""
    begun, wall = time.process_time(), time.monotonic()
    while time.process_time() - begun < BUSY_ASKED:
        pass
    return max((time.monotonic() - wall) / BUSY_ASKED, 1.0)


def main() -> None:
    from datetime import timedelta

    import spyrrow

    job = json.load(sys.stdin)
    items = [
        spyrrow.Item(
            str(number),
            [(y, x) for x, y in item["ring"]],
            demand=item["count"],
            allowed_orientations=[-turn % 360 for turn in item["turns"]],
        )
        for number, item in enumerate(job["items"])
    ]
    config = spyrrow.StripPackingConfig(early_termination=False, total_computation_time=1, seed=job["seed"], num_workers=1)
    seconds = job["seconds"] * busy()
    config.exploration_time, config.compression_time = timedelta(seconds=0.8 * seconds), timedelta(seconds=0.2 * seconds)
    print(spyrrow.StripPackingInstance("lay", strip_height=job["height"], items=items).solve(config).width)


if __name__ == "__main__":
    main()
