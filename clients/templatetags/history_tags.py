"""The parts of a client's page that come by the hundred, as text: in a template each costs ten times as much."""

from django import template
from django.utils.html import escape
from django.utils.safestring import SafeString

from clients.history import Row
from clients.over_time import Plot
from workshop.templatetags.workshop_tags import day

register = template.Library()

NOT_TAKEN = '<td><span role="img" aria-label="not taken">·</span></td>'
MARK = '<span class="put-right-mark" role="img" aria-label="put right">*</span>'


@register.simple_tag
def history_rows(rows, over_time: str, to_correct: str) -> SafeString:
    """The body of the table: a measure leads to its line over time (below `over_time`), a figure to be put right (below `to_correct`)."""
    return SafeString("\n".join([row_drawn(row, escape(over_time), escape(to_correct)) for row in rows]))


def row_drawn(row: Row, over_time: str, to_correct: str) -> str:
    name = f'<th scope="row"><a href="{over_time}{row.measure.key}/">{escape(row.measure.name)}</a></th>'
    return f"<tr>{name}{''.join([cell_drawn(cell, to_correct) for cell in row.cells])}</tr>"


def cell_drawn(cell, to_correct: str) -> str:
    """The reading with what changed, which our own printing of lengths made: nothing in it is to be escaped."""
    if cell.reading is None:
        return f'<td class="soft"><span class="estimated">{cell.text}</span></td>' if cell.estimated else NOT_TAKEN
    text, mark = cell.text, MARK if cell.was_put_right else ""
    if to_correct:
        text = f'<a href="{to_correct}{cell.reading.pk}/correct/">{text}</a>'
    if not cell.change:
        return f"<td>{text}{mark}</td>"
    return f'<td class="changed"><span class="by">{cell.change}</span> {text}{mark}</td>'


@register.simple_tag
def plot_drawn(plot: Plot) -> SafeString:
    """One measure over time as a drawing, with a sentence that says the first and the last."""
    first, last = plot.first, plot.last
    said = f"{plot.measure.name}: {first.text} on {day(first.day)}" + (f", {last.text} on {day(last.day)}" if plot.strokes else "")
    strokes = "".join(
        [f'<line class="plot-line" x1="{each.x1}" y1="{each.y1}" x2="{each.x2}" y2="{each.y2}"/>' for each in plot.strokes]
    )
    points = "".join([f'<circle class="plot-point" cx="{each.x}" cy="{each.y}" r="4.5"/>' for each in plot.points[:-1]])
    days = "".join(
        [f'<text class="plot-day" x="{each.x}" y="100" text-anchor="middle">{day(each.day)}</text>' for each in plot.points if each.dated]
    )
    begun = f'<text class="plot-value" x="{first.x}" y="{first.label_y}" text-anchor="middle">{first.text}</text>' if plot.strokes else ""
    return SafeString(
        f'<svg class="plot" width="100%" height="104" role="img" aria-label="{escape(said)}">'
        f'<line class="plot-ground" x1="4%" y1="84" x2="92%" y2="84"/>{strokes}{points}'
        f'<circle class="plot-point plot-last" cx="{last.x}" cy="{last.y}" r="4.5"/>{begun}{days}'
        f'<text class="plot-value plot-now" x="{last.x}" dx="10" y="{last.y}" dy="5">{last.text}</text></svg>'
    )
