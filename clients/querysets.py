"""Questions about many clients, measurings and readings, in the workshop's words."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

from django.db import models
from django.db.models.functions import Cast, Coalesce, NullIf
from django.utils import timezone

from clients.folding import digits, fold
from clients.held import COLUMNS, READING


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


NEWEST_FIRST = ("-taken_on", "-begun_at", "-pk")


class MeasuringQuerySet(models.QuerySet):
    def newest_first(self) -> MeasuringQuerySet:
        return self.order_by(*NEWEST_FIRST)

    def with_readings(self) -> MeasuringQuerySet:
        """With who took them and all their readings, in two queries whatever their number."""
        readings = self.model._meta.get_field("readings").related_model.objects
        return self.select_related("taken_by").prefetch_related(
            models.Prefetch("readings", readings.with_names().order_by("pk"))
        )

    def to_hold(self) -> MeasuringQuerySet:
        """Newest first, one row for each reading, of the columns that held.py reads."""
        named = self.annotate(
            taker=name_of("taken_by"), writer=name_of("readings__written_by"),
            written_text=Cast("readings__written_at", models.TextField()), day_text=Cast("taken_on", models.TextField()),
        )  # fmt: skip
        return named.order_by(*NEWEST_FIRST, "readings__pk").values_list(*COLUMNS, *READING)

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
        return self.annotate(by_name=name_of("written_by"), sure_at=models.F("confirmed__at"))

    def update(self, **kwargs):
        raise ReadingStands

    def bulk_update(self, objs, fields, batch_size=None):
        raise ReadingStands

    def delete(self):
        raise ReadingStands


def name_of(person: str) -> Coalesce:
    """What somebody is called on screens, by the way to them in a query."""
    return Coalesce(NullIf(f"{person}__display_name", models.Value("")), f"{person}__username")
