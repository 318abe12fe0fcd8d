"""python3 manage.py test: every test, by pytest; arguments are pytest's own."""

import os
import subprocess
import sys

from django.core.management.base import BaseCommand

from workshop import env

MOST_AT_ONCE = 8
"""More processes than this only wait for one disk."""


class Command(BaseCommand):
    help = (
        "Run the tests: those without a browser on every core, then those in a browser one at a time. Arguments go to pytest; "
        "where they choose tests, it is one run of those. --browser-required makes a missing Chromium a failure."
    )
    requires_system_checks = []

    def run_from_argv(self, argv: list[str]) -> None:
        """Hand everything behind the word test to pytest, which knows more options than Django could list."""
        try:
            ended = [subprocess.call([sys.executable, "-m", "pytest", *run], cwd=env.ROOT) for run in runs_of(argv[2:])]
        except KeyboardInterrupt:
            sys.exit(130)
        sys.exit(next((code for code in ended if code), 0))


def runs_of(arguments: list[str]) -> list[list[str]]:
    """The runs of pytest: one of what was chosen, or two of everything. A browser and a server need the machine for themselves."""
    if not all(each.startswith("--") or each in ("-q", "-v") for each in arguments):
        return [arguments]
    cores = min(os.cpu_count() or 1, MOST_AT_ONCE)
    spread = ["-n", str(cores), "--dist", "loadfile"] if cores > 1 else []
    return [[*arguments, "-m", "not browser", *spread], [*arguments, "-m", "browser"]]
