"""What the order's page shows, made once from the whole order; templates only lay it out."""

from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal

from django.utils import timezone
from django.utils.safestring import SafeString

from orders.beside import Back, Out
from orders.cloth.laying import draft_keys
from orders.cloth.rows import DONE, ClothsShown, cloths_shown
from orders.dates.bench import Bench
from orders.day import ordinal
from orders.garment.form import GarmentForm
from orders.garment.shown import GarmentShown, garment_shown
from orders.models import Fitting, Garment
from orders.money.instalments import is_off, plan_of
from orders.next_act import NextAct, collection_words, in_words, next_act
from orders.stages import MADE_WAY, REPAIR_WAY, Stage
from orders.templatetags.tape import drawings
from orders.whole_order import WholeOrder
from workshop.templatetags.workshop_tags import clock


@dataclass(frozen=True)
class MoneyShown:
    price: Decimal | None
    paid: Decimal
    balance: Decimal | None
    payments: list
    share_paid: str  # of the bar's width, as an SVG attribute
    instalments: list = field(default_factory=list)  # each with whether it is late
    instalments_off: bool = False
    kept: Decimal = Decimal(0)  # of an order called off: what of its payments stays, or is here until the owner says
    is_called_off: bool = False


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


@dataclass(frozen=True)
class OrderPage:
    order: object
    next: NextAct | None
    next_words: str
    collection: str
    tape: SafeString
    garments: list[GarmentShown]
    fittings: list
    cloths: ClothsShown
    money: MoneyShown | None
    stages: list[StageShown]
    days: list[DayRow]
    days_late: int
    put_away: list[Garment]
    out_work: list[tuple[Out, bool]]  # each with whether it is late
    came_back: list[Back]
    may_let_go: bool  # the owner may hand it over with a balance due

    @property
    def against(self) -> list[str]:
        """What of its cloths speaks against signing it off, said beside the button; it never holds it up."""
        amiss = [f"{row.cloth.name} {row.flag}" for row in self.cloths.rows if row.kind != DONE]
        return [*amiss, *(f"{name} not checked" for name in self.order.unchecked)]

    @property
    def may_change_jobs(self) -> bool:
        return self.order.stage in (Stage.BROUGHT_IN, Stage.IN_WORK)

    @property
    def has_several(self) -> bool:
        return len(self.garments) > 1

    @property
    def has_draft(self) -> bool:
        return any(shown.draft for shown in self.garments)

    @property
    def is_stopped(self) -> bool:
        """True when a note on the page asks for a decision first: its button is then the page's one ink button."""
        return any(shown.may_change and (shown.newer or shown.behind) for shown in self.garments)

    @property
    def is_refused(self) -> bool:
        """True when a form was sent and not accepted, or no draft could be made."""
        return any(shown.refused or shown.form and shown.form.errors for shown in self.garments)


def order_page(whole: WholeOrder, today: date, person, *, form: GarmentForm | None = None, refused=()) -> OrderPage:
    """`form` is a garment's form that was sent and not accepted; `refused` says why its draft could not be made."""
    order = whole.order
    money = money_shown(whole) if person.may("see_money") else None
    act = next_act(
        order,
        measured=whole.newest is not None,
        paid_in_full=money is None or money.balance is not None and money.balance <= 0,
    )
    return OrderPage(
        order=order,
        next=act if act and person.may(act.needs) else None,
        next_words=in_words(order, today, sees_money=money is not None, rings="" if person.may("see_phone") else order.owner_name) if order.is_open else "",
        collection=collection_words(order, today),
        tape=drawings(order, today)[0],
        garments=[garment_shown(each, whole, person, form, refused) for each in whole.garments],
        fittings=whole.fittings,
        cloths=cloths_shown(order, whole.cloths, draft_keys(whole.garments)),
        money=money,
        stages=stages_shown(order),
        days=days_shown(order, today),
        days_late=order.days_late(today),
        put_away=whole.put_away,
        out_work=[(out, out.is_late(today)) for out in whole.out_work],
        came_back=whole.came_back,
        may_let_go=bool(order.stage == Stage.READY and money and money.balance > 0 and person.may("refund")),
    )


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
    if order.was_cut_on:
        rows.append(DayRow(order.was_cut_on, "Cut", is_done=True))
    elif order.cut_on and not is_off:
        rows.append(DayRow(order.cut_on, "To cut", flag=missed(order.cut_on, today) if order.is_open else None))
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


def missed(day: date, today: date) -> tuple[str, str] | None:
    if day == today:
        return "wait", "today"
    return ("late", "day is past") if day < today else None


def money_shown(whole: WholeOrder) -> MoneyShown:
    order = whole.order
    share = min(order.paid / order.price, 1) if order.price else Decimal(0)
    today = timezone.localdate()
    parts = [(each, each.is_late(today)) for each in plan_of(order)]
    is_called_off = order.stage == Stage.CALLED_OFF
    return MoneyShown(
        order.price, order.paid, order.balance, whole.payments, f"{share * 100:.1f}%",
        instalments=[] if is_called_off else parts, instalments_off=is_off(order),
        kept=order.paid if order.kept is None else order.kept, is_called_off=is_called_off,
    )  # fmt: skip
