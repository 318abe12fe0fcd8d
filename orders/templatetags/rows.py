"""Rows of orders written out by Python: a page has up to fifty, and template tags in each took half of its time."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from html import escape  # as Django's, without the ceremony of texts that are translated later
from typing import TYPE_CHECKING

from django import template
from django.utils.safestring import SafeString

from orders.templatetags.tape import drawings
from workshop.templatetags.workshop_tags import icon, money, short_day

if TYPE_CHECKING:  # each template, a printed one too, loads this; these load all that drafts
    from orders.concern import Concern
    from orders.in_hand import Row

register = template.Library()


@register.simple_tag(takes_context=True)
def tape_rows(context, rows: Iterable[Row]) -> SafeString:
    """`{% tape_rows rows %}`: each order's client, garment and next act, its tape, and its day or what is in the way."""
    return SafeString("\n".join(tape_row(row, context["today"]) for row in rows))


@register.simple_tag
def flag(concern: Concern) -> SafeString:
    """`{% flag concern %}`: a word and a shape; a wait has no shape of its own."""
    shape = "" if concern.kind == "wait" else icon("alert")
    return SafeString(f'<span class="flag-{concern.kind}">{shape}{escape(concern.flag)}</span>')


@register.simple_tag
def balance(amount: Decimal | None, big: bool = False) -> SafeString:
    """`{% balance row.balance %}`: what is to pay, or that it is paid; `big=True` stands at the end of a row."""
    if amount is None:
        return SafeString('<span class="soft">no price yet</span>')
    if amount < 0:
        return SafeString(f'<span class="flag-risk">we owe {escape(money(-amount))}</span>')
    if big:
        return SafeString(f'<b>{escape(money(amount))}</b><br><span class="soft small">balance</span>' if amount else "<b>paid</b>")
    return SafeString(f"{escape(money(amount))} to pay" if amount else "paid")


def tape_row(row: Row, today: date) -> str:
    order, (tape, thin) = row.order, drawings(row.order, today)
    owed = f'<span class="soft small">{balance(row.balance)}</span>' if row.eyes.sees_money else ""
    return (
        '<li class="tape-row"><div class="tape-row-who">'
        f'<a class="row-link name" href="{escape(order.get_absolute_url())}">{escape(order.client.name)}</a> '
        f'<span class="soft small tape-row-number">{escape(order.number)}</span>'
        f'<span class="soft small tape-row-what">{escape(order.title.lower())}</span>'
        f'<span class="soft small tape-row-next">{escape(row.next)}</span></div>'
        f'<div class="tape-row-days">{tape}</div><div class="tape-row-small">{thin}</div>'
        f'<div class="tape-row-end">{end_of_row(row)}{owed}</div></li>'
    )


def end_of_row(row: Row) -> str:
    """What is in the way, else the day of collection."""
    if row.concern:
        return flag(row.concern)
    if row.order.collect_on is None:
        return '<span class="flag-wait">no day yet</span>'
    return f"<b>{escape(short_day(row.order.collect_on))}</b>"
