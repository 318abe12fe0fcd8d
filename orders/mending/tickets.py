"""Alterations and repairs: a thing is brought in, its jobs are written down and done. Price and hours follow the jobs."""

from datetime import date
from decimal import Decimal

from django.db import transaction
from django.utils import timezone

from orders import photos
from orders.booking import numbered
from orders.models import Mending, Order, OrderPhoto
from orders.stages import NotNow, Stage
from workshop.models import Workshop
from workshop.money import print_money

#: A ticket holds so many jobs; the printed one has room for them.
MOST = 14
LONGEST_MINUTES = 60 * 40


@transaction.atomic
def take_in(*, client, brought_in: str, collect_on: date | None, note: str, photo: bytes | None, by, today: date) -> Order:
    """A new ticket for what is brought in, with a photograph of it as it came."""
    values = {"client": client, "stage": Stage.BROUGHT_IN, "booked_on": today, "collect_on": collect_on, "brought_in": brought_in}
    order = numbered(values | {"note": note, "changed_by": by})
    if photo:
        photos.keep(order=order, jpeg=photo, shows=OrderPhoto.Shows.ARRIVED, by=by, on=today)
    return order


@transaction.atomic
def add_job(*, order: Order, values: dict, by) -> Mending:
    order = locked(order.pk)
    if order.mendings.count() >= MOST:
        raise NotNow(f"{order.number} has {MOST} jobs. Write another ticket for the rest.")
    job = Mending.objects.create(order=order, changed_by=by, **values)
    job.note_changes([{"field": "mending", "label": "job", "before": "", "after": "added"}], by=by)
    settle(order, by)
    return job


@transaction.atomic
def change_job(*, job: Mending, values: dict, by) -> None:
    order = locked(job.order_id)
    for name, value in values.items():
        setattr(job, name, value)
    job.keep(*values, by=by)
    settle(order, by)


@transaction.atomic
def take_off_job(*, job: Mending, by) -> None:
    order = locked(job.order_id)
    if job.is_done:
        raise NotNow(f"{job} is done. What is done stays on the ticket.")
    job.note_changes([{"field": "mending", "label": "job", "before": "on the ticket", "after": "taken off"}], by=by)
    job.delete()
    settle(order, by)


@transaction.atomic
def tick(*, job: Mending, done: bool, by) -> None:
    """The job is done, or not after all; the first job done begins the ticket's work."""
    order = locked(job.order_id)
    if done == job.is_done:
        return
    job.done_at, job.done_by = (timezone.now(), by) if done else (None, None)
    job.keep("done_at", "done_by", by=by)
    if done and order.stage == Stage.BROUGHT_IN:
        order.begin_work(by=by)


def settle(order: Order, by) -> None:
    """The order's price and hours are those of its jobs. Raises NotNow where more than that is paid."""
    jobs = list(order.mendings.all())
    price = sum((job.price for job in jobs), Decimal(0)) if jobs else None
    if order.paid > (price or 0):
        paid = print_money(order.paid, Workshop.current().currency)
        raise NotNow(f"{paid} is paid for {order.number}, more than its jobs would cost then. Give back the difference first.")
    order.price, order.minutes = price, sum(job.minutes for job in jobs)
    order.keep("price", "minutes", by=by)


def locked(key: int) -> Order:
    """The ticket, while its jobs may change; NotNow for what is ready or over."""
    order = Order.objects.select_for_update().get(pk=key)
    if not order.is_repair:
        raise NotNow(f"{order.number} is made new. Jobs stand on tickets for repairs.")
    if order.stage not in (Stage.BROUGHT_IN, Stage.IN_WORK):
        raise NotNow(f"{order.number} is {order.get_stage_display()}. Its jobs stay as they are.")
    return order
