"""When to measure again: old measures, bodies that grow, and those that change week by week."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from clients.models import Client, Measuring

#: A child is measured every four weeks: drafting's own rule. For how long others' measures are good, the house says.
CHILD_AFTER = timedelta(days=28)
GROWN_AT = 18
#: Past this many weeks after the measuring, a pregnancy noted then is over.
PREGNANT_FOR = 42


@dataclass(frozen=True, slots=True)
class Again:
    """`flag` is short and stands beside the heading, or is empty while there is time; `text` says why and what to do."""

    flag: str
    text: str
    #: From this day on they are to be measured again.
    on: date


def age_on(born: date, day: date) -> int:
    return day.year - born.year - ((day.month, day.day) < (born.month, born.day))


def is_growing(client: Client, day: date) -> bool:
    return client.born_on is not None and age_on(client.born_on, day) < GROWN_AT


def too_old(measuring: Measuring, today: date, good_for_days: int) -> str:
    """“120 days old” of measures that are no longer good, else nothing."""
    days = (today - measuring.taken_on).days
    return f"{days} days old" if days > good_for_days else ""


def again(client: Client, newest: Measuring, today: date, good_for_days: int = 90) -> Again | None:
    """What is to be said about the age of the newest measures, or None while they are good."""
    old = today - newest.taken_on
    said = "taken today" if not old.days else f"{old.days} {'day' if old.days == 1 else 'days'} old"
    if newest.weeks and newest.weeks + old.days // 7 <= PREGNANT_FOR and old.days:
        weeks = newest.weeks + old.days // 7
        text = f"Week {newest.weeks} then, about week {weeks} now: measure at every visit, and keep deep side seams."
        return Again("measure at every visit", text, today)
    if is_growing(client, today):
        advice = "Tucks and a deep hem let a garment grow too."
        text = f"Still growing: measure again every four weeks. {advice}"
        return Again(said if old > CHILD_AFTER else "", text, newest.taken_on + CHILD_AFTER)
    if old > timedelta(days=good_for_days):
        text = f"Measures are good for {good_for_days} days. Measure again before cutting."
        return Again(said, text, newest.taken_on + timedelta(days=good_for_days))
    return None
