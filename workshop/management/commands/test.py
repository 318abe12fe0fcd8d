"""python3 manage.py test: every test, by pytest; arguments are pytest's own."""

import subprocess
import sys

from django.core.management.base import BaseCommand

from workshop import env


class Command(BaseCommand):
    help = "Run the tests. Arguments go to pytest; --browser-required makes a missing Chromium a failure."
    requires_system_checks = []

    def run_from_argv(self, argv: list[str]) -> None:
        """Hand everything behind the word test to pytest, which knows more options than Django could list."""
        try:
            sys.exit(subprocess.call([sys.executable, "-m", "pytest", *argv[2:]], cwd=env.ROOT))
        except KeyboardInterrupt:
            sys.exit(130)
