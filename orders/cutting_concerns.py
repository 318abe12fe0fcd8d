"""What stands in the way of an order's cut: its deposit, measures, draft, cloths and sign-off, each with what to do."""

from datetime import date

from clients.again import CHILD_AFTER, is_growing
from orders.cloth.laying import draft_keys
from orders.concern import Concern, Eyes, Known, Step, page_of
from orders.models import Order
from orders.models.naming import address_to_measure
from workshop.templatetags.workshop_tags import cloth as as_bought
from workshop.templatetags.workshop_tags import day, short_day


def cutting_when(order: Order, today: date) -> str:
    return f"Cutting {'is' if order.cut_on >= today else 'was to be'} on {short_day(order.cut_on)}."


def deposit(order: Order, today: date, eyes: Eyes) -> Concern | None:
    if not order.deposit_missing:
        return None
    when = cutting_when(order, today)
    if not eyes.sees_money:
        return Concern(order, "risk", "ask first", f"{when} Ask the owner before you cut.")
    of = "" if order.deposit_missing == order.deposit else f" of its {eyes.money(order.deposit)}"
    part = f"{eyes.money(order.deposit_missing)}{of} is missing."
    return Concern(order, "risk", "deposit not in", f"{part} {when} Don't cut before it is in.", Step("Take the deposit", page_of(order, "payment"), "take_payment"))


def stale(order: Order, known: Known) -> Concern | None:
    """Measures that will be too old on the cutting day; for one who still grows that is soon."""
    if known.measured_on is None or known.newer:
        return None
    growing = is_growing(order.client, order.cut_on)
    good_for = CHILD_AFTER.days if growing else known.good_for_days
    old = (order.cut_on - known.measured_on).days
    if old <= good_for:
        return None
    text = f"Measured on {day(known.measured_on)}, {old} days before cutting; they are good for {good_for}{' while a client grows' if growing else ''}. Measure again."
    return Concern(order, "risk", "measures old", text, Step("Take measures", address_to_measure(order.client_id), "measure"))


def drafts(order: Order, today: date) -> Concern | None:
    when = "today" if order.cut_on == today else f"on {short_day(order.cut_on)}"
    garments = order.all_garments
    if not all(garment.measuring_id for garment in garments):
        return Concern(order, "risk", "not measured", f"To be cut {when}, and there are no measures yet.", Step("Take measures", address_to_measure(order.client_id), "measure"))
    if not all(garment.draft_id for garment in garments):
        return Concern(order, "risk", "not drafted", f"To be cut {when}. Draft it first.", Step("Open the order", page_of(order), "draft"))
    if not all(garment.draft_passed for garment in garments):
        return Concern(order, "risk", "not for cutting", f"To be cut {when}, but a check of its draft failed. Redraft.", Step("Open the order", page_of(order), "draft"))
    return None


def measures(order: Order, newer) -> Concern | None:
    if newer is None or not any(garment.draft_id for garment in order.all_garments):
        return None
    text = f"Measured again on {day(newer)}. Redraft, or keep the old measures."
    return Concern(order, "risk", "measures changed", text, Step("Decide on the order", page_of(order), "draft"))


def cloths(order: Order, today: date) -> Concern | None:
    """A cloth that is not in, else one of which there is too little or that is too narrow, as far as it was laid."""
    when = cutting_when(order, today)
    missing = [cloth.name for cloth in order.cloths_to_come if not cloth.is_in]
    if missing:
        flag = f"{missing[0]} not in" if len(missing) == 1 else "cloths not in"
        return Concern(order, "risk", flag, f"Not on the shelf yet: {', '.join(missing)}. {when}", Step("See the cloths", f"{page_of(order)}#cloths-of-order", "see_work"))
    drafts = draft_keys(order.all_garments)
    for cloth in (each for each in order.cloths_to_come if each.is_laid_for(drafts)):
        if cloth.not_laid:
            return Concern(order, "risk", "cloth can’t be laid", f"{cloth.name}: {cloth.not_laid} {when}", Step("See the lays", page_of(order, "lays"), "see_work"))
        needs, short = as_bought(cloth.needs_mm), as_bought(-cloth.spare_mm)
        text = f"{cloth.name}: this draft takes {needs}, {cloth.on_hand_shown} on hand. {when}"
        return Concern(order, "risk", f"cloth short {short}", text, Step("What would help", f"{page_of(order, 'lays')}?help={cloth.pk}#cloth-{cloth.pk}", "see_work"))
    return None


def sign_off(order: Order, eyes: Eyes) -> Concern | None:
    garments = order.all_garments
    if order.is_signed_off or not all(garment.draft_id and garment.draft_passed for garment in garments):
        return None
    ask = "Look the draft over and sign it off." if eyes.signs_off else "The owner has not signed it off yet."
    return Concern(order, "wait", "sign-off", f"Drafted, to be cut {short_day(order.cut_on)}. {ask}", Step("Look it over", page_of(order), "sign_off"))


def cutting_past(order: Order, today: date) -> Concern | None:
    if order.cut_on >= today:
        return None
    text = f"It was to be cut on {short_day(order.cut_on)}. Cut it, or give it another day."
    return Concern(order, "risk", "not cut yet", text, Step("Change the days", page_of(order, "promise"), "edit_orders"))
