"""Questions about many clients, measurings and readings, in the workshop's words."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import NamedTuple

from django.db import models
from django.db.models.functions import Coalesce, NullIf
from django.utils import timezone

from clients.folding import digits, fold
from clients.measures import BY_KEY


class HeldReading(NamedTuple):
    """A reading to look at: what a page shows of one, without the row's own weight."""

    pk: int
    measuring_id: int
    key: str
    written: str
    mm: Decimal | None
    replaces_id: int | None
    why: str
    written_at: datetime
    by_name: str
    sure_at: datetime | None

    @property
    def measure(self):
        return BY_KEY[self.key]


class ReadingStands(TypeError):
    """Somebody asked for a reading to be changed or thrown away."""

    def __init__(self):
        super().__init__("A reading stands as it was written. Add a correction that says why.")


class ClientQuerySet(models.QuerySet):
    def matching(self, sought: str, *, with_phone: bool) -> ClientQuerySet:
        """Clients whose name has every word sought in it, or whose number ends in the digits sought.

        Numbers are looked at only for those who may see them (`with_phone`).
        """
        number = digits(sought)
        if with_phone and len(number) >= 2 and not any(c.isalpha() for c in sought):
            return self.filter(phone_digits__endswith=number)
        found = self
        for word in fold(sought).split():
            found = found.filter(name_folded__contains=word)
        return found

    def named_like(self, name: str) -> ClientQuerySet:
        """Clients whose whole name is the same, capitals and accents aside."""
        return self.filter(name_folded=fold(name))

    def with_last_measured(self) -> ClientQuerySet:
        """With the day of their newest measures, asked only for the rows that are shown."""
        measurings = self.model._meta.get_field("measurings").related_model.objects.newest_first()
        newest = measurings.filter(client=models.OuterRef("pk")).values("taken_on")[:1]
        return self.annotate(last_measured=models.Subquery(newest))


class MeasuringQuerySet(models.QuerySet):
    def newest_first(self) -> MeasuringQuerySet:
        return self.order_by("-taken_on", "-begun_at", "-pk")

    def with_readings(self) -> MeasuringQuerySet:
        """With who took them and all their readings, in two queries whatever their number."""
        readings = self.model._meta.get_field("readings").related_model.objects
        return self.select_related("taken_by").prefetch_related(
            models.Prefetch("readings", readings.with_names().order_by("pk"))
        )

    def held_for_reading(self) -> list:
        """The measurings, each with its readings as plain rows (`held`): hundreds are shown, and none is changed."""
        measurings = list(self.select_related("taken_by"))
        for each in measurings:
            each.held = []
        by_pk = {each.pk: each for each in measurings}
        readings = self.model._meta.get_field("readings").related_model.objects
        rows = readings.filter(measuring__in=by_pk).with_names().order_by("pk").values_list(*HeldReading._fields)
        for row in map(HeldReading._make, rows):
            by_pk[row.measuring_id].held.append(row)
        return measurings

    def before(self, measuring) -> MeasuringQuerySet:
        """The other measurings of the same client up to its day, newest first."""
        others = self.filter(client=measuring.client_id, taken_on__lte=measuring.taken_on)
        return others.exclude(pk=measuring.pk).newest_first()

    def begun_on(self, day: date, *, by) -> MeasuringQuerySet:
        """Measures of one day that one person began on that day, the last begun first."""
        start = timezone.make_aware(datetime.combine(day, time.min))
        begun = self.filter(taken_on=day, taken_by=by, begun_at__gte=start, begun_at__lt=start + timedelta(days=1))
        return begun.order_by("-begun_at", "-pk")


class ReadingQuerySet(models.QuerySet):
    """Readings are added and read. There is no way here to change one or to throw one away."""

    def with_names(self) -> ReadingQuerySet:
        """With the name of who wrote each as `by_name`, and when it was said to be right as `sure_at`.

        Hundreds of readings, but a handful of people.
        """
        name = NullIf("written_by__display_name", models.Value(""))
        return self.annotate(by_name=Coalesce(name, "written_by__username"), sure_at=models.F("confirmed__at"))

    def update(self, **kwargs):
        raise ReadingStands

    def bulk_update(self, objs, fields, batch_size=None):
        raise ReadingStands

    def delete(self):
        raise ReadingStands
