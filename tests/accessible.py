"""axe-core on an open page: every rule on all of it, and the contrast of two texts of each look.

Contrast takes axe three quarters of its time, and in a list of thirty orders it finds the same thirty times. So of the texts that look the
same and lie in the same kinds of box, two are asked (one may lie under a bar); what is placed by hand, and may lie over anything, is asked
each time. With --all-bodies every text is asked. A page that was asked at this width, and of which nothing but the colours was turned since,
is asked about its colours alone.
"""

from collections.abc import Callable

import pytest

from tests.outside.sample import SAMPLE

RULES = {
    "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    # Violations are all that is read; to describe each element that passed takes twice as long as to look for faults.
    "resultTypes": ["violations"],
}
COLOURS = RULES | {"runOnly": {"type": "rule", "values": ["color-contrast", "link-in-text-block"]}}
IS_TURNED_ONLY = """() => {
  const now = `${innerWidth} ${innerHeight} ${document.documentElement.outerHTML}`, before = window.askedLast
  window.askedLast = now
  return now === before
}"""
MARK = "data-contrast-asked"
ASKED_WHERE_MARKED = f"() => axe.configure({{ rules: [{{ id: 'color-contrast', selector: '[{MARK}]' }}] }})"
#: The look of a text: its own colour and letters, and for each box it lies in the kind, the ground and how far one sees through it.
MARK_TWO_OF_EACH_LOOK = """(mark) => {
  const boxes = new Map([[null, { look: '', placed: false }]]), seen = new Map()
  const box = (element) => {
    if (!boxes.has(element)) {
      const outer = box(element.parentElement), style = getComputedStyle(element)
      const look = [outer.look, element.localName, element.getAttribute('class'), element.getAttribute('aria-current'),
        style.backgroundColor, style.backgroundImage, style.opacity, style.filter].join(' ')
      boxes.set(element, { look, placed: outer.placed || !['static', 'relative'].includes(style.position) || style.transform !== 'none' })
    }
    return boxes.get(element)
  }
  const says = (element) => element.matches('input, select, textarea')
    || [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.data.trim())
  for (const element of document.querySelectorAll('body, body *')) {
    if (!says(element) || !element.checkVisibility()) continue
    const { look, placed } = box(element), style = getComputedStyle(element)
    const whole = [look, style.color, style.fill, style.fontSize, style.fontWeight, style.textShadow, element.matches(':disabled')].join(' ')
    seen.set(whole, (seen.get(whole) ?? 0) + 1)
    if (placed || seen.get(whole) <= 2) element.setAttribute(mark, '')
  }
}"""
UNMARK = "(mark) => document.querySelectorAll(`[${mark}]`).forEach((element) => element.removeAttribute(mark))"


@pytest.fixture
def accessible() -> Callable:
    """`accessible(page)`: fail, naming rule and element, where axe-core finds WCAG 2.2 A or AA broken."""
    from axe_playwright_python.base import AXE_SCRIPT

    def check(page) -> None:
        if not page.evaluate("() => 'axe' in window"):
            page.evaluate(AXE_SCRIPT)
            if not SAMPLE.everything:
                page.evaluate(ASKED_WHERE_MARKED)
        rules = COLOURS if page.evaluate(IS_TURNED_ONLY) else RULES
        page.evaluate(MARK_TWO_OF_EACH_LOOK, MARK)
        found = page.evaluate("(rules) => axe.run(rules)", rules)["violations"]
        page.evaluate(UNMARK, MARK)
        broken = [f"{rule['id']}: {node['target']} {node['failureSummary']}" for rule in found for node in rule["nodes"]]
        assert not broken, "\n".join(broken)

    return check
