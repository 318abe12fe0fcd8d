"""The lines of a price, written out by Python: an order of two garments has forty."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from typing import TYPE_CHECKING

from django import template
from django.utils.safestring import SafeString

from workshop.templatetags.workshop_tags import money

if TYPE_CHECKING:
    from orders.money.costing import Line

register = template.Library()


@register.simple_tag
def cost_rows(lines: Iterable[tuple[Line, str]], with_boxes: bool) -> SafeString:
    """`{% cost_rows lines order.is_open %}`: what each line is, how it comes about and what it is; and a box to overrule it."""
    return SafeString("".join(cost_row(line, typed, with_boxes) for line, typed in lines))


def cost_row(line: Line, typed: str, with_box: bool) -> str:
    key, how = escape(line.key), f'<span class="soft small">{escape(line.how)}</span>' if line.how else ""
    box = (
        f'<input class="cost-hand" id="line-{key}" name="line_{key}" inputmode="decimal" autocomplete="off" maxlength="30" '
        f'value="{escape(typed)}" placeholder="by hand">'
    )
    return (
        f'<li><label class="row-text" for="line-{key}"><b>{escape(line.label)}</b>{how}{flag_of(line)}</label>'
        f'<b class="cost-sum">{"–" if line.is_missing else money(line.amount)}</b>{box if with_box else ""}</li>'
    )


def flag_of(line: Line) -> str:
    if line.by_hand and not line.is_own:
        was = f"; worked out: {money(line.was)}" if line.was is not None else ""
        return f'<span class="by-hand small">by hand{was}</span>'
    return '<span class="flag-wait">no price yet</span>' if line.is_missing else ""
