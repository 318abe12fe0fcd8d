"""The forms of prices: the workshop's rules, a line set by hand, a quote, the days of instalments."""

from decimal import Decimal

from django import forms
from django.core.exceptions import ValidationError

from orders.dates.bench_forms import NumberField, shown
from orders.fields import DayField
from orders.money.instalments import MOST
from orders.money.rules import CLOTHS, STEPS, THINGS, PriceRules
from workshop.forms import MoneyField, PlainForm, ReasonField
from workshop.money import CURRENCIES, as_typed

THING, CLOTH, LINE = "thing_", "cloth_", "line_"


class Percent(Decimal):
    """So much of every hundred."""


class MoneyOrPercentField(MoneyField):
    """An amount, or “25%” as a Percent for the form to reckon with."""

    def clean(self, value) -> Decimal | None:
        share, sign, rest = (value or "").strip().partition("%")
        if not sign or rest:
            return super().clean(value)
        return Percent(NumberField(low=0, high=100).clean(share))


class RulesForm(PlainForm):
    """What an hour, a yard and a zip cost here, and what the workshop's papers say."""

    hourly = MoneyField(label="An hour of work", required=False)
    overhead_percent = NumberField(label="Overhead, % of the work", low=0, high=500, help_text="Rent, light, machines: what runs on beside the hours.")
    margin_percent = NumberField(label="Margin, % of all that an order costs", low=0, high=500)
    round_to = forms.ChoiceField(label="Prices go up to a multiple of", required=False)
    fitting_hours = NumberField(label="Hours of one fitting", low=0, high=8)
    deposit_percent = NumberField(label="Deposit, % of the price", low=0, high=100, help_text="Half is usual.")
    quote_days = NumberField(label="Days that a quote is good for", low=1, high=365, places=0)
    keeps_once_cut = forms.BooleanField(label="Nothing that was paid is given back once the cloth is cut", required=False)
    first = NumberField(label="Not collected: first word after, days", low=1, high=365, places=0)
    second = NumberField(label="Keeping it costs after, days", low=1, high=730, places=0)
    last = NumberField(label="It may be sold after, days", low=1, high=3650, places=0)
    storage = MoneyField(label="Keeping it costs, a week", required=False)
    terms = forms.CharField(
        label="Terms, one a line", max_length=2000, required=False, widget=forms.Textarea(attrs={"rows": 6}),
        help_text="{first}, {second}, {last} and {storage} are filled in from above.",
    )  # fmt: skip

    def __init__(self, *args, rules: PriceRules, currency: str, by_what: str, **kwargs):
        names = ("hourly", "storage", "overhead_percent", "margin_percent", "fitting_hours", "deposit_percent", "quote_days")
        initial = {name: shown(getattr(rules, name)) for name in names}
        initial |= dict(zip(("first", "second", "last"), rules.uncollected, strict=True))
        initial |= {"round_to": rules.round_to, "keeps_once_cut": rules.keeps_once_cut, "terms": "\n".join(rules.terms)}
        super().__init__(*args, initial=initial, **kwargs)
        sign = CURRENCIES[currency].sign
        self.fields["round_to"].choices = [(step, f"{sign}{step}" if step else "no step: as it comes") for step in STEPS]
        for key, (name, by) in THINGS.items():
            said = f"a {by_what}" if by == "a length" else by
            self.fields[THING + key] = MoneyField(label=f"{name}, {said}", required=False, initial=as_typed(rules.things.get(key)))
        for key, name in CLOTHS.items():
            self.fields[CLOTH + key] = MoneyField(label=f"{name}, a {by_what}", required=False, initial=as_typed(rules.cloths.get(key)))

    def clean(self):
        given = super().clean()
        first, second, last = (given.get(name) for name in ("first", "second", "last"))
        if None not in (first, second, last) and not first < second < last:
            self.add_error("second", "The three days come one after the other: 7, 30, 90.")
        return given

    def work_fields(self):
        return [self[name] for name in ("hourly", "fitting_hours", "overhead_percent", "margin_percent", "round_to")]

    def thing_fields(self):
        return [self[name] for name in self.fields if name.startswith(THING)]

    def cloth_fields(self):
        return [self[name] for name in self.fields if name.startswith(CLOTH)]

    def paper_fields(self):
        return [self[name] for name in ("deposit_percent", "quote_days", "first", "second", "last", "storage")]

    def values(self) -> dict:
        given = self.cleaned_data
        names = ("hourly", "storage", "overhead_percent", "margin_percent", "round_to", "fitting_hours", "deposit_percent", "keeps_once_cut")
        return {name: given[name] for name in names} | {
            "quote_days": int(given["quote_days"]),
            "uncollected": tuple(int(given[name]) for name in ("first", "second", "last")),
            "terms": tuple(line.strip() for line in given["terms"].splitlines() if line.strip()),
            "things": {key: given[THING + key] for key in THINGS if given[THING + key] is not None},
            "cloths": {key: given[CLOTH + key] for key in CLOTHS if given[CLOTH + key] is not None},
        }


def read_amounts(typed: dict[str, str]) -> tuple[dict[str, Decimal | None], list[str]]:
    """What was typed on the lines of a price, by their keys; and a sentence for each that can't be read."""
    field, amounts, refused = MoneyField(required=False), {}, []
    for key, text in typed.items():
        try:
            amounts[key] = field.clean(text)
        except ValidationError as error:
            refused += error.messages
    return amounts, refused


class OwnLineForm(PlainForm):
    label = forms.CharField(label="What", max_length=80)
    amount = MoneyField(label="Amount")
    part = forms.ChoiceField(label="It is", choices=[("own", "besides"), ("cloth", "cloth")], widget=forms.RadioSelect, initial="own")


class QuoteForm(PlainForm):
    last_day = DayField(label="Good until")
    deposit = MoneyField(label="Deposit to ask for", required=False, help_text="Blank: by the house rule.")

    def __init__(self, *args, today, **kwargs):
        self.today = today
        super().__init__(*args, **kwargs)

    def clean_last_day(self):
        if (day := self.cleaned_data["last_day"]) < self.today:
            raise ValidationError("That day is past. Write the last day on which the price holds.")
        return day


class TakeBackForm(PlainForm):
    why = ReasonField(label="Why")


class InstalmentsForm(PlainForm):
    """Days and amounts, a row each; rows left empty are none."""

    def __init__(self, *args, parts, **kwargs):
        super().__init__(*args, **kwargs)
        self.places = range(1, min(max(len(parts) + 2, 4), MOST) + 1)
        if self.is_bound:
            self.places = range(1, MOST + 1)
        for place in self.places:
            day, amount = parts[place - 1] if place <= len(parts) else (None, None)
            self.fields[f"on_{place}"] = DayField(label=f"Day {place}", required=False, initial=day)
            self.fields[f"amount_{place}"] = MoneyField(label=f"Amount {place}", required=False, initial=as_typed(amount))

    def rows(self):
        return [(self[f"on_{place}"], self[f"amount_{place}"]) for place in self.places]

    def clean(self):
        given = super().clean()
        for place in self.places:
            day, amount = given.get(f"on_{place}"), given.get(f"amount_{place}")
            if (day is None) != (amount is None) and not {f"on_{place}", f"amount_{place}"} & set(self.errors):
                self.add_error(f"on_{place}" if day is None else f"amount_{place}", "A part has a day and an amount. Write both, or neither.")
        return given

    def parts(self) -> list:
        given = self.cleaned_data
        rows = ((given.get(f"on_{place}"), given.get(f"amount_{place}")) for place in self.places)
        return [(day, amount) for day, amount in rows if day is not None]
