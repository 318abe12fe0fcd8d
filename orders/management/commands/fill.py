"""python3 manage.py fill: an empty book filled with invented people, to measure the pages with."""

import secrets
import time
from argparse import ArgumentParser

from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from orders.demo.cast import WORKSHOP
from orders.demo.filling import NotEmpty, fill
from workshop.models import Person, Workshop
from workshop.people import OWNER

SIGN_IN = "filler"


class Command(BaseCommand):
    help = "Fill an empty book with invented clients, five orders each, to see how the pages bear it."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--clients", type=int, default=10_000, help="how many (10000)")

    def handle(self, *, clients: int, **options) -> None:
        if not 100 <= clients <= 100_000:
            raise CommandError(f"I read {clients} clients. Ask for 100 to 100000.")
        call_command("migrate", interactive=False, verbosity=0)
        begun, password = time.monotonic(), secrets.token_urlsafe(12)
        Workshop.objects.get_or_create(pk=1, defaults=WORKSHOP)
        owner = Person.objects.filter(role=OWNER, is_active=True).first()
        is_new = owner is None
        owner = owner or Person.objects.create_user(SIGN_IN, password=password, display_name="Filler", role=OWNER)
        try:
            done = fill(clients, today=timezone.localdate(), by=owner)
        except NotEmpty:
            raise CommandError("There are clients in this book already. Fill an empty one: set CHALK_DATA to a new folder.") from None
        took = time.monotonic() - begun
        self.stdout.write(f"{done.clients} clients, {done.orders} orders, {done.fittings} fittings, {done.payments} payments in {took:.0f} s.")
        if is_new:
            self.stdout.write(f"Sign in as {SIGN_IN} with the password “{password}”.")
