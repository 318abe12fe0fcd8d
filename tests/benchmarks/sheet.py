"""How much processor time a job sheet takes, warm and cold: python -m tests.benchmarks.sheet [RESULT.json ORDER.json]

Without files it prints the sample gown of the tests. Processor seconds, median of seven after a first one.
"""

import json
import os
import statistics
import sys
import time

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "tests.settings")


def main(arguments: list[str]) -> None:
    import django

    django.setup()
    from drafting.sheets import job_sheet
    from tests.drafting.sample_result import sample_order, sample_result

    if arguments:
        result, order = (json.loads(open(path, encoding="utf-8").read()) for path in arguments[:2])
    else:
        result, order = sample_result(), sample_order()
    times = []
    for _ in range(8):
        start = time.process_time()
        data = job_sheet(order, result, workshop_name="Salt Lane Sewing Room", draft_number=1)
        times.append(time.process_time() - start)
    print(
        f"first {times[0]:.2f} s, warm {statistics.median(times[1:]):.2f} s (budget 1.0 s), {len(data) / 1024:.0f} KiB"
    )


if __name__ == "__main__":
    main(sys.argv[1:])
