"""Putting cloths on an order, changing them and taking them off: what was signed off is looked at again, what was cut stays."""

from django.db import transaction

from orders.cloth.laying import entry_of
from orders.models import Cloth, Order
from orders.stages import NotNow

LOOK_AGAIN = "It was signed off with the cloths as they were: the owner looks at it again before the first cut."


@transaction.atomic
def put_on(*, order: Order, values: dict, by) -> tuple[Cloth, bool]:
    """The new cloth, and whether the sign-off was withdrawn for it."""
    order = locked(order.pk)
    refuse_unless_before_cutting(order, "A cloth that came later is written into the order's notes.")
    cloth = Cloth.objects.create(order=order, changed_by=by, **values)
    return cloth, looked_at_again(order, by, cloth.garment_id)


@transaction.atomic
def change(*, cloth: Cloth, values: dict, by) -> bool:
    """Write the values; True where the sign-off was withdrawn. On a cut order what was cut from stays as it was written."""
    order = locked(cloth.order_id)
    before = Cloth.objects.get(pk=cloth.pk)
    was, was_for = cut_from(before), before.garment_id
    for name, value in values.items():
        setattr(cloth, name, value)
    is_another = cut_from(cloth) != was
    if is_another:
        refuse_unless_before_cutting(order, "Only what is on hand and whose it is can change; the rest goes into its notes.")
    cloth.keep(*values, by=by)
    return is_another and looked_at_again(order, by, was_for, cloth.garment_id)


@transaction.atomic
def take_off(*, cloth: Cloth, by) -> bool:
    order = locked(cloth.order_id)
    refuse_unless_before_cutting(order, "")
    was_for = cloth.garment_id
    cloth.delete()
    return looked_at_again(order, by, was_for)


def cut_from(cloth: Cloth) -> dict:
    return entry_of(cloth) | {"for": sorted(cloth.used_for), "garment": cloth.garment_id}


def looked_at_again(order: Order, by, *cut_from_it: int | None) -> bool:
    """Withdraw the sign-off of the garments (their keys) that a cloth is or was for; None is a cloth of the whole order."""
    garments = order.garments.all() if None in cut_from_it else order.garments.filter(pk__in=cut_from_it)
    return any([garment.withdraw_sign_off(by=by) for garment in garments])


def refuse_unless_before_cutting(order: Order, what_to_do: str) -> None:
    if order.is_before_cutting:
        return
    stays = "The cloth that it was cut from stays on it, as it was written."
    raise NotNow(f"{order.number} is {order.get_stage_display()}. {stays} {what_to_do}".rstrip())


def locked(key: int) -> Order:
    return Order.objects.select_for_update().get(pk=key)
