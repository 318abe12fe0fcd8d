"""The forms of the workshop's days and hours."""

from decimal import Decimal

from django import forms
from django.core.exceptions import ValidationError

from orders.dates.bench import Bench, Closed, kinds
from orders.fields import DayField
from workshop.forms import PlainForm
from workshop.days import weekday_name
from workshop.templatetags.workshop_tags import language_now

KIND = "hours_"


class NumberField(forms.CharField):
    """A plain number between limits; a comma is read as a point, and what can't be read is quoted."""

    def __init__(self, *, low, high, places: int = 2, **kwargs):
        self.low, self.high, self.places = Decimal(str(low)), Decimal(str(high)), places
        widget = forms.TextInput(attrs={"inputmode": "decimal" if places else "numeric", "autocomplete": "off", "class": "short"})
        super().__init__(**{"max_length": 12, "widget": widget} | kwargs)

    def clean(self, value) -> Decimal | None:
        text = super().clean(value)
        if not text:
            return None
        plain = text.replace(",", ".").strip()
        whole, _, part = plain.partition(".")
        if not (plain.isascii() and whole.isdigit() and (part.isdigit() or "." not in plain) and len(part) <= self.places):
            raise ValidationError(f"I can't read “{text}”. Write a number such as {self.example()}.", code="unreadable")
        number = Decimal(plain)
        if not self.low <= number <= self.high:
            raise ValidationError(f"“{text}” is outside {self.low:f} to {self.high:f}.", code="limits")
        return number

    def example(self) -> str:
        return "1.5" if self.places else f"{int(self.low) + 2}"


class BenchForm(PlainForm):
    """When the workshop sews, and how much of it."""

    open = forms.MultipleChoiceField(
        label="Open on", choices=lambda: [(str(number), weekday_name(number, language_now())) for number in range(7)], widget=forms.CheckboxSelectMultiple
    )
    hours = NumberField(label="Hours of sewing a day", low="0.5", high=16, help_text="Of one pair of hands, without fittings and errands.")
    hands = NumberField(label="Hands at the bench", low="0.25", high=12, help_text="1.5 for one who sews all day and one half of it.")
    free_days = NumberField(label="Open days between the last stitch and collection", low=0, high=10, places=0)
    lead_weeks = NumberField(label="Weeks that an order usually takes", low=0, high=52, places=0, help_text="Cloth, fittings and rest. Sooner is urgent.")
    urgent_percent = NumberField(label="Urgent work costs more, %", low=0, high=200)
    hold_days = NumberField(label="Days that a date is held without a deposit", low=1, high=90, places=0)
    kept_share = NumberField(label="Of the deposit we keep when an order is called off, %", low=0, high=100)

    def __init__(self, *args, bench: Bench, **kwargs):
        self.bench = bench
        initial = {name: shown(getattr(bench, name)) for name in self.base_fields if name != "open"}
        initial["open"] = [str(number) for number in sorted(bench.open_weekdays)]
        super().__init__(*args, initial=initial, **kwargs)
        for kind, title in kinds():
            self.fields[KIND + kind] = NumberField(
                label=f"{title}, hours", low="0.25", high=500, required=False, help_text=bench.told_of(kind),
                initial=shown(bench.kind_hours.get(kind)),
            )  # fmt: skip

    def day_fields(self):
        return [self[name] for name in ("hours", "hands", "free_days", "lead_weeks")]

    def rule_fields(self):
        return [self[name] for name in ("urgent_percent", "hold_days", "kept_share")]

    def kind_fields(self):
        return [self[name] for name in self.fields if name.startswith(KIND)]

    def values(self) -> dict:
        """The cleaned form as the bench's own."""
        given = self.cleaned_data
        plain = {name: given[name] for name in ("hours", "hands", "urgent_percent", "kept_share")}
        whole = {name: int(given[name]) for name in ("free_days", "lead_weeks", "hold_days")}
        written = {kind: given[KIND + kind] for kind, _ in kinds() if given[KIND + kind] is not None}
        return plain | whole | {"open_weekdays": frozenset(map(int, given["open"])), "kind_hours": written}


def shown(number) -> str:
    return "" if number is None else f"{Decimal(number).normalize():f}"


class ClosedForm(PlainForm):
    """A holiday: one day or many, of one year or of every year."""

    name = forms.CharField(label="What for", max_length=60)
    first = DayField(label="First day")
    last = DayField(label="Last day", required=False, help_text="Blank for a single day.")
    yearly = forms.BooleanField(label="Every year", required=False)

    def clean(self):
        given = super().clean()
        first, last = given.get("first"), given.get("last")
        if first and last and last < first:
            self.add_error("last", "That is before the first day.")
        if first and last and given.get("yearly") and (last - first).days > 180:
            self.add_error("last", "That is more than half of every year. Write the days that are closed.")
        return given

    def closed(self) -> Closed:
        given = self.cleaned_data
        return Closed(given["first"], given["last"] or given["first"], given["name"], given["yearly"])


class HoursForm(PlainForm):
    """Hours of one garment: what is planned, where it is not what its kind takes, and what it took."""

    planned = NumberField(label="Planned", low="0.25", high=500, required=False)
    taken = NumberField(label="Taken", low="0.25", high=500, required=False)
