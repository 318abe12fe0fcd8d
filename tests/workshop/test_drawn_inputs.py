"""Inputs written out by Python read the same as those of Django's own templates."""

import pytest
from django import forms
from django.forms.renderers import TemplatesSetting

from workshop.drawn_inputs import InputsByPython

CHOICES = [("a", "A <b>"), ("b", "B"), ("", "neither")]
FIELDS = {
    "text": forms.CharField(max_length=24, help_text="short"),
    "named": forms.CharField(widget=forms.TextInput(attrs={"class": "short", "placeholder": '"><script>', "data-off": False, "autofocus": True})),
    "number": forms.IntegerField(min_value=0),
    "day": forms.DateField(widget=forms.DateInput(attrs={"type": "date"})),
    "secret": forms.CharField(widget=forms.PasswordInput),
    "hidden": forms.CharField(widget=forms.HiddenInput),
    "tick": forms.BooleanField(required=False),
    "one": forms.ChoiceField(choices=CHOICES, widget=forms.RadioSelect),
    "some": forms.MultipleChoiceField(choices=CHOICES, widget=forms.CheckboxSelectMultiple),
    "listed": forms.ChoiceField(choices=CHOICES),
    "long": forms.CharField(widget=forms.Textarea),
}
WRITTEN = {"text": "5 < 6 & “7”", "named": "'", "number": "x", "day": "2026-03-12", "hidden": "", "tick": "on", "one": "b", "some": ["a", ""], "long": "<"}


def drawn(renderer, name: str, data: dict | None) -> list[str]:
    field = type("Form", (forms.Form,), dict(FIELDS))(data, renderer=renderer)[name]
    return [str(field), *(choice.tag() for choice in field if hasattr(choice, "tag"))]


@pytest.mark.parametrize("name", FIELDS)
@pytest.mark.parametrize("data", [None, WRITTEN], ids=["empty", "written"])
def test_an_input_reads_as_by_a_template(name, data):
    assert [same(each) for each in drawn(InputsByPython(), name, data)] == [same(each) for each in drawn(TemplatesSetting(), name, data)]


def same(html: str) -> str:
    return " ".join(html.split())


def test_what_is_typed_can_not_leave_its_quotes():
    assert "<script>" not in drawn(InputsByPython(), "named", None)[0]
