"""Time paper against its budgets: python -m tests.benchmarks.paper [--day] (nothing else should be running).

Processor seconds, median of seven after a first one; the peak is that of a process of its own that makes one pattern.
On a busy machine a second is worth less: beside each figure stands what it comes to where a page that holds one letter
takes 7 ms, as it does on the quiet machine that the budgets were set on; that is what is held to the budget.
Budgets: gown on joined A4 0.8 s, 110 MiB, 150 KiB; roll of 914 mm 0.3 s; DXF and SVG 0.1 s each; job sheet 0.7 s. With
--day also a day of 40 orders: 28 s from nothing, 2 s kept, joining under 0.3 s.
"""

import os
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
DAY = 40
QUIET_LETTER = 0.007
DRAFTED = """
import json, sys
sys.argv = ["draft"]
from tests.benchmarks import paper
json.dump(paper.gown(), sys.stdout)
"""
PEAK = """
import json, resource, sys
given = json.load(sys.stdin)
sys.argv = ["peak"]
from tests.benchmarks import paper
import django
django.setup()
from drafting.paper.full_size import full_size
from drafting.paper.papers import paper_of
full_size(*given, paper=paper_of("a4"))
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
"""


def gown() -> tuple[dict, dict]:
    import django

    django.setup()
    from drafting.brief import read_brief
    from drafting.drawing import draw
    from tests.drafting.orders import example

    brief = read_brief(example())
    return brief.as_order_file(), draw(brief)


def one_letter() -> float:
    """Return the processor time of the smallest page, in s: what a second is worth at this moment."""
    import weasyprint

    start = time.process_time()
    weasyprint.HTML(string="x").write_pdf()
    return time.process_time() - start


def cpu(act: Callable[[], object], rounds: int = 8) -> tuple[float, float, float]:
    """Return the processor time of the first call, the median of the others, and that as the quiet machine would have it."""
    taken, quiet = [], []
    one_letter()
    for _ in range(rounds):
        before = one_letter()
        start = time.process_time()
        act()
        taken.append(time.process_time() - start)
        quiet.append(taken[-1] * QUIET_LETTER / ((before + one_letter()) / 2))
    return taken[0], statistics.median(taken[1:]), statistics.median(quiet[1:])


def told(name: str, times: tuple[float, float, float], budget: float, more: str = "") -> bool:
    first, warm, quiet = times
    held = quiet <= budget
    print(f"{name}: first {first:.2f} s, warm {warm:.3f} s, quiet {quiet:.3f} s (budget {budget:g} s){'' if held else ' OVER'} {more}", flush=True)
    return held


def patterns(order: dict, result: dict) -> bool:
    import io

    import pikepdf

    from drafting.paper.about import About
    from drafting.paper.dxf import as_dxf
    from drafting.paper.full_size import full_size
    from drafting.paper.papers import paper_of
    from drafting.paper.svg_file import as_svg
    from drafting.sheets import job_sheet

    about, held = About("Salt Lane Sewing Room", 4, "3f9a2c1b77aa"), []
    for name, budget in (("a4", 0.8), ("letter", 0.8), ("a0", 0.3), ("roll:914mm", 0.3)):
        times = cpu(lambda name=name: full_size(order, result, paper=paper_of(name), about=about))
        data = full_size(order, result, paper=paper_of(name), about=about)
        with pikepdf.open(io.BytesIO(data)) as opened:
            pages = len(opened.pages)
        held.append(told(f"pattern {name}", times, budget, f"{pages} pages, {len(data) / 1024:.0f} KiB (budget 150 KiB)"))
    for name, write in (("DXF", as_dxf), ("SVG", as_svg)):
        held.append(told(name, cpu(lambda write=write: write(order, result, about=about)), 0.1))
    held.append(told("job sheet", cpu(lambda: job_sheet(order, result, workshop_name="Salt Lane", draft_number=4)), 0.7))
    return all(held)


def peak() -> bool:
    """Print a draft as it was kept, as the pages and the day's pack do: the process that prints has not drawn it."""
    drafted = subprocess.run([sys.executable, "-c", DRAFTED], cwd=ROOT, check=True, capture_output=True, text=True)
    run = subprocess.run([sys.executable, "-c", PEAK], cwd=ROOT, check=True, capture_output=True, text=True, input=drafted.stdout)
    mib = float(run.stdout)
    print(f"peak of one A4 pattern {mib:.0f} MiB (budget 110 MiB){'' if mib <= 110 else ' OVER'}")
    return mib <= 110


def day(order: dict, result: dict) -> bool:
    from drafting.paper.kept import kept_or_made
    from drafting.sheets import day_sheets, job_sheet

    def sheets() -> list[bytes]:
        return [
            kept_or_made(f"{number:064x}", "job-sheet", "pdf", {"number": number}, lambda number=number: job_sheet(
                order, result, workshop_name="Salt Lane", draft_number=number)) for number in range(1, DAY + 1)
        ]  # fmt: skip

    letters = [one_letter(), one_letter()]
    start = time.process_time()
    made = sheets()
    anew = time.process_time() - start
    letters += [one_letter() for _ in range(5)]
    start = time.process_time()
    kept = day_sheets(sheets())
    again = time.process_time() - start
    start = time.process_time()
    day_sheets(made)
    joining = time.process_time() - start
    worth = QUIET_LETTER / statistics.median(letters)
    print(f"{DAY} orders: from nothing {anew:.1f} s, quiet {worth * anew:.1f} s (budget 28 s, aim 16), kept {again:.2f} s, quiet {worth * again:.2f} s"
          f" (budget 2 s), joining alone {joining:.2f} s, quiet {worth * joining:.2f} s (budget 0.3 s), {len(kept) / 1024:.0f} KiB")  # fmt: skip
    return worth * anew <= 28 and worth * again <= 2 and worth * joining <= 0.3


def main(arguments: list[str]) -> int:
    with tempfile.TemporaryDirectory() as folder:
        os.environ["CHALK_DATA"] = folder
        held = [peak()]  # first: a child's peak counts its parent's from before it began
        given = gown()
        held.append(patterns(*given))
        if "--day" in arguments:
            held.append(day(*given))
    return 0 if all(held) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
