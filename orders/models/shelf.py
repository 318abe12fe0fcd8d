"""The cloth shelf, and what was bought at the market."""

from decimal import Decimal

from django.conf import settings
from django.db import models
from django.db.models import Exists, F, OuterRef, Q
from django.utils import timezone
from django.utils.functional import cached_property

from clients.standing import Stands
from orders.models.cloth import cloth_shown
from orders.versions import Versioned

OURS, CLIENTS = "workshop", "client"
WHOSE = ((OURS, "ours"), (CLIENTS, "the client's"))


class ShelfQuerySet(models.QuerySet):
    def told(self):
        """Each with whether it was cut from, and whether it is free: nowhere else is that said."""
        cut = self.model._meta.apps.get_model("orders", "Garment").everything.filter(order=OuterRef("order"), was_cut_on__isnull=False)
        unmeasured = Q(cloth=None) | Q(cloth__on_hand_mm=None) | Q(length_mm__gte=F("cloth__on_hand_mm"))
        is_for_none = Q(order=None) | Q(order__is_open=False, whose=OURS)  # a client's whose order is over goes back to her
        told = self.annotate(shears_went_in=Exists(cut)).annotate(is_cut_from=Q(unmeasured, state="here", shears_went_in=True))
        return told.annotate(is_free=Q(is_for_none, state="here", is_cut_from=False))

    def free(self):
        return self.told().filter(is_free=True)


class ShelfCloth(Versioned):
    """One length of cloth as it lies on the shelf: received and checked, for an order or free, ours or a client's."""

    class State(models.TextChoices):
        HERE = "here", "on the shelf"
        USED = "used", "used up"
        BACK = "back", "given back"
        GONE = "gone", "thrown out or sold"

    class Tried(models.TextChoices):
        UNTRIED = "", "not tried"
        WELL = "well", "well"
        BADLY = "badly", "not well"

    name = models.CharField(max_length=60)
    whose = models.CharField(max_length=10, choices=WHOSE, default=OURS)
    client = models.ForeignKey("clients.Client", on_delete=models.PROTECT, null=True, blank=True, related_name="cloths")
    order = models.ForeignKey("orders.Order", on_delete=models.PROTECT, null=True, blank=True, related_name="shelf")
    #: The line of its order that it is.
    cloth = models.ForeignKey("orders.Cloth", on_delete=models.SET_NULL, null=True, blank=True, related_name="lengths")
    cut_from = models.ForeignKey("self", on_delete=models.SET_NULL, null=True, blank=True, related_name="offcuts")
    place = models.CharField(max_length=40, blank=True)
    received_on = models.DateField()
    width_written = models.CharField(max_length=20)
    width_mm = models.DecimalField(max_digits=9, decimal_places=4)
    length_written = models.CharField(max_length=20)
    length_mm = models.DecimalField(max_digits=10, decimal_places=4)
    state = models.CharField(max_length=6, choices=State.choices, default=State.HERE)
    # What the check found
    checked_on = models.DateField(null=True, blank=True)
    checked_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+", db_index=False
    )
    face = models.CharField(max_length=80, blank=True)
    faults = models.JSONField(default=list, blank=True)
    usable_written = models.CharField(max_length=20, blank=True)
    usable_mm = models.DecimalField(max_digits=9, decimal_places=4, null=True, blank=True)
    dye_lot = models.CharField(max_length=40, blank=True)
    shrink_percent = models.DecimalField(max_digits=4, decimal_places=1, null=True, blank=True)
    bleed = models.CharField(max_length=6, choices=Tried.choices, blank=True)
    iron = models.CharField(max_length=6, choices=Tried.choices, blank=True)
    note = models.CharField(max_length=200, blank=True)

    told_as = {
        "length_written": "length on the shelf",
        "state": "where it is",
        "checked_on": "checked",
        "dye_lot": "dye lot",
        "usable_written": "usable width",
    }

    objects = ShelfQuerySet.as_manager()

    class Meta:
        ordering = ("name", "pk")
        indexes = [
            models.Index(fields=["name"], condition=Q(state="here"), name="shelf_here_by_name"),
            models.Index(fields=["whose", "state"], name="shelf_by_whose"),
        ]
        constraints = [
            models.CheckConstraint(condition=Q(length_mm__gte=0) & Q(width_mm__gt=0), name="shelf_cloth_has_size"),
            models.CheckConstraint(condition=Q(whose="workshop") | Q(client__isnull=False), name="shelf_clients_cloth_has_client"),
            models.CheckConstraint(
                condition=Q(shrink_percent__isnull=True) | Q(shrink_percent__gte=Decimal(0), shrink_percent__lte=Decimal(30)),
                name="shelf_shrink_within_reason",
            ),
        ]

    def __str__(self):
        return self.name

    @property
    def thing(self) -> str:
        return f"cloth {self.name}"

    @property
    def of_order(self) -> int:
        return self.order_id

    @property
    def length_shown(self) -> str:
        """2½ yd, or 2.3 m in a metric workshop, as an order's cloth on hand is shown."""
        return cloth_shown(self.length_mm)

    @property
    def is_here(self) -> bool:
        return self.state == self.State.HERE

    @property
    def goes_back(self) -> bool:
        """A client's cloth whose order is over: it goes back to her."""
        return self.is_here and self.whose == CLIENTS and self.order is not None and not self.order.is_open

    @cached_property
    def is_free(self) -> bool:
        """It lies there for no open order: ours for any, a client's for her next one. `told` brings it along."""
        return type(self).objects.free().filter(pk=self.pk).exists()

    @cached_property
    def is_cut_from(self) -> bool:
        """It was laid and cut, and what is left is not written down: its length is what came in. Of two lengths the longer was laid.

        `told` brings it along.
        """
        return type(self).objects.told().filter(pk=self.pk, is_cut_from=True).exists()

    @property
    def order_says(self) -> str:
        """“the client's, 2 yd, 50 in wide”: what its order has of it, where that is something else than what lies here."""
        cloth, longest = self.cloth, getattr(self, "longest_mm", self.length_mm)
        if not cloth or not self.is_here or not cloth.order.is_before_cutting:
            return ""
        length = cloth.on_hand_mm if self.length_mm == longest else self.length_mm
        if (cloth.whose, length, cloth.width_mm) == (self.whose, self.length_mm, self.usable_mm or self.width_mm):
            return ""
        return f"{cloth.get_whose_display()}, {'not in' if length is None else cloth_shown(length)}, {cloth.width_written} wide"

    @property
    def left_by_lay(self) -> str:
        """“about 1¼ yd left by the lay”; nothing where no lay says it."""
        wants = self.cloth.needs_mm if self.cloth else None
        return "" if wants is None else f"about {cloth_shown(max(self.length_mm - wants, Decimal(0)))} left by the lay"

    def note_changes(self, told: list[dict], *, by, why: str = "") -> None:
        """An order's history tells of its cloth; a free length has its own acts only."""
        if self.order_id:
            super().note_changes(told, by=by, why=why)


class ShelfAct(models.Model):
    """What was done with a length: received, checked, cut, put to an order, given back. Rows stand."""

    on_shelf = models.ForeignKey(ShelfCloth, on_delete=models.CASCADE, related_name="acts")
    at = models.DateTimeField(default=timezone.now)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+", db_index=False)
    what = models.CharField(max_length=200)

    class Meta:
        ordering = ("-pk",)
        constraints = [Stands(name="shelf_act_stands", violation_error_message="What was done stands as it was written.")]

    def __str__(self):
        return self.what


class Bought(models.Model):
    """One thing of the market list that was bought for an order. `key` holds its amount: a new draft asks anew."""

    order = models.ForeignKey("orders.Order", on_delete=models.CASCADE, related_name="bought")
    key = models.CharField(max_length=120)
    at = models.DateTimeField(default=timezone.now)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+", db_index=False)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["order", "key"], name="bought_once")]

    def __str__(self):
        return self.key
