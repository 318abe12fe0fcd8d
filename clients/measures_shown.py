"""What a client's page shows of the measures: drawn once for the same rows, read by the same kind of person on the same day.

The rows themselves are the key, so nothing that is written anywhere can leave an old table standing.
"""

from __future__ import annotations

from datetime import date
from functools import lru_cache
from typing import NamedTuple

from django.template.loader import render_to_string
from django.urls import reverse
from django.utils.safestring import SafeString

from clients.again import again, is_growing
from clients.growth import LENGTHS, grown
from clients.held import hold
from clients.history import History
from workshop.templatetags.workshop_tags import day

#: So many clients' tables are kept, some 200 kB each: those of the work in hand.
KEPT = 40


class Seen(NamedTuple):
    """All that the drawing follows from beside the rows: whose measures, how the house writes them, who looks, and when."""

    client: int
    born_on: date | None
    to_let_down: str
    unit: str
    days_in: str
    good_for_days: int
    today: date
    may_measure: bool
    may_edit: bool


class Drawn(NamedTuple):
    doubts: SafeString
    measures: SafeString
    trends: SafeString


@lru_cache(maxsize=KEPT)
def measures_shown(rows: tuple[tuple, ...], seen: Seen) -> Drawn:
    """The three parts of the page, from the rows of `Measuring.objects.to_hold()`; empty where there is nothing to say."""
    history = History(hold(rows), seen.unit)
    grows = is_growing(seen, seen.today)
    page = reverse("clients:show", args=[seen.client])
    context = {
        "client": seen, "pk": seen.client, "history": history, "over_time": f"{page}over-time/",
        "again": again(seen, history.measurings[0], seen.today, seen.good_for_days) if history.measurings else None,
        "grown": grown(history.dates, seen.unit) if grows else [],
        "trends": history.trends(*LENGTHS) if grows else history.trends(),
        "doubts": history.doubts(day) if seen.may_measure else [],
        "put_right": history.put_right(),
        "to_correct": reverse("clients:list") + "readings/" if seen.may_measure else "",
        "may_edit": seen.may_edit,
    }  # fmt: skip
    names = ("_doubts" if context["doubts"] else "", "_measures", "_trends" if context["trends"] else "")
    return Drawn(*(render_to_string(f"clients/{name}.html", context) if name else SafeString("") for name in names))
