"""python3 manage.py jobs: do the background jobs that wait. The pages start it themselves; nobody needs to."""

import sys
import threading
from argparse import SUPPRESS, ArgumentParser

from django.core.management.base import BaseCommand
from django.db import connection

from workshop.working import watch, work_until_none_waits


class Command(BaseCommand):
    help = "Do the background jobs that wait, and end. The pages start this themselves."
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--book", help=SUPPRESS)  # the database of whoever started it

    def handle(self, *, book: str | None, **options) -> None:
        gone = threading.Event()
        if book:
            connection.settings_dict["NAME"] = book
            watch(sys.stdin.fileno(), gone)
        try:
            work_until_none_waits(gone)
        except KeyboardInterrupt:
            sys.exit(130)
