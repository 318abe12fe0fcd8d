"""The rows of the page of money, written out by Python: it has one for each order that is not paid."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from html import escape
from typing import TYPE_CHECKING

from django import template
from django.utils.safestring import SafeString

from orders.models import Payment
from orders.stages import Stage
from workshop.templatetags.workshop_tags import day, icon, money, short_day

if TYPE_CHECKING:
    from orders.models import Order
    from orders.money.page import Owed, PartDue, Taken, Unpaid

register = template.Library()
KINDS, METHODS = dict(Payment.Kind.choices), dict(Payment.Method.choices)


@register.simple_tag
def owed_rows(rows: Iterable[Owed]) -> SafeString:
    """`{% owed_rows shown.owed %}`: whose, what, when it is collected, and what is to pay of what."""
    return SafeString("".join(owed_row(row) for row in rows))


def owed_row(row: Owed) -> str:
    order, paid, whole = row.order, money(row.order.paid), money(row.whole)
    over = f" · {order.get_stage_display()} {day(order.closed_on)}" if row.is_gone else ""
    late = late_flag(f"{row.days_late} day{'' if row.days_late == 1 else 's'} late") if row.days_late else ""
    left = late_flag("gone, not paid") if row.is_gone and row.balance > 0 else ""
    when = '<span class="soft">over</span>' if row.is_gone else short_day(order.collect_on) if order.collect_on else '<span class="soft">no day yet</span>'
    sum_of = f"we owe {money(-row.balance)}" if row.balance < 0 else money(row.balance)
    return (
        f'<li>{who(order.get_absolute_url(), order.client_name, f"{order.title} · {order.number}{over}", late + left)}'
        f'<div class="owed-day">{when}</div><div class="owed-sum"><b>{sum_of}</b>'
        f'<svg class="paid-bar" width="100%" height="8" role="img" aria-label="{paid} paid of {whole}">'
        f'<rect class="paid-rest" x="0.5" y="0.5" width="99%" height="7"/><rect class="paid-part" width="{row.share_paid}" height="8"/></svg>'
        f'<span class="soft small">{paid} of {whole}{" kept" if order.stage == Stage.CALLED_OFF else ""}</span></div></li>'
    )


@register.simple_tag
def due_rows(shown) -> SafeString:
    """`{% due_rows shown %}`: balances, deposits and instalments of this week."""
    balances = (sum_row(row.order, f"collects {short_day(row.order.collect_on)}", row.balance) for row in shown.due_this_week)
    deposits = (sum_row(order, f"deposit, before cutting {short_day(order.cut_on)}", order.deposit_missing) for order in shown.deposits_this_week)
    return SafeString("".join((*balances, *deposits, *map(part_row, shown.instalments))))


def part_row(part: PartDue) -> str:
    said = f"instalment, {money(part.late)} since {short_day(part.on)}" if part.late else f"instalment of {short_day(part.on)}"
    return sum_row(part.order, said, part.amount, f'<span class="flag-risk">{icon("alert")}late</span>' if part.late else "")


@register.simple_tag
def deposit_rows(orders: Iterable[Order]) -> SafeString:
    """`{% deposit_rows shown.deposits %}`: until when each is wanted."""
    return SafeString("".join(deposit_row(order) for order in orders))


def deposit_row(order: Order) -> str:
    said = f"to be cut {short_day(order.cut_on)}" if order.cut_on else "no cutting day yet"
    return sum_row(order, said + (f" · held until {short_day(order.held_until)}" if order.held_until else ""), order.deposit_missing)


@register.simple_tag(takes_context=True)
def unpaid_rows(context, rows: Iterable[Unpaid]) -> SafeString:
    """`{% unpaid_rows shown.out_work %}`: to whom, for what, and since when or when it comes back."""
    return SafeString("".join(unpaid_row(out, context["today"]) for out in rows))


def unpaid_row(out: Unpaid, today) -> str:
    when = f"back {short_day(out.back_on)}" if out.back_on else f"due back {short_day(out.due_back)}"
    late = late_flag("not back") if not out.back_on and out.due_back < today else ""
    return f"<li>{who(out.address, out.to_whom, f'{out.what} for {out.client}, {out.number} · {when}', late)}<b>{money(out.cost)}</b></li>"


@register.simple_tag
def taken_rows(rows: Iterable[Taken]) -> SafeString:
    """`{% taken_rows shown.lately %}`: what was entered, by whom, and what strikes what."""
    return SafeString("".join(taken_row(taken) for taken in rows))


def taken_row(taken: Taken) -> str:
    said = f"{short_day(taken.taken_on)} · {KINDS[taken.kind]}, {METHODS[taken.method]} · {taken.taken_by}"
    if taken.strikes_of:
        said += f" · strikes {money(taken.strikes)} of {day(taken.strikes_of)}: {taken.why}"
    elif taken.struck_on:
        said += f" · struck {day(taken.struck_on)}"
    struck = ' class="struck"' if taken.struck_on else ""
    return f'<li{struck}>{who(taken.address, taken.client, said)}<b class="amount">{money(taken.amount)}</b></li>'


def sum_row(order: Order, said: str, amount: Decimal, flag: str = "") -> str:
    return f"<li>{who(order.get_absolute_url(), order.client_name, said, flag)}<b>{money(amount)}</b></li>"


def who(address: str, name: str, said: str, flags: str = "") -> str:
    return f'<div class="row-text"><a class="row-link" href="{address}"><b class="name">{escape(name)}</b></a><p>{escape(said)}</p>{flags}</div>'


def late_flag(said: str) -> str:
    return f'<span class="flag-late">{icon("alert")}{escape(said)}</span>'
