"""What an order should cost: lines that the owner overruled, and the quotes and receipts that went out, numbered."""

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone

from clients.standing import Stands
from orders.versions import Versioned


class PriceLine(Versioned):
    """A line of an order's price that the owner set: one that is worked out, overruled, or one of the owner's own.

    `key` says which line it is (“cloth-12”, “work-7-sewing”, “own-1”). What was worked out at that moment stands beside
    what was set; a line of the owner's own has none.
    """

    order = models.ForeignKey("orders.Order", on_delete=models.CASCADE, related_name="price_lines")
    key = models.CharField(max_length=60)
    part = models.CharField(max_length=10)
    label = models.CharField(max_length=80)
    worked_out = models.DecimalField(max_digits=13, decimal_places=3, null=True, blank=True)
    set_to = models.DecimalField(max_digits=13, decimal_places=3)
    why = models.CharField(max_length=120, blank=True)

    told_as = {"set_to": "price set by hand"}

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.UniqueConstraint(fields=["order", "key"], name="price_line_once"),
            models.CheckConstraint(condition=Q(set_to__gte=0), name="price_line_not_negative"),
        ]

    def __str__(self):
        return self.label

    @property
    def thing(self) -> str:
        return self.label

    @property
    def of_order(self) -> int:
        return self.order_id


class Quote(Versioned):
    """A price as it was offered. What it says never changes; it is agreed, taken back, or its last day passes."""

    order = models.ForeignKey("orders.Order", on_delete=models.PROTECT, related_name="quotes")
    serial = models.PositiveIntegerField(unique=True, editable=False)
    made_on = models.DateField()
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    last_day = models.DateField()
    currency = models.CharField(max_length=3)
    price = models.DecimalField(max_digits=13, decimal_places=3)
    deposit = models.DecimalField(max_digits=13, decimal_places=3)
    #: What is printed, as it was on that day: garments, cloth and work, terms, instalments.
    says = models.JSONField()
    agreed_on = models.DateField(null=True, blank=True)
    cancelled_on = models.DateField(null=True, blank=True)
    why_cancelled = models.CharField(max_length=200, blank=True)

    told_as = {"agreed_on": "agreed", "cancelled_on": "taken back"}

    class Meta:
        ordering = ("-serial",)
        constraints = [
            models.CheckConstraint(condition=Q(deposit__gte=0) & Q(deposit__lte=models.F("price")), name="quote_deposit_within_price"),
            models.CheckConstraint(condition=Q(agreed_on__isnull=True) | Q(cancelled_on__isnull=True), name="quote_agreed_or_taken_back"),
        ]

    def __str__(self):
        return self.number

    @property
    def number(self) -> str:
        return f"Q-{self.serial:04d}"

    @property
    def thing(self) -> str:
        return f"quote {self.number}"

    @property
    def of_order(self) -> int:
        return self.order_id

    def is_open(self, today) -> bool:
        return self.agreed_on is None and self.cancelled_on is None and self.last_day >= today


def number_of(serial: int) -> str:
    """A receipt's number as it is printed: R-00042."""
    return f"R-{serial:05d}"


class Receipt(models.Model):
    """The number of one payment's receipt. A payment that was struck keeps its number, and its receipt says so."""

    payment = models.OneToOneField("orders.Payment", on_delete=models.PROTECT, related_name="receipt")
    serial = models.PositiveIntegerField(unique=True, editable=False)
    #: What a phone wrote on the receipt before the book had a number for it.
    provisional = models.CharField(max_length=12, blank=True)
    written_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ("serial",)
        constraints = [Stands(name="receipt_stands", violation_error_message="A receipt stands as it was written.")]

    def __str__(self):
        return self.number

    @property
    def number(self) -> str:
        return number_of(self.serial)


class Counter(models.Model):
    """The last number given to a kind of paper. Its row is locked until the paper is written, so that no number is missed."""

    name = models.CharField(max_length=20, primary_key=True)
    last = models.PositiveIntegerField(default=0)

    def __str__(self):
        return f"{self.name} {self.last}"

    @classmethod
    def next_of(cls, name: str) -> int:
        """The next number; call it inside the transaction that writes the paper, else the number may be lost."""
        counter, _ = cls.objects.select_for_update().get_or_create(name=name)
        counter.last += 1
        counter.save(update_fields=["last"])
        return counter.last
