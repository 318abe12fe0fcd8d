"""The form of what a scrap of cloth told."""

from django import forms

from orders.models import Cloth, ClothTest
from workshop.forms import PlainForm

FIELDS = ("needle", "stitch", "heat", "steam", "bleeds", "note")


def choices(of) -> list[tuple[str, str]]:
    return [("", "not tried"), *of.choices]


class ClothTestForm(PlainForm):
    needle = forms.CharField(label="Needle", max_length=40, required=False, help_text="Size and point: 70 fine, 90 jeans.")
    stitch = forms.CharField(label="Stitch", max_length=60, required=False, help_text="Length and tension: 2.5, foot light.")
    heat = forms.ChoiceField(label="Iron", choices=choices(ClothTest.Heat), widget=forms.RadioSelect, required=False)
    steam = forms.ChoiceField(label="Steam", choices=choices(ClothTest.Steam), widget=forms.RadioSelect, required=False)
    bleeds = forms.ChoiceField(label="Wet, on white cloth", choices=choices(ClothTest.Bleeds), widget=forms.RadioSelect, required=False)
    note = forms.CharField(label="Also", max_length=160, required=False)

    def __init__(self, *args, cloth: Cloth, **kwargs):
        kept = getattr(cloth, "test", None)
        super().__init__(*args, initial={name: getattr(kept, name) for name in FIELDS} if kept else {}, **kwargs)

    def clean(self):
        given = super().clean()
        if not self.errors and not any(given.get(name) for name in FIELDS):
            raise forms.ValidationError("Nothing is written down yet. Write what the scrap showed.")
        return given
