"""Days with what is set for them, written out by Python: the fortnight of Today, and the calendar's weeks and months."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape
from typing import TYPE_CHECKING

from django import template
from django.utils.safestring import SafeString
from django.utils.text import capfirst

from workshop.templatetags.workshop_tags import only_weekday, weekday

if TYPE_CHECKING:
    from orders.dates.calendar import CalendarDay
    from orders.day import DayMarks
    from orders.light import LightFitting, LightOrder
    from orders.models import Order

register = template.Library()

BEAD = (
    '<svg class="inch-bead" width="22" height="22"><circle class="tape-ring" cx="11" cy="11" r="10"/>'
    '<circle class="tape-bead" cx="11" cy="11" r="7.5"/><circle class="tape-hole" cx="11" cy="11" r="3"/></svg>'
)


@register.simple_tag
def fortnight_days(days: Iterable[DayMarks]) -> SafeString:
    """`{% fortnight_days day.fortnight %}`: an inch of tape for each day, with its marks and names."""
    return SafeString("\n".join(map(fortnight_day, days)))


def fortnight_day(mark: DayMarks) -> str:
    said = mark.said
    closed = '<span class="soft">closed</span>' if mark.is_closed and said == "closed" else ""
    return (
        f'<li class="{"is-closed" if mark.is_closed else ""}{" is-today" if mark.is_today else ""}"><a href="{escape(mark.address)}">'
        f'<span class="inch" aria-hidden="true"><span>{"<b>Today</b>" if mark.is_today else escape(only_weekday(mark.day))}</span>'
        f'<span class="inch-number">{mark.day.day}</span>{BEAD if mark.is_today else ""}</span>'
        f'<span class="visually-hidden">{escape(weekday(mark.day))}: {escape(said)}</span>'
        f'<span class="fortnight-counts" aria-hidden="true">{counts(mark, with_one=False)}</span>'
        f'<span class="fortnight-names" aria-hidden="true">{names(mark)}{closed}</span></a></li>'
    )


@register.simple_tag
def month_cell(day: CalendarDay) -> SafeString:
    """A day of a month's table: its number, its marks, and who."""
    held = "".join(f'<span class="soft">held, {escape(order.client.first_name)}</span>' for order in day.held)
    on = weekday(day.day)
    says_more = day.why_closed and day.why_closed not in on  # the column's head says “Sunday” already
    closed = f'<span class="soft">{escape(day.why_closed)}</span>' if says_more else ""
    classes = "".join(
        f" {name}" for name, holds in (("is-today", day.is_today), ("is-closed", day.why_closed), ("is-other", day.is_other)) if holds
    )
    return SafeString(
        f'<td class="month-day{classes}"><a href="{escape(day.address)}"><span class="month-number" aria-hidden="true">{day.day.day}</span>'
        f'<span class="visually-hidden">{escape(on)}: {escape(day.said)}</span>'
        f'<span class="month-marks" aria-hidden="true">{counts(day, day.cut)}</span>'
        f'<span class="month-names" aria-hidden="true">{names(day, day.cut)}{held}{closed}</span></a></td>'
    )


def counts(day: DayMarks | CalendarDay, cut: Sequence[Order] = (), *, with_one: bool = True) -> str:
    """How many fittings, cuttings and collections a day holds, each after its mark; a single one may go unsaid."""
    counted = (("fitting", day.fittings), ("to-cut", day.to_cut), ("cut", cut), ("collect", day.to_collect))
    return "".join(marked(name, str(len(held)) if with_one or len(held) > 1 else "") for name, held in counted if held)


def names(day: DayMarks | CalendarDay, cut: Iterable[Order] = ()) -> str:
    """Who comes to a day's fittings and when, what is cut, and who collects."""
    fittings = [marked(mark_of(fitting), f"{fitting.clock} {order.client.first_name}") for fitting, order in day.fittings]
    to_cut = [marked("to-cut", order.number) for order in day.to_cut]
    is_cut = [marked("cut", order.number) for order in cut]
    to_collect = [marked("collect", order.client.first_name) for order in day.to_collect]
    return "".join([*fittings, *to_cut, *is_cut, *to_collect])


def marked(name: str, said: str) -> str:
    return f'<span><svg class="mark"><use href="#mark-{name}"/></svg>{escape(said)}</span>'


def mark_of(fitting: LightFitting) -> str:
    return "fitted" if fitting.is_done else "fitting"


def mark(name: str) -> str:
    return f'<svg class="mark" aria-hidden="true"><use href="#mark-{name}"/></svg>'


@register.simple_tag(takes_context=True)
def day_lines(context, day: CalendarDay) -> SafeString:
    """Each fitting, cutting, collection and held date of a day on a line, for a phone; a fitting leads to where it is moved."""
    moves = context["may"]["edit_orders"]
    lines = [fitting_line(*fitted, moves=moves) for fitted in day.fittings]
    others = (("to-cut", day.to_cut, "to cut"), ("cut", day.cut, "cut"), ("collect", day.to_collect, "collection"), ("", day.held, "held"))
    for name, orders, said in others:
        drawn = mark(name) if name else ""
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
    return f"<p>{mark(mark_of(fitting))}{said}</p>"


@register.simple_tag(takes_context=True)
def week_days(context, days: Iterable[CalendarDay]) -> SafeString:
    """`{% week_days calendar.days %}`: each day of a week with all that is set for it."""
    language, moves = escape(context["workshop"].days_in), context["may"]["edit_orders"]
    return SafeString("\n".join(week_day(day, language, moves=moves) for day in days))


def week_day(day: CalendarDay, language: str, *, moves: bool) -> str:
    closed = f'<p class="soft small week-closed">closed: {escape(day.why_closed)}</p>' if day.why_closed else ""
    today = ' <span class="flag-wait">today</span>' if day.is_today else ""
    rows = [week_fitting(*fitted, moves=moves) for fitted in day.fittings]
    rows += [week_row(order, f"{mark('to-cut')}To cut: {escape(order.title.lower())}, {escape(order.number)}") for order in day.to_cut]
    rows += [week_row(order, f"{mark('cut')}Cut: {escape(order.title.lower())}, {escape(order.number)}") for order in day.cut]
    rows += [week_row(order, f"{mark('collect')}Collection: {escape(order.title.lower())}, {order.get_stage_display()}") for order in day.to_collect]
    rows += [week_row(order, f"Asked about: {escape(order.title.lower())}", '<span class="flag-wait">held</span>') for order in day.held]
    if not rows and not day.why_closed:
        rows.append('<li class="soft small">Nothing set.</li>')
    return (
        f'<li class="sheet week-day{" is-today" if day.is_today else ""}{" is-closed" if day.why_closed else ""}"><h2 class="week-day-head">'
        f'<a class="row-link" href="{escape(day.address)}" lang="{language}">{escape(capfirst(weekday(day.day)))}</a>'
        f'{today}</h2>{closed}\n<ul class="rows week-rows">\n{"".join(rows)}</ul></li>'
    )


def week_fitting(fitting: LightFitting, order: Order | LightOrder, *, moves: bool) -> str:
    name, end = escape(order.client.name), ""
    said = f"Fitting{', done' if fitting.is_done else ''}{f'. {escape(fitting.fitter)}' if fitting.fitter else ''}"
    if moves and not fitting.is_done:
        end = (
            f'<a class="btn-quiet" href="{escape(order.get_absolute_url())}fitting/{fitting.pk}/">'
            f'Move<span class="visually-hidden"> the fitting of {name}</span></a>'
        )
    return f'<li><b class="fitting-time">{fitting.clock}</b>\n{who(order, mark(mark_of(fitting)) + said)}{end}</li>\n'


def week_row(order: Order, said: str, end: str = "") -> str:
    return f"<li>{who(order, said)}{end}</li>\n"


def who(order: Order | LightOrder, said: str) -> str:
    return f'<div class="row-text"><a class="row-link name" href="{escape(order.get_absolute_url())}">{escape(order.client.name)}</a><p>{said}</p></div>'
