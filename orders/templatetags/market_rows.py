"""The lines of the market list, written out by Python: each is a form of its own, and there may be hundreds."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from typing import TYPE_CHECKING

from django import template
from django.urls import reverse
from django.utils.safestring import SafeString

from workshop.templatetags.workshop_tags import icon

if TYPE_CHECKING:
    from orders.cloth.market import Buyer, Group, Line

register = template.Library()


@register.simple_tag(takes_context=True)
def market_rows(context, group: Group) -> SafeString:
    """`{% market_rows group %}`: each line with what it comes to, for which orders, and a button that ticks it."""
    token = f'<input type="hidden" name="csrfmiddlewaretoken" value="{escape(str(context["csrf_token"]))}">'
    address, to_group = reverse("orders:market-tick"), f"#group-{escape(group.key)}"
    form = f'<form method="post" action="{address}" hx-post="{address}" hx-target="{to_group}" hx-swap="outerHTML">{token}{hidden("group", group.key)}'
    return SafeString("".join(market_row(line, form) for line in group.lines))


def market_row(line: Line, form: str) -> str:
    name = escape(line.name)
    if line.is_bought:
        way, does, more, bought = "no", f'{icon("tick")}Bought<span class="visually-hidden">: {name}. Not after all</span>', "btn-quiet", ' class="is-bought"'
    else:
        way, does, more, bought = "yes", f'Bought<span class="visually-hidden">: {name}</span>', "btn-plain", ""
    lying = f'<p class="small">{escape(line.lying)}</p>' if line.lying else ""
    button = f'{form}{hidden("line", line.name)}{hidden("orders", line.ticks)}<button class="{more}" name="bought" value="{way}">{does}</button></form>'
    return (
        f"<li{bought}>"
        f'<div class="row-text"><b>{name}</b><p>{", ".join(map(for_whom, line.numbers))}</p>{lying}</div><b class="market-total">{escape(line.total)}</b>'
        f"{button if line.ticks else ''}</li>"
    )


def for_whom(told: str) -> str:
    """An order's number, which stays in one piece, and what is to be matched."""
    number, _, note = told.partition(" ")
    return f"<span>{escape(number)}</span> {escape(note)}".rstrip()


def hidden(name: str, value: str) -> str:
    return f'<input type="hidden" name="{name}" value="{escape(value)}">'


@register.simple_tag
def undrafted_rows(orders: Iterable[Buyer]) -> SafeString:
    """`{% undrafted_rows market.undrafted %}`: whose orders are not drafted yet."""
    return SafeString("".join(undrafted_row(order) for order in orders))


def undrafted_row(order: Buyer) -> str:
    return (
        f'<li><div class="row-text"><a class="row-link" href="{order.address}"><b class="name">{escape(order.client)}</b></a>'
        f"<p>{escape(order.number)}</p></div></li>"
    )
