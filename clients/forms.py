"""What is typed about a client, about a measuring and about a correction."""

from __future__ import annotations

from datetime import date

from django import forms
from django.core.exceptions import ValidationError
from django.utils import timezone

from clients.models import Client, Measuring, Reading, read_length
from workshop.forms import PlainForm, PlainModelForm, ReasonField
from workshop.length import UnreadableLength

EARLIEST = date(1900, 1, 1)
MOST_WEEKS = 44


class DayField(forms.DateField):
    """A day that has been: not to come, and within living memory."""

    def __init__(self, **kwargs):
        widget = forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")
        unreadable = {"invalid": "I can't read this day. Write it as 2026-03-12."}
        super().__init__(widget=widget, error_messages=unreadable, **kwargs)

    def validate(self, value):
        super().validate(value)
        if value and value > timezone.localdate():
            raise ValidationError("This day is still to come. Write the day it happened.", code="to_come")
        if value and value < EARLIEST:
            raise ValidationError("This day is too long ago. Look at the year.", code="too_early")


class ClientForm(PlainModelForm):
    """A name alone is enough. `second` says that a name already in the book is another person's."""

    consent_on = DayField(
        required=False,
        label="Agreed to be kept on file",
        help_text="The day the client agreed that the workshop keeps these notes and measures.",
    )
    born_on = DayField(required=False, label="Born on", help_text="Of those who are still growing: says when to measure again.")
    second = forms.BooleanField(required=False, widget=forms.HiddenInput)

    class Meta:
        model = Client
        fields = ["name", "phone", "note", "consent_on", "born_on", "to_let_down"]
        labels = {"name": "Name", "phone": "Phone", "note": "Note", "to_let_down": "Tucks and deep hems"}
        help_texts = {
            "name": "First name first, as the client says it.",
            "note": "How to reach them, what to mind. Not for measures.",
            "to_let_down": "What their garments have left: hem of the blue one 3 in, two tucks of ½ in. Shown when it is time to measure.",
        }
        widgets = {
            "name": forms.TextInput(attrs={"autocomplete": "off", "autocapitalize": "words"}),
            "phone": forms.TextInput(attrs={"type": "tel", "autocomplete": "off"}),
            "note": forms.Textarea(attrs={"rows": 3}),
        }

    def clean_name(self) -> str:
        return " ".join(self.cleaned_data["name"].split())

    def clean_phone(self) -> str:
        phone = " ".join(self.cleaned_data["phone"].split())
        if phone and not any(c.isdigit() for c in phone):
            raise ValidationError(
                "I can't read “%(phone)s” as a number: it has no digits. Other ways to reach them go in the note.",
                code="no_digits",
                params={"phone": phone},
            )
        return phone

    def namesake(self) -> Client | None:
        """Somebody in the book with this name, unless it was said that this is another person."""
        if self.cleaned_data.get("second") or not self.cleaned_data.get("name"):
            return None
        return Client.objects.named_like(self.cleaned_data["name"]).exclude(pk=self.instance.pk).first()

    def save(self, commit: bool = True) -> Client:
        """Save the fields shown here and their folded copies, and no others."""
        client = super().save(commit=False)
        if client._state.adding:
            client.save(force_insert=True)
        else:
            client.save(update_fields=["name", "phone", "note", "consent_on", "born_on", "to_let_down", "name_folded", "phone_digits"])
        return client


class MeasuringForm(PlainModelForm):
    """The day, what was worn and how the client stood."""

    taken_on = DayField(label="Taken on")

    class Meta:
        model = Measuring
        fields = ["worn", "shoes", "posture", "note", "weeks", "taken_on"]
        labels = {
            "worn": "Worn underneath", "shoes": "Shoes", "posture": "How they stood", "note": "Note",
            "weeks": "Weeks of pregnancy",
        }  # fmt: skip
        help_texts = {
            "worn": "Bra or padding: the same must be worn at fittings.",
            "shoes": "Heel height, for lengths to the floor.",
            "posture": "One shoulder low, sway back, weight on one leg.",
            "weeks": "Then measure at every visit, and keep deep side seams.",
        }
        widgets = {
            "note": forms.Textarea(attrs={"rows": 2}),
            "weeks": forms.TextInput(attrs={"inputmode": "numeric", "class": "short", "autocomplete": "off"}),
        }

    def clean_weeks(self) -> int | None:
        weeks = self.cleaned_data["weeks"]
        if weeks is not None and not 1 <= weeks <= MOST_WEEKS:
            raise ValidationError(f"“{weeks}” is outside 1 to {MOST_WEEKS} weeks. Write it again, or leave it empty.", code="weeks")
        return weeks


class CorrectionForm(PlainForm):
    """Another length for one reading, or word that it had not been taken; and why, in either case."""

    written = forms.CharField(max_length=60, required=False, strip=True, label="It should be")
    take_out = forms.BooleanField(required=False, label="Take it out: this was not measured")
    why = ReasonField(
        label="Why",
        help_text="Read the wrong side of the tape, written in the wrong row.",
    )
    why.when_empty = "Say why it is put right. A few words are enough."

    def __init__(self, *args, reading: Reading, unit: str, **kwargs):
        super().__init__(*args, **kwargs)
        self.reading = reading
        self.unit = unit

    def clean(self):
        cleaned = super().clean()
        if cleaned.get("take_out") or "written" not in cleaned:
            return cleaned
        try:
            mm = read_length(cleaned["written"], self.unit)
        except UnreadableLength as error:
            self.add_error("written", ValidationError(str(error), code="unreadable"))
        else:
            if mm == self.reading.mm:
                said = f"“{cleaned['written']}” is what stands already. Write what it should be."
                self.add_error("written", ValidationError(said, code="the_same"))
        return cleaned
