"""One occasion, many clients: a wedding, a choir. Each has an order of their own; days, cloth and payer are shared."""

from django.db import models
from django.urls import reverse

from orders.versions import Versioned


class Party(Versioned):
    name = models.CharField(max_length=80)
    occasion_on = models.DateField(null=True, blank=True)
    cut_on = models.DateField(null=True, blank=True)
    collect_on = models.DateField(null=True, blank=True)
    #: The cloth that all are cut from: one name and width on every order, one dye lot on the shelf.
    cloth = models.CharField(max_length=60, blank=True)
    width_written = models.CharField(max_length=20, blank=True)
    width_mm = models.DecimalField(max_digits=9, decimal_places=4, null=True, blank=True)
    dye_lot = models.CharField(max_length=40, blank=True)
    note = models.TextField(max_length=1000, blank=True)
    #: Who pays where nothing else is said on an order.
    payer = models.ForeignKey("clients.Client", on_delete=models.PROTECT, null=True, blank=True, related_name="parties_paid")

    class Meta:
        ordering = ("-pk",)

    def __str__(self):
        return self.name

    def get_absolute_url(self):
        return reverse("orders:party", args=[self.pk])


class MessageText(models.Model):
    """A text of the workshop's own, to be filled in and sent by whoever presses the button."""

    title = models.CharField(max_length=60, unique=True)
    text = models.TextField(max_length=1000)

    class Meta:
        ordering = ("title",)

    def __str__(self):
        return self.title


class CutPiece(models.Model):
    """A piece that was cut at the table: ticked on a phone, of the draft that was followed."""

    garment = models.ForeignKey("orders.Garment", on_delete=models.CASCADE, related_name="cut_pieces")
    draft = models.ForeignKey("drafting.KeptDraft", on_delete=models.PROTECT, related_name="+", db_index=False)
    piece = models.CharField(max_length=80)
    at = models.DateTimeField()
    by = models.ForeignKey("workshop.Person", on_delete=models.PROTECT, related_name="+", db_index=False)

    class Meta:
        ordering = ("pk",)
        constraints = [models.UniqueConstraint(fields=["garment", "draft", "piece"], name="piece_cut_once")]

    def __str__(self):
        return self.piece
