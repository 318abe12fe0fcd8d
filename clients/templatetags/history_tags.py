"""The cells of the table of measures. A page has hundreds: in a template each costs ten times as much."""

from django import template
from django.utils.html import escape
from django.utils.safestring import SafeString

register = template.Library()

NOT_TAKEN = SafeString('<td><span role="img" aria-label="not taken">·</span></td>')
MARK = '<span class="put-right-mark" role="img" aria-label="put right">*</span>'


@register.simple_tag
def history_cells(row, to_correct: str) -> SafeString:
    """All cells of a measure, the newest first."""
    return SafeString("".join([cell_drawn(cell, to_correct) for cell in row.cells]))


def cell_drawn(cell, to_correct: str) -> SafeString:
    """The reading with what changed; where it may be put right, a link below the address `to_correct`."""
    if cell.reading is None:
        return SafeString(f'<td class="soft"><span class="estimated">{escape(cell.text)}</span></td>') if cell.estimated else NOT_TAKEN
    text, mark = escape(cell.text), MARK if cell.was_put_right else ""
    if to_correct:
        text = f'<a href="{escape(to_correct)}{cell.reading.pk}/correct/">{text}</a>'
    if not cell.change:
        return SafeString(f"<td>{text}{mark}</td>")
    return SafeString(f'<td class="changed"><span class="by">{escape(cell.change)}</span> {text}{mark}</td>')
