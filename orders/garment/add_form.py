"""The form of one more garment on an order."""

from django import forms

from orders.garment.options import kind_choices
from orders.models import Garment
from workshop.forms import PlainForm

OWN, SAME = "own", "same"


class AddGarmentForm(PlainForm):
    kind = forms.ChoiceField(label="Garment", widget=forms.RadioSelect)
    title = forms.CharField(label="What it is called", max_length=60, required=False, help_text="Blank: as its kind is called.")
    begin_from = forms.ChoiceField(label="Begin from", required=False)
    cloths = forms.ChoiceField(
        label="Cut from",
        choices=[(OWN, "cloths of its own"), (SAME, "the order’s cloths, as far as they do")],
        widget=forms.RadioSelect,
        initial=OWN,
    )

    def __init__(self, *args, order, begin_from=(), **kwargs):
        """`begin_from` are the garments that the new one may begin with."""
        super().__init__(*args, **kwargs)
        self.order = order
        self.beginnings = {str(each.garment.pk): each for each in begin_from}
        self.fields["kind"].choices = kind_choices()
        self.fields["kind"].initial = kind_choices()[0][0]
        self.fields["begin_from"].choices = [("", "the house’s usual choices"), *((key, each.label) for key, each in self.beginnings.items())]
        if not self.beginnings:
            del self.fields["begin_from"]

    def clean_title(self) -> str:
        title = self.cleaned_data["title"].strip()
        if title and Garment.everything.filter(order=self.order, title__iexact=title).exists():
            raise forms.ValidationError(f"“{title}” is on this order already, or put away. Give each garment its own name.")
        return title

    def values(self) -> dict:
        """The cleaned form as `add_garment` wants it."""
        given = self.cleaned_data
        begin = self.beginnings.get(given.get("begin_from", ""))
        return {
            "kind": given["kind"],
            "title": given["title"],
            "own_cloths": given["cloths"] == OWN,
            "begin_from": begin.garment if begin else None,
        }
