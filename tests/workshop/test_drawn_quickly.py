"""Parts of pages that Jinja2 draws: they escape as Django's do, and a slip in a name is a fault, never a gap."""

import pytest
from django.template import Context, Template
from django.utils.safestring import SafeString
from jinja2 import UndefinedError

from workshop.drawn_quickly import by_django, drawn_quickly, make_ready, quick


def drawn(source: str, **shown) -> str:
    return quick.from_string(source).render(shown)


def test_every_part_can_be_read():
    make_ready()
    assert [name for name in quick.list_templates(extensions=["jinja"]) if name not in {key[1] for key in quick.cache}] == []


def test_what_is_printed_is_escaped_as_django_does():
    name = "<b>Wool & Sons' “best”</b>"
    assert drawn("{{ name }}|{{ name|lower }}|{{ safe }}", name=name, safe=SafeString("<i>")).replace("&#39;", "&#x27;") == Template(
        "{{ name }}|{{ name|lower }}|{{ safe }}"
    ).render(Context({"name": name, "safe": SafeString("<i>")}))
    assert drawn("{{ note|linebreaks }}", note="a <b>\nc") == "<p>a &lt;b&gt;<br>c</p>"


@pytest.mark.parametrize("source", ["{{ nmae }}", "{{ shown.nmae }}", "{% if nmae %}x{% endif %}", "{% for each in nmae %}x{% endfor %}"])
def test_a_name_that_is_not_there_is_a_fault(source):
    with pytest.raises(UndefinedError):
        drawn(source, shown=object())


def test_a_part_of_djangos_sees_what_the_part_around_it_sees():
    seen = quick.from_string('{{ by_django("orders/_refused.html") }}').render(by_django=by_django, page={"garments": [{"refused": ["Bust < waist."]}]})
    assert "Bust &lt; waist." in seen
    assert isinstance(drawn_quickly("orders/_stages.jinja", {"page": {"stages": []}}), SafeString)
