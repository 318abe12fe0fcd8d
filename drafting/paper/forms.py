"""What is put on paper, and what the test square came to: both only asked, nothing is stored."""

from __future__ import annotations

from typing import Any

from django import forms

from drafting.linework import clean
from drafting.paper.choice import LAYERS, Choice, layers_in
from workshop.length import CM, INCH


class ChoiceForm(forms.Form):
    layer = forms.ChoiceField(label="Which layers", widget=forms.RadioSelect, required=False)
    pieces = forms.MultipleChoiceField(
        label="Which pieces", widget=forms.CheckboxSelectMultiple, required=False, help_text="All, where none is ticked."
    )
    net = forms.BooleanField(label="Without allowances", required=False, help_text="The thick line is then the sewing line.")
    opened = forms.BooleanField(label="Halves opened out", required=False, help_text="For cutting the cloth in a single layer.")

    def __init__(self, data: Any, *, result: dict[str, Any]) -> None:
        super().__init__(data if any(key in data for key in self.base_fields) else {"layer": "all"})
        self.fields["layer"].choices = [(layer, LAYERS[layer]) for layer in layers_in(result)]
        titles = [(piece, f"{piece.get('number') or ''} {clean(piece.get('title') or piece['name'])}") for piece in result["pieces"]]
        self.fields["pieces"].choices = [(piece["name"], title.strip()) for piece, title in titles]

    def choice(self) -> Choice:
        """Return what was chosen; the form must be valid."""
        said = self.cleaned_data
        return Choice(said["layer"] or "all", frozenset(said["pieces"]), not said["net"], said["opened"])


class SquareForm(forms.Form):
    square = forms.CharField(max_length=40, required=False)

    def __init__(self, data: Any, *, unit: str) -> None:
        super().__init__(data if "square" in data else None)
        side = {INCH: "4 in square", CM: "10 cm square"}.get(unit, "100 mm square")
        self.fields["square"].label = f"The {side} on the first page measures"
