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
        "Run the tests on every core: those without a browser, then those in one. Arguments go to pytest; where they choose "
        "tests, it is one run of those. --browser-required makes a missing Chromium a failure."
    )
    requires_system_checks = []

    def run_from_argv(self, argv: list[str]) -> None:
        """Hand everything behind the word test to pytest, which knows more options than Django could list."""
        try:
            ended = [subprocess.call([sys.executable, "-m", "pytest", *run], cwd=env.ROOT) for run in runs_of(argv[2:])]
        except KeyboardInterrupt:
            sys.exit(130)
        sys.exit(next((code for code in ended if code), 0))


def files_with_a_browser() -> list[str]:
    """The files that hold such tests: to read all the others takes each process many seconds."""
    files = sorted((env.ROOT / "tests").rglob("test_*.py"))
    return [file.relative_to(env.ROOT).as_posix() for file in files if "pytest.mark.browser" in file.read_text(encoding="utf-8")]


def runs_of(arguments: list[str]) -> list[list[str]]:
    """The runs of pytest: one of what was chosen, or two of everything.

    Without a browser a file's tests share what is dear to make, so that they stay in one process; the files that take longest are
    begun first (tests/conftest.py). In a browser each test stands alone, and a process that is done takes over half of another's.
    """
    if not all(each.startswith("--") or each in ("-q", "-v") for each in arguments):
        return [arguments]
    cores = min(os.cpu_count() or 1, MOST_AT_ONCE)
    without, within = [*arguments, "-m", "not browser"], [*arguments, "-m", "browser", *files_with_a_browser()]
    if cores > 1:
        without += ["-n", str(cores), "--dist", "loadfile", "--no-loadscope-reorder"]
        within += ["-n", str(cores), "--dist", "worksteal"]
    return [without, within]
