"""The form of work given out."""

from django import forms

from orders.fields import DayField
from orders.models import OutWork
from workshop.forms import MoneyField, PlainForm


class OutWorkForm(PlainForm):
    what = forms.CharField(label="What is given out", max_length=80, help_text="Beading of the bodice, pleating, covered buttons.")
    to_whom = forms.CharField(label="To whom", max_length=80)
    gone_on = DayField(label="Gone on")
    due_back = DayField(label="Due back")
    back_on = DayField(label="Back on", required=False)
    cost = MoneyField(label="It costs us", required=False)
    paid_on = DayField(label="Paid on", required=False, help_text="Blank while it is owed.")

    def __init__(self, *args, today, out: OutWork | None = None, **kwargs):
        self.today = today
        initial = {name: getattr(out, name) for name in self.base_fields} if out else {"gone_on": today}
        if initial.get("cost") is not None:
            initial["cost"] = f"{initial['cost'].normalize():f}"
        super().__init__(*args, initial=initial, **kwargs)

    def clean(self):
        given = super().clean()
        gone, due, back, paid = (given.get(name) for name in ("gone_on", "due_back", "back_on", "paid_on"))
        if gone and due and due < gone:
            self.add_error("due_back", "That is before it goes. Write the day by which it is to be back.")
        if gone and back and back < gone:
            self.add_error("back_on", "That is before it went.")
        for name, day in (("back_on", back), ("paid_on", paid)):
            if day and day > self.today and name not in self.errors:
                self.add_error(name, "That day has not come yet. Leave it blank until it has.")
        if paid and given.get("cost") is None and "cost" not in self.errors:
            self.add_error("cost", "Write what was paid.")
        return given
