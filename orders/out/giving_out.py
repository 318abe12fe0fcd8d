"""Work that others do for an order: given out, back again, paid for."""

from datetime import date

from django.db import transaction

from orders.models import Order, OutWork
from orders.stages import OVER, NotNow


@transaction.atomic
def give_out(*, order: Order, values: dict, by) -> OutWork:
    if order.stage in OVER:
        raise NotNow(f"{order.number} is {order.get_stage_display()}. Nothing more is given out for it.")
    out = OutWork.objects.create(order=order, changed_by=by, **values)
    out.note_changes([{"field": "out", "label": "given out", "before": "", "after": f"to {out.to_whom}"}], by=by)
    return out


def change(*, out: OutWork, values: dict, by) -> None:
    for name, value in values.items():
        setattr(out, name, value)
    out.keep(*values, by=by)


def note_back(*, out: OutWork, by, today: date) -> None:
    if out.back_on:
        raise NotNow(f"{out} is back already.")
    out.back_on = today
    out.keep("back_on", by=by)
