"""What came back after it was collected: why, what is to be done, and by when."""

from django.db import models

from orders.beside import WHOSE
from orders.noting import OF_COMPLAINT
from orders.versions import Versioned


class Complaint(Versioned):
    class Why(models.TextChoices):
        OURS = "ours", WHOSE["ours"]
        BODY = "body", WHOSE["body"]
        CLOTH = "cloth", WHOSE["cloth"]

    order = models.ForeignKey("orders.Order", on_delete=models.CASCADE, related_name="complaints")
    told_on = models.DateField()
    why = models.CharField(max_length=10, choices=Why.choices)
    words = models.CharField(max_length=300)
    to_do = models.CharField(max_length=300)
    by_when = models.DateField()
    #: What is asked for it; added to the order's price.
    price = models.DecimalField(max_digits=13, decimal_places=3, default=0)
    settled_on = models.DateField(null=True, blank=True)

    told_as = OF_COMPLAINT

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.UniqueConstraint(
                fields=["order"], condition=models.Q(settled_on=None), name="one_complaint_open",
                violation_error_message="This order is back for a complaint already.",
            ),
            models.CheckConstraint(condition=models.Q(price__gte=0), name="complaint_price_not_negative"),
        ]  # fmt: skip

    def __str__(self):
        return self.words

    @property
    def thing(self) -> str:
        return "complaint"

    @property
    def of_order(self) -> int:
        return self.order_id
