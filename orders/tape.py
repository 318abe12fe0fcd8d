"""An order's days as a length of tape: where each mark lies, in per cent of the strip's width."""

from dataclasses import dataclass, field
from datetime import date, timedelta

from orders.stages import Stage
from workshop.days import Form
from workshop.templatetags.workshop_tags import plain_day

WEEK = timedelta(days=7)
LEFT, RIGHT = 1.2, 98.8
FAR = timedelta(days=30 * 366)  # no strip is longer: a day with a slip in its year lies at its end
CLEAR_DAYS = 3  # no date is written closer than this to either end


@dataclass(frozen=True)
class Tick:
    x: str
    tall: bool
    label: str = ""
    on_tape: bool = False


@dataclass(frozen=True)
class Tape:
    """All positions are texts like "48.3%", ready to be SVG attributes."""

    sentence: str
    start: str
    run: str  # width of the yellow part
    end_of_run: str
    tip: str  # collection
    rest: str  # width of the outlined part
    late: str  # width of the striped run-on, "" when not late
    bead: str
    ticks: tuple[Tick, ...] = ()
    pins: tuple[tuple[str, bool], ...] = ()  # where, done
    nick: str = ""  # cutting day
    is_cut: bool = False
    nick_on_tape: bool = False
    has_tip: bool = field(default=True)


def tape_of(order, today: date) -> Tape:
    """Needs the order's fittings; asks the database nothing if they were brought along."""
    first = min(order.booked_on, date.max - FAR)
    end = first + FAR
    seen = min(today, end)
    fittings = order.held_fittings
    last_known = max([seen, *(f.day for f in fittings), order.cut_on or seen])
    promised = order.collect_on or min(last_known, date.max - WEEK) + WEEK
    promised = min(max(promised, first), end)
    now = max(seen, first) if order.is_open else min(max(seen, first), order.closed_on or seen)
    last = max(promised, now, first + timedelta(days=1))
    place = Place(first, last)
    nick_day = order.was_cut_on or order.cut_on
    end_of_yellow = min(now, promised)
    return Tape(
        sentence=sentence(order, today),
        start=percent(LEFT),
        run=percent(place(end_of_yellow) - LEFT),
        end_of_run=percent(place(end_of_yellow)),
        tip=percent(place(promised)),
        rest=percent(place(promised) - place(end_of_yellow)),
        late=percent(place(now) - place(promised)) if now > promised else "",
        bead=percent(place(now)),
        ticks=tuple(ticks(place, promised, end_of_yellow)),
        pins=tuple((percent(place(f.day)), f.is_done) for f in fittings if first <= f.day <= last),
        nick=percent(place(nick_day)) if nick_day and first <= nick_day <= last else "",
        is_cut=order.was_cut_on is not None,
        nick_on_tape=bool(nick_day and nick_day <= end_of_yellow),
        has_tip=order.collect_on is not None,
    )


@dataclass(frozen=True)
class Place:
    first: date
    last: date

    def __call__(self, day: date) -> float:
        return LEFT + (RIGHT - LEFT) * (day - self.first).days / (self.last - self.first).days


def ticks(place: Place, promised: date, end_of_yellow: date):
    """A tick a day while there is room for them, then a week, then a month; Mondays tall, dated where they can be read."""
    days = (place.last - place.first).days
    weeks_between = 1 + days // 60
    for passed in range(1, (min(promised, place.last) - place.first).days):
        day = place.first + timedelta(days=passed)
        monday = day.weekday() == 0
        if days > 90 and not monday or days > 730 and day.day > 7:
            continue
        clear = CLEAR_DAYS * max(days / 45, 1)
        dated = monday and passed >= clear and (place.last - day).days >= clear
        dated = dated and (day.toordinal() // 7) % weeks_between == 0
        label = plain_day(day, Form.SHORT_DAY) if dated else ""
        yield Tick(percent(place(day)), monday, label, day <= end_of_yellow)


def sentence(order, today: date) -> str:
    """All that the strip shows, in words."""
    parts = [f"{'Brought in' if order.is_repair else 'Enquiry' if order.stage == Stage.ASKED else 'Booked'} {plain_day(order.booked_on)}"]
    parts += [f"fitting {plain_day(f.day)} {'done' if f.is_done else 'to come'}" for f in order.held_fittings]
    if order.was_cut_on:
        parts.append(f"cut {plain_day(order.was_cut_on)}")
    elif order.cut_on:
        parts.append(f"to cut {plain_day(order.cut_on)}")
    parts.append(f"collection {plain_day(order.collect_on)}" if order.collect_on else "no collection date yet")
    if order.stage == Stage.CALLED_OFF:
        parts.append(f"called off {plain_day(order.closed_on)}")
    elif order.closed_on:
        parts.append(f"collected {plain_day(order.closed_on)}")
    else:
        parts.append(f"today is {plain_day(today)}")
        if late := order.days_late(today):
            parts.append(f"{late} {'day' if late == 1 else 'days'} late")
    return ", ".join(parts) + "."


def percent(number: float) -> str:
    return f"{number:.2f}%"
