"""What stands in the way of an order's cut: its deposit, measures, draft, cloths and sign-off, each with what to do."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date

from clients.again import CHILD_AFTER, is_growing
from orders.cloth.laying import draft_keys
from orders.concern import Concern, Eyes, Known, Step, page_of
from orders.models import Cloth, Order
from orders.models.naming import address_to_measure, told_of
from workshop.templatetags.workshop_tags import cloth as as_bought
from workshop.templatetags.workshop_tags import day, short_day


@dataclass(frozen=True)
class Cut:
    """The cut that is asked about: which garments of an order, and on which day, whether the order has that day or not."""

    order: Order
    on: date
    garments: Collection
    cloths: Collection = ()  # all of the order's, where only some of its garments are asked about

    def told(self, some: Collection, text: str) -> str:
        """The sentence, with the names of these garments before it where the order has others besides."""
        return told_of(text, some, self.order.all_garments)

    def when(self, today: date) -> str:
        return f"Cutting {'is' if self.on >= today else 'was to be'} on {short_day(self.on)}."


def deposit(cut: Cut, today: date, eyes: Eyes) -> Concern | None:
    order = cut.order
    if not order.deposit_missing:
        return None
    when = cut.when(today)
    if not eyes.sees_money:
        return Concern(order, "risk", "ask first", f"{when} Ask the owner before you cut.")
    of = "" if order.deposit_missing == order.deposit else f" of its {eyes.money(order.deposit)}"
    part = f"{eyes.money(order.deposit_missing)}{of} is missing."
    return Concern(order, "risk", "deposit not in", f"{part} {when} Don't cut before it is in.", Step("Take the deposit", page_of(order, "payment"), "take_payment"))


def stale(cut: Cut, known: Known) -> Concern | None:
    """Measures that will be too old on the cutting day; for one who still grows that is soon."""
    if known.measured_on is None or known.newer:
        return None
    order = cut.order
    growing = is_growing(order.client, cut.on)
    good_for = CHILD_AFTER.days if growing else known.good_for_days
    old = (cut.on - known.measured_on).days
    if old <= good_for:
        return None
    text = f"Measured on {day(known.measured_on)}, {old} days before cutting; they are good for {good_for}{' while a client grows' if growing else ''}. Measure again."
    return Concern(order, "risk", "measures old", text, Step("Take measures", address_to_measure(order.client_id), "measure"))


def drafts(cut: Cut, today: date) -> Concern | None:
    order, when = cut.order, "today" if cut.on == today else f"on {short_day(cut.on)}"
    if some := [garment for garment in cut.garments if not garment.measuring_id]:
        text = cut.told(some, f"To be cut {when}, and there are no measures yet.")
        return Concern(order, "risk", "not measured", text, Step("Take measures", address_to_measure(order.client_id), "measure"))
    if some := [garment for garment in cut.garments if not garment.draft_id]:
        return Concern(order, "risk", "not drafted", cut.told(some, f"To be cut {when}. Draft it first."), Step("Open the order", page_of(order), "draft"))
    if some := [garment for garment in cut.garments if not garment.draft_passed]:
        text = cut.told(some, f"To be cut {when}, but a check of its draft failed. Redraft.")
        return Concern(order, "risk", "not for cutting", text, Step("Open the order", page_of(order), "draft"))
    return None


def measures(cut: Cut, newer) -> Concern | None:
    if newer is None or not any(garment.draft_id for garment in cut.garments):
        return None
    text = f"Measured again on {day(newer)}. Redraft, or keep the old measures."
    return Concern(cut.order, "risk", "measures changed", text, Step("Decide on the order", page_of(cut.order), "draft"))


def cloths(cut: Cut, today: date) -> Concern | None:
    """A cloth that is not in, else one of which there is too little or that is too narrow, as far as it was laid."""
    order, when = cut.order, cut.when(today)
    amiss = [cloth for cloth in order.cloths_to_come if any(takes(garment, cloth, cut.cloths) for garment in cut.garments)]
    missing = [cloth.name for cloth in amiss if not cloth.is_in]
    if missing:
        flag = f"{missing[0]} not in" if len(missing) == 1 else "cloths not in"
        return Concern(order, "risk", flag, f"Not on the shelf yet: {', '.join(missing)}. {when}", Step("See the cloths", f"{page_of(order)}#cloths-of-order", "see_work"))
    drafts = draft_keys(order.all_garments)
    for cloth in (each for each in amiss if each.is_laid_for(drafts)):
        if cloth.not_laid:
            return Concern(order, "risk", "cloth can’t be laid", f"{cloth.name}: {cloth.not_laid} {when}", Step("See the lays", page_of(order, "lays"), "see_work"))
        needs, short = as_bought(cloth.needs_mm), as_bought(-cloth.spare_mm)
        text = f"{cloth.name}: this draft takes {needs}, {cloth.on_hand_shown} on hand. {when}"
        return Concern(order, "risk", f"cloth short {short}", text, Step("What would help", f"{page_of(order, 'lays')}?help={cloth.pk}#cloth-{cloth.pk}", "see_work"))
    return None


def takes(garment, cloth: Cloth, cloths: Collection[Cloth]) -> bool:
    """Whether a garment is cut from this cloth of its order: not from a common one where its own cloths leave nothing open."""
    if cloth.garment_id:
        return cloth.garment_id == garment.pk
    own = {use for each in cloths if each.garment_id == garment.pk for use in each.used_for}
    return not set(cloth.used_for) <= own


def sign_off(cut: Cut, eyes: Eyes) -> Concern | None:
    some = [garment for garment in cut.garments if garment.may_be_signed_off]
    if not some:
        return None
    order, ask = cut.order, "Look the draft over and sign it off." if eyes.signs_off else "The owner has not signed it off yet."
    text = cut.told(some, f"Drafted, to be cut {short_day(cut.on)}. {ask}")
    return Concern(order, "wait", "sign-off", text, Step("Look it over", page_of(order), "sign_off"))


def cutting_past(cut: Cut, today: date) -> Concern | None:
    if cut.on >= today:
        return None
    text = f"It was to be cut on {short_day(cut.on)}. Cut it, or give it another day."
    return Concern(cut.order, "risk", "not cut yet", text, Step("Change the days", page_of(cut.order, "promise"), "edit_orders"))
