"""The forms before the first cut: an enquiry, the agreed look, a change of it, a date held longer."""

from django import forms
from django.core.exceptions import ValidationError

from clients.models import Client
from orders.fields import DayField
from orders.garment.options import kind_choices
from orders.photos import PhotoField
from workshop.forms import MoneyField, PlainForm, ReasonField
from workshop.templatetags.workshop_tags import day_of_year

NEW = "new"


class WhoForm(PlainForm):
    """Somebody who is in the book, or is written into it now; a name that is there already is asked about."""

    name = forms.CharField(label="Name", max_length=120)
    phone = forms.CharField(label="Phone", max_length=40, required=False)

    def __init__(self, *args, client: Client | None = None, **kwargs):
        self.client = client
        super().__init__(*args, **kwargs)
        if client:
            del self.fields["name"], self.fields["phone"]
        if not client and self.is_bound and (same := self.namesakes()):
            choices = [*((str(each.pk), f"{each.name}, in the book since {day_of_year(each.since)}") for each in same), (NEW, "somebody else of that name")]
            self.fields["who"] = forms.ChoiceField(label="That name is in the book. Who is it?", choices=choices, widget=forms.RadioSelect)
            self.fields["who"].error_messages["required"] = "Choose one of them."

    def namesakes(self) -> list[Client]:
        return list(Client.objects.named_like(self.data.get("name", "")[:120])[:5]) if self.data.get("name", "").strip() else []

    def client_meant(self) -> Client:
        """The client it is about: known, chosen among namesakes, or written into the book now."""
        given = self.cleaned_data
        if self.client:
            return self.client
        if given.get("who", NEW) != NEW:
            return Client.objects.get(pk=given["who"])
        return Client.objects.create(name=given["name"], phone=given.get("phone", ""))


class EnquiryForm(WhoForm):
    """A minute's work: who, what is wished for, when, for how much, and a photograph."""

    wish = forms.CharField(label="The wish", max_length=2000, required=False, widget=forms.Textarea(attrs={"rows": 3}))
    kind = forms.ChoiceField(label="Garment", widget=forms.RadioSelect)
    collect_on = DayField(label="Wanted by", required=False)
    occasion_on = DayField(label="Day of the occasion", required=False)
    budget = MoneyField(label="Budget", required=False)
    photo = PhotoField()

    def __init__(self, *args, today, sees_money: bool, **kwargs):
        self.today = today
        super().__init__(*args, **kwargs)
        self.fields["kind"].choices = kind_choices()
        self.fields["kind"].initial = kind_choices()[0][0]
        if not sees_money:
            del self.fields["budget"]

    def clean_collect_on(self):
        day = self.cleaned_data["collect_on"]
        if day and day < self.today:
            raise ValidationError("That day is past. Write the day by which it is wanted.")
        return day

    def values(self) -> dict:
        given = self.cleaned_data
        return {name: given.get(name) for name in ("kind", "wish", "collect_on", "occasion_on", "budget", "photo")}


class LookForm(PlainForm):
    neck_depth = forms.CharField(label="Neck depth", max_length=60, required=False)
    length = forms.CharField(label="Finished length", max_length=60, required=False)
    shoes = forms.CharField(label="In these shoes", max_length=120, required=False, help_text="Whose, which, how high a heel.")
    swatches = forms.CharField(label="Swatches", max_length=200, required=False, help_text="Cloth, lining, thread, buttons, as on the card.")
    words = forms.CharField(label="And in words", max_length=1000, required=False, widget=forms.Textarea(attrs={"rows": 3}))
    agreed_on = DayField(label="The client said yes on", required=False, help_text="Blank while it is not agreed. With a day it stands.")
    agreed_how = forms.CharField(label="How", max_length=80, required=False, help_text="In the room, by message of that day.")

    def __init__(self, *args, today, **kwargs):
        self.today = today
        super().__init__(*args, **kwargs)

    def clean_agreed_on(self):
        day = self.cleaned_data["agreed_on"]
        if day and day > self.today:
            raise ValidationError("That day has not come yet. Write the day of the yes.")
        return day

    def clean(self):
        given = super().clean()
        if given.get("agreed_on") and not any(given.get(name) for name in ("neck_depth", "length", "swatches", "words")):
            self.add_error("agreed_on", "Nothing is written down yet to say yes to.")
        return given

    def look(self) -> dict:
        return {name: self.cleaned_data[name] for name in ("neck_depth", "length", "shoes", "swatches", "words")}


class LookChangeForm(PlainForm):
    what = ReasonField(label="What changes")
    price = MoneyField(label="It costs", required=False, help_text="Added to the price. Blank where it is given.")


class HoldForm(PlainForm):
    until = DayField(label="Hold the date until")

    def __init__(self, *args, today, **kwargs):
        self.today = today
        super().__init__(*args, **kwargs)

    def clean_until(self):
        if (day := self.cleaned_data["until"]) < self.today:
            raise ValidationError("That day is past. Write one that is to come.")
        return day
