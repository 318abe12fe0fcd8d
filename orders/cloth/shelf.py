"""The cloth shelf: what is received, checked, cut from, kept as an offcut, put to an order and given back."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from django.db import transaction
from django.db.models import OuterRef, Q, QuerySet, Subquery

from clients.folding import fold
from clients.models import Client
from orders.cloth import cloths
from orders.models import Cloth, Order, ShelfAct, ShelfCloth
from orders.models.shelf import CLIENTS, OURS
from orders.stages import NotNow
from workshop.forms import Written
from workshop.templatetags.workshop_tags import cloth as as_bought

SHOWN = 200


@dataclass(frozen=True)
class ShelfShown:
    """The shelf as it is looked for: what goes back, what was cut from and is not measured again, what lies there for orders,
    clients' cloth for none yet, and what is free.
    """

    to_give_back: list[ShelfCloth]
    cut_from: list[ShelfCloth]
    for_orders: list[ShelfCloth]
    clients: list[ShelfCloth]
    free: list[ShelfCloth]

    @property
    def is_empty(self) -> bool:
        return not (self.to_give_back or self.cut_from or self.for_orders or self.clients or self.free)


def on_shelves() -> QuerySet:
    """Lengths with what their pages ask of them: whose and for what they are, and whether they were cut from or are free."""
    longest = ShelfCloth.objects.filter(cloth=OuterRef("cloth"), state=ShelfCloth.State.HERE).order_by("-length_mm").values("length_mm")[:1]
    lengths = ShelfCloth.objects.told().annotate(longest_mm=Subquery(longest))
    return lengths.select_related("client", "order__client", "cloth__order", "checked_by")


def shelf_shown(words: str = "") -> ShelfShown:
    """Everything that is here, or what of it has every word typed. One query."""
    found = on_shelves().filter(state=ShelfCloth.State.HERE)
    for word in words.split():
        named = Q(name__icontains=word) | Q(dye_lot__icontains=word) | Q(place__icontains=word)
        found = found.filter(named | Q(order__number__icontains=word) | Q(client__name_folded__contains=fold(word)))
    lengths = list(found[:SHOWN])
    return ShelfShown(
        to_give_back=[each for each in lengths if each.goes_back],
        cut_from=[each for each in lengths if each.is_cut_from and not each.goes_back],
        for_orders=[each for each in lengths if not (each.goes_back or each.is_cut_from or each.is_free)],
        clients=[each for each in lengths if each.is_free and each.whose == CLIENTS],
        free=[each for each in lengths if each.is_free and each.whose != CLIENTS],
    )


def lying_for(client: Client) -> list[ShelfCloth]:
    """Her cloth that came in before there was an order for it."""
    return list(ShelfCloth.objects.filter(state=ShelfCloth.State.HERE, client=client, order=None)[:SHOWN])


@transaction.atomic
def receive(*, cloth: Cloth, length: Written, width: Written, place: str, dye_lot: str, whose: str, by, today: date) -> ShelfCloth:
    """An order's cloth comes in: it lies on the shelf, and the order has so much on hand."""
    order = cloth.order
    on_shelf = put_down(
        name=cloth.name, whose=whose, client=order.client if whose == CLIENTS else None, order=order, cloth=cloth, place=place,
        dye_lot=dye_lot, received_on=today, **sizes(length, width), by=by, what=f"received, {length.written}, for {order.number}",
    )  # fmt: skip
    tell_order(on_shelf, by)
    return on_shelf


@transaction.atomic
def put_down(*, by, what: str, **values) -> ShelfCloth:
    """A length on the shelf, with the first of its acts."""
    on_shelf = ShelfCloth.objects.create(changed_by=by, **values)
    note(on_shelf, what, by)
    return on_shelf


def sizes(length: Written, width: Written) -> dict:
    return {"length_written": length.written, "length_mm": length.mm, "width_written": width.written, "width_mm": width.mm}


@transaction.atomic
def check(*, on_shelf: ShelfCloth, values: dict, by, today: date) -> bool:
    """What the check found; the order's cloth follows: its usable width, shrinkage and faults decide the lay.

    True where a sign-off was withdrawn for it.
    """
    refuse_unless_here(on_shelf)
    for name, value in values.items():
        setattr(on_shelf, name, value)
    on_shelf.checked_on, on_shelf.checked_by = today, by
    on_shelf.keep(*values, "checked_on", "checked_by", by=by)
    note(on_shelf, f"checked: {found_words(on_shelf)}", by)
    return tell_order(on_shelf, by)


def found_words(on_shelf: ShelfCloth) -> str:
    """“usable 54 in, 2 faults, shrinks 3%, bleeds”."""
    parts = [
        f"usable {on_shelf.usable_written}" if on_shelf.usable_mm else "",
        f"{len(on_shelf.faults)} fault{'' if len(on_shelf.faults) == 1 else 's'}" if on_shelf.faults else "no faults",
        f"shrinks {on_shelf.shrink_percent.normalize():f}%" if on_shelf.shrink_percent else "",
        "bleeds" if on_shelf.bleed == "badly" else "",
        "takes no iron" if on_shelf.iron == "badly" else "",
    ]
    return ", ".join(filter(None, parts))


def tell_order(on_shelf: ShelfCloth, by) -> bool:
    """Write the longest length that lies there for it onto the order's cloth, before its cutting: nobody cuts across two.

    True where a sign-off was withdrawn.
    """
    cloth = on_shelf.cloth
    if cloth is None or not cloth.order.is_before_cutting:
        return False
    cloth.refresh_from_db()
    there = max(ShelfCloth.objects.filter(cloth=cloth, state=ShelfCloth.State.HERE), key=lambda each: each.length_mm, default=None)
    if there is None:
        return cloths.change(cloth=cloth, values={"on_hand_mm": None, "on_hand_written": ""}, by=by)
    width = (there.usable_written, there.usable_mm) if there.usable_mm else (there.width_written, there.width_mm)
    values = {"on_hand_mm": there.length_mm, "on_hand_written": there.length_written, "whose": there.whose}
    values["width_written"], values["width_mm"] = width
    if there.shrink_percent is not None:
        values["shrink_percent"] = there.shrink_percent
    if there.checked_on:
        values["prints"] = {key: value for key, value in cloth.prints.items() if key != "flaws"} | ({"flaws": there.faults} if there.faults else {})
    return cloths.change(cloth=cloth, values=values, by=by)


@transaction.atomic
def note_left(*, on_shelf: ShelfCloth, length: Written, width: Written | None, place: str, by) -> None:
    """After it was cut from: what is left and kept as an offcut; of nothing left, it is used up.

    What is ours is free for another order; a client's stays hers, and goes back.
    """
    refuse_unless_here(on_shelf)
    if not length.mm:
        on_shelf.length_written, on_shelf.length_mm, on_shelf.state = "0", Decimal(0), ShelfCloth.State.USED
        on_shelf.keep("length_written", "length_mm", "state", by=by)
        note(on_shelf, "used up", by)
        return
    if length.mm > on_shelf.length_mm:
        raise NotNow(f"“{length.written}” is more than lay there, {as_bought(on_shelf.length_mm)}. Write what is left.")
    before, order = on_shelf.length_written, on_shelf.order
    on_shelf.length_written, on_shelf.length_mm, on_shelf.place = length.written, length.mm, place
    if width:
        on_shelf.width_written, on_shelf.width_mm, on_shelf.usable_written, on_shelf.usable_mm = width.written, width.mm, "", None
    on_shelf.keep("length_written", "length_mm", "place", "width_written", "width_mm", "usable_written", "usable_mm", by=by)
    note(on_shelf, f"cut from for {order.number}: {length.written} left of {before}" if order else f"{length.written} left of {before}", by)
    if on_shelf.whose != CLIENTS and order and not order.is_before_cutting:
        on_shelf.order = on_shelf.cloth = None
        on_shelf.keep("order", "cloth", by=by)


@transaction.atomic
def put_to(*, on_shelf: ShelfCloth, cloth: Cloth, by) -> bool:
    """Free cloth for an order's line; the order has it on hand from now. True where a sign-off was withdrawn."""
    refuse_unless_here(on_shelf)
    order = cloth.order
    if on_shelf.is_cut_from:
        raise NotNow(f"It was cut from for {on_shelf.order.number}. Write down what is left of it first.")
    if not order.is_open or not order.is_before_cutting:
        raise NotNow(f"{order.number} is {order.get_stage_display()}. Nothing more is laid out for it.")
    if on_shelf.whose == CLIENTS and on_shelf.client_id != order.client_id:
        raise NotNow(f"It is {on_shelf.client.name}'s cloth. It is cut for nobody else.")
    if on_shelf.order and on_shelf.order.is_open and on_shelf.order != order:
        raise NotNow(f"It lies there for {on_shelf.order.number}. Cut that first, or take the cloth off that order.")
    on_shelf.order, on_shelf.cloth = order, cloth
    on_shelf.keep("order", "cloth", by=by)
    note(on_shelf, f"put to {order.number}, {cloth.name}", by)
    return tell_order(on_shelf, by)


@transaction.atomic
def end(*, on_shelf: ShelfCloth, how: str, by) -> None:
    """Given back to her whose it is; or ours, thrown out or sold."""
    refuse_unless_here(on_shelf)
    if how == ShelfCloth.State.BACK and on_shelf.whose != CLIENTS:
        raise NotNow("It is ours. Only a client's cloth goes back.")
    if how == ShelfCloth.State.GONE and on_shelf.whose == CLIENTS:
        raise NotNow(f"It is {on_shelf.client.name}'s. Give it back.")
    on_shelf.state = how
    on_shelf.keep("state", by=by)
    note(on_shelf, f"{on_shelf.get_state_display()}{f' to {on_shelf.client.name}' if how == ShelfCloth.State.BACK else ''}", by)
    tell_order(on_shelf, by)


@transaction.atomic
def put_right(*, on_shelf: ShelfCloth, client: Client | None, by) -> bool:
    """Whose it is after all: a client's, or ours with none; its order follows. True where a sign-off was withdrawn."""
    refuse_unless_here(on_shelf)
    order = on_shelf.order
    if client and order and order.client_id != client.pk:
        raise NotNow(f"It lies there for {order.number}, and that is {order.client.name}'s order. A client's cloth is cut for nobody else.")
    on_shelf.client, on_shelf.whose = client, CLIENTS if client else OURS
    on_shelf.keep("client", "whose", by=by)
    note(on_shelf, f"put right: it is {client.name}'s" if client else "put right: it is ours", by)
    return tell_order(on_shelf, by)


@transaction.atomic
def follow_order(*, on_shelf: ShelfCloth, by) -> None:
    """What its order says of it is right: whose it is, how much and how wide."""
    refuse_unless_here(on_shelf)
    cloth = on_shelf.cloth
    if cloth is None or not on_shelf.order_says:
        return
    on_shelf.whose, on_shelf.client = cloth.whose, on_shelf.order.client if cloth.whose == CLIENTS else None
    on_shelf.width_written, on_shelf.width_mm, on_shelf.usable_written, on_shelf.usable_mm = cloth.width_written, cloth.width_mm, "", None
    if cloth.on_hand_mm:
        on_shelf.length_written, on_shelf.length_mm = cloth.on_hand_written, cloth.on_hand_mm
    on_shelf.keep("whose", "client", "width_written", "width_mm", "usable_written", "usable_mm", "length_written", "length_mm", by=by)
    note(on_shelf, f"put right as {cloth.order.number} says: {on_shelf.length_written}, {on_shelf.width_written}", by)


def other_on_shelf(cloth: Cloth) -> ShelfCloth | None:
    """A length that lies there for a cloth of an order, and is not as the order says it is."""
    return next((each for each in on_shelves().filter(cloth=cloth, state=ShelfCloth.State.HERE) if each.order_says), None)


def refuse_unless_here(on_shelf: ShelfCloth) -> None:
    if not on_shelf.is_here:
        raise NotNow(f"{on_shelf.name} is {on_shelf.get_state_display()} already.")


def note(on_shelf: ShelfCloth, what: str, by) -> None:
    ShelfAct.objects.create(on_shelf=on_shelf, what=what[:200], by=by)


def cloths_to_put_to(on_shelf: ShelfCloth) -> list[tuple[Order, Cloth]]:
    """The lines of orders before their cutting whose cloth is not in, those of its name first; for a client's cloth, of her own."""
    wanted = Cloth.objects.filter(order__in=Order.objects.in_hand().filter(stage__in=("asked", "booked", "measured")), on_hand_mm=None)
    if on_shelf.whose == CLIENTS:
        wanted = wanted.filter(order__client=on_shelf.client_id)
    found = wanted.select_related("order__client").order_by("order__serial", "pk")[:SHOWN]
    alike_first = sorted(found, key=lambda cloth: cloth.name.casefold() != on_shelf.name.casefold())
    return [(cloth.order, cloth) for cloth in alike_first]


def to_measure_again(order: Order) -> list[ShelfCloth]:
    """What was cut from for an order and is not measured again."""
    return [each for each in on_shelves().filter(order=order, state=ShelfCloth.State.HERE) if each.is_cut_from]
