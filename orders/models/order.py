"""An order: what was promised to whom, by when, for how much, and how far it has come."""

from datetime import date
from decimal import Decimal

from django.db import models
from django.db.models import Q
from django.utils.functional import cached_property

from orders.beside import HERS_FIELDS, HERS_HERE, OUT_FIELDS, Again, Hers, Out, read
from orders.models.naming import address_of, title_of
from orders.models.over import LEFT_HERE, UNSETTLED
from orders.noting import OF_ORDER
from orders.querysets import OrderQuerySet
from orders.stages import AFTER_CUTTING, BEFORE_CUTTING, OVER, NotNow, Stage
from orders.versions import Versioned

NUMBER_PREFIX = "S"


class Order(Versioned):
    serial = models.PositiveIntegerField(editable=False)
    number = models.CharField(max_length=12, editable=False)
    client = models.ForeignKey("clients.Client", on_delete=models.PROTECT, related_name="orders")
    stage = models.CharField(max_length=12, choices=Stage.choices, default=Stage.ASKED)
    # A plain boolean, because SQLite can use a partial index only for a condition that it sees written out.
    is_open = models.BooleanField(default=True, editable=False)
    booked_on = models.DateField()
    cut_on = models.DateField(null=True, blank=True)
    collect_on = models.DateField(null=True, blank=True)
    occasion_on = models.DateField(null=True, blank=True)
    was_cut_on = models.DateField(null=True, blank=True)
    closed_on = models.DateField(null=True, blank=True)
    why_called_off = models.CharField(max_length=200, blank=True)
    price = models.DecimalField(max_digits=13, decimal_places=3, null=True, blank=True)
    deposit = models.DecimalField(max_digits=13, decimal_places=3, null=True, blank=True)
    #: What came in less what was given back: what its payments come to, written by whoever writes one (`add_up_paid`).
    paid = models.DecimalField(max_digits=13, decimal_places=3, default=Decimal(0), editable=False)
    #: What of the price is for making it sooner than is usual.
    urgent_fee = models.DecimalField(max_digits=13, decimal_places=3, null=True, blank=True)
    #: What was wished for and what it may cost, as it was asked; and how long the date is held without a deposit.
    wish = models.TextField(max_length=2000, blank=True)
    budget = models.DecimalField(max_digits=13, decimal_places=3, null=True, blank=True)
    held_until = models.DateField(null=True, blank=True)
    party = models.ForeignKey("orders.Party", on_delete=models.PROTECT, null=True, blank=True, related_name="orders")
    #: Who pays for it, where that is not the client.
    paid_by = models.ForeignKey("clients.Client", on_delete=models.PROTECT, null=True, blank=True, related_name="orders_paid")
    copied_from = models.ForeignKey("self", on_delete=models.SET_NULL, null=True, blank=True, related_name="copies", db_index=False)
    #: Of what was paid, what the workshop keeps of an order that is called off.
    kept = models.DecimalField(max_digits=13, decimal_places=3, null=True, blank=True)
    #: Days and amounts in which the price is paid, oldest first: `{"on": "2026-03-12", "amount": "240"}`; nothing: at collection.
    instalments = models.JSONField(default=list, blank=True)
    note = models.TextField(blank=True)
    #: What was brought in to be altered or repaired; nothing for an order of something new.
    brought_in = models.CharField(max_length=120, blank=True)
    #: Minutes of altering and repairing that it takes, all jobs together.
    minutes = models.PositiveIntegerField(default=0)
    #: A toile is fitted before the cloth is cut.
    toile_wanted = models.BooleanField(default=False)
    #: What was left of the client's own cloth and notions, and when it was given back.
    leftovers = models.CharField(max_length=200, blank=True)
    leftovers_on = models.DateField(null=True, blank=True)

    objects = OrderQuerySet.as_manager()
    told_as = OF_ORDER

    class Meta:
        ordering = ("collect_on", "serial")
        indexes = [
            models.Index(fields=["collect_on", "serial"], condition=Q(is_open=True), name="order_open_by_collection"),
            models.Index(fields=["cut_on"], condition=Q(is_open=True), name="order_open_by_cutting"),
            models.Index(fields=["serial", "client", "number"], name="order_to_find"),
            models.Index(fields=["brought_in"], condition=~Q(brought_in=""), name="order_brought_in_to_find"),
            # By price too, so that SQLite does not take it for the few that are not settled, which have the next one.
            models.Index(fields=["-closed_on", "-serial"], condition=Q(is_open=False, price__isnull=False), name="order_done_lately"),
            models.Index(fields=["closed_on", "serial"], condition=Q(UNSETTLED, is_open=False), name="order_over_unsettled"),
            models.Index(fields=["closed_on"], condition=LEFT_HERE, name="order_leftovers_here"),
        ]
        constraints = [
            models.UniqueConstraint(
                fields=["serial"], name="order_serial_once", violation_error_message="That order number is taken."
            ),
            models.UniqueConstraint(
                fields=["number"], name="order_number_once", violation_error_message="That order number is taken."
            ),
            models.CheckConstraint(
                condition=Q(price__isnull=True) | Q(price__gte=0),
                name="order_price_not_negative",
                violation_error_message="A price can't be less than nothing.",
            ),
            models.CheckConstraint(
                condition=Q(deposit__isnull=True) | Q(deposit__gte=0),
                name="order_deposit_not_negative",
                violation_error_message="A deposit can't be less than nothing.",
            ),
            models.CheckConstraint(
                condition=Q(deposit__isnull=True) | Q(price__isnull=True) | Q(deposit__lte=models.F("price")),
                name="order_deposit_within_price",
                violation_error_message="The deposit is more than the price.",
            ),
            models.CheckConstraint(
                condition=Q(urgent_fee__isnull=True) | Q(urgent_fee__gte=0),
                name="order_urgent_fee_not_negative",
                violation_error_message="A fee can't be less than nothing.",
            ),
            models.CheckConstraint(
                condition=Q(is_open=True, stage__in=[s for s in Stage if s not in OVER])
                | Q(is_open=False, stage__in=OVER),
                name="order_open_unless_over",
            ),
            models.CheckConstraint(condition=Q(stage__in=Stage.values), name="order_stage_known"),
        ]

    def __str__(self):
        return self.number

    def get_absolute_url(self):
        return address_of(self.number)

    # What it is, and what is due

    def get_stage_display(self) -> str:
        """As Django's, which makes all choices anew each time: a list has fifty."""
        return Stage(self.stage).label

    @property
    def of_order(self) -> int:
        return self.pk

    @cached_property
    def owner_name(self) -> str:
        """As `with_owner_name` brings it along with the order."""
        return type(self).objects.with_owner_name().values_list("owner_name", flat=True).get(pk=self.pk)

    @cached_property
    def all_garments(self) -> list:
        return list(self.garments.all())

    @cached_property
    def all_fittings(self) -> list:
        return sorted(self.fittings.all(), key=lambda fitting: fitting.at)

    @cached_property
    def cloths_to_come(self) -> list:
        """Its cloths that are amiss."""
        return [cloth for cloth in self.cloths.all() if cloth.is_amiss]

    @cached_property
    def not_back(self) -> list[Out]:
        """Work given out that is not back; `with_out` brings it along with the order."""
        rows = self.__dict__["out_rows"] if "out_rows" in self.__dict__ else self.out_work.filter(back_on=None).values("pk", *OUT_FIELDS)
        return read(Out, rows, "due_back")

    @cached_property
    def to_cut_again(self) -> list[Again]:
        """Spoiled pieces that are not cut again yet; `with_spoiled` brings them along with the order."""
        brought = "again_rows" in self.__dict__
        rows = self.__dict__["again_rows"] if brought else type(self).objects.with_spoiled().values_list("again_rows", flat=True).get(pk=self.pk)
        return read(Again, rows, "pk")

    @cached_property
    def hers_here(self) -> list[Hers]:
        """The client's own cloth that lies on the shelf for it: over, it goes back to her."""
        return read(Hers, self.shelf.filter(**HERS_HERE).values("pk", *HERS_FIELDS), "name")

    @property
    def toile_waits(self) -> bool:
        """A toile is wanted before the cloth is cut, and none was fitted."""
        return self.toile_wanted and self.is_before_cutting and not any(each.is_toile and each.is_done for each in self.all_fittings)

    @cached_property
    def held_fittings(self) -> list:
        """Those that were held or are to come: one that the client missed is none."""
        return [fitting for fitting in self.all_fittings if fitting.missed_on is None]

    @property
    def is_repair(self) -> bool:
        """Something brought in to be altered or repaired: without a draft."""
        return bool(self.brought_in)

    @property
    def title(self) -> str:
        return self.brought_in or title_of(self.all_garments)

    @property
    def balance(self) -> Decimal | None:
        """What is still to pay; None while no price is agreed. Of an order called off, what is kept and not paid."""
        if self.stage == Stage.CALLED_OFF:
            return Decimal(0) if self.kept is None else self.kept - self.paid
        return None if self.price is None else self.price - self.paid

    @property
    def deposit_missing(self) -> Decimal:
        """How much of the deposit asked for has not come in; nothing once the order is cut."""
        if not self.deposit or self.stage not in BEFORE_CUTTING:
            return Decimal(0)
        return max(self.deposit - self.paid, Decimal(0))

    @property
    def waits_for_deposit(self) -> bool:
        """Whether its date is only held: nothing is paid of what was asked for, and it is not cut."""
        return bool(self.held_until and self.is_before_cutting and (self.stage == Stage.ASKED or self.deposit_missing))

    def is_lapsed(self, today: date) -> bool:
        """The deposit did not come in time, so the date is free for others; the order itself stays."""
        return self.waits_for_deposit and self.held_until < today

    def days_late(self, today: date) -> int:
        return max((today - self.collect_on).days, 0) if self.is_open and self.collect_on else 0

    @property
    def not_cut(self) -> list:
        """Its garments that the shears have not gone into."""
        return [garment for garment in self.all_garments if garment.cut_draft_id is None]

    @property
    def is_signed_off(self) -> bool:
        """Whether each of its garments may be cut, or is."""
        return bool(self.all_garments) and all(garment.is_signed_off for garment in self.not_cut)

    @property
    def is_before_cutting(self) -> bool:
        return self.stage in BEFORE_CUTTING

    # Verbs: each changes this order only, and refuses what makes no sense. `orders.booking`, `orders.work.cutting` and
    # `orders.money.payments` hold the acts that touch more than one row.

    def book(self, *, by) -> None:
        self.refuse_unless(Stage.ASKED, "booked")
        if self.collect_on is None:
            raise NotNow(f"{self.number} has no collection date yet. Agree one, then book it.")
        if self.price is None:
            raise NotNow(f"{self.number} has no price yet. Agree one, then book it.")
        drafted = self.garments.exclude(draft=None).exists()
        self.stage = Stage.MEASURED if drafted else Stage.BOOKED  # an enquiry may have been drafted already
        self.keep("stage", by=by)

    def hold(self, *, by, until: date) -> None:
        """Keep its date free a while longer."""
        if not self.is_open or not self.is_before_cutting:
            raise NotNow(f"{self.number} is {self.get_stage_display()}. Its date needs no holding.")
        self.held_until = until
        self.keep("held_until", by=by)

    def finish_sewing(self, *, by) -> None:
        self.refuse_unless(Stage.CUT, "sewn")
        self.stage = Stage.SEWN
        self.keep("stage", by=by)

    def begin_work(self, *, by) -> None:
        self.refuse_unless(Stage.BROUGHT_IN, "in work")
        self.stage = Stage.IN_WORK
        self.keep("stage", by=by)

    def hang_ready(self, *, by) -> None:
        if self.stage != Stage.IN_WORK:  # a repair, or what came back after it was collected
            self.refuse_unless(Stage.IN_WORK if self.is_repair else Stage.SEWN, "ready")
        self.stage = Stage.READY
        self.keep("stage", by=by)

    def hand_over(self, *, by, today: date, with_balance_due: bool = False) -> None:
        """The client takes the garment; with a balance due only where the owner says so."""
        self.refuse_unless(Stage.READY, "collected")
        if self.balance and self.balance > 0:
            if not with_balance_due:
                raise NotNow(f"{self.number} is not paid in full. Take the balance before it is collected.")
            if not by.may("refund"):
                raise NotNow(f"{self.number} is not paid in full. Only the owner can let it go with a balance due.")
        self.close(Stage.COLLECTED, today, by)
        for complaint in self.complaints.filter(settled_on=None):
            complaint.settled_on = today
            complaint.keep("settled_on", by=by)

    def call_off(self, *, by, today: date, why: str) -> None:
        if not self.is_open:
            raise NotNow(f"{self.number} is {self.get_stage_display()} already.")
        if not why.strip():
            raise NotNow("Say in a few words why it is called off.")
        self.why_called_off = why.strip()
        self.close(Stage.CALLED_OFF, today, by, "why_called_off")

    def close(self, stage: Stage, today: date, by, *more: str) -> None:
        self.stage, self.is_open, self.closed_on = stage, False, today
        self.keep("stage", "is_open", "closed_on", *more, by=by)

    def follow_cuts(self, *, by) -> None:
        """It is cut once all of its garments are: on the day of the last."""
        if self.is_before_cutting and not self.garments.filter(cut_draft=None).exists():
            self.stage, self.was_cut_on = Stage.CUT, max(self.garments.values_list("was_cut_on", flat=True))
            self.keep("stage", "was_cut_on", by=by)

    def refuse_unless(self, wanted: Stage, becoming: str) -> None:
        if self.stage == wanted:
            return
        if self.stage in OVER or self.stage in AFTER_CUTTING and self.get_stage_display() == becoming:
            raise NotNow(f"{self.number} is {self.get_stage_display()} already.")
        raise NotNow(
            f"{self.number} is {self.get_stage_display()}; only an order that is {wanted.label} can be {becoming}."
        )
