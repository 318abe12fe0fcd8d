"""The workshop itself (one row), its people, and the count of sign-ins that failed."""

from __future__ import annotations

from contextlib import contextmanager
from contextvars import ContextVar
from datetime import date
from typing import Self

from django.contrib.auth.models import AbstractUser
from django.db import models
from django.urls import reverse
from django.utils import timezone

from workshop import days, people
from workshop.asked_often import RowsAskedOften
from workshop.jobs import Job  # noqa: F401  (a model of this app)
from workshop.length import CM, INCH
from workshop.money import CURRENCIES

#: The row and the day while they are kept, once they were asked for; a page prints a thousand amounts, each of which looks here.
_kept: ContextVar[dict[str, Workshop | date] | None] = ContextVar("the workshop of this request", default=None)


class Workshop(models.Model):
    """One row: the workshop's name and the ways in which it measures, prices and prints."""

    UNITS = ((INCH, "inches and yards"), (CM, "centimetres and metres"))
    PAPERS = (("A4", "A4"), ("Letter", "Letter"))

    name = models.CharField(max_length=80)
    town = models.CharField(max_length=80, blank=True)
    currency = models.CharField(max_length=3, choices=[(c.code, f"{c.name}, {c.code}") for c in CURRENCIES.values()])
    unit = models.CharField(max_length=2, choices=UNITS)
    paper = models.CharField(max_length=6, choices=PAPERS, default="A4")
    house_rules = models.JSONField(default=dict, blank=True)
    #: Days and hours, as `orders/dates/bench.py` reads and writes them.
    bench = models.JSONField(default=dict, blank=True)
    #: What work and things cost here, and the terms: as `orders/money/rules.py` reads and writes them.
    prices = models.JSONField(default=dict, blank=True)
    #: For how many days measures are good: older ones are marked, and measured again before cutting.
    good_for_days = models.PositiveSmallIntegerField(default=90)
    #: Whether the keys for measuring have sixteenths without being asked.
    sixteenths = models.BooleanField(default=False)
    #: The language that days and months are written in; all other words are English.
    days_in = models.CharField(max_length=2, choices=days.LANGUAGES, default=days.ENGLISH)

    class Meta:
        constraints = [models.CheckConstraint(condition=models.Q(pk=1), name="there_is_one_workshop")]

    def __str__(self) -> str:
        return self.name

    def get_absolute_url(self) -> str:
        return reverse("settings")

    @classmethod
    def current(cls) -> Self | None:
        """The workshop, or None before it is set up; read once a request."""
        kept = _kept.get()
        if kept and "row" in kept:
            return kept["row"]
        found = cls._first()
        if kept is not None and found:
            kept["row"] = found
        return found

    @staticmethod
    def _first() -> Workshop | None:
        return next(iter(_the_workshop()), None)

    @classmethod
    def language_of_days(cls) -> str:
        """What days are written in here: as the workshop says while its row is kept, else English, so that no day asks for the row."""
        workshop = cls.current() if _kept.get() is not None else None
        return workshop.days_in if workshop else days.ENGLISH

    @staticmethod
    def today() -> date:
        """The day by its clock; a request has one, because a page prints a hundred days, with the year where it is another."""
        kept = _kept.get()
        if kept is None:
            return timezone.localdate()
        if "today" not in kept:
            kept["today"] = timezone.localdate()
        return kept["today"]

    @classmethod
    @contextmanager
    def kept(cls):
        """While this is open, `current` asks the database once, and `today` the clock."""
        before = _kept.set({})
        try:
            yield
        finally:
            _kept.reset(before)


_the_workshop = RowsAskedOften(lambda: Workshop.objects.order_by("pk")[:1])


class Person(AbstractUser):
    """Somebody who signs in. What they may do follows from their role (people.py)."""

    role = models.CharField(max_length=12, choices=people.ROLES, default=people.APPRENTICE)
    display_name = models.CharField(max_length=60)
    left_handed = models.BooleanField(default=False)

    class Meta(AbstractUser.Meta):
        constraints = [
            models.CheckConstraint(
                condition=models.Q(role__in=[role for role, _ in people.ROLES]), name="person_has_a_known_role"
            )
        ]

    def __str__(self) -> str:
        return self.display_name or self.username

    def get_absolute_url(self) -> str:
        return reverse("person", args=[self.pk])

    @property
    def capabilities(self) -> frozenset[str]:
        return people.MAY.get(self.role, frozenset()) if self.is_active else frozenset()

    def may(self, capability: str) -> bool:
        return self.is_active and people.may(self.role, capability)

    def is_last_owner(self) -> bool:
        """True when nobody else could run the workshop."""
        owners = Person.objects.filter(role=people.OWNER, is_active=True)
        return self.role == people.OWNER and self.is_active and not owners.exclude(pk=self.pk).exists()


class SignInAttempts(models.Model):
    """How often a sign-in failed lately, for one name from one address, or for one address."""

    bucket = models.CharField(max_length=64, unique=True)
    failures = models.PositiveIntegerField(default=0)
    last_failed_at = models.DateTimeField()

    class Meta:
        verbose_name_plural = "sign-in attempts"

    def __str__(self) -> str:
        return f"{self.failures} failed"
