"""What stands in the way of an order's next promise: each concern with its flag and what to do."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from orders.laying import draft_keys
from orders.models import Order
from orders.stages import BEFORE_CUTTING, Stage
from workshop.templatetags.workshop_tags import cloth as as_bought
from workshop.templatetags.workshop_tags import day, short_day

CUTTING_NEAR_DAYS = 3
DEPOSIT_NEAR_DAYS = 7


@dataclass(frozen=True)
class Concern:
    """`kind` is the flag's shape: late (solid), risk (dashed) or wait (plain dashed)."""

    order: Order
    kind: str
    flag: str
    text: str


@dataclass(frozen=True)
class Eyes:
    """Who is looking: what they may see, and how they read money."""

    sees_money: bool
    signs_off: bool
    money: Callable = str
    sees_phone: bool = True


def concerns_of(order: Order, today: date, eyes: Eyes, newer=None) -> list[Concern]:
    """The most pressing first. `newer` is the client's measuring that the draft does not know, if there is one."""
    if not order.is_open:
        return []
    found = [late(order, today, eyes)]
    if order.stage in BEFORE_CUTTING[1:] and order.cut_on:
        to_cut_in = (order.cut_on - today).days
        if to_cut_in <= DEPOSIT_NEAR_DAYS:
            found.append(deposit(order, eyes))
        if to_cut_in <= CUTTING_NEAR_DAYS:
            found += [drafts(order, today), measures(order, newer), cloths(order), sign_off(order, eyes)]
    return [concern for concern in found if concern]


def late(order: Order, today: date, eyes: Eyes) -> Concern | None:
    days = order.days_late(today)
    if not days:
        return None
    stands = "Hangs ready, not collected." if order.stage == Stage.READY else f"It is {order.get_stage_display()} only."
    owed = f" {eyes.money(order.balance)} to pay." if eyes.sees_money and order.balance else ""
    text = f"Promised for {day(order.collect_on)}. {stands}{owed}"
    return Concern(order, "late", f"{days} {'day' if days == 1 else 'days'} late", text)


def deposit(order: Order, eyes: Eyes) -> Concern | None:
    if not order.deposit_missing:
        return None
    when = f"Cutting is on {short_day(order.cut_on)}."
    if not eyes.sees_money:
        return Concern(order, "risk", "ask first", f"{when} Ask the owner before you cut.")
    part = f"{eyes.money(order.deposit_missing)} of {eyes.money(order.deposit)} is missing."
    return Concern(order, "risk", "deposit not in", f"{part} {when} Don't cut before it is in.")


def drafts(order: Order, today: date) -> Concern | None:
    when = "today" if order.cut_on == today else f"on {short_day(order.cut_on)}"
    garments = order.all_garments
    if not all(garment.measuring_id for garment in garments):
        return Concern(order, "risk", "not measured", f"To be cut {when}, and there are no measures yet.")
    if not all(garment.draft_id for garment in garments):
        return Concern(order, "risk", "not drafted", f"To be cut {when}. Draft it first.")
    if not all(garment.draft_passed for garment in garments):
        return Concern(order, "risk", "not for cutting", f"To be cut {when}, but a check of its draft failed. Redraft.")
    return None


def measures(order: Order, newer) -> Concern | None:
    if newer is None or not any(garment.draft_id for garment in order.all_garments):
        return None
    text = f"Measured again on {day(newer)}. Redraft, or keep the old measures."
    return Concern(order, "risk", "measures changed", text)


def cloths(order: Order) -> Concern | None:
    """A cloth that is not in, else one of which there is too little or that is too narrow, as far as it was laid."""
    when = f"Cutting is on {short_day(order.cut_on)}."
    missing = [cloth.name for cloth in order.cloths_to_come if not cloth.is_in]
    if missing:
        flag = f"{missing[0]} not in" if len(missing) == 1 else "cloths not in"
        return Concern(order, "risk", flag, f"Not on the shelf yet: {', '.join(missing)}. {when}")
    drafts = draft_keys(order.all_garments)
    for cloth in (each for each in order.cloths_to_come if each.is_laid_for(drafts)):
        if cloth.not_laid:
            return Concern(order, "risk", "cloth can’t be laid", f"{cloth.name}: {cloth.not_laid} {when}")
        needs, short = as_bought(cloth.needs_mm), as_bought(-cloth.spare_mm)
        text = f"{cloth.name}: this draft takes {needs}, {cloth.on_hand_shown} on hand. {when}"
        return Concern(order, "risk", f"cloth short {short}", text)
    return None


def sign_off(order: Order, eyes: Eyes) -> Concern | None:
    garments = order.all_garments
    if order.is_signed_off or not all(garment.draft_id and garment.draft_passed for garment in garments):
        return None
    ask = "Look the draft over and sign it off." if eyes.signs_off else "The owner has not signed it off yet."
    return Concern(order, "wait", "sign-off", f"Drafted, to be cut {short_day(order.cut_on)}. {ask}")
