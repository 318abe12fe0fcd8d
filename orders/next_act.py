"""What comes next for an order, in words and, where the app can do it, as a button."""

from dataclasses import dataclass
from datetime import date

from orders.models import Order
from orders.stages import BEFORE_CUTTING, Stage
from workshop.templatetags.workshop_tags import clock, short_day, weekday


@dataclass(frozen=True)
class NextAct:
    """A button that does a verb (`verb`), or leads to a page (`page`); `needs` is the capability that it takes."""

    label: str
    needs: str
    verb: str = ""
    page: str = ""


SIGN_OFF = "Sign off for cutting"
BY_STAGE = {
    Stage.ASKED: NextAct("Book it", "edit_orders", verb="book"),
    Stage.CUT: NextAct("Sewn", "edit_orders", verb="sewn"),
    Stage.SEWN: NextAct("Pressed and ready", "edit_orders", verb="ready"),
    Stage.BROUGHT_IN: NextAct("Begin the work", "edit_orders", verb="begin"),
    Stage.IN_WORK: NextAct("Pressed and ready", "edit_orders", verb="ready"),
    Stage.READY: NextAct("Collected", "edit_orders", verb="collected"),
}

IN_HAND = {
    Stage.CUT: "Sew",
    Stage.SEWN: "Press and hang ready",
    Stage.BROUGHT_IN: "Begin the work",
    Stage.IN_WORK: "Put right, then press",
}


def next_act(order: Order, *, measured: bool, paid_in_full: bool) -> NextAct | None:
    """The one act that moves the order on; None when it is over."""
    if order.stage in (Stage.BOOKED, Stage.MEASURED):
        if not measured:
            return NextAct("Take measures", "measure", page="measure")
        if not all(garment.draft_id for garment in order.all_garments):
            return NextAct("Draft it", "draft", verb="draft")
        if order.is_signed_off:
            return NextAct(of_several("Cut", order.not_cut, order), "tick_work", verb="cut")
        return NextAct(of_several(SIGN_OFF, [each for each in order.not_cut if not each.is_signed_off], order), "sign_off", verb="sign-off")
    if order.stage == Stage.READY and not paid_in_full:
        return NextAct("Take the balance", "take_payment", page="payment")
    if order.stage == Stage.ASKED and (order.price is None or order.collect_on is None):
        return NextAct("Agree day and price", "edit_orders", page="promise")
    return BY_STAGE.get(order.stage)


def of_several(label: str, some: list, order: Order) -> str:
    """“Cut”; of an order of several garments “Cut: skirt”, or “Cut: all 2”."""
    if len(order.all_garments) == 1:
        return label
    return f"{label}: {some[0].title.lower() if len(some) == 1 else f'all {len(some)}'}"


def in_words(order: Order, today: date, *, sees_money: bool, rings: str = "") -> str:
    """One short line for a list: what to do next, and when. `rings` names who rings clients, where the reader may not."""
    fitting = next((f for f in order.all_fittings if f.is_to_come), None)
    if fitting and fitting.day == today:
        return f"Fitting today {clock(fitting.at)}"
    if order.stage in BEFORE_CUTTING:
        return before_cutting(order, today, sees_money)
    if order.stage == Stage.READY:
        return ring(rings) if order.days_late(today) else "Hangs ready"
    if fitting and fitting.day < today:
        return f"Fitting was due {short_day(fitting.day)}"
    if fitting:
        return f"Fitting {short_day(fitting.day)}, {clock(fitting.at)}"
    return IN_HAND[order.stage]


def ring(rings: str) -> str:
    return f"Ask {rings} to ring" if rings else "Ring about collection"


def before_cutting(order: Order, today: date, sees_money: bool) -> str:
    if order.stage == Stage.ASKED:
        if not sees_money:
            return "Not booked yet"
        return "Agree price and collection" if order.price is None or order.collect_on is None else "Book it"
    if order.deposit_missing:
        return "Deposit not in: don't cut" if sees_money else "Ask first: don't cut"
    garments = order.not_cut
    if not all(garment.measuring_id for garment in garments):
        return "Take measures"
    if not all(garment.draft_id for garment in garments):
        return "Draft it"
    if not all(garment.draft_passed for garment in garments):
        return "A check failed: redraft"
    if order.toile_waits:
        return "Fit the toile"
    if waiting := [garment for garment in garments if not garment.is_signed_off]:
        return "Look over and sign off" if len(waiting) == len(order.all_garments) else f"Sign off {waiting[0].title.lower()}"
    return cutting_day(order, today)


def cutting_day(order: Order, today: date) -> str:
    if order.cut_on is None:
        return "Set a cutting day"
    if order.cut_on == today:
        return "Cut today"
    return f"Cut {short_day(order.cut_on)}" if order.cut_on > today else f"Cutting was due {short_day(order.cut_on)}"


def collection_words(order: Order, today: date) -> str:
    """“Collection Saturday 28 March, in 16 days”, told as the tape is read."""
    if order.collect_on is None:
        return "No collection day yet"
    away = (order.collect_on - today).days
    if not order.is_open:
        return weekday(order.collect_on)
    told = {0: "today", 1: "tomorrow"}.get(away, f"in {away} days" if away > 0 else "")
    return ", ".join(filter(None, (weekday(order.collect_on), told)))


