"""The fullest parts of pages, drawn by Jinja2 from templates/**/*.jinja: what takes Django's own templates eleven milliseconds takes it one.

A page stays a template of Django's, and asks for its part: `{% quickly "orders/_order.jinja" %}`. The part sees what the page sees,
escapes all that it prints, and fails where it names something that is not there.
"""

from functools import lru_cache

from django.conf import settings
from django.template.defaultfilters import capfirst, linebreaks_filter, truncatewords
from django.template.loader import render_to_string
from django.urls import get_script_prefix, reverse
from django.utils.safestring import SafeString
from jinja2 import Environment, FileSystemLoader, StrictUndefined, pass_context

from workshop.templatetags import workshop_tags as printed

quick = Environment(
    loader=FileSystemLoader(settings.BASE_DIR / "templates"),
    autoescape=True,
    undefined=StrictUndefined,
    auto_reload=False,
    trim_blocks=True,
    lstrip_blocks=True,
)


def drawn_quickly(template: str, shown: dict) -> SafeString:
    """Raises UndefinedError for a name that `shown` has not."""
    return SafeString(quick.get_template(template).render(shown))


def make_ready() -> None:
    """Read every such part, so that nobody who opens a page waits for it."""
    for template in quick.list_templates(extensions=["jinja"]):
        quick.get_template(template)


def address(name: str, *args) -> str:
    """`{{ url('orders:cloth', order.number, cloth.pk) }}`."""
    return _address(get_script_prefix(), name, args)


@lru_cache(maxsize=4096)
def _address(prefix: str, name: str, args: tuple) -> str:
    return reverse(name, args=args)


@pass_context
def by_django(context, template: str) -> SafeString:
    """`{{ by_django("orders/_refused.html") }}`: a part that few pages have, as Django draws it."""
    return render_to_string(template, context.get_all())


quick.globals |= {"url": address, "icon": printed.icon, "by_django": by_django}
quick.filters |= {name: getattr(printed, name) for name in ("day", "weekday", "short_day", "money", "in_currency", "plain_amount", "cloth", "change", "hours")}
quick.filters |= {"length_with_unit": printed.length_with_unit, "in_lengths": printed.length, "capfirst": capfirst, "linebreaks": linebreaks_filter, "truncatewords": truncatewords}
