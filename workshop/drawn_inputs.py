"""Inputs of forms written out by Python: a garment's form has sixty, and a template for each took a third of its page."""

from django.forms.renderers import TemplatesSetting
from django.utils.html import conditional_escape

WIDGETS = "django/forms/widgets"
#: Django's templates that hold one `<input>` and nothing else.
INPUTS = frozenset(f"{WIDGETS}/{name}.html" for name in ("checkbox", "date", "email", "hidden", "input", "number", "password", "text", "time"))
OPTIONS = frozenset(f"{WIDGETS}/{name}.html" for name in ("checkbox_option", "radio_option"))


class InputsByPython(TemplatesSetting):
    """As Django draws forms from templates, the plain inputs aside; `tests/workshop/test_drawn_inputs.py` compares both."""

    def render(self, template_name: str, context: dict, request=None) -> str:
        widget = context.get("widget")
        if template_name in INPUTS or template_name in OPTIONS and not widget.get("wrap_label"):
            return drawn(widget)
        return super().render(template_name, context, request=request)


def drawn(widget: dict) -> str:
    value = widget["value"]
    written = "" if value is None else f' value="{conditional_escape(value)}"'
    attributes = "".join(attribute(name, said) for name, said in widget["attrs"].items())
    return f'<input type="{conditional_escape(widget["type"])}" name="{conditional_escape(widget["name"])}"{written}{attributes}>'


def attribute(name: str, said) -> str:
    if said is False:
        return ""
    return f" {conditional_escape(name)}" if said is True else f' {conditional_escape(name)}="{conditional_escape(said)}"'
