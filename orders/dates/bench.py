"""The workshop's days and hours: when it is open, how many hands sew, how long a garment of each kind takes.

They are house rules, kept on the workshop's own row, so that no page asks the database for them once more.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from decimal import Decimal
from functools import lru_cache

from drafting.engine.garments import KINDS
from workshop.days import weekday_name
from workshop.models import Workshop
from workshop.templatetags.workshop_tags import language_now, month_and_year

SUNDAY = 6
#: Hours from the first cut to the hanger. Common practice, no source; a workshop writes its own, or learns them.
USUAL_HOURS = {"bustier-gown": Decimal(40), "fitted-dress": Decimal(24), "bodice": Decimal(14), "skirt": Decimal(8)}
USUAL_OTHER = Decimal(20)
#: Learned hours stand once so many garments of a kind are done; before that they would be one garment's luck.
LEARNED_FROM = 3
ANY_YEAR = 2000  # a leap year: 29 February may be closed every year that has one


@dataclass(frozen=True)
class Closed:
    """Days on which nobody sews: a holiday of this year, or of every year."""

    first: date
    last: date
    name: str
    yearly: bool = False

    def holds(self, day: date) -> bool:
        if not self.yearly:
            return self.first <= day <= self.last
        first, last, this = ((each.month, each.day) for each in (self.first, self.last, day))
        return first <= this <= last if first <= last else this >= first or this <= last  # over New Year

    def is_over(self, today: date) -> bool:
        return not self.yearly and self.last < today

    def as_kept(self) -> dict:
        return {"first": self.first.isoformat(), "last": self.last.isoformat(), "name": self.name, "yearly": self.yearly}


@dataclass(frozen=True)
class Bench:
    open_weekdays: frozenset[int] = frozenset(range(SUNDAY))
    hours: Decimal = Decimal(7)  # of sewing, of one pair of hands, on an open day
    hands: Decimal = Decimal(1)
    free_days: int = 1  # open days between the last stitch and collection
    lead_weeks: int = 4  # 4 to 12 weeks a garment are usual: larapeters.co.uk/pages/faq
    urgent_percent: Decimal = Decimal(25)  # common practice, no source
    hold_days: int = 7  # common practice, no source
    kept_share: Decimal = Decimal(100)  # of the deposit: "non-refundable", larapeters.co.uk/pages/faq
    closed: tuple[Closed, ...] = ()
    full_months: frozenset[tuple[int, int]] = frozenset()
    kind_hours: Mapping[str, Decimal] = field(default_factory=dict, hash=False)  # as the owner wrote them
    learned: Mapping[str, tuple[Decimal, int]] = field(default_factory=dict, hash=False)  # hours, of how many garments

    @classmethod
    def current(cls) -> "Bench":
        workshop = Workshop.current()
        return cls.of(workshop) if workshop else cls()

    @classmethod
    def of(cls, workshop: Workshop) -> "Bench":
        return read(json.dumps(workshop.bench, sort_keys=True))

    def is_open(self, day: date) -> bool:
        if day.weekday() not in self.open_weekdays:
            return False
        for each in self.closed:  # asked of some thousand days a page, so without `any` and its generator
            if each.holds(day):
                return False
        return True

    def why_closed(self, day: date) -> str:
        """“Harbour fair”, “Sunday”; nothing for an open day."""
        for each in self.closed:
            if each.holds(day):
                return each.name
        return "" if day.weekday() in self.open_weekdays else weekday_name(day.weekday(), language_now())

    def is_full(self, day: date) -> bool:
        """Whether no collection is promised any more in that day's month."""
        return (day.year, day.month) in self.full_months

    def next_open(self, day: date) -> date:
        """That day, or the first open one after it."""
        while not self.is_open(day):
            day += timedelta(days=1)
        return day

    def open_days_after(self, day: date, number: int) -> date:
        """The day that lies so many open days after it."""
        for _ in range(number):
            day = self.next_open(day + timedelta(days=1))
        return day

    def last_sewing_day(self, collect_on: date) -> date:
        """The last day on which what is collected then may still be sewn."""
        day = collect_on
        for _ in range(self.free_days):
            day -= timedelta(days=1)
            while not self.is_open(day):
                day -= timedelta(days=1)
        return day

    def hours_of(self, kind: str, planned: Decimal | None = None) -> Decimal:
        """What is planned for one garment; where nothing is, what its kind takes."""
        if planned is not None:
            return planned
        if kind in self.kind_hours:
            return self.kind_hours[kind]
        hours, number = self.learned.get(kind, (None, 0))
        return hours if number >= LEARNED_FROM else USUAL_HOURS.get(kind, USUAL_OTHER)

    def told_of(self, kind: str) -> str:
        """What done orders of that kind took, in words."""
        hours, number = self.learned.get(kind, (None, 0))
        usual = f"Usual {USUAL_HOURS.get(kind, USUAL_OTHER).normalize():f} h."
        if not number:
            return f"{usual} None is done yet with its hours noted."
        enough = "" if number >= LEARNED_FROM else f" They stand from {LEARNED_FROM} on."
        return f"{usual} Half of the last {number} done took {hours.normalize():f} h or less.{enough}"

    def is_urgent(self, collect_on: date, asked_on: date) -> bool:
        return collect_on < asked_on + timedelta(weeks=self.lead_weeks)

    def as_kept(self) -> dict:
        """As the workshop's row keeps it: only what JSON holds."""
        return {
            "open": sorted(self.open_weekdays),
            "hours": str(self.hours),
            "hands": str(self.hands),
            "free_days": self.free_days,
            "lead_weeks": self.lead_weeks,
            "urgent_percent": str(self.urgent_percent),
            "hold_days": self.hold_days,
            "kept_share": str(self.kept_share),
            "closed": [each.as_kept() for each in self.closed],
            "full_months": sorted(map(list, self.full_months)),
            "kind_hours": {kind: str(hours) for kind, hours in self.kind_hours.items()},
            "learned": {kind: [str(hours), number] for kind, (hours, number) in self.learned.items()},
        }


@lru_cache(maxsize=8)
def read(kept: str) -> Bench:
    """The bench as the workshop's row keeps it; what is not there is as usual."""
    found = json.loads(kept)
    given = {}
    for name in ("hours", "hands", "urgent_percent", "kept_share"):
        if name in found:
            given[name] = Decimal(found[name])
    for name in ("free_days", "lead_weeks", "hold_days"):
        if name in found:
            given[name] = int(found[name])
    if found.get("open"):
        given["open_weekdays"] = frozenset(found["open"])
    closed = tuple(
        Closed(date.fromisoformat(each["first"]), date.fromisoformat(each["last"]), each["name"], each["yearly"])
        for each in found.get("closed", ())
    )
    return Bench(
        **given,
        closed=closed,
        full_months=frozenset((year, month) for year, month in found.get("full_months", ())),
        kind_hours={kind: Decimal(hours) for kind, hours in found.get("kind_hours", {}).items()},
        learned={kind: (Decimal(hours), number) for kind, (hours, number) in found.get("learned", {}).items()},
    )


def month_in_words(year: int, month: int) -> str:
    return month_and_year(date(year, month, 1))


def kinds() -> list[tuple[str, str]]:
    return [(name, kind.title) for name, kind in KINDS.items()]
