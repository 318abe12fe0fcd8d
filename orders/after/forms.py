"""The forms of what comes after collection."""

from django import forms

from orders.fields import DayField
from orders.mending.forms import MinutesField
from orders.models import Complaint
from workshop.forms import MoneyField, PlainForm, ReasonField


class ComplaintForm(PlainForm):
    words = ReasonField(label="What is wrong", max_length=300)
    why = forms.ChoiceField(label="Whose", choices=Complaint.Why.choices, widget=forms.RadioSelect)
    to_do = ReasonField(label="What is to be done", max_length=300)
    by_when = DayField(label="By when")
    minutes = MinutesField(required=False, help_text="How long it takes, for the bench.")
    price = MoneyField(label="What is asked for it", required=False, help_text="Added to the price. Blank where it is ours to put right.")

    def __init__(self, *args, today, sets_price: bool, **kwargs):
        super().__init__(*args, **kwargs)
        self.today = today
        if not sets_price:
            del self.fields["price"]

    def clean_by_when(self):
        if (day := self.cleaned_data["by_when"]) < self.today:
            raise forms.ValidationError("That day is past. Write the day by which it is put right.")
        return day

    def values(self) -> dict:
        return self.cleaned_data | {"minutes": self.cleaned_data["minutes"] or 0}


class LeftoversForm(PlainForm):
    leftovers = ReasonField(label="What is left", max_length=200, help_text="Cloth, lace, buttons, spare beads: what is the client’s.")
    leftovers_on = DayField(label="Given back on", required=False, help_text="Blank while it lies here.")

    def __init__(self, *args, today, **kwargs):
        super().__init__(*args, **kwargs)
        self.today = today

    def clean_leftovers_on(self):
        day = self.cleaned_data["leftovers_on"]
        if day and day > self.today:
            raise forms.ValidationError("That day has not come yet. Leave it blank until it has.")
        return day
