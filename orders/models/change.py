"""The history of an order: who changed what, when, from what to what. Rows are added, and stand."""

from django.conf import settings
from django.db import models
from django.utils import timezone

from clients.standing import Stands

MONEY = ("price", "deposit", "urgent_fee", "budget", "kept", "set_to", "instalments", "cost")


class Change(models.Model):
    order = models.ForeignKey("orders.Order", on_delete=models.CASCADE, related_name="changes")
    at = models.DateTimeField(default=timezone.now)
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+", db_index=False
    )
    #: What of the order it was: “cloth ivory satin”, “fitting”; empty for the order itself.
    thing = models.CharField(max_length=90, blank=True)
    field = models.CharField(max_length=20)
    label = models.CharField(max_length=60)
    before = models.CharField(max_length=300, blank=True)
    after = models.CharField(max_length=300, blank=True)
    why = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ("-pk",)
        constraints = [Stands(name="change_stands", violation_error_message="What was changed stands as it was written.")]

    def __str__(self):
        return f"{self.label} of {self.order_id}"

    @property
    def is_money(self) -> bool:
        return self.field in MONEY
