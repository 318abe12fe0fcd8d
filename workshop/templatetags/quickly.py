"""`{% quickly "orders/_order.jinja" %}`: a part of the page that Jinja2 draws, from all that the page is shown with."""

from django import template
from django.utils.html import format_html
from django.utils.safestring import SafeString

from workshop.drawn_quickly import drawn_quickly

register = template.Library()


@register.simple_tag(takes_context=True)
def quickly(context, name: str) -> SafeString:
    csrf = format_html('<input type="hidden" name="csrfmiddlewaretoken" value="{}">', context["layout"].token)
    return drawn_quickly(name, context.flatten() | {"csrf": csrf})
