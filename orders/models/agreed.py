"""What was asked for and agreed before the first cut: photographs, the look, and what a later change of it costs."""

from decimal import Decimal

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone

from clients.standing import Stands
from orders.versions import Versioned


class OrderPhoto(models.Model):
    """A photograph of an order, as we wrote it ourselves: in the database, so that each backup has it."""

    class Shows(models.TextChoices):
        WISH = "wish", "the wish"
        CLOTH = "cloth", "cloth or swatch"
        ARRIVED = "arrived", "as it came in"
        WORK = "work", "the work"

    order = models.ForeignKey("orders.Order", on_delete=models.CASCADE, related_name="photos")
    shows = models.CharField(max_length=10, choices=Shows.choices, default=Shows.WISH)
    caption = models.CharField(max_length=120, blank=True)
    jpeg = models.BinaryField()
    #: The same, small, for a row of them.
    small = models.BinaryField()
    #: Drawn over it: damage ringed, a place pointed at (clients/marks.py).
    marks = models.JSONField(default=list, blank=True)
    added_on = models.DateField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+", db_index=False)

    class Meta:
        ordering = ("pk",)

    def __str__(self):
        return self.caption or self.get_shows_display()


class Look(Versioned):
    """The look that the client agreed to. Once there is a yes, a change of it has a price."""

    order = models.ForeignKey("orders.Order", on_delete=models.CASCADE, related_name="looks")
    garment = models.OneToOneField("orders.Garment", on_delete=models.CASCADE, related_name="look", null=True)
    neck_depth = models.CharField(max_length=60, blank=True)
    length = models.CharField(max_length=60, blank=True)
    shoes = models.CharField(max_length=120, blank=True)
    swatches = models.CharField(max_length=200, blank=True)
    words = models.TextField(max_length=1000, blank=True)
    agreed_on = models.DateField(null=True, blank=True)
    agreed_how = models.CharField(max_length=80, blank=True)

    told_as = {
        "neck_depth": "neck depth",
        "length": "length",
        "shoes": "in these shoes",
        "swatches": "swatches",
        "words": "in words",
        "agreed_on": "agreed",
        "agreed_how": "how it was agreed",
    }

    def __str__(self):
        return f"the look of {self.garment_id}"

    @property
    def thing(self) -> str:
        return f"the look of {self.garment.title}"

    @property
    def of_order(self) -> int:
        return self.order_id

    @property
    def is_agreed(self) -> bool:
        return self.agreed_on is not None


class PricedChange(models.Model):
    """A change asked for after the yes, and what it adds to the price; nothing, where the workshop gives it."""

    order = models.ForeignKey("orders.Order", on_delete=models.CASCADE, related_name="priced_changes")
    what = models.CharField(max_length=200)
    price = models.DecimalField(max_digits=13, decimal_places=3, default=Decimal(0))
    asked_on = models.DateField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+", db_index=False)
    written_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        ordering = ("pk",)
        constraints = [
            Stands(name="priced_change_stands", violation_error_message="A priced change stands as it was written."),
            models.CheckConstraint(
                condition=Q(price__gte=0),
                name="priced_change_not_negative",
                violation_error_message="A change costs nothing or more.",
            ),
        ]

    def __str__(self):
        return self.what
