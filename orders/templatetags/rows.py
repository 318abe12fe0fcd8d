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
from workshop.templatetags.workshop_tags import icon, money, short_day, weekday

if TYPE_CHECKING:  # each template, a printed one too, loads this; these load all that drafts
    from orders.concern import Concern
    from orders.dates.calendar import CalendarDay
    from orders.in_hand import Row
    from orders.light import LightFitting, LightOrder
    from orders.models import Order

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


@register.simple_tag
def mark_counts(day, with_one: bool = True) -> SafeString:
    """How many fittings, cuttings and collections a day holds, each after its mark; a single one may go unsaid."""
    counted = (("fitting", day.fittings), ("to-cut", day.to_cut), ("collect", day.to_collect))
    return SafeString("".join(marked(name, str(len(held)) if with_one or len(held) > 1 else "") for name, held in counted if held))


@register.simple_tag
def mark_names(day) -> SafeString:
    """Who comes to a day's fittings and when, what is cut, and who collects."""
    fittings = (marked("fitted" if each.is_done else "fitting", f"{each.clock} {order.client.first_name}") for each, order in day.fittings)
    to_cut = (marked("to-cut", order.number) for order in day.to_cut)
    to_collect = (marked("collect", order.client.first_name) for order in day.to_collect)
    return SafeString("".join([*fittings, *to_cut, *to_collect]))


@register.simple_tag
def month_cell(day: CalendarDay) -> SafeString:
    """A day of a month's table: its number, its marks, and who."""
    held = "".join(f'<span class="soft">held, {escape(order.client.first_name)}</span>' for order in day.held)
    says_more = day.why_closed and day.why_closed not in weekday(day.day)  # the column's head says “Sunday” already
    closed = f'<span class="soft">{escape(day.why_closed)}</span>' if says_more else ""
    classes = "".join(
        f" {name}" for name, holds in (("is-today", day.is_today), ("is-closed", day.why_closed), ("is-other", day.is_other)) if holds
    )
    return SafeString(
        f'<td class="month-day{classes}"><a href="{escape(day.address)}"><span class="month-number" aria-hidden="true">{day.day.day}</span>'
        f'<span class="visually-hidden">{escape(weekday(day.day))}: {escape(day.said)}</span>'
        f'<span class="month-marks" aria-hidden="true">{mark_counts(day)}</span>'
        f'<span class="month-names" aria-hidden="true">{mark_names(day)}{held}{closed}</span></a></td>'
    )


@register.simple_tag(takes_context=True)
def day_lines(context, day: CalendarDay) -> SafeString:
    """Each fitting, cutting, collection and held date of a day on a line, for a phone; a fitting leads to where it is moved."""
    moves = context["may"]["edit_orders"]
    lines = [fitting_line(*fitted, moves=moves) for fitted in day.fittings]
    for mark, orders, said in (("to-cut", day.to_cut, "to cut"), ("collect", day.to_collect, "collection"), ("", day.held, "held")):
        drawn = f'<svg class="mark" aria-hidden="true"><use href="#mark-{mark}"/></svg>' if mark else ""
        lines += [
            f'<p>{drawn}<a class="row-link" href="{escape(order.get_absolute_url())}">{escape(order.client.name)}, {said}</a></p>' for order in orders
        ]
    if day.why_closed:
        lines.append(f"<p>closed: {escape(day.why_closed)}</p>")
    return SafeString("".join(lines))


def fitting_line(fitting: LightFitting, order: Order | LightOrder, *, moves: bool) -> str:
    said = f"{fitting.clock} {escape(order.client.name)}"
    if moves and not fitting.is_done:
        said = f'<a href="{escape(order.get_absolute_url())}fitting/{fitting.pk}/">{said}</a>'
    return f'<p><svg class="mark" aria-hidden="true"><use href="#mark-{"fitted" if fitting.is_done else "fitting"}"/></svg>{said}</p>'


def marked(name: str, said: str) -> str:
    return f'<span><svg class="mark"><use href="#mark-{name}"/></svg>{escape(said)}</span>'
