"""A form's field with its label, its help and what is wrong with it, written out by Python: some forms have forty."""

from django import template
from django.forms import BoundField
from django.utils.html import conditional_escape as escape
from django.utils.safestring import SafeString

from workshop.templatetags.workshop_tags import icon

register = template.Library()


@register.simple_tag(takes_context=True)
def drawn_field(context) -> SafeString:
    """Draws the context's `field`: choices as a group, a tick before its words, anything else below its label."""
    field: BoundField = context["field"]
    if field.is_hidden:
        return SafeString(field)
    if field.use_fieldset:
        return SafeString(group(field, stacked=bool(context.get("stacked"))))
    return SafeString(tick(field) if field.widget_type == "checkbox" else below_label(field, context.get("unit")))


def group(field: BoundField, *, stacked: bool) -> str:
    described = f' aria-describedby="{field.aria_describedby}"' if field.aria_describedby else ""
    choices = "\n    ".join(
        f'<label class="choice" for="{choice.id_for_label}">{choice.tag()}<span>{escape(choice.choice_label)}</span></label>' for choice in field
    )
    return (
        f'<fieldset class="field{refused(field)}"{described}>\n  <legend class="label">{escape(field.label)}</legend>{help_of(field)}\n'
        f'  <div class="choices{" choices-stacked" if stacked else ""}">\n    {choices}\n  </div>{errors_of(field)}\n</fieldset>'
    )


def tick(field: BoundField) -> str:
    words = f'<label class="tick" for="{field.id_for_label}">{field}<span>{escape(field.label)}</span></label>'
    return f'<div class="field field-tick{refused(field)}">\n  {words}{help_of(field)}{errors_of(field)}\n</div>'


def below_label(field: BoundField, unit: str | None) -> str:
    measured = f' <span class="soft">({escape(unit)})</span>' if unit else ""
    label = f'<label class="label" for="{field.id_for_label}">{escape(field.label)}{measured}</label>'
    return f'<div class="field{refused(field)}">\n  {label}\n  {field}{errors_of(field)}{help_of(field)}\n</div>'


def refused(field: BoundField) -> str:
    return " field-refused" if field.errors else ""


def help_of(field: BoundField) -> str:
    return f'\n  <p class="help" id="{field.auto_id}_helptext">{escape(field.help_text)}</p>' if field.help_text else ""


def errors_of(field: BoundField) -> str:
    if not field.errors:
        return ""
    said = " ".join(escape(error) for error in field.errors)
    return f'\n  <p class="error" id="{field.auto_id}_error">{icon("alert")}<span>{said}</span></p>'
