"""The cloths of an order, and what a scrap of each told of needle and iron."""

from decimal import Decimal

from django.conf import settings
from django.db import models
from django.db.models import Q

from orders.models.laid import signature_of
from orders.noting import OF_CLOTH, OF_CLOTH_TEST
from orders.querysets import ClothManager
from orders.versions import Versioned
from workshop.length import CM, INCH, print_length
from workshop.models import Workshop

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


#: Not on the shelf, too little or not to be laid, as it was found when it was laid: `Cloth.is_amiss` of many.
AMISS = Q(on_hand_mm__isnull=True) | Q(on_hand_mm=0) | Q(needs_mm__gt=models.F("on_hand_mm")) | ~Q(not_laid="")


class Cloth(Versioned):
    """A cloth of an order, as it lies on the shelf or is still to come."""

    class Whose(models.TextChoices):
        WORKSHOP = "workshop", "ours"
        CLIENT = "client", "the client's"

    order = models.ForeignKey("orders.Order", on_delete=models.CASCADE, related_name="cloths")
    #: The garment that it is for, where the order has several and they are not all cut from it.
    garment = models.ForeignKey("orders.Garment", on_delete=models.SET_NULL, null=True, blank=True, related_name="own_cloths")
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

    #: Not those of a garment that was put away; with `everything`, also these.
    objects = ClothManager()
    everything = models.Manager()
    told_as = OF_CLOTH

    class Meta:
        ordering = ("pk",)
        base_manager_name = "everything"
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
        """Not on the shelf, too little or not to be laid: as AMISS asks for many."""
        return not self.on_hand_mm or self.needs_mm is not None and self.needs_mm > self.on_hand_mm or bool(self.not_laid)

    @property
    def on_hand_shown(self) -> str:
        return cloth_shown(self.on_hand_mm)

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


class ClothTest(Versioned):
    """What a scrap of a cloth showed before the first stitch: needle and stitch, iron and steam, and whether it bleeds."""

    class Heat(models.TextChoices):
        COOL = "cool", "cool iron"
        WARM = "warm", "warm iron"
        HOT = "hot", "hot iron"
        NONE = "none", "no iron"

    class Steam(models.TextChoices):
        STEAM = "steam", "steam"
        DRY = "dry", "dry only"
        THROUGH = "through", "through a cloth"

    class Bleeds(models.TextChoices):
        NO = "no", "does not bleed"
        YES = "yes", "bleeds"

    cloth = models.OneToOneField(Cloth, on_delete=models.CASCADE, related_name="test")
    needle = models.CharField(max_length=40, blank=True)
    stitch = models.CharField(max_length=60, blank=True)
    heat = models.CharField(max_length=10, blank=True, choices=Heat.choices)
    steam = models.CharField(max_length=10, blank=True, choices=Steam.choices)
    bleeds = models.CharField(max_length=10, blank=True, choices=Bleeds.choices)
    note = models.CharField(max_length=160, blank=True)
    tested_on = models.DateField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+", db_index=False)

    told_as = OF_CLOTH_TEST

    def __str__(self):
        return f"test of {self.cloth.name}"

    @property
    def thing(self) -> str:
        return f"test of {self.cloth.name}"

    @property
    def of_order(self) -> int:
        return self.cloth.order_id

    @property
    def in_words(self) -> str:
        """“Needle 70 microtex, stitch 2.2. Cool iron, dry only. Bleeds.”"""
        sewing = ", ".join(filter(None, (self.needle and f"needle {self.needle}", self.stitch and f"stitch {self.stitch}")))
        pressing = ", ".join(filter(None, (self.get_heat_display(), self.get_steam_display())))
        said = filter(None, (sewing, pressing, self.get_bleeds_display(), self.note.rstrip(".")))
        return " ".join(f"{each[0].upper()}{each[1:]}." for each in said)


def cloth_shown(mm: Decimal) -> str:
    """2½ yd, or 2.3 m in a metric workshop: to the nearest eighth of a yard or tenth of a metre."""
    unit = Workshop.current().unit
    return f"{print_length(mm / 36, INCH)}\u00a0yd" if unit == INCH else f"{print_length(mm / 100, CM)}\u00a0m"
