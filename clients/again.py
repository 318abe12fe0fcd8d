"""When to measure again: old measures, bodies that grow, and those that change week by week."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from clients.models import Client, Measuring

#: House rules of the drafting: measures go stale; a child is measured every four weeks.
STALE_AFTER = timedelta(days=90)
CHILD_AFTER = timedelta(days=28)
GROWN_AT = 18
#: Past this many weeks after the measuring, a pregnancy noted then is over.
PREGNANT_FOR = 42


@dataclass(frozen=True, slots=True)
class Again:
    """`flag` is short and stands beside the heading; `text` says why and what to do."""

    flag: str
    text: str


def age_on(born: date, day: date) -> int:
    return day.year - born.year - ((day.month, day.day) < (born.month, born.day))


def again(client: Client, newest: Measuring, today: date) -> Again | None:
    """What is to be said about the age of the newest measures, or None while they are good."""
    old = today - newest.taken_on
    said = "taken today" if not old.days else f"{old.days} {'day' if old.days == 1 else 'days'} old"
    if newest.weeks and newest.weeks + old.days // 7 <= PREGNANT_FOR and old.days:
        weeks = newest.weeks + old.days // 7
        return Again("measure at every visit", f"Week {newest.weeks} then, about week {weeks} now: measure at every visit, and keep deep side seams.")
    if client.born_on and age_on(client.born_on, today) < GROWN_AT and old > CHILD_AFTER:
        return Again(said, "Still growing: measure again every four weeks. Tucks and a deep hem let a garment grow too.")
    if old > STALE_AFTER:
        return Again(said, f"Measures are good for {STALE_AFTER.days} days. Measure again before cutting.")
    return None
