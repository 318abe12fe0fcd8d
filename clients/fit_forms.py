"""What is noted at a fitting."""

from __future__ import annotations

from django import forms
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from clients.fit_notes import BadPhoto, FitNote, FitPhoto, as_our_own, tell_client
from clients.fit_places import BOTH, BY_PLACE, PLACES, SIDES, SIGNS
from clients.forms import DayField
from clients.models import Client
from workshop.forms import LengthField, PlainForm
from workshop.length import MM_PER

#: More than this is not a fitting, it is another garment.
MOST_MM = 8 * MM_PER["in"]


class FitNoteForm(PlainForm):
    """How much, where, on which side; with a photograph, or without."""

    act = forms.ChoiceField(choices=[(act, act.capitalize()) for act in SIGNS], label="What to do")
    amount = LengthField(label="How much", max_length=30)
    place = forms.ChoiceField(choices=[(place.key, place.key.capitalize()) for place in PLACES], label="Where")
    side = forms.ChoiceField(choices=SIDES, initial=BOTH, label="Side", widget=forms.RadioSelect)
    note = forms.CharField(max_length=300, required=False, label="Note", help_text="Gapes when seated, drags from the bust point.")
    noted_on = DayField(label="Fitting on", initial=timezone.localdate)
    photo = forms.FileField(
        required=False,
        label="Photograph",
        help_text="Kept smaller, without place and time. Take it from the neck down.",
        widget=forms.FileInput(attrs={"accept": "image/jpeg,image/png,image/webp"}),
    )

    def clean_amount(self):
        amount = self.cleaned_data["amount"]
        if amount.mm <= 0 or amount.mm > MOST_MM:
            said = f"“{amount.written}” is not what a fitting alters. Write a length above 0 and up to 8 in (20 cm)."
            raise ValidationError(said, code="amount")
        return amount

    def clean_photo(self) -> bytes | None:
        upload = self.cleaned_data["photo"]
        if not upload:
            return None
        try:
            return as_our_own(upload)
        except BadPhoto as refused:
            raise ValidationError(str(refused), code="photo") from None

    def clean(self):
        cleaned = super().clean()
        place, act = BY_PLACE.get(cleaned.get("place")), cleaned.get("act")
        if place and act and act not in place.acts:
            less, more = place.acts
            self.add_error("act", ValidationError(f"At the {place.key}: {less} or {more}.", code="act"))
        return cleaned

    @transaction.atomic
    def save(self, *, client: Client, by) -> FitNote:
        given = self.cleaned_data
        sided = BY_PLACE[given["place"]].sided
        note = FitNote.objects.create(
            client=client, by=by, place=given["place"], side=given["side"] if sided else BOTH,
            written=given["amount"].written, mm=SIGNS[given["act"]] * given["amount"].mm,
            note=given["note"], noted_on=given["noted_on"],
        )  # fmt: skip
        if given["photo"]:
            FitPhoto.objects.create(note=note, jpeg=given["photo"])
        tell_client(client)
        return note
