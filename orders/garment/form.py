"""The form of a garment's choices, made from what its kind says can be chosen."""

from django import forms
from django.core.exceptions import ValidationError

from drafting.engine.garments import KINDS
from orders.garment.options import as_text, is_idle, rule_keys
from orders.models import Garment
from workshop.forms import LengthField, PlainForm
from workshop.house_rules import BY_KEY, BadRule
from workshop.length import INCH
from workshop.models import Workshop

RULE = "rule_"


class RuleField(forms.CharField):
    """A house rule for this garment only; blank keeps the workshop's."""

    def __init__(self, rule, workshop: Workshop, **kwargs):
        self.rule, self.unit = rule, workshop.unit
        house = workshop.house_rules.get(rule.key, "")
        stands = f"house rule: {house or rule.usual_text(workshop.unit)}"
        super().__init__(label=rule.title, required=False, max_length=24, help_text=stands, **kwargs)
        self.widget.attrs |= {"autocomplete": "off", "class": "short"}

    def clean(self, value):
        try:
            return self.rule.check(super().clean(value), self.unit)
        except BadRule as refused:
            raise ValidationError(str(refused), code="rule") from refused


class GarmentForm(PlainForm):
    """Choices as radios, lengths as texts, and the house rules that may be set for this garment alone."""

    def __init__(self, *args, garment: Garment, **kwargs):
        self.garment, self.kind = garment, KINDS[garment.kind]
        workshop = Workshop.current()
        self.base_fields = {name_of(option.key): field_of(option, garment, workshop) for option in self.kind.options}
        for key in sorted(rule_keys(self.kind) & set(BY_KEY), key=list(BY_KEY).index):
            self.base_fields[RULE + key] = RuleField(BY_KEY[key], workshop, initial=garment.rules.get(key, ""))
        super().__init__(*args, **kwargs)

    def choice_fields(self):
        """What there is to choose."""
        return [self[name] for name in self.fields if not name.startswith(RULE) and not self.is_settled(name)]

    def settled_fields(self):
        """Choices of which this kind has only one: sent along, not asked."""
        return [self[name] for name in self.fields if self.is_settled(name)]

    def is_settled(self, name: str) -> bool:
        return len(getattr(self.fields[name], "choices", ())) == 1

    def rule_fields(self):
        return [self[name] for name in self.fields if name.startswith(RULE)]

    @property
    def has_rules_to_show(self) -> bool:
        """True when a rule is set or was refused: the fold that holds them then stands open."""
        return any(self.garment.rules.values()) or any(name.startswith(RULE) for name in self.errors)

    def options(self) -> dict[str, str]:
        chosen = {}
        for option in self.kind.options:
            value = self.cleaned_data[name_of(option.key)]
            chosen[option.key] = (value.written if value else "") if option.is_length else value
        return {key: value for key, value in chosen.items() if value != "" and not is_idle(key, chosen)}

    def rules(self) -> dict[str, str]:
        rules = {name: value for name, value in self.cleaned_data.items() if name.startswith(RULE)}
        return {name.removeprefix(RULE): value for name, value in rules.items() if value != ""}


def name_of(option_key: str) -> str:
    return option_key.replace(".", "_")


def field_of(option, garment: Garment, workshop: Workshop) -> forms.Field:
    field = length_of(option, garment, workshop) if option.is_length else choice_of(option, garment)
    field.only_with = option.only_with
    return field


def length_of(option, garment: Garment, workshop: Workshop) -> LengthField:
    unit = "inches" if workshop.unit == INCH else "centimetres"
    return LengthField(
        label=option.title,
        required=False,
        initial=garment.options.get(option.key, ""),
        help_text=f"In {unit}. {option.blank}",
    )


def choice_of(option, garment: Garment) -> forms.ChoiceField:
    return forms.ChoiceField(
        label=option.title,
        choices=[(as_text(choice.value), choice.title) for choice in option.choices],
        widget=forms.RadioSelect,
        initial=garment.options.get(option.key, as_text(option.default)),
    )
