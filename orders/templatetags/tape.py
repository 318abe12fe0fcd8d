"""`{% tape order %}`: the order's days drawn as a length of tape; `{% small_tape order %}`: the same on one thin line."""

from django import template
from django.utils import timezone
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString

from orders.tape import Tape, tape_of

register = template.Library()

TOP, BOTTOM = 18, 34  # the strip, in a drawing 46 px high
MIDDLE = (TOP + BOTTOM) / 2


@register.simple_tag(takes_context=True)
def tape(context, order) -> SafeString:
    drawn = tape_of(order, context.get("today") or timezone.localdate())
    return format_html(
        '<svg class="tape" width="100%" height="46" role="img" aria-label="{}">{}{}{}{}{}{}</svg>',
        drawn.sentence,
        strip(drawn, TOP, BOTTOM - TOP),
        all_ticks(drawn),
        pins(drawn),
        tips(drawn, TOP, BOTTOM, small=2, tall=4),
        bead(drawn, MIDDLE, 6.5),
        nick(drawn),
    )


@register.simple_tag(takes_context=True)
def small_tape(context, order) -> SafeString:
    """For a phone's row: run, late, tips and bead only. The row's text says the rest."""
    drawn = tape_of(order, context.get("today") or timezone.localdate())
    return format_html(
        '<svg class="tape tape-small" width="100%" height="14" aria-hidden="true">{}{}{}</svg>',
        strip(drawn, 4, 6),
        tips(drawn, 4, 10, small=1, tall=3),
        bead(drawn, 7, 4.5),
    )


def strip(drawn: Tape, top: float, height: float) -> SafeString:
    run = format_html(
        '<rect class="tape-rest" x="{}" y="{}" width="{}" height="{}"/>'
        '<rect class="tape-run" x="{}" y="{}" width="{}" height="{}"/>',
        *(drawn.end_of_run, top, drawn.rest, height),
        *(drawn.start, top, drawn.run, height),
    )
    if not drawn.late:
        return run
    return run + format_html(
        '<rect class="tape-late" x="{}" y="{}" width="{}" height="{}"/>'
        '<line class="tape-stripes" x1="{}" x2="{}" y1="{}" y2="{}" stroke-width="{}"/>',
        *(drawn.tip, top + height / 5, drawn.late, height * 0.6),
        *(drawn.tip, drawn.bead, top + height / 2, top + height / 2, height * 0.6),
    )


def all_ticks(drawn: Tape) -> SafeString:
    lines = format_html_join(
        "",
        '<line class="tape-tick{}" x1="{}" x2="{}" y1="{}" y2="{}"/>',
        (
            (" on-tape" if t.on_tape else "", t.x, t.x, BOTTOM - (9 if t.tall else 4), BOTTOM)
            for t in drawn.ticks
        ),
    )
    labels = format_html_join(
        "",
        '<text class="tape-date" x="{}" y="45" text-anchor="middle">{}</text>',
        ((t.x, t.label) for t in drawn.ticks if t.label),
    )
    return lines + labels


def nick(drawn: Tape) -> SafeString:
    """A narrow V in the lower edge: filled when cut, open while it is to come."""
    if not drawn.nick:
        return SafeString("")
    kind = "is-cut" if drawn.is_cut else "to-cut"
    return format_html(
        '<svg x="{}" y="{}" width="1" height="14" overflow="visible">'
        '<path class="tape-nick {}{}" d="M-3.2 13 L0 0 L3.2 13{}"/></svg>',
        drawn.nick,
        BOTTOM - 11,
        kind,
        " on-tape" if drawn.nick_on_tape else "",
        " Z" if drawn.is_cut else "",
    )


def pins(drawn: Tape) -> SafeString:
    return format_html_join(
        "",
        '<line class="tape-pin" x1="{}" x2="{}" y1="11" y2="{}"/><circle class="tape-head {}" cx="{}" cy="7" r="4"/>',
        ((x, x, TOP + 5, "is-done" if done else "to-come", x) for x, done in drawn.pins),
    )


def tips(drawn: Tape, top: float, bottom: float, *, small: float, tall: float) -> SafeString:
    start = format_html(
        '<svg x="{}" y="{}" width="1" height="1" overflow="visible"><rect class="tape-tip" x="-4" width="5" height="{}"/></svg>',
        drawn.start,
        top - small / 2,
        bottom - top + small,
    )
    if not drawn.has_tip:
        return start
    return start + format_html(
        '<svg x="{}" y="{}" width="1" height="1" overflow="visible"><rect class="tape-tip" x="-2" width="6" height="{}"/></svg>',
        drawn.tip,
        top - tall,
        bottom - top + 2 * tall,
    )


def bead(drawn: Tape, middle: float, radius: float) -> SafeString:
    return format_html(
        '<circle class="tape-ring" cx="{0}" cy="{1}" r="{2}"/><circle class="tape-bead" cx="{0}" cy="{1}" r="{3}"/>'
        '<circle class="tape-hole" cx="{0}" cy="{1}" r="{4}"/>',
        drawn.bead,
        middle,
        radius + 2.5,
        radius,
        radius / 2.6,
    )


@register.filter
def count(things) -> int:
    """How many; the workshop's own `length` filter prints inches."""
    return len(things)
