"""How far an order has come: its stages, and its days, as its page shows them."""

from dataclasses import dataclass
from datetime import date

from orders.dates.bench import Bench
from orders.day import ordinal
from orders.models import Fitting, Garment
from orders.models.naming import title_of
from orders.stages import MADE_WAY, REPAIR_WAY, Stage
from workshop.templatetags.workshop_tags import clock


@dataclass(frozen=True)
class StageShown:
    label: str
    state: str  # past, now, to-come


@dataclass(frozen=True)
class DayRow:
    day: date
    title: str
    detail: str = ""
    is_done: bool = False
    is_missed: bool = False
    flag: tuple[str, str] | None = None  # the flag's kind and word
    fitting: Fitting | None = None


def stages_shown(order) -> list[StageShown]:
    """The way from asked to collected, and where the order stands on it; nothing for one that was called off."""
    if order.stage == Stage.CALLED_OFF:
        return []
    way = REPAIR_WAY if order.is_repair else MADE_WAY
    if order.stage == Stage.IN_WORK and not order.is_repair:  # it came back after it was collected
        way = (*MADE_WAY, Stage.IN_WORK, Stage.READY, Stage.COLLECTED)
    here = way.index(order.stage)
    states = ["past" if place < here else "now" if place == here else "to-come" for place in range(len(way))]
    shown = [StageShown(stage.label, state) for stage, state in zip(way, states, strict=True)]
    if order.toile_wanted:
        fitted = any(each.is_toile and each.is_done for each in order.all_fittings)
        shown.insert(way.index(Stage.CUT), StageShown("toile fitted", "past" if fitted else "to-come"))
    return shown


def days_shown(order, today: date) -> list[DayRow]:
    """Booking, fittings, cutting and collection, in the order of their days; of an order called off only what was."""
    is_booked = order.stage != Stage.ASKED
    begun = "Brought in" if order.is_repair else "Booked" if is_booked else "Enquiry"
    rows = [DayRow(order.booked_on, begun, is_done=is_booked)]
    is_off, place = order.stage == Stage.CALLED_OFF, 0
    for fitting in order.all_fittings:
        if is_off and fitting.is_to_come:
            continue
        detail = ", ".join(filter(None, (clock(fitting.at), str(fitting.by or ""), fitting.note, fitting.get_ended_display())))
        if fitting.missed_on:
            rows.append(DayRow(fitting.day, "Fitting, missed", detail, is_missed=True))
            continue
        place += 1
        flag = None if fitting.is_done else missed(fitting.day, today)
        rows.append(DayRow(fitting.day, f"{ordinal(place)} fitting{', of the toile' if fitting.is_toile else ''}", detail, fitting.is_done, flag=flag, fitting=fitting))
    rows += cuts_shown(order)
    if order.cut_on and not order.was_cut_on and not is_off:
        left = title_of(order.not_cut) if len(order.not_cut) < len(order.all_garments) else ""
        rows.append(DayRow(order.cut_on, "To cut", left, flag=missed(order.cut_on, today) if order.is_open else None))
    if order.collect_on and not is_off:
        done = order.stage == Stage.COLLECTED
        flag = missed(order.collect_on, today) if order.is_open else None
        bench = Bench.current()
        soon = f"urgent: sooner than {bench.lead_weeks} weeks" if order.is_open and not order.is_repair and bench.is_urgent(order.collect_on, order.booked_on) else ""
        rows.append(DayRow(order.collect_on, "Collection", soon, is_done=done, flag=flag))
    if is_off and order.closed_on:
        rows.append(DayRow(order.closed_on, "Called off", is_done=True))
    if order.occasion_on:
        rows.append(DayRow(order.occasion_on, "The occasion"))
    return sorted(rows, key=lambda row: row.day)


def cuts_shown(order) -> list[DayRow]:
    """The day it was cut; of several garments that were not all cut at once, each day with what was cut then."""
    on_day: dict[date, list[Garment]] = {}
    for garment in order.all_garments:
        if garment.was_cut_on:
            on_day.setdefault(garment.was_cut_on, []).append(garment)
    if len(on_day) == 1 and order.was_cut_on:
        return [DayRow(order.was_cut_on, "Cut", is_done=True)]
    return [DayRow(day, "Cut", title_of(garments), is_done=True) for day, garments in on_day.items()]


def missed(day: date, today: date) -> tuple[str, str] | None:
    if day == today:
        return "wait", "today"
    return ("late", "day is past") if day < today else None
