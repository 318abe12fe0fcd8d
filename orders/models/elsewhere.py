"""What of an order is done by others: beading, pleating, covered buttons. Gone, due back, owed."""

from django.db import models
from django.db.models import Q

from orders.noting import OF_OUT_WORK
from orders.versions import Versioned


class OutWork(Versioned):
    order = models.ForeignKey("orders.Order", on_delete=models.CASCADE, related_name="out_work")
    what = models.CharField(max_length=80)
    to_whom = models.CharField(max_length=80)
    gone_on = models.DateField()
    due_back = models.DateField()
    back_on = models.DateField(null=True, blank=True)
    cost = models.DecimalField(max_digits=13, decimal_places=3, null=True, blank=True)
    paid_on = models.DateField(null=True, blank=True)

    told_as = OF_OUT_WORK

    class Meta:
        ordering = ("due_back", "pk")
        indexes = [
            models.Index(fields=["order", "due_back"], condition=Q(back_on=None), name="out_work_not_back"),
            models.Index(fields=["due_back"], condition=Q(paid_on=None, cost__isnull=False), name="out_work_not_paid"),
        ]
        constraints = [
            models.CheckConstraint(condition=Q(cost__isnull=True) | Q(cost__gte=0), name="out_work_cost_not_negative"),
            models.CheckConstraint(condition=Q(due_back__gte=models.F("gone_on")), name="out_work_back_after_gone"),
        ]

    def __str__(self):
        return f"{self.what}, {self.to_whom}"

    @property
    def thing(self) -> str:
        return f"out-work {self.what}"

    @property
    def of_order(self) -> int:
        return self.order_id
