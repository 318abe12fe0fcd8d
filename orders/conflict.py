"""Two people changed one thing: both versions side by side, line by line, with nothing typed lost."""

from dataclasses import dataclass

from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from workshop.days import Form
from workshop.templatetags.workshop_tags import plain_day


@dataclass(frozen=True)
class Line:
    """One field: what was typed, what the other saved, and which of the two stands ticked."""

    name: str
    label: str
    typed: str
    saved: str
    typed_shown: str
    saved_shown: str
    typed_is_newer: bool
    ticks: forms.BoundField | None = None  # a field of several ticks is shown whole, as it was typed

    @property
    def differs(self) -> bool:
        return self.typed != self.saved


def lines(form: forms.Form, saved_form: forms.Form) -> list[Line]:
    """`form` holds what was typed (in `was-…`, what its page first showed); `saved_form` is the row as it is now."""
    found = []
    for name in form.fields:
        typed, saved = form[name], saved_form[name]
        if typed.is_hidden:
            continue
        if isinstance(typed.field, forms.MultipleChoiceField):
            found.append(line_of_ticks(typed, saved))
            continue
        mine, theirs = as_typed(typed), as_typed(saved)
        was = form.data.get(f"was-{name}")
        found.append(
            Line(
                name=name,
                label=typed.label,
                typed=mine,
                saved=theirs,
                typed_shown=shown(typed.field, mine),
                saved_shown=shown(typed.field, theirs),
                typed_is_newer=was is None or mine != was,
            )
        )
    return found


def line_of_ticks(typed: forms.BoundField, saved: forms.BoundField) -> Line:
    mine, theirs = (", ".join(sorted(bound.value() or [])) for bound in (typed, saved))
    words = dict(typed.field.choices)
    told = [", ".join(words.get(each, each) for each in bound.value() or []) or "nothing" for bound in (typed, saved)]
    return Line(typed.name, typed.label, mine, theirs, *told, typed_is_newer=True, ticks=typed)


def as_typed(bound: forms.BoundField) -> str:
    """The field's value as its input holds it."""
    value = bound.value()
    prepared = bound.field.prepare_value(value)
    if isinstance(bound.field.widget, forms.CheckboxInput):
        return "on" if prepared in (True, "on", "True", "1") else ""
    if isinstance(bound.field, forms.DateField | forms.TimeField):
        return bound.field.widget.format_value(prepared) or ""
    return "" if prepared is None else str(prepared).replace("\r\n", "\n")


def shown(field: forms.Field, text: str) -> str:
    if isinstance(field.widget, forms.CheckboxInput):
        return "yes" if text else "no"
    if isinstance(field, forms.ModelChoiceField) and text:
        return str(field.queryset.filter(pk=text).first() or text)
    if isinstance(field, forms.ChoiceField):
        return dict(field.choices).get(text, text) or "nothing"
    if isinstance(field, forms.DateField) and not isinstance(field, forms.TimeField) and text:
        try:
            return plain_day(field.to_python(text), Form.SHORT_WEEKDAY_DAY_YEAR)
        except forms.ValidationError:
            return text
    return text or "nothing"


def version_read(request: HttpRequest) -> int:
    """The version that the form's page showed; 0, which no row has, where it is missing or no number."""
    written = request.POST.get("version", "")
    return int(written) if written.isascii() and written.isdigit() and len(written) < 10 else 0


def page(request: HttpRequest, form: forms.Form, saved_form: forms.Form, row, order) -> HttpResponse:
    """The page that asks, line by line, which of two versions should stand. `row` is what is saved, freshly read."""
    shown = {"lines": lines(form, saved_form), "row": row, "order": order, "back": order.get_absolute_url()}
    return render(request, "orders/conflict.html", shown, status=409)
