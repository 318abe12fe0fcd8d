"""python3 manage.py jobsheet ORDER.json… --out FOLDER: draft from order files, without the web app or a database."""

import os
import sys
from argparse import ArgumentParser, ArgumentTypeError
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand

ALL_WELL, NOT_USED, FAILED_CHECK = 0, 2, 3


class Command(BaseCommand):
    help = "Draft from order files: writes FOLDER/<order>/result.json and FOLDER/<order>/jobsheet.pdf."
    requires_system_checks: list[str] = []
    requires_migrations_checks = False

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("orders", nargs="*", metavar="ORDER.json", help="order files, UTF-8 JSON")
        parser.add_argument("--out", metavar="FOLDER", help="where each order's own folder is written")
        parser.add_argument("--no-sheet", action="store_true", help="write result.json only, no PDF")
        parser.add_argument("--no-lay", action="store_true", help="leave out the laying on cloth")
        parser.add_argument(
            "--lay-seconds",
            type=cpu_seconds,
            metavar="N",
            help="search for shorter lays for N seconds of CPU an order, by the clock: two runs may then differ",
        )
        parser.add_argument("--paper", choices=("A4", "Letter"), default="A4", help="the sheet's paper (A4)")
        parser.add_argument("--pattern", metavar="PAPERS", help="the pattern at full size: a4,letter,a3,legal,a0,roll:914mm")
        parser.add_argument("--dxf", action="store_true", help="write pattern.dxf too")
        parser.add_argument("--svg", action="store_true", help="write pattern.svg too")
        parser.add_argument("--png", action="store_true", help="write pattern.png too, a picture to look at")
        parser.add_argument("--csv", action="store_true", help="write cut-list.csv too")
        parser.add_argument(
            "--kinds",
            nargs="?",
            const="",
            metavar="KIND",
            help="list the garments, with their measures, choices, house rules, defaults and limits",
        )

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            status = self.run_command(options)
            sys.stdout.flush()
        except BrokenPipeError:  # whoever read the list has seen enough of it
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            status = NOT_USED if options["kinds"] is None else ALL_WELL
        sys.exit(status)

    def run_command(self, options: dict[str, Any]) -> int:
        if options["kinds"] is not None:
            return self._list_kinds(options["kinds"])
        if not options["orders"] or not options["out"]:
            wanting = "an order file" if not options["orders"] else "--out FOLDER"
            self.stderr.write(f"jobsheet: name {wanting}: manage.py jobsheet ORDER.json --out FOLDER")
            return NOT_USED
        from drafting.order_run import OrderRun
        from drafting.paper.papers import UnknownPaper
        from drafting.paper.wanted import Wanted

        try:
            wanted = Wanted.read(options["pattern"], **{kind: options[kind] for kind in ("dxf", "svg", "png", "csv")})
        except UnknownPaper as bad:
            self.stderr.write(f"jobsheet: {bad}")
            return NOT_USED
        run = OrderRun(
            Path(options["out"]),
            with_sheet=not options["no_sheet"],
            with_lay=not options["no_lay"],
            paper=options["paper"],
            wanted=wanted,
            lay_seconds=options["lay_seconds"],
            say=self.stdout.write,
            warn=self.stderr.write,
        )
        return max_status(run.make(Path(name)) for name in options["orders"])

    def _list_kinds(self, wanted: str) -> int:
        from drafting.engine.garments import KINDS
        from drafting.kinds_listed import kinds_listed
        from drafting.order_section import nearest, shown

        if wanted and wanted not in KINDS:
            self.stderr.write(
                f"jobsheet: no garment is called {shown(wanted)}. Choices: {', '.join(KINDS)}.{nearest(wanted, KINDS)}"
            )
            return NOT_USED
        for line in kinds_listed([KINDS[wanted]] if wanted else KINDS.values()):
            self.stdout.write(line)
        return ALL_WELL


def cpu_seconds(text: str) -> float:
    """A length of time from 0.1 to 600 seconds."""
    try:
        seconds = float(text)
    except ValueError:
        seconds = float("nan")
    if not 0.1 <= seconds <= 600:
        raise ArgumentTypeError(f"“{text}” is no time to search for. Give seconds from 0.1 to 600.")
    return seconds


def max_status(statuses: Any) -> int:
    """An order that could not be used outweighs a failed check: 2, else 3, else 0. Every order is made."""
    met = set(statuses)
    return NOT_USED if NOT_USED in met else FAILED_CHECK if FAILED_CHECK in met else ALL_WELL
