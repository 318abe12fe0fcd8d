"""Money that came in or went back. Rows are written once; a mistake is put right by a row that reverses it."""

import uuid

from django.conf import settings
from django.db import models, transaction
from django.db.models import Q
from django.utils import timezone

from clients.standing import Stands
from orders.querysets import PaymentQuerySet


#: An amount in another currency and its rate are both there: an unknown one must not pass for a fitting one.
WHOLE = Q(other_currency__isnull=False, other_amount__isnull=False, rate__isnull=False)


class Payment(models.Model):
    class Kind(models.TextChoices):
        DEPOSIT = "deposit", "deposit"
        PART = "part", "part payment"
        BALANCE = "balance", "balance"
        REFUND = "refund", "given back"

    class Method(models.TextChoices):
        CASH = "cash", "cash"
        CARD = "card", "card"
        TRANSFER = "transfer", "bank transfer"
        OTHER = "other", "other"

    order = models.ForeignKey("orders.Order", on_delete=models.PROTECT, related_name="payments")
    kind = models.CharField(max_length=10, choices=Kind.choices)
    # What it does to the till: in is more than nothing, out is less. The balance is the price less the sum of these.
    amount = models.DecimalField(max_digits=13, decimal_places=3)
    method = models.CharField(max_length=10, choices=Method.choices, default=Method.CASH)
    # What changed hands, where that was another currency: how much of it, and what one of it was worth on that day.
    other_currency = models.CharField(max_length=3, null=True, blank=True)
    other_amount = models.DecimalField(max_digits=13, decimal_places=3, null=True, blank=True)
    rate = models.DecimalField(max_digits=18, decimal_places=8, null=True, blank=True)
    taken_on = models.DateField()
    taken_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    written_at = models.DateTimeField(default=timezone.now, editable=False)
    reverses = models.OneToOneField(
        "self", on_delete=models.PROTECT, null=True, blank=True, related_name="reversed_by"
    )
    # Of one sum that was handed over for several orders: its first entry, which has the receipt for all of it.
    taken_with = models.ForeignKey("self", on_delete=models.PROTECT, null=True, blank=True, related_name="taken_along", db_index=False)
    why = models.CharField(max_length=200, blank=True)
    # One form, one payment: a second press of the button finds the first one's key.
    key = models.UUIDField(default=uuid.uuid4, editable=False)

    objects = PaymentQuerySet.as_manager()

    class Meta:
        ordering = ("pk",)
        indexes = [
            models.Index(fields=["taken_on"], name="payment_by_day"),
            models.Index(fields=["taken_with"], condition=Q(taken_with__isnull=False), name="payment_taken_along"),
        ]
        constraints = [
            Stands(name="payment_stands", violation_error_message="A payment stands as it was written."),
            models.UniqueConstraint(fields=["key"], name="payment_key_once"),
            models.CheckConstraint(
                condition=Q(reverses__isnull=True, kind__in=["deposit", "part", "balance"], amount__gt=0)
                | Q(reverses__isnull=True, kind="refund", amount__lt=0)
                | Q(reverses__isnull=False, kind__in=["deposit", "part", "balance"], amount__lt=0)
                | Q(reverses__isnull=False, kind="refund", amount__gt=0),
                name="payment_sign_fits_kind",
                violation_error_message="Money in is more than nothing; money given back is a refund.",
            ),
            models.CheckConstraint(
                condition=Q(other_currency__isnull=True, other_amount__isnull=True, rate__isnull=True)
                | Q(WHOLE, other_amount__gt=0, rate__gt=0, amount__gt=0)
                | Q(WHOLE, other_amount__lt=0, rate__gt=0, amount__lt=0),
                name="payment_other_currency_whole",
                violation_error_message="Another currency needs its amount and its rate.",
            ),
            models.CheckConstraint(
                condition=Q(taken_with__isnull=True) | Q(reverses__isnull=True, amount__gt=0),
                name="payment_taken_along_came_in",
                violation_error_message="Only money that came in is taken along with other.",
            ),
            models.CheckConstraint(
                condition=Q(reverses__isnull=True) | ~Q(why=""),
                name="payment_reversal_says_why",
                violation_error_message="Say in a few words what was wrong.",
            ),
        ]

    def __str__(self):
        return f"{self.get_kind_display()} for {self.order.number}"

    @property
    def is_reversed(self) -> bool:
        return hasattr(self, "reversed_by")

    @property
    def taken_off(self):
        """What it takes off the balance, as an account shows it: −240 for a deposit of 240."""
        return -self.amount

    def in_one_sum(self) -> list["Payment"]:
        """The entries of the sum that this one is part of, the first of them first; often this one alone."""
        first = self.taken_with_id or self.pk
        parts = type(self).objects.filter(Q(pk=first) | Q(taken_with=first))
        return list(parts.select_related("order__client", "taken_by", "reversed_by__order").order_by("pk"))

    def save(self, *args, **kwargs) -> None:
        """Written once; what its order has been paid is written with it."""
        with transaction.atomic():
            super().save(*args, **kwargs)
            self._meta.get_field("order").related_model.objects.filter(pk=self.order_id).add_up_paid()

    def delete(self, *args, **kwargs):
        raise TypeError("A payment is never deleted. Reverse it with orders.money.payments.reverse.")
