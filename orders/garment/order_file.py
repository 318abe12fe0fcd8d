"""The order as an order file: the one way from the workshop's book into the drafting."""

from django.utils import timezone

from drafting.engine.garments import KINDS
from orders.garment.options import nested, rule_keys
from orders.measuring import asked_for
from orders.models import Garment
from orders.stages import NotNow
from workshop.models import Workshop


def order_file(garment: Garment) -> dict:
    """What `drafting.brief.read_brief` takes; raises NotNow where there are no measures to draft from."""
    order, measuring = garment.order, garment.measuring
    if measuring is None:
        raise NotNow(f"{order.client.first_name} is not measured yet. Take the measures, then draft.")
    workshop = Workshop.current()
    made = {"kind": garment.kind, **nested(KINDS[garment.kind], garment.options), "rules": rules_for(garment, workshop)}
    file = {
        "order": order.number,
        "client": order.client.first_name,
        "units": workshop.unit,
        "measured_on": measuring.taken_on.isoformat(),
        "measures": measures(garment),
        "garment": made,
        "cloths": cloths_for(garment),
        "dates": dates(order),
    }
    if left := left_arm(garment, measuring):
        file["measures_left"] = left
    if lines := notes(order):
        file["notes"] = lines
    if order.client.alterations:
        file["fit_notes"] = order.client.alterations
    return file


def cloths_for(garment: Garment) -> list[dict]:
    """Its own cloths, and the order's common ones for what its own leave open."""
    cloths = [cloth for cloth in garment.order.cloths.all() if cloth.garment_id in (None, garment.pk)]
    own = {use for cloth in cloths if cloth.garment_id for use in cloth.used_for}
    found = []
    for cloth in cloths:
        uses = cloth.used_for if cloth.garment_id else [use for use in cloth.used_for if use not in own]
        if uses:
            found.append(cloth.as_order_file() | {"for": uses})
    return found


def notes(order) -> list[str]:
    return [line.strip() for line in order.note.splitlines() if line.strip()]


def measures(garment: Garment) -> dict:
    """The body's measures, less a skirt's length where the garment has its own."""
    found = garment.measuring.order_file_measures()
    if garment.options.get("skirt.length"):
        found.pop("skirt_length", None)
    return found


def left_arm(garment: Garment, measuring) -> dict:
    """What of the left arm is drafted apart in this garment: nothing where it has no sleeve."""
    wanted, _ = asked_for(KINDS[garment.kind], garment.options)
    return {key: length for key, length in measuring.order_file_left().items() if key in wanted}


def rules_for(garment: Garment, workshop: Workshop) -> dict:
    """The workshop's own rules that this kind of garment knows, under what is changed for this garment."""
    known = rule_keys(KINDS[garment.kind])
    house = {key: written for key, written in workshop.house_rules.items() if key in known and written != ""}
    return house | {key: written for key, written in garment.rules.items() if written != ""}


def dates(order) -> dict:
    found = {
        "booked": order.booked_on,
        "cut": order.cut_on,
        "collect": order.collect_on,
    }
    entry = {name: day.isoformat() for name, day in found.items() if day}
    if fittings := [timezone.localdate(fitting.at).isoformat() for fitting in order.all_fittings]:
        entry["fittings"] = fittings
    return entry
