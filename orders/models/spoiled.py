"""A piece that was spoiled and is cut again, and where it lies on what is left of its cloth. Rows are added, and stand."""

from django.conf import settings
from django.db import models
from django.db.models import Exists, OuterRef, Q, Value
from django.db.models.functions import Cast, Coalesce, Concat
from django.utils import timezone

from clients.standing import Stands
from orders.models.party import CutPiece


class SpoiledQuerySet(models.QuerySet):
    def that_count(self):
        """Without those that were not spoiled after all, and without the rows that say so."""
        return self.filter(undoes=None, undone_by=None)

    def to_cut_again(self):
        """Those of the draft that is followed that are not ticked as cut again."""
        key = Concat(Value("again "), Cast(OuterRef("pk"), models.CharField()))
        ticked = CutPiece.objects.filter(garment=OuterRef("garment"), draft=OuterRef("draft"), piece=key)
        followed = Coalesce("garment__cut_draft", "garment__draft")
        return self.that_count().filter(~Exists(ticked), draft=followed, garment__put_away_on=None)


class SpoiledPiece(models.Model):
    """Noted once it is looked up that the piece is cut again. A row that `undoes` another says that this one was wrong."""

    class How(models.TextChoices):
        WHOLE = "", "whole"
        ACROSS = "across", "in two parts, with a seam across"
        ALONG = "along", "in two parts, with a seam along the grain"
        NEW = "new", "from new cloth"

    garment = models.ForeignKey("orders.Garment", on_delete=models.CASCADE, related_name="spoiled_pieces")
    #: The draft that was cut.
    draft = models.ForeignKey("drafting.KeptDraft", on_delete=models.PROTECT, related_name="+", db_index=False)
    cloth = models.CharField(max_length=60)
    piece = models.CharField(max_length=80)
    #: Of a pair, which: in words, for the table; empty for a piece that is cut once.
    which = models.CharField(max_length=40, blank=True)
    how = models.CharField(max_length=6, choices=How.choices, blank=True)
    #: What is left of the cloth with the piece on it, as an entry of the result file's `lays[]`; none where it needs new cloth.
    lay = models.JSONField(null=True)
    #: How much new cloth it takes, mm, where it needs that and it is known.
    to_buy_mm = models.DecimalField(max_digits=10, decimal_places=4, null=True)
    #: Where it lies, in the sentences that were read.
    said = models.JSONField(default=list)
    at = models.DateTimeField(default=timezone.now)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+", db_index=False)
    undoes = models.OneToOneField("self", on_delete=models.CASCADE, null=True, blank=True, related_name="undone_by")

    objects = SpoiledQuerySet.as_manager()

    class Meta:
        ordering = ("pk",)
        constraints = [
            Stands(name="spoiled_piece_stands", violation_error_message="A spoiled piece stands as it was written."),
            models.CheckConstraint(
                condition=Q(how="new", lay__isnull=True) | Q(lay__isnull=False) & ~Q(how="new") | Q(undoes__isnull=False),
                name="spoiled_piece_has_its_place",
            ),
        ]

    def __str__(self):
        return f"{self.piece} of {self.garment_id}"

    @property
    def key(self) -> str:
        """What its tick at the cutting table is called: it may be spoiled a second time."""
        return f"again {self.pk}"  # as `to_cut_again` asks for it
