"""What every form of ours is made from: plain words, and the fields that read lengths and money.

Every form of ours is a PlainForm: it says in plain words what is missing, quotes what was typed,
and puts the cursor into the first field to be put right.
"""

from decimal import Decimal
from typing import NamedTuple

from django import forms
from django.core.exceptions import ValidationError

from workshop.length import INCH, UnreadableLength, parse_length
from workshop.models import Workshop
from workshop.money import UnreadableAmount, parse_money


class PlainWords:
    """Messages in the workshop's words, for any form."""

    def __init__(self, *args, **kwargs):
        kwargs.setdefault("label_suffix", "")
        super().__init__(*args, **kwargs)
        for name, field in self.fields.items():
            label = str(field.label or name.replace("_", " ").capitalize())
            many = isinstance(field, (forms.ChoiceField, forms.ModelChoiceField))
            empty = f"{label}: choose one." if many else f"{label} is empty. Write it here."
            field.error_messages["required"] = getattr(field, "when_empty", None) or empty
            told = label.replace("%", "%%")  # these messages are filled in, so that a % of the label's own is doubled
            field.error_messages["invalid_choice"] = f"{told}: choose one of those shown."
            field.error_messages["max_value"] = f"{told}: I read %(show_value)s. Write %(limit_value)s or less."
            field.error_messages["min_value"] = f"{told}: I read %(show_value)s. Write %(limit_value)s or more."

    def full_clean(self):
        super().full_clean()
        if not self.errors:
            return
        for field in self.fields.values():
            field.widget.attrs.pop("autofocus", None)
        first = next((name for name in self.fields if name in self.errors), None)
        if first:
            self.fields[first].widget.attrs["autofocus"] = True


class PlainForm(PlainWords, forms.Form):
    """A form in the workshop's words."""


class PlainModelForm(PlainWords, forms.ModelForm):
    """A form for one row, in the workshop's words."""


class Written(NamedTuple):
    """A length as it was written, and the exact millimetres."""

    written: str
    mm: Decimal


class LengthField(forms.CharField):
    """Cleans to Written (or None when left empty); a bare number is in the workshop's unit."""

    def __init__(self, *, unit: str | None = None, signed: bool = False, **kwargs):
        self.unit, self.signed = unit, signed
        kwargs.setdefault("max_length", 60)
        kwargs.setdefault(
            "widget", forms.TextInput(attrs={"inputmode": "text", "autocomplete": "off", "class": "short"})
        )
        super().__init__(**kwargs)

    def clean(self, value) -> Written | None:
        text = super().clean(value)
        if not text:
            return None
        workshop = Workshop.current()
        unit = self.unit or (workshop.unit if workshop else INCH)
        try:
            return Written(text, parse_length(text, unit, signed=self.signed))
        except UnreadableLength as refusal:
            raise ValidationError(str(refusal), code="unreadable") from None


class ReasonField(forms.CharField):
    """A few words that say why. Without a letter or a figure in it nothing is said, and it counts as left empty."""

    def __init__(self, **kwargs):
        super().__init__(**{"max_length": 200} | kwargs)

    def to_python(self, value) -> str:
        text = super().to_python(value)
        return text if any(character.isalnum() for character in text) else ""


class MoneyField(forms.CharField):
    """Cleans to a Decimal in the workshop's currency, or another that is named, or None when left empty."""

    def __init__(self, *, currency: str = "", **kwargs):
        self.currency = currency
        kwargs.setdefault("max_length", 30)
        kwargs.setdefault(
            "widget", forms.TextInput(attrs={"inputmode": "decimal", "autocomplete": "off", "class": "short"})
        )
        super().__init__(**kwargs)

    def clean(self, value) -> Decimal | None:
        text = super().clean(value)
        if not text:
            return None
        workshop = Workshop.current()
        try:
            return parse_money(text, self.currency or (workshop.currency if workshop else "GBP"))
        except UnreadableAmount as refusal:
            raise ValidationError(str(refusal), code="unreadable") from None
