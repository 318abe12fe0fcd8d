"""Changing the workshop's days and hours: one writer at a time, nothing else of the row touched."""

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from statistics import median

from django.db import transaction

from orders.dates.bench import Bench, Closed
from orders.models import Garment
from workshop.models import Workshop

#: Of the last so many: a workshop grows quicker, and old gowns should not count for ever.
LEARN_FROM_LAST = 12


@transaction.atomic
def change(how: Callable[[Bench], Bench]) -> Bench:
    """Read the bench under the row's lock, change it, and write it back."""
    workshop = Workshop.objects.select_for_update().get()
    bench = how(Bench.of(workshop))
    workshop.bench = bench.as_kept()
    workshop.save(update_fields=["bench"])
    return bench


def close(closed: Closed) -> Bench:
    """Add a holiday; one that stands there already is not written twice."""
    return change(lambda bench: replace(bench, closed=tuple(sorted({*bench.closed, closed}, key=lambda c: (c.first, c.last, c.name)))))


def open_again(closed: Closed) -> Bench:
    return change(lambda bench: replace(bench, closed=tuple(each for each in bench.closed if each != closed)))


def close_month(year: int, month: int) -> Bench:
    return change(lambda bench: replace(bench, full_months=bench.full_months | {(year, month)}))


def open_month(year: int, month: int) -> Bench:
    return change(lambda bench: replace(bench, full_months=bench.full_months - {(year, month)}))


@transaction.atomic
def note_hours(*, garment: Garment, planned: Decimal | None, taken: Decimal | None, by) -> None:
    """Write down a garment's hours; those taken are what the next promise of its kind learns from."""
    learns = taken != garment.hours_taken
    garment.hours_planned, garment.hours_taken = planned, taken
    garment.keep("hours_planned", "hours_taken", by=by)
    if learns:
        learn(garment.kind)


def learn(kind: str) -> None:
    """What garments of this kind took: the middle one of the last dozen whose hours were noted."""
    done = Garment.objects.filter(kind=kind, hours_taken__isnull=False).order_by("-pk")
    taken = list(done.values_list("hours_taken", flat=True)[:LEARN_FROM_LAST])
    learned = {kind: (median(taken), len(taken))} if taken else {}

    def how(bench: Bench) -> Bench:
        others = {each: known for each, known in bench.learned.items() if each != kind}
        return replace(bench, learned=others | learned)

    change(how)
