"""The second engine's own process, begun by second.py as a script: a job in, one line of JSON for every valid lay out.

It explores only, and ends when it has used its CPU seconds, however busy the machine is; our own search goes on from what
it found. It reads nothing but the package and the standard library, so that it begins at once.
"""

import json
import os
import sys
import threading
import time
from datetime import timedelta

import spyrrow

TOLD_EVERY = 0.1
LONGEST = 60
"""How many times its CPU seconds it may take on the wall."""


def run(job: dict) -> None:
    # Its x runs along the strip and its y across, so that its turns run the other way round than ours.
    items = [
        spyrrow.Item(
            str(number),
            [(y, x) for x, y in [*item["ring"], item["ring"][0]]],
            demand=item["count"],
            allowed_orientations=[-turn % 360 for turn in item["turns"]],
        )
        for number, item in enumerate(job["items"])
    ]
    task = spyrrow.StripPackingInstance("lay", strip_height=job["height"], items=items)
    config = spyrrow.StripPackingConfig(
        early_termination=False, total_computation_time=1, seed=job["seed"], num_workers=1
    )
    config.exploration_time = timedelta(seconds=job["seconds"] * LONGEST)
    config.compression_time = timedelta(0)
    queue = spyrrow.ProgressQueue()
    threading.Thread(target=tell, args=(queue, job["seconds"]), daemon=True).start()
    solution = task.solve(config, queue)
    write(lay_of(solution))
    os._exit(0)


def tell(queue, seconds: float) -> None:
    """Write what it finds; end the process when its time is used, for it can't be stopped otherwise, or when nobody reads."""
    while True:
        time.sleep(TOLD_EVERY)
        # Kinds of lays that may overlap are left out; of the others the last is the shortest.
        valid = [each for kind, each in queue.drain() if "Infeas" not in str(kind) and "Improving" not in str(kind)]
        over = time.process_time() >= seconds
        write(lay_of(valid[-1]) if valid else {})
        if over:
            os._exit(0)


def lay_of(solution) -> dict:
    items = [
        (int(item.id), -item.rotation % 360, item.translation[1], item.translation[0]) for item in solution.placed_items
    ]
    return {"length": solution.width, "items": items}


def write(line: dict) -> None:
    try:
        print(json.dumps(line | {"cpu": time.process_time()}), flush=True)
    except OSError:
        os._exit(1)


if __name__ == "__main__":
    try:
        run(json.load(sys.stdin))
    except BaseException as bad:  # a panic of the package is no Exception; there is then no lay from it, and none is needed
        sys.exit(f"no lay: {type(bad).__name__}")
