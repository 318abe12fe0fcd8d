"""python3 manage.py doctor: what the machine has, and what it lacks."""

import sys

from django.core.management.base import BaseCommand

from workshop.doctor import findings


class Command(BaseCommand):
    help = "Say what this machine has for the workshop and what it lacks. Exit status 1 where something is not in order."
    requires_system_checks = []

    def handle(self, **options) -> None:
        found = findings()
        for name, text, in_order in found:
            self.stdout.write(f"{'   ' if in_order else '!! '}{name + ':':<14} {text}")
        if not all(in_order for _, _, in_order in found):
            sys.exit(1)
