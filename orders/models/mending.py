"""Alterations and repairs: what is to be done to what was brought in, and the workshop's own price list for it."""

from decimal import Decimal

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone

from clients.fit_places import BOTH, BY_PLACE, SIDES
from orders.noting import OF_MENDING
from orders.versions import Versioned
from workshop.length import print_length
from workshop.models import Workshop

SIDE_WORDS = dict(SIDES)


class RepairPrice(models.Model):
    """A line of the workshop's price list: “hem a skirt”, what it costs and how long it takes."""

    what = models.CharField(max_length=80)
    price = models.DecimalField(max_digits=13, decimal_places=3)
    minutes = models.PositiveIntegerField()
    changed_at = models.DateTimeField(default=timezone.now)

    class Meta:
        ordering = ("what", "pk")
        constraints = [
            models.UniqueConstraint(fields=["what"], name="repair_price_once", violation_error_message="That stands on the list already."),
            models.CheckConstraint(condition=Q(price__gte=0), name="repair_price_not_negative"),
        ]

    def __str__(self):
        return self.what


class Mending(Versioned):
    """One job of a ticket: on which thing, what, where by how much, for how much, and who has done it."""

    order = models.ForeignKey("orders.Order", on_delete=models.CASCADE, related_name="mendings")
    #: Which of the things brought in: “navy coat”.
    on_what = models.CharField(max_length=60)
    what = models.CharField(max_length=80)
    #: Where and by how much, pinned: as a fitting notes it (clients/fit_places.py). Without an amount nothing is pinned.
    place = models.CharField(max_length=30, blank=True)
    side = models.CharField(max_length=10, default=BOTH, choices=SIDES)
    is_more = models.BooleanField(default=False)
    amount_written = models.CharField(max_length=20, blank=True)
    amount_mm = models.DecimalField(max_digits=9, decimal_places=4, null=True, blank=True)
    price = models.DecimalField(max_digits=13, decimal_places=3, default=Decimal(0))
    minutes = models.PositiveIntegerField(default=0)
    done_at = models.DateTimeField(null=True, blank=True)
    done_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+", db_index=False)

    told_as = OF_MENDING

    class Meta:
        ordering = ("pk",)
        constraints = [models.CheckConstraint(condition=Q(price__gte=0), name="mending_price_not_negative")]

    def __str__(self):
        return f"{self.on_what}: {self.what}"

    @property
    def thing(self) -> str:
        return str(self)[:90]

    @property
    def of_order(self) -> int:
        return self.order_id

    @property
    def is_done(self) -> bool:
        return self.done_at is not None

    @property
    def pinned(self) -> str:
        """“hem, shorten 1½ in, left”; nothing where nothing is pinned."""
        if self.amount_mm is None or self.place not in BY_PLACE:
            return ""
        place = BY_PLACE[self.place]
        amount = print_length(self.amount_mm, Workshop.current().unit, step=16, with_unit=True)
        side = SIDE_WORDS[self.side] if place.sided else ""
        return ", ".join(filter(None, (place.key, f"{place.acts[self.is_more]} {amount}", side)))
