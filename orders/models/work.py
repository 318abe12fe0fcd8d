"""What is made for an order: its garments, and the fittings on the way."""

from datetime import date, datetime

from django.conf import settings
from django.db import models
from django.utils import timezone
from django.utils.functional import cached_property

from orders.noting import OF_FITTING, OF_GARMENT
from orders.querysets import FittingQuerySet, GarmentManager, GarmentQuerySet
from orders.stages import NotNow
from orders.versions import Versioned


SIGN_OFF = ("signed_off_by", "signed_off_at", "cut_despite", "why_cut")


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
    was_cut_on = models.DateField(null=True, blank=True)
    # The owner's word that it may be cut, for the draft that stands; taken back by whatever changes it.
    signed_off_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+", db_index=False
    )
    signed_off_at = models.DateTimeField(null=True, blank=True)
    # What spoke against cutting it when it was signed off all the same, in flags that name no money, and the owner's reason.
    cut_despite = models.CharField(max_length=300, blank=True)
    why_cut = models.CharField(max_length=200, blank=True)
    #: When it was put away: it is not made after all, and what was chosen for it is kept.
    put_away_on = models.DateField(null=True, blank=True)
    #: Hours of sewing: planned, where it is more or less than its kind usually takes; taken, once it is sewn.
    hours_planned = models.DecimalField(max_digits=5, decimal_places=2, null=True, blank=True)
    hours_taken = models.DecimalField(max_digits=5, decimal_places=2, null=True, blank=True)
    # When it was found to fit well: the next garment of its kind can start from its choices and house rules.
    fitted_well_on = models.DateField(null=True, blank=True)
    # The garment whose choices and house rules this one began with.
    started_from = models.ForeignKey("self", on_delete=models.SET_NULL, null=True, blank=True, related_name="+")

    #: Those that are made; with `everything`, also those that were put away.
    objects = GarmentManager.from_queryset(GarmentQuerySet)()
    everything = GarmentQuerySet.as_manager()
    told_as = OF_GARMENT

    class Meta:
        ordering = ("pk",)
        base_manager_name = "everything"
        indexes = [models.Index(fields=["title", "put_away_on", "order"], name="garment_to_find")]

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

    @property
    def called(self) -> str:
        """“S-014”, or “S-014 Skirt” where the order has several garments."""
        return str(self) if self.order.garments.count() > 1 else self.order.number

    @property
    def is_signed_off(self) -> bool:
        return self.signed_off_by_id is not None

    @property
    def may_be_signed_off(self) -> bool:
        """Only a draft that passed its checks is signed off: a wrong piece is never let through."""
        return self.cut_draft_id is None and not self.is_signed_off and self.draft_id is not None and self.draft_passed

    def note_sign_off(self, *, by, at: datetime, despite: str = "", why: str = "") -> None:
        self.signed_off_by, self.signed_off_at = by, at
        self.cut_despite, self.why_cut = despite[:300], why.strip()[:200]
        self.keep(*SIGN_OFF, by=by)

    def withdraw_sign_off(self, *, by) -> bool:
        """It has changed since: the owner must look again before it is cut. False where there was nothing to withdraw."""
        if not self.is_signed_off or self.cut_draft_id:
            return False
        self.signed_off_by = self.signed_off_at = None
        self.cut_despite = self.why_cut = ""
        self.keep(*SIGN_OFF, by=by)
        return True

    @cached_property
    def all_spoiled(self) -> list:
        """Its spoiled pieces, of every draft, without those that were none after all."""
        return list(self.spoiled_pieces.that_count())

    def refuse_if_cut(self) -> None:
        if self.cut_draft_id:
            raise NotNow(f"{self.order.number} {self.title} is cut. What it was cut from stays as it was.")


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
    #: Of the toile, before the cloth is cut.
    is_toile = models.BooleanField(default=False)
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
