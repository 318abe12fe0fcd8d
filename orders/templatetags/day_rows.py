"""What a day asks for, written out by Python: who is fitted, what is cut and collected, and what needs somebody first."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from typing import TYPE_CHECKING

from django import template
from django.utils.safestring import SafeString

from orders.models.naming import address_to_measure
from orders.templatetags.rows import balance, flag
from workshop.templatetags.workshop_tags import icon, short_day, weekday

if TYPE_CHECKING:
    from orders.day import FittingRow
    from orders.in_hand import Row

register = template.Library()


@register.simple_tag
def first_rows(rows: Iterable[Row]) -> SafeString:
    """`{% first_rows day.first %}`: what is in the way of each order, what else is, and the next step."""
    return SafeString("".join(map(first_row, rows)))


def first_row(row: Row) -> str:
    order, concern = row.order, row.concern
    also = f" Also: {escape(row.also)}." if row.also else ""
    told = f'<span class="visually-hidden">, {escape(order.number)}</span>'
    step = f'<p><a href="{escape(concern.step.to)}">{escape(concern.step.label)}{told}</a></p>' if concern.step else ""
    return (
        f'<li><div class="row-text"><b><a class="row-link" href="{escape(order.get_absolute_url())}">'
        f'<span class="name">{escape(order.client.name)}</span>, {escape(order.title.lower())}</a> '
        f'<span class="soft small number">{escape(order.number)}</span></b><p>{escape(concern.text)}{also}</p>{step}</div>{flag(concern)}</li>'
    )


@register.simple_tag(takes_context=True)
def fitting_rows(context, rows: Iterable[FittingRow]) -> SafeString:
    """`{% fitting_rows day.fittings %}`: when, who, which fitting by whom, and where to measure."""
    measures = context["may"]["measure"]
    return SafeString("".join(fitting_row(row, measures=measures) for row in rows))


def fitting_row(row: FittingRow, *, measures: bool) -> str:
    order, fitting = row.order, row.fitting
    name, by, end = escape(order.client.name), f". {escape(fitting.fitter)}" if fitting.fitter else "", ""
    if fitting.is_done:
        end = f'<span class="flag-done">{icon("tick")}done</span>'
    elif measures:
        where = escape(address_to_measure(order.client_id))
        end = f'<a class="btn-plain" href="{where}" aria-label="Measure {name}">{icon("tape")}Measure</a>'
    return (
        f'<li class="fitting-row"><b class="fitting-time">{fitting.clock}</b><div class="row-text">'
        f'<a class="row-link name" href="{escape(order.get_absolute_url())}">{name}</a>'
        f"<p>{escape(order.title)}, {row.count} fitting{by}</p></div>{end}</li>"
    )


@register.simple_tag(takes_context=True)
def to_cut_rows(context, rows: Iterable[Row]) -> SafeString:
    """`{% to_cut_rows day.to_cut %}`: what, whose, when, what comes next, and what speaks against it."""
    return SafeString("".join(to_cut_row(row, context["today"]) for row in rows))


def to_cut_row(row: Row, today) -> str:
    order, against = row.order, row.at_the_table
    when = "today" if order.cut_on == today else escape(short_day(order.cut_on))
    end = flag(against) if against else f'<span class="flag-done">{icon("tick")}cloth in</span>'
    return (
        f'<li><div class="row-text"><a class="row-link" href="{escape(order.get_absolute_url())}"><b>{escape(order.title)}</b></a> '
        f'<span class="soft small number">{escape(order.number)}</span>'
        f'<p><span class="name-soft">{escape(order.client.name)}</span>, {when}. {escape(row.next)}.</p></div>{end}</li>'
    )


@register.simple_tag(takes_context=True)
def to_collect_rows(context, rows: Iterable[Row]) -> SafeString:
    """`{% to_collect_rows day.collect_first %}`: who, what, for when, how far it is, and what is to pay."""
    sees_money = context["may"]["see_money"]
    return SafeString("".join(to_collect_row(row, sees_money=sees_money) for row in rows))


def to_collect_row(row: Row, *, sees_money: bool) -> str:
    order = row.order
    stage = order.get_stage_display()
    owed = f'<div class="row-end">{balance(row.balance, big=True)}</div>' if sees_money else ""
    return (
        f'<li><div class="row-text"><a class="row-link name" href="{escape(order.get_absolute_url())}">{escape(order.client.name)}</a>'
        f"<p>{escape(order.title)}, {escape(weekday(order.collect_on))}. {escape(stage[0].upper() + stage[1:])}.</p></div>{owed}</li>"
    )
