"""What is made for an order: its garments, the cloths for them, and the fittings on the way."""

from datetime import date
from decimal import Decimal

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils import timezone

from orders.models.laid import signature_of
from orders.noting import OF_CLOTH, OF_FITTING, OF_GARMENT
from orders.querysets import FittingQuerySet, GarmentQuerySet
from orders.stages import NotNow
from orders.versions import Versioned
from workshop.length import CM, INCH, print_length
from workshop.models import Workshop


class Garment(Versioned):
    """One garment of an order: its kind and choices, the measures it is drafted from, and its drafts."""

    order = models.ForeignKey("orders.Order", on_delete=models.CASCADE, related_name="garments")
    kind = models.CharField(max_length=40)
    title = models.CharField(max_length=80)
    options = models.JSONField(default=dict, blank=True)
    # House rules changed for this garment only: key -> as written, so that 1¼ stays 1¼.
    rules = models.JSONField(default=dict, blank=True)
    measuring = models.ForeignKey(
        "clients.Measuring", on_delete=models.PROTECT, null=True, blank=True, related_name="garments"
    )
    # The client's newest measuring that the workshop has looked at and chosen not to use for this garment.
    kept_past = models.ForeignKey(
        "clients.Measuring", on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    draft = models.ForeignKey(
        "drafting.KeptDraft", on_delete=models.PROTECT, null=True, blank=True, related_name="garments"
    )
    # Whether every check of that draft passed, kept here so that a list of orders needs no drawing to know it.
    draft_passed = models.BooleanField(default=False)
    # What that draft asks for besides cloth, kept here so that the market list reads no drawing.
    materials = models.JSONField(default=list, blank=True, editable=False)
    # The draft that the shears followed: written once, at the first cut, and never again.
    cut_draft = models.ForeignKey(
        "drafting.KeptDraft", on_delete=models.PROTECT, null=True, blank=True, related_name="cut_garments"
    )
    #: Hours of sewing: planned, where it is more or less than its kind usually takes; taken, once it is sewn.
    hours_planned = models.DecimalField(max_digits=5, decimal_places=2, null=True, blank=True)
    hours_taken = models.DecimalField(max_digits=5, decimal_places=2, null=True, blank=True)
    # When it was found to fit well: the next garment of its kind can start from its choices and house rules.
    fitted_well_on = models.DateField(null=True, blank=True)
    # The garment whose choices and house rules this one began with.
    started_from = models.ForeignKey("self", on_delete=models.SET_NULL, null=True, blank=True, related_name="+")

    objects = GarmentQuerySet.as_manager()
    told_as = OF_GARMENT

    class Meta:
        ordering = ("pk",)

    def __str__(self):
        return f"{self.order.number} {self.title}"

    @property
    def thing(self) -> str:
        return self.title

    @property
    def of_order(self) -> int:
        return self.order_id

    @property
    def sheet_draft(self):
        """The draft that papers show: the one that was cut, else the newest."""
        return self.cut_draft or self.draft

    def refuse_if_cut(self) -> None:
        if self.cut_draft_id:
            raise NotNow(f"{self.order.number} is cut. What it was cut from stays as it was.")


USES = {
    "shell": "everything outside",
    "cup": "cups",
    "band": "band",
    "bodice": "bodice",
    "back": "back",
    "yoke": "yoke",
    "skirt": "skirt",
    "sleeve": "sleeves",
    "lining": "lining",
    "stay": "stay",
    "wadding": "wadding",
}


LAYOUTS = (
    ("folded", "folded lengthwise"),
    ("open", "open, in one layer"),
    ("crosswise", "folded crosswise"),
    ("best", "whichever is shorter"),
)


class Cloth(Versioned):
    """A cloth of an order, as it lies on the shelf or is still to come."""

    class Whose(models.TextChoices):
        WORKSHOP = "workshop", "ours"
        CLIENT = "client", "the client's"

    order = models.ForeignKey("orders.Order", on_delete=models.CASCADE, related_name="cloths")
    name = models.CharField(max_length=60)
    used_for = models.JSONField(default=list)
    width_written = models.CharField(max_length=20)
    width_mm = models.DecimalField(max_digits=9, decimal_places=4)
    on_hand_written = models.CharField(max_length=20, blank=True)
    on_hand_mm = models.DecimalField(max_digits=10, decimal_places=4, null=True, blank=True)
    whose = models.CharField(max_length=10, choices=Whose.choices, default=Whose.WORKSHOP)
    layout = models.CharField(max_length=10, blank=True, choices=LAYOUTS)
    one_way = models.BooleanField(default=False)
    # In hundredths of the length, as a shop says it: 3 means that a yard loses an inch.
    shrink_percent = models.DecimalField(max_digits=4, decimal_places=1, default=Decimal(0))
    # Its selvedge, repeats, pieces to match and flaws, by the order file's keys; only what is known.
    prints = models.JSONField(default=dict, blank=True)
    price = models.DecimalField(max_digits=13, decimal_places=3, null=True, blank=True)
    # What the last lay of it needs, what no lay can go below, or why it can't be laid; and for which drafts and cloth.
    needs_mm = models.DecimalField(max_digits=10, decimal_places=4, null=True, editable=False)
    at_least_mm = models.DecimalField(max_digits=10, decimal_places=4, null=True, editable=False)
    not_laid = models.CharField(max_length=400, blank=True, editable=False)
    laid_for = models.CharField(max_length=120, blank=True, editable=False)

    #: A piece and “across” or “along” where it is asked what a seam in it would save; never kept.
    seam: tuple[str, str] | None = None

    told_as = OF_CLOTH

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.UniqueConstraint(
                fields=["order", "name"],
                name="cloth_name_once_an_order",
                violation_error_message="This order has a cloth of that name already.",
            ),
            models.CheckConstraint(condition=Q(width_mm__gt=0), name="cloth_has_width"),
            models.CheckConstraint(
                condition=Q(on_hand_mm__isnull=True) | Q(on_hand_mm__gte=0), name="cloth_on_hand_not_negative"
            ),
            models.CheckConstraint(
                condition=Q(shrink_percent__gte=0) & Q(shrink_percent__lte=30), name="cloth_shrink_within_reason"
            ),
            models.CheckConstraint(condition=Q(price__isnull=True) | Q(price__gte=0), name="cloth_price_not_negative"),
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
    def is_in(self) -> bool:
        return bool(self.on_hand_mm)

    @property
    def is_amiss(self) -> bool:
        """Not on the shelf, too little or not to be laid: as `with_cloths_to_come` asks for them."""
        return not self.on_hand_mm or self.needs_mm is not None and self.needs_mm > self.on_hand_mm or bool(self.not_laid)

    @property
    def on_hand_shown(self) -> str:
        """2½ yd, or 2.3 m in a metric workshop: to the nearest eighth of a yard or tenth of a metre."""
        unit = Workshop.current().unit
        if unit == INCH:
            return f"{print_length(self.on_hand_mm / 36, INCH)}\u00a0yd"
        return f"{print_length(self.on_hand_mm / 100, CM)}\u00a0m"

    def as_order_file(self) -> dict:
        """The cloth as an entry of an order file's `cloths`."""
        entry = {"name": self.name, "for": self.used_for, "width": self.width_written, "one_way": self.one_way}
        if self.layout:
            entry["layout"] = self.layout
        if self.on_hand_mm is not None:
            entry["on_hand"] = self.on_hand_written
        if self.shrink_percent:
            entry["shrink"] = float(self.shrink_percent / 100)
        return entry | self.prints

    def laid_key(self, drafts: list[int]) -> str:
        """For which drafts and which way of laying an answer holds."""
        return f"{'-'.join(map(str, drafts))}:{signature_of(self.as_order_file())}"[:120]

    def is_laid_for(self, drafts: list[int]) -> bool:
        """Whether what is written here of a lay still holds; nothing cut from it is an answer too."""
        return bool(drafts) and self.laid_for == self.laid_key(drafts)

    @property
    def spare_mm(self) -> Decimal | None:
        """What the lay leaves of the cloth on hand, mm: less than nothing where it is short; None where either is not known."""
        return None if self.needs_mm is None or self.on_hand_mm is None else self.on_hand_mm - self.needs_mm

    @property
    def uses(self) -> str:
        """“skirt, lining”: what is cut from it."""
        return ", ".join(USES.get(use, use) for use in self.used_for)


class Fitting(Versioned):
    """A time at which the client comes to try on."""

    class Ended(models.TextChoices):
        FINISH = "finish", "it fits: finish"
        AGAIN = "again", "fit again"

    order = models.ForeignKey("orders.Order", on_delete=models.CASCADE, related_name="fittings")
    at = models.DateTimeField(db_index=True)
    by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="fittings"
    )
    done_on = models.DateField(null=True, blank=True)
    #: How it ended: it fits, or the client comes again; nothing for those noted before this was asked.
    ended = models.CharField(max_length=10, blank=True, choices=Ended.choices)
    note = models.CharField(max_length=300, blank=True)
    #: The client did not come, and it was noted on that day; another fitting may stand in its place.
    missed_on = models.DateField(null=True, blank=True)

    objects = FittingQuerySet.as_manager()
    told_as = OF_FITTING

    class Meta:
        ordering = ("at",)

    def __str__(self):
        return f"fitting of {self.order.number}"

    @property
    def thing(self) -> str:
        return "fitting"

    @property
    def of_order(self) -> int:
        return self.order_id

    @property
    def is_to_come(self) -> bool:
        """Neither done nor missed, also where its day is past."""
        return self.done_on is None and self.missed_on is None

    @property
    def day(self) -> date:
        """By the workshop's clock; kept beside its moment, because a list asks many times."""
        known = self.__dict__.get("_day")
        if known is None or known[0] is not self.at:
            known = self.__dict__["_day"] = (self.at, timezone.localdate(self.at))
        return known[1]

    @property
    def is_done(self) -> bool:
        return self.done_on is not None

    def mark_done(self, *, by, today: date, note: str = "", ended: str = "") -> None:
        if self.is_done:
            raise NotNow("This fitting is noted as done already.")
        if self.missed_on:
            raise NotNow("This fitting is noted as missed. Book the one that was held instead.")
        if self.day > today:
            raise NotNow("This fitting has not come yet. If the client came early, move it to today.")
        self.done_on = today
        self.note = note.strip() or self.note
        self.ended = ended
        self.keep("done_on", "note", "ended", by=by)
