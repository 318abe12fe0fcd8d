"""python3 manage.py demo: the demo workshop, open on this machine, and its job sheets for today."""

import os
import subprocess
import sys
from argparse import SUPPRESS, ArgumentParser

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from orders.demo import folder
from orders.demo.book import DEMO_SIGN_INS
from orders.paper.printing import CannotPrint
from workshop import serving

HOST = "127.0.0.1"


class Command(BaseCommand):
    help = "Open the demo workshop on this machine, and print its job sheets for today to files."
    requires_system_checks = []

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--no-serve", action="store_true", help="print the job sheets to files and stop")
        parser.add_argument("--port", type=int, default=8000, help="port to answer on (8000)")
        parser.add_argument("--behind", action="store_true", help=SUPPRESS)  # gives way to the pages being served

    def handle(self, *, no_serve: bool, port: int, behind: bool, **options) -> None:
        if not settings.DEMO:
            raise CommandError("The demo has its own data. Run it as: python3 manage.py demo")
        os.umask(0o077)
        if not no_serve:
            return self.open_pages(port)
        try:
            self.print_sheets(behind)
        except KeyboardInterrupt:
            sys.exit(130)

    def open_pages(self, port: int) -> None:
        listener = serving.take_address(HOST, port)
        with folder.serving() as alone:
            folder.prepare(timezone.localdate(), may_replace=alone, say=self.say)
            serving.serve(listener, self.greet)

    def greet(self, address: str) -> None:
        self.say(f"The demo workshop is open at {address}")
        for name, password, _, role in DEMO_SIGN_INS:
            self.say(f"  {role + ':':<12} sign in as {name} with the password “{password}”")
        self.say("Ctrl-C stops it.")
        again = [sys.executable, sys.argv[0], "demo", "--no-serve", "--behind"]
        subprocess.Popen(again, stdin=subprocess.DEVNULL)  # its own process, so that the pages stay quick

    def print_sheets(self, behind: bool) -> None:
        if behind and hasattr(os, "nice"):
            os.nice(10)
        today = timezone.localdate()
        with folder.serving() as alone:
            folder.prepare(today, may_replace=alone, say=self.say)
        try:
            written = folder.print_sheets(today)
        except CannotPrint as problem:
            raise CommandError(str(problem)) from problem
        self.say(f"{len(written)} job sheets for today lie in {settings.DATA / 'sheets'}:")
        for path in written:
            self.say(f"  {path.name}")

    def say(self, text: str) -> None:
        self.stdout.write(text)
        self.stdout.flush()
