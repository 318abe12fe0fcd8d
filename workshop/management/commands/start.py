"""python3 manage.py start: the real workshop, empty at first."""

import os
from argparse import ArgumentParser

from django.conf import settings
from django.contrib.auth import get_user_model
from django.core.management.base import BaseCommand, CommandError

from workshop import serving
from workshop.upgrading import bring_up_to_date


class Command(BaseCommand):
    help = "Serve the workshop. Its first page sets it up."
    requires_system_checks = []

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--host", default="127.0.0.1", help="address to answer on (this machine only: 127.0.0.1)")
        parser.add_argument("--port", type=int, default=8000, help="port to answer on (8000)")

    def handle(self, *, host: str, port: int, **options) -> None:
        if settings.DEMO:
            raise CommandError("CHALK_DEMO is set: that is the demo's data. Unset it, or run python3 manage.py demo.")
        os.umask(0o077)  # clients' measures are nobody else's business on this machine
        listener = serving.take_address(host, port)
        bring_up_to_date(self.say)
        if not serving.is_loopback(host):
            self.open_to_the_network(host)
        serving.serve(listener, lambda address: self.greet(address, host, port))

    def open_to_the_network(self, host: str) -> None:
        if not get_user_model().objects.exists():
            raise CommandError(
                "This workshop has no owner yet, and whoever opens its first page becomes the owner. "
                "Set it up on this machine first: python3 manage.py start"
            )
        reached_at = serving.own_address() if host in {"0.0.0.0", "::"} else host
        if reached_at and reached_at not in settings.ALLOWED_HOSTS:
            settings.ALLOWED_HOSTS.append(reached_at)

    def greet(self, address: str, host: str, port: int) -> None:
        self.say(f"The workshop is open at {address}")
        self.say(f"Its data lies in {settings.DATA}: keep copies of that folder elsewhere.")
        lan = serving.own_address()
        if not get_user_model().objects.exists():
            self.say("The first page sets it up: name, currency, inches or centimetres, and your own sign-in.")
        elif serving.is_loopback(host):
            self.say(f"For phones and tablets in the workshop: python3 manage.py start --host 0.0.0.0 --port {port}")
        elif lan:
            self.say(
                f"From other machines in the workshop: http://{lan}:{port}/ (not encrypted: only in a network that "
                "you trust; DEVELOPERS.md says how to put HTTPS in front)"
            )
        self.say("Ctrl-C stops it.")

    def say(self, text: str) -> None:
        self.stdout.write(text)
        self.stdout.flush()
