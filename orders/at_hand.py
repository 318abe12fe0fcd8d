"""The orders in hand on one page that a phone keeps: to read, and to take cash from, without a network."""

from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal

from drafting.models import KeptDraft
from orders.in_hand import brought, eyes_of, says
from orders.light import with_fittings, with_garments
from orders.models import Made, Order
from orders.next_act import collection_words
from orders.stages import AFTER_CUTTING, Stage
from orders.work.by_hand import is_by_hand
from orders.work.ticking import key_of

#: A phone reads so many and no more; the soonest promised first.
MOST = 60


@dataclass(frozen=True)
class Step:
    number: int
    text: str


@dataclass
class GarmentAtHand:
    title: str
    now: list[Step] = field(default_factory=list)
    making: list[Step] = field(default_factory=list)
    chalking: list[tuple[str, list[Step]]] = field(default_factory=list)


@dataclass(frozen=True)
class OrderAtHand:
    order: Order
    next: str
    collection: str
    balance: Decimal | None
    likely: str
    garments: list[GarmentAtHand]

    @property
    def has_work(self) -> bool:
        return any(garment.now for garment in self.garments)


def at_hand(person, today: date) -> list[OrderAtHand]:
    """Every open order as this person may see it: seven queries, however many there are."""
    eyes = eyes_of(person)
    orders = with_garments(brought(Order.objects.in_hand().by_collection()[:MOST], with_owner=not eyes.sees_phone))
    with_fittings(orders)
    garments = garments_of(orders)
    return [
        OrderAtHand(
            order=order,
            next=says(order, today, eyes),
            collection=collection_words(order, today),
            balance=order.balance if eyes.sees_money else None,
            likely=likely(order) if eyes.sees_money else "",
            garments=garments.get(order.pk, []),
        )
        for order in orders
    ]


def likely(order: Order) -> str:
    """What is most likely being paid, as it is typed: the rest of the deposit, else the balance."""
    amount = order.deposit_missing or order.balance or Decimal(0)
    return f"{amount.normalize():f}" if amount > 0 else ""


def garments_of(orders: list[Order]) -> dict[int, list[GarmentAtHand]]:
    """The garments by order, each with the steps of the draft that its papers show; of the drafts nothing else is read."""
    stages = {order.pk: order.stage for order in orders}
    garments = [garment for order in orders for garment in order.all_garments]
    drafts = {each.cut_draft_id or each.draft_id for each in garments} - {None}
    done = set(Made.objects.filter(garment__order__in=stages).order_by().values_list("garment", "act"))
    steps = {pk: told for pk, *told in KeptDraft.objects.filter(pk__in=drafts).values_list("pk", "result__making", "result__steps")}
    found: dict[int, list[GarmentAtHand]] = {}
    for each in garments:
        making, chalking = steps.get(each.cut_draft_id or each.draft_id, ([], []))
        left = [act for act in making or [] if (each.pk, key_of(act)) not in done]
        told = garment_at_hand(each.title, stages[each.order_id], making or [], left, chalking or [])
        found.setdefault(each.order_id, []).append(told)
    return found


def garment_at_hand(title: str, stage: str, making: list[dict], left: list[dict], chalking: list[dict]) -> GarmentAtHand:
    """`left` is what is not ticked as done: of that, what needs neither machine nor iron can go on now, until it is sewn."""
    steps = [Step(each["number"], each["text"]) for each in making]
    by_piece: dict[str, list[Step]] = {}
    for each in chalking:
        by_piece.setdefault(each["piece"], []).append(Step(each["number"], each["text"]))
    sewing = stage == Stage.CUT
    now = [Step(each["number"], each["text"]) for each in left if sewing and is_by_hand(each["text"])]
    return GarmentAtHand(title, now, steps, [] if stage in AFTER_CUTTING else [*by_piece.items()])
