"""Form fields for days, times and cloth, as a workshop writes them."""

from datetime import date

from django import forms
from django.core.exceptions import ValidationError
from django.utils import timezone

from workshop.forms import LengthField, Written
from workshop.length import INCH, parse_length
from workshop.models import Workshop
from workshop.templatetags.workshop_tags import day_of_year


class ClothLengthField(LengthField):
    """A bare number is yards, or metres in a metric workshop: cloth is not bought by the inch."""

    def clean(self, value) -> Written | None:
        written = super().clean(value)
        if written is None:
            return written
        text = with_unit(written.written, "yd" if Workshop.current().unit == INCH else "m")
        return Written(text, parse_length(text, INCH))


def with_unit(written: str, unit: str) -> str:
    """The length as written, with the unit that a bare number stands for: it must not change when the workshop's does."""
    return written if written[-1].isalpha() or written[-1] in "\"″”" else f"{written} {unit}"


class DyeLotField(forms.CharField):
    """“lot 44” is the lot 44: the word stands beside it wherever it is shown."""

    def __init__(self, **kwargs):
        super().__init__(**{"label": "Dye lot", "max_length": 40, "required": False} | kwargs)

    def to_python(self, value) -> str:
        text = super().to_python(value)
        word, _, rest = text.partition(" ")
        return rest.strip() if word.casefold().rstrip(".") == "lot" else text


EARLIEST_YEAR = 2000
YEARS_AHEAD = 10


def not_past(day: date | None, today: date) -> date | None:
    """The day that is wanted, or none; ValidationError for one that is past."""
    if day and day < today:
        raise ValidationError("That day is past. Write the day by which it is wanted.")
    return day


class DayField(forms.DateField):
    """Errors quote what was typed, so the browser's own date picker is a convenience and no more."""

    when_empty = "No day is written. Write it as 2026-03-28 or 28/03/2026."

    def __init__(self, **kwargs):
        widget = forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"})
        super().__init__(**{"widget": widget, "input_formats": ["%Y-%m-%d", "%d/%m/%Y", "%d.%m.%Y"]} | kwargs)

    def to_python(self, value):
        try:
            return super().to_python(value)
        except ValidationError as refused:
            text = f"I can't read “{str(value)[:40]}” as a day. Write it as 2026-03-28 or 28/03/2026."
            raise ValidationError(text, code="unreadable") from refused

    def validate(self, value):
        super().validate(value)
        if value is not None and not is_within_reach(value):
            text = f"I read {day_of_year(value)}. An order's days lie between {reach_in_words()}. Look at the year."
            raise ValidationError(text, code="far")


def is_within_reach(day: date) -> bool:
    """Whether a day can be one of this workshop's: a slip in the year must not reach the book."""
    return EARLIEST_YEAR <= day.year <= timezone.localdate().year + YEARS_AHEAD


def reach_in_words() -> str:
    return f"{EARLIEST_YEAR} and {timezone.localdate().year + YEARS_AHEAD}"


class ClockField(forms.TimeField):
    when_empty = "No time is written. Write it as 14:30."

    def __init__(self, **kwargs):
        widget = forms.TimeInput(format="%H:%M", attrs={"type": "time"})
        super().__init__(**{"widget": widget, "input_formats": ["%H:%M", "%H:%M:%S", "%H.%M"]} | kwargs)

    def to_python(self, value):
        try:
            return super().to_python(value)
        except ValidationError as refused:
            text = f"I can't read “{str(value)[:40]}” as a time. Write it as 14:30."
            raise ValidationError(text, code="unreadable") from refused
