"""The forms of a ticket: what is brought in, each job of it, and the workshop's price list."""

from django import forms

from clients.fit_places import BOTH, BY_PLACE, PLACES, SIDES
from orders.agreed.forms import WhoForm
from orders.fields import DayField, not_past
from orders.mending.tickets import LONGEST_MINUTES
from orders.models import Mending, Order, RepairPrice
from orders.photos import PhotoField
from workshop.forms import LengthField, MoneyField, PlainForm

OWN_WORDS = ""


class TakeInForm(WhoForm):
    brought_in = forms.CharField(label="What is brought in", max_length=120, help_text="Kind, colour, what it is known by: navy wool coat.")
    photo = PhotoField(label="Photograph it as it comes in", help_text="Damage that is there already is on it. Ring it afterwards.")
    collect_on = DayField(label="Wanted by", required=False)
    note = forms.CharField(label="Notes for the ticket", required=False, max_length=500, widget=forms.Textarea(attrs={"rows": 2}))

    def __init__(self, *args, today, **kwargs):
        self.today = today
        super().__init__(*args, **kwargs)

    def clean_collect_on(self):
        return not_past(self.cleaned_data["collect_on"], self.today)

    def values(self) -> dict:
        return {name: self.cleaned_data[name] for name in ("brought_in", "collect_on", "note", "photo")}


class MinutesField(forms.IntegerField):
    def __init__(self, **kwargs):
        widget = forms.TextInput(attrs={"inputmode": "numeric", "autocomplete": "off", "class": "short"})
        super().__init__(**{"min_value": 0, "max_value": LONGEST_MINUTES, "widget": widget, "label": "Minutes"} | kwargs)
        self.error_messages["invalid"] = "Write the minutes as a whole number: 45."


class JobForm(PlainForm):
    """One job. A line of the price list brings its words, price and minutes; what is typed goes before them."""

    on_what = forms.CharField(label="On what", max_length=60)
    line = forms.ChoiceField(label="From the price list", required=False)
    what = forms.CharField(label="In words", max_length=80, required=False)
    place = forms.ChoiceField(label="Pinned at", required=False)
    amount = LengthField(label="By how much", required=False)
    side = forms.ChoiceField(label="Where left and right differ", choices=SIDES, initial=BOTH, widget=forms.RadioSelect, required=False)
    price = MoneyField(label="Price", required=False, help_text="Blank: as the list has it.")
    minutes = MinutesField(required=False, help_text="Blank: as the list has it.")

    def __init__(self, *args, order: Order, job: Mending | None = None, sets_price: bool, **kwargs):
        self.job = job
        self.lines = {str(line.pk): line for line in RepairPrice.objects.all()}
        kwargs["initial"] = initial_of(job) if job else {"on_what": order.brought_in[:60], "side": BOTH}
        super().__init__(*args, **kwargs)
        self.fields["line"].choices = [(OWN_WORDS, "in words of our own"), *((key, line.what) for key, line in self.lines.items())]
        acts = [(f"{place.key}|{sign}", f"{place.key}, {place.acts[sign]}") for place in PLACES for sign in (0, 1)]
        self.fields["place"].choices = [("", "nothing is pinned"), *acts]
        if not self.lines:
            del self.fields["line"]
        if not sets_price:
            del self.fields["price"]

    def clean(self):
        given = super().clean()
        line = self.lines.get(given.get("line", ""))
        if not given.get("what") and "what" not in self.errors:
            if line is None:
                self.add_error("what", "Nothing says what is to be done. Choose from the list, or write it.")
            else:
                given["what"] = line.what
        if given.get("place") and not given.get("amount") and "amount" not in self.errors:
            self.add_error("amount", "Write by how much, as it is pinned.")
        if given.get("amount") and not given.get("place") and "place" not in self.errors:
            self.add_error("place", "Choose where it is pinned.")
        return given

    def values(self) -> dict:
        """The cleaned form as a Mending's fields. Without a price of its own a job keeps what it had, else the list's."""
        given = self.cleaned_data
        line, amount = self.lines.get(given.get("line", "")), given.get("amount")
        place, _, sign = given.get("place", "").partition("|")
        sided = place in BY_PLACE and BY_PLACE[place].sided
        found = {
            "on_what": given["on_what"], "what": given["what"], "place": place, "is_more": sign == "1",
            "side": given.get("side") or BOTH if sided else BOTH,
            "amount_written": amount.written if amount else "", "amount_mm": amount.mm if amount else None,
        }  # fmt: skip
        for name in ("price", "minutes"):
            usual = getattr(line, name) if line else getattr(self.job, name) if self.job else 0
            found[name] = usual if given.get(name) is None else given[name]
        return found


def initial_of(job: Mending) -> dict:
    place = f"{job.place}|{int(job.is_more)}" if job.place else ""
    found = {"on_what": job.on_what, "what": job.what, "place": place, "side": job.side, "amount": job.amount_written}
    return found | {"price": f"{job.price.normalize():f}", "minutes": job.minutes}


class LineForm(PlainForm):
    """A line of the price list."""

    what = forms.CharField(label="What", max_length=80)
    price = MoneyField(label="Price")
    minutes = MinutesField()

    def __init__(self, *args, line: RepairPrice | None = None, **kwargs):
        self.line = line
        if line:
            kwargs["initial"] = {"what": line.what, "price": f"{line.price.normalize():f}", "minutes": line.minutes}
        super().__init__(*args, **kwargs)

    def clean_what(self) -> str:
        what = self.cleaned_data["what"].strip()
        if RepairPrice.objects.filter(what__iexact=what).exclude(pk=self.line.pk if self.line else None).exists():
            raise forms.ValidationError(f"“{what}” stands on the list already. Change it there.")
        return what
