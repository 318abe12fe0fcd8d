"""`{% tape order %}`: the order's days drawn as a length of tape; `{% small_tape order %}`: the same on one thin line.

All positions are ours, so only words are escaped: a page of 25 tapes has some thousand ticks.
"""

from datetime import date
from html import escape

from django import template
from django.utils import timezone
from django.utils.safestring import SafeString

from orders.tape import Tape, tape_of
from workshop.few_kept import FewKept

register = template.Library()

TOP, BOTTOM = 18, 34  # the strip, in a drawing 46 px high
MIDDLE = (TOP + BOTTOM) / 2
TALL_TICK, SHORT_TICK = 9, 4


_drawn: FewKept[tuple[SafeString, SafeString]] = FewKept(1024)  # all that a tape shows -> its two drawings


@register.simple_tag(takes_context=True)
def tape(context, order) -> SafeString:
    return drawings(order, context.get("today") or timezone.localdate())[0]


@register.simple_tag(takes_context=True)
def small_tape(context, order) -> SafeString:
    """For a phone's row: run, late, tips and bead only. The row's text says the rest."""
    return drawings(order, context.get("today") or timezone.localdate())[1]


def drawings(order, today: date) -> tuple[SafeString, SafeString]:
    """The tape and the thin one; kept in memory by all that they show, because the same days are drawn all day long."""
    days = (order.booked_on, order.cut_on, order.was_cut_on, order.collect_on, order.closed_on)
    shown = (today, order.stage, order.is_open, days, tuple((fitting.day, fitting.is_done) for fitting in order.held_fittings))
    return _drawn(shown, lambda: both(tape_of(order, today)))


def both(drawn: Tape) -> tuple[SafeString, SafeString]:
    return large(drawn), small(drawn)


def large(drawn: Tape) -> SafeString:
    return SafeString(
        f'<svg class="tape" width="100%" height="46" role="img" aria-label="{escape(drawn.sentence)}">'
        f"{strip(drawn, TOP, BOTTOM - TOP)}{all_ticks(drawn)}{pins(drawn)}{tips(drawn, TOP, BOTTOM, small=2, tall=4)}"
        f"{bead(drawn, MIDDLE, 6.5)}{nick(drawn)}</svg>"
    )


def small(drawn: Tape) -> SafeString:
    return SafeString(
        '<svg class="tape tape-small" width="100%" height="14" aria-hidden="true">'
        f"{strip(drawn, 4, 6)}{tips(drawn, 4, 10, small=1, tall=3)}{bead(drawn, 7, 4.5)}</svg>"
    )


@register.filter
def count(things) -> int:
    """How many; the workshop's own `length` filter prints inches."""
    return len(things)


def strip(drawn: Tape, top: float, height: float) -> str:
    run = (
        f'<rect class="tape-rest" x="{drawn.end_of_run}" y="{top}" width="{drawn.rest}" height="{height}"/>'
        f'<rect class="tape-run" x="{drawn.start}" y="{top}" width="{drawn.run}" height="{height}"/>'
    )
    if not drawn.late:
        return run
    thick, y = height * 0.6, top + height / 2
    return run + (
        f'<rect class="tape-late" x="{drawn.tip}" y="{top + height / 5}" width="{drawn.late}" height="{thick}"/>'
        f'<line class="tape-stripes" x1="{drawn.tip}" x2="{drawn.bead}" y1="{y}" y2="{y}" stroke-width="{thick}"/>'
    )


def all_ticks(drawn: Tape) -> str:
    lines = [
        f'<line class="tape-tick{" on-tape" if t.on_tape else ""}" x1="{t.x}" x2="{t.x}" '
        f'y1="{BOTTOM - (TALL_TICK if t.tall else SHORT_TICK)}" y2="{BOTTOM}"/>'
        for t in drawn.ticks
    ]
    labels = [
        f'<text class="tape-date" x="{t.x}" y="45" text-anchor="middle">{escape(t.label)}</text>'
        for t in drawn.ticks
        if t.label
    ]
    return "".join(lines + labels)


def nick(drawn: Tape) -> str:
    """A narrow V in the lower edge: filled when cut, open while it is to come."""
    if not drawn.nick:
        return ""
    classes = ("is-cut" if drawn.is_cut else "to-cut") + (" on-tape" if drawn.nick_on_tape else "")
    return (
        f'<svg x="{drawn.nick}" y="{BOTTOM - 11}" width="1" height="14" overflow="visible">'
        f'<path class="tape-nick {classes}" d="M-3.2 13 L0 0 L3.2 13{" Z" if drawn.is_cut else ""}"/></svg>'
    )


def pins(drawn: Tape) -> str:
    return "".join(
        f'<line class="tape-pin" x1="{x}" x2="{x}" y1="11" y2="{TOP + 5}"/>'
        f'<circle class="tape-head {"is-done" if done else "to-come"}" cx="{x}" cy="7" r="4"/>'
        for x, done in drawn.pins
    )


def tips(drawn: Tape, top: float, bottom: float, *, small: float, tall: float) -> str:
    start = tip(drawn.start, top - small / 2, bottom - top + small, -4, 5)
    return start + (tip(drawn.tip, top - tall, bottom - top + 2 * tall, -2, 6) if drawn.has_tip else "")


def tip(x: str, top: float, height: float, left: int, width: int) -> str:
    return (
        f'<svg x="{x}" y="{top}" width="1" height="1" overflow="visible">'
        f'<rect class="tape-tip" x="{left}" width="{width}" height="{height}"/></svg>'
    )


def bead(drawn: Tape, middle: float, radius: float) -> str:
    rings = (("ring", radius + 2.5), ("bead", radius), ("hole", round(radius / 2.6, 2)))
    return "".join(f'<circle class="tape-{name}" cx="{drawn.bead}" cy="{middle}" r="{r}"/>' for name, r in rings)
