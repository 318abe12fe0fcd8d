"""Which acts of a garment's order of making are done, by whom and when."""

from django.conf import settings
from django.db import models
from django.utils import timezone


class Made(models.Model):
    """One act that is done. `act` is its key in the result's `making`, which stays the same whatever its place in the list."""

    garment = models.ForeignKey("orders.Garment", on_delete=models.CASCADE, related_name="made")
    act = models.CharField(max_length=120)
    at = models.DateTimeField(default=timezone.now)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+", db_index=False)

    class Meta:
        ordering = ("at", "pk")
        constraints = [models.UniqueConstraint(fields=["garment", "act"], name="an_act_is_done_once")]

    def __str__(self):
        return f"{self.act} of {self.garment_id}"
