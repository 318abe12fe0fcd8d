"""What stands in the way of an order's next promise: each concern with its flag and what to do."""

from dataclasses import replace
from datetime import date, timedelta

from orders.concern import Concern, Eyes, Known, Step, page_of
from orders.cutting_concerns import Cut, cloths, cutting_past, deposit, drafts, measures, sign_off, stale
from orders.models import Order, SpoiledPiece
from orders.money.instalments import due_of
from orders.money.uncollected import SAID, TEXTS, step_of
from orders.stages import BEFORE_CUTTING, Stage
from workshop.templatetags.workshop_tags import day, short_day

CUTTING_NEAR_DAYS = 3
DEPOSIT_NEAR_DAYS = 7
HOLD_NEAR_DAYS = 2
WITHOUT_FITTING = (*BEFORE_CUTTING[1:], Stage.CUT)
#: A garment without a fitting ahead is told of when its collection is so near. Common practice, no source.
FITTING_NEAR_DAYS = 14

#: From the first cut until it is pressed: after that nothing of it is cut.
CUT_AGAIN = (*BEFORE_CUTTING[1:], Stage.CUT, Stage.SEWN)
NEW = SpoiledPiece.How.NEW

NOTHING_MORE = Known()


def concerns_of(order: Order, today: date, eyes: Eyes, known: Known = NOTHING_MORE, cut: Cut | None = None) -> list[Concern]:
    """The most pressing first, each with its reason and the next step that this person may take.

    `cut` is the cut that is asked about; without it, that of all garments that are left, on the order's own day.
    """
    if not order.is_open:
        return []
    if cut is None and order.cut_on:
        cut = Cut(order, order.cut_on, order.not_cut)
    found = [late(order, today, eyes)]
    if cut and order.stage in BEFORE_CUTTING[1:]:
        to_cut_in = (cut.on - today).days
        if to_cut_in <= DEPOSIT_NEAR_DAYS:
            found += [deposit(cut, today, eyes), stale(cut, known)]
        if to_cut_in <= CUTTING_NEAR_DAYS:
            found += [drafts(cut, today), measures(cut, known.newer), cloths(cut, today), sign_off(cut, eyes)]
        found.append(cutting_past(cut, today))
    if not any(concern and concern.flag in ("deposit not in", "ask first") for concern in found):
        found.append(hold(order, today, eyes))
    found.append(instalment(order, today, eyes))
    found.append(measured_after_cut(order, known))
    found += [not_begun(order, today), again(order), out_not_back(order, today), toile(order, today)]
    if order.stage != Stage.ASKED:
        found += [too_full(order, known), occasion(order), fitting(order, today)]
    return [for_eyes(concern, eyes) for concern in found if concern]


def is_cut_soon(order: Order, cut_on: date | None, today: date) -> bool:
    """Whether anything is asked of its deposit, measures, draft and cloths yet, were it cut on that day."""
    return order.stage in BEFORE_CUTTING[1:] and cut_on is not None and (cut_on - today).days <= DEPOSIT_NEAR_DAYS


def for_eyes(concern: Concern, eyes: Eyes) -> Concern:
    return concern if concern.step is None or eyes.may(concern.step.needs) else replace(concern, step=None)


def hold(order: Order, today: date, eyes: Eyes) -> Concern | None:
    """A date that is held without a deposit: about to lapse, or free for others."""
    if not order.waits_for_deposit or order.held_until > today + timedelta(days=HOLD_NEAR_DAYS):
        return None
    step = Step("Hold it longer, or take the deposit", page_of(order, "hold"), "edit_orders")
    if order.is_lapsed(today):
        waited = "No deposit is in." if eyes.sees_money else ""
        return Concern(order, "risk", "date not held", f"It was held until {day(order.held_until)}. {waited} The bench counts it no more.".replace("  ", " "), step)
    return Concern(order, "wait", "date held", f"Held until {day(order.held_until)}, then it is free for others.", step)


def not_begun(order: Order, today: date) -> Concern | None:
    """Something brought in whose day is near, and nothing of it is done."""
    if order.stage != Stage.BROUGHT_IN or not order.collect_on or (order.collect_on - today).days > CUTTING_NEAR_DAYS:
        return None
    return Concern(order, "risk", "not begun", f"To be ready {short_day(order.collect_on)}, and nothing of it is done yet.", Step("See its jobs", page_of(order), "see_work"))


def again(order: Order) -> Concern | None:
    """A spoiled piece that is not cut again yet; of one that needs new cloth, that."""
    if order.stage not in CUT_AGAIN or not order.to_cut_again:
        return None
    piece = next((each for each in order.to_cut_again if each.how == NEW), order.to_cut_again[0])
    more = len(order.to_cut_again) - 1
    others = f" {more} more to cut again." if more else ""
    spoiled = f"{piece.piece[:1].upper()}{piece.piece[1:]} of {piece.cloth} was spoiled"
    if piece.how == NEW:
        return Concern(order, "risk", "cloth to buy", f"{spoiled}, and needs new cloth.{others}", Step("Market list", "/orders/market/", "see_work"))
    return Concern(order, "risk", "to cut again", f"{spoiled}. Its place is kept on the cutting table.{others}", Step("Cut it again", page_of(order, "cutting"), "see_work"))


def out_not_back(order: Order, today: date) -> Concern | None:
    """Work given out whose day is past, or that is due back only after collection."""
    late = next((out for out in order.not_back if out.is_late(today)), None)
    if late:
        text = f"Due back from {late.to_whom} on {short_day(late.due_back)}: {late.what}."
        return Concern(order, "risk", "not back", text, Step("See what is out", page_of(order, "out", late.pk), "edit_orders"))
    after = next((out for out in order.not_back if order.collect_on and out.due_back >= order.collect_on), None)
    if after:
        text = f"Due back from {after.to_whom} on {short_day(after.due_back)}, collection is on {short_day(order.collect_on)}: {after.what}."
        return Concern(order, "risk", "back too late", text, Step("See what is out", page_of(order, "out", after.pk), "edit_orders"))
    return None


def toile(order: Order, today: date) -> Concern | None:
    """A toile that is wanted before the first cut, and was not fitted."""
    if not order.toile_waits or order.stage == Stage.ASKED:
        return None
    ahead = next((each for each in order.held_fittings if each.is_toile and each.is_to_come and each.day >= today), None)
    if ahead:
        return Concern(order, "wait", "toile to fit", f"The toile is fitted on {short_day(ahead.at)}. Cut after it.", Step("Open the order", page_of(order), "see_work"))
    text = "A toile is wanted before the cloth is cut, and no fitting of it is booked."
    return Concern(order, "risk", "no toile fitting", text, Step("Book its fitting", page_of(order, "fitting"), "edit_orders"))


def too_full(order: Order, known: Known) -> Concern | None:
    """The bench has more promised before it than there are hours, or the order's own hours are too many."""
    if known.can is None or not order.collect_on:
        return None
    hours = known.alone()
    why = f"it alone wants {hours} hours more" if hours else "the bench has work promised before it until then"
    text = f"Promised for {day(order.collect_on)}, but {why}. It would be ready on {day(known.can)}."
    return Concern(order, "risk", "bench too full", text, Step("Move a promise", page_of(order, "promise"), "edit_orders"))


def occasion(order: Order) -> Concern | None:
    if not (order.occasion_on and order.collect_on and order.collect_on > order.occasion_on):
        return None
    text = f"Collection is on {day(order.collect_on)}, the occasion on {day(order.occasion_on)}."
    return Concern(order, "risk", "after the occasion", text, Step("Change the days", page_of(order, "promise"), "edit_orders"))


def fitting(order: Order, today: date) -> Concern | None:
    """A fitting whose day is past and of which nothing is noted; or none ahead, with collection near."""
    held = order.held_fittings
    past = next((each for each in held if each.is_to_come and each.day < today), None)
    if past:
        step = Step("Note how it went", page_of(order, "fitting", past.pk, "done"), "tick_work")
        return Concern(order, "wait", "fitting not noted", f"It was to be on {short_day(past.at)}. Note it as done, or that the client did not come.", step)
    if order.stage not in WITHOUT_FITTING or not order.collect_on or (order.collect_on - today).days > FITTING_NEAR_DAYS:
        return None
    if any(each.is_to_come for each in held) or any(each.ended == "finish" for each in held) or is_fitted(order, held):
        return None
    text = f"Collection is on {short_day(order.collect_on)}, and no fitting is booked."
    return Concern(order, "risk", "no fitting booked", text, Step("Book a fitting", page_of(order, "fitting"), "edit_orders"))


def is_fitted(order: Order, held: list) -> bool:
    """Whether the cut garment was tried on, and the client is not to come again."""
    since_cut = [each for each in held if each.is_done and order.was_cut_on and each.day >= order.was_cut_on]
    return bool(since_cut) and since_cut[-1].ended != "again"


def late(order: Order, today: date, eyes: Eyes) -> Concern | None:
    days = order.days_late(today)
    if not days:
        return None
    if found := uncollected(order, days, eyes):
        return found
    stands = "Hangs ready, not collected." if order.stage == Stage.READY else f"It is {order.get_stage_display()} only."
    owed = f" {eyes.money(order.balance)} to pay." if eyes.sees_money and order.balance else ""
    text = f"Promised for {day(order.collect_on)}. {stands}{owed}"
    step = Step("Open the order", page_of(order), "see_work") if order.stage == Stage.READY else Step("Change the days", page_of(order, "promise"), "edit_orders")
    return Concern(order, "late", f"{days} {'day' if days == 1 else 'days'} late", text, step)


def uncollected(order: Order, days: int, eyes: Eyes) -> Concern | None:
    """It hangs ready, and the days that the workshop's terms name are past: what they say, and the text for it."""
    at = step_of(days) if order.stage == Stage.READY else 0
    if not at:
        return None
    owed = f" {eyes.money(order.balance)} to pay." if eyes.sees_money and order.balance else ""
    said = SAID[at] if eyes.sees_money else "Ask the owner."
    text = f"Ready for {day(order.collect_on)}, not collected for {days} days.{owed} {said}"
    return Concern(order, "late", f"not collected, {days} days", text, Step("Send word", f"{page_of(order, 'message')}?text={TEXTS[at]}", "see_phone"))


def instalment(order: Order, today: date, eyes: Eyes) -> Concern | None:
    """A part of the price whose day is past or this week; those who see no money are not told."""
    due = due_of(order, today) if eyes.sees_money and order.instalments else []
    if not due:
        return None
    late = sum(each.left for each in due if each.is_late(today))
    step = Step("Take the instalment", page_of(order, "payment"), "take_payment")
    if late:
        return Concern(order, "risk", "instalment late", f"{eyes.money(late)} was to be paid by {day(due[0].on)}.", step)
    return Concern(order, "wait", "instalment due", f"{eyes.money(due[0].left)} is to be paid on {day(due[0].on)}.", step)


def measured_after_cut(order: Order, known: Known) -> Concern | None:
    """The client was measured again after the cut: whether the let-out takes it, or what is to be cut again."""
    if (after := known.after_cut()) is None:
        return None
    label, to = ("Pieces, old over new", ("garment", after.garment.pk, "compare")) if after.garment else ("Open the order", ())
    return Concern(order, after.kind, after.flag, f"Measured again on {day(after.on)}, after it was cut. {after.said}", Step(label, page_of(order, *to), "see_work"))
