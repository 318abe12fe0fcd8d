"""The forms of a fitting: booked or moved, missed, ended."""

from datetime import date, datetime

from django import forms
from django.utils import timezone

from orders.fields import ClockField, DayField
from orders.models import Fitting
from workshop.forms import PlainForm, ReasonField
from workshop.models import Person


class FittingForm(PlainForm):
    day = DayField(label="Day")
    time = ClockField(label="Time")
    by = forms.ModelChoiceField(
        label="Who fits", queryset=Person.objects.none(), required=False, empty_label="not settled"
    )
    note = forms.CharField(label="Note", max_length=300, required=False)
    is_toile = forms.BooleanField(label="Of the toile", required=False)

    def __init__(self, *args, fitting: Fitting | None = None, day: date | None = None, so_far=None, **kwargs):
        """`day` is one that was touched in the strip of days: it stands in the form instead of the fitting's own.

        `so_far` is what was typed before it was touched.
        """
        initial = {}
        if fitting:
            at = timezone.localtime(fitting.at)
            initial = {"day": at.date(), "time": at.time(), "by": fitting.by, "note": fitting.note, "is_toile": fitting.is_toile}
        kwargs["initial"] = (initial if so_far is None else so_far) | ({"day": day} if day else {})
        super().__init__(*args, **kwargs)
        self.fields["by"].queryset = Person.objects.filter(is_active=True).order_by("display_name")

    @property
    def at(self) -> datetime:
        return timezone.make_aware(datetime.combine(self.cleaned_data["day"], self.cleaned_data["time"]))


class MissedForm(PlainForm):
    """A client who did not come: why, when instead, and whether the promise moves along."""

    why = ReasonField(label="Why")
    day = DayField(label="Next fitting", required=False)
    time = ClockField(label="Time", required=False)
    moves = forms.BooleanField(label="Move collection by as many days", required=False, initial=True)

    def clean(self):
        given = super().clean()
        for name, other in (("day", "time"), ("time", "day")):
            if given.get(name) and not given.get(other) and other not in self.errors:
                self.add_error(other, "Write both day and time, or leave both empty.")
        return given

    @property
    def next_at(self) -> datetime | None:
        given = self.cleaned_data
        return timezone.make_aware(datetime.combine(given["day"], given["time"])) if given.get("day") else None


class FittingDoneForm(PlainForm):
    """How a fitting ended: it fits, or the client comes again, and when."""

    note = forms.CharField(label="What was found", max_length=300, required=False)
    ended = forms.ChoiceField(label="How it ended", choices=Fitting.Ended.choices, widget=forms.RadioSelect)
    day = DayField(label="Next fitting", required=False)
    time = ClockField(label="Time", required=False)

    def __init__(self, *args, today, books: bool, **kwargs):
        super().__init__(*args, **kwargs)
        self.today = today
        if not books:
            del self.fields["day"], self.fields["time"]

    def clean(self):
        given = super().clean()
        if given.get("ended") != Fitting.Ended.AGAIN or "day" not in self.fields:
            return given
        for name, missing in (("day", "Write the day of the next fitting."), ("time", "Write the time of the next fitting.")):
            if not given.get(name) and name not in self.errors:
                self.add_error(name, missing)
        if given.get("day") and given["day"] < self.today:
            self.add_error("day", "That day has been. Write the day on which the client comes again.")
        return given

    @property
    def next_at(self) -> datetime | None:
        """When the client comes again; None where it fits, or where somebody else books it."""
        given = self.cleaned_data
        if given["ended"] != Fitting.Ended.AGAIN or not given.get("day"):
            return None
        return timezone.make_aware(datetime.combine(given["day"], given["time"]))
