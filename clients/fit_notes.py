"""What was found at a fitting: amounts at named places, the client's own, for the next draft. And photographs of it."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from io import BytesIO
from typing import NamedTuple

from django.conf import settings
from django.db import models, transaction
from django.db.models.functions import Cast
from django.utils import timezone

from clients.fit_places import BOTH, BY_PLACE, PLACES, SIDES
from clients.querysets import name_of
from workshop.asked_often import AskedOften
from workshop.length import print_length

#: What a header may promise before anything is decoded: a picture is a hundred times larger unpacked than on its way.
LARGEST_PIXELS = 40_000_000
LARGEST_BYTES = 15_000_000
#: The longer side as it is kept: enough to see a drag line.
LONGEST_SIDE = 1280
FORMATS = ("JPEG", "PNG", "WEBP")


class BadPhoto(ValueError):
    """A photograph that can't be kept; str() says what it is and what to do."""


class FitNoteQuerySet(models.QuerySet):
    def newest_first(self) -> FitNoteQuerySet:
        return self.order_by("-noted_on", "-pk")

    def for_the_next_draft(self) -> FitNoteQuerySet:
        return self.filter(on=True).order_by("noted_on", "pk")

    def to_show(self) -> models.QuerySet:
        """Newest first, as values of ShownNote: whether there is a photograph and what is drawn on it, without reading the photograph."""
        photo = FitPhoto.objects.filter(note=models.OuterRef("pk"))
        told = self.annotate(
            noted_by=name_of("by"), has_photo=models.Exists(photo), drawn=Cast(models.Subquery(photo.values("marks")), models.TextField())
        )
        return told.newest_first().values_list(*ShownNote._fields)


class ShownNote(NamedTuple):
    """A note as a client's page shows it."""

    pk: int
    place: str
    side: str
    mm: Decimal
    note: str
    noted_on: date
    noted_by: str
    on: bool
    has_photo: bool
    drawn: str | None

    @property
    def is_marked(self) -> bool:
        return bool(self.drawn) and self.drawn != "[]"


class FitNote(models.Model):
    """One thing to alter: how much, where, on which side. Off, it stays to be read and goes into no draft."""

    client = models.ForeignKey("clients.Client", on_delete=models.PROTECT, related_name="fit_notes")
    place = models.CharField(max_length=20, choices=[(place.key, place.key.capitalize()) for place in PLACES])
    side = models.CharField(max_length=5, choices=SIDES, default=BOTH)
    written = models.CharField(max_length=60)
    #: Less cloth is a minus, more is a plus.
    mm = models.DecimalField(max_digits=9, decimal_places=4)
    note = models.CharField(max_length=300, blank=True)
    noted_on = models.DateField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+", db_index=False)
    on = models.BooleanField(default=True)
    switched_at = models.DateTimeField(null=True, blank=True)
    switched_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+", db_index=False
    )

    objects = FitNoteQuerySet.as_manager()

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=~models.Q(mm=0), name="fit_note_says_how_much", violation_error_message="Write how much."
            ),
        ]

    def __str__(self) -> str:
        return f"{self.place} {self.written}"

    def sentence(self, unit: str) -> str:
        return sentence(self.place, self.side, self.mm, unit)

    def as_order_file(self) -> dict[str, str]:
        return {"place": self.place, "side": self.side, "amount": f"{self.mm.normalize():f}mm"}

    @transaction.atomic
    def switch(self, *, on: bool, by) -> None:
        """Into the next draft, or out of it."""
        self.on, self.switched_by, self.switched_at = on, by, timezone.now()
        self.save(update_fields=["on", "switched_by", "switched_at"])
        tell_client(self.client)


class FitPhoto(models.Model):
    """A photograph of a fitting, as we wrote it ourselves: it lies in the database, so that each backup has it."""

    note = models.OneToOneField(FitNote, on_delete=models.CASCADE, related_name="photo")
    jpeg = models.BinaryField()
    #: What was drawn on it, kept beside it: the photograph itself stays as it was taken (marks.py).
    marks = models.JSONField(default=list, blank=True)

    def __str__(self) -> str:
        return f"photograph of {self.note_id}"


_shown = AskedOften(lambda client: FitNote.objects.filter(client=client).to_show())


def notes_shown(client) -> list[ShownNote]:
    """All notes of a client, newest first: one query."""
    return [*map(ShownNote._make, _shown(client.pk))]


def sentence(place: str, side: str, mm: Decimal | float, unit: str) -> str:
    """“Take in ¼ at the side waist, left.”, without the stop."""
    known = BY_PLACE[place]
    on_one_side = "" if side == BOTH or not known.sided else f", {side}"
    return f"{known.act(1 if mm > 0 else -1).capitalize()} {print_length(abs(mm), unit, step=16)} at the {place}{on_one_side}"


def tell_client(client) -> None:
    """Write on the client's row what the next draft gets; after each note that is added or switched."""
    client.alterations = [note.as_order_file() for note in client.fit_notes.for_the_next_draft()]
    client.save(update_fields=["alterations"])


def as_our_own(upload) -> bytes:
    """A JPEG of ours from what was sent: turned upright, made smaller, and without anything that was written beside it.

    BadPhoto, before anything is decoded, for what is too large or no picture that we read.
    """
    from PIL import Image, ImageFile, ImageOps, UnidentifiedImageError  # only here: commands that read no photograph do without

    ImageFile.LOAD_TRUNCATED_IMAGES = False  # the PDF printer turns this on for all, once it is loaded

    if upload.size > LARGEST_BYTES:
        raise BadPhoto(f"This photograph is larger than {LARGEST_BYTES // 1_000_000} MB. Send a smaller one.")
    try:
        with Image.open(upload, formats=FORMATS) as picture:
            wide, high = picture.size
            if wide * high > LARGEST_PIXELS:
                raise BadPhoto(f"This photograph has {wide} by {high} points, more than a camera takes. Send a smaller one.")
            picture.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))
            upright = ImageOps.exif_transpose(picture).convert("RGB")
    except BadPhoto:
        raise
    except Image.DecompressionBombError:
        raise BadPhoto("This photograph has more points than a camera takes. Send a smaller one.") from None
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError):
        raise BadPhoto("I can't read this as a photograph. JPEG, PNG and WebP are read; an iPhone sends JPEG when asked for “most compatible”.") from None
    upright.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
    clean = Image.new("RGB", upright.size)
    clean.paste(upright)
    kept = BytesIO()
    clean.save(kept, "JPEG", quality=82, optimize=True)
    return kept.getvalue()
