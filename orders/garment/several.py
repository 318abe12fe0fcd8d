"""An order of several garments: one more is added, one is put away and taken up again."""

from datetime import date

from django.db import transaction

from drafting.engine.garments import KINDS
from orders.booking import known_choices, newest_measuring, put_usual_cloths, usual_uses
from orders.garment.options import defaults
from orders.models import Garment, Order
from orders.stages import NotNow

MOST = 12


@transaction.atomic
def add_garment(*, order: Order, kind: str, by, title: str = "", own_cloths: bool = True, begin_from: Garment | None = None) -> Garment:
    """One more garment on an order that is not cut yet; the owner looks it over before it is cut, as she did the others.

    With `own_cloths` it waits for cloths of its own; else it is cut from those of the order, and waits for what they lack.
    """
    order = Order.objects.select_for_update().get(pk=order.pk)
    refuse_unless_open_to_it(order)
    if order.garments.count() >= MOST:
        raise NotNow(f"{order.number} has {MOST} garments. Write another order for the rest.")
    if begin_from is not None:
        kind = begin_from.kind
    options = known_choices(begin_from) if begin_from else defaults(KINDS[kind])
    garment = Garment.objects.create(
        order=order, kind=kind, title=title or free_title(order, KINDS[kind].title), options=options,
        rules=dict(begin_from.rules) if begin_from else {}, started_from=begin_from, measuring=newest_measuring(order.client), changed_by=by,
    )  # fmt: skip
    uses = usual_uses(kind, options)
    if not own_cloths:
        there = {use for cloth in order.cloths.filter(garment=None) for use in cloth.used_for}
        uses = [use for use in uses if use not in there]
    put_usual_cloths(order, by, uses, garment=garment)
    garment.note_changes([{"field": "garment", "label": "garment", "before": "", "after": "added"}], by=by)
    return garment


def free_title(order: Order, title: str) -> str:
    """“Skirt”, or “Skirt 2” where there is one."""
    taken = set(Garment.everything.filter(order=order).values_list("title", flat=True))
    return next(name for name in (title, *(f"{title} {number}" for number in range(2, MOST + 2))) if name not in taken)


def refuse_unless_open_to_it(order: Order) -> None:
    if order.is_repair:
        raise NotNow(f"{order.number} is a repair. Write another order for what is made new.")
    if not order.is_before_cutting:
        raise NotNow(f"{order.number} is {order.get_stage_display()}. Write another order for one more garment.")


@transaction.atomic
def put_away(*, garment: Garment, by, today: date) -> None:
    """It is not made after all. Its choices, drafts and cloths are kept, and it can be taken up again."""
    order = Order.objects.select_for_update().get(pk=garment.order_id)
    refuse_unless_open_to_it(order)
    garment.refuse_if_cut()
    if garment.cut_pieces.exists():
        raise NotNow(f"Pieces of {garment.title} are cut already. What is begun stays on the order.")
    if order.garments.count() == 1:
        raise NotNow(f"{garment.title} is all that {order.number} is for. Call the order off, or add the other garment first.")
    garment.put_away_on = today
    garment.keep("put_away_on", by=by)
    garment.withdraw_sign_off(by=by)  # what was said of it holds no more when it is taken up again
    order.follow_cuts(by=by)  # all that is left may be cut


@transaction.atomic
def take_up(*, garment: Garment, by) -> None:
    order = Order.objects.select_for_update().get(pk=garment.order_id)
    refuse_unless_open_to_it(order)
    garment.put_away_on = None
    garment.keep("put_away_on", by=by)
