"""Questions about many orders, in the workshop's words. The day asked about is always passed in."""

from datetime import date, datetime, time, timedelta
from decimal import Decimal

from django.contrib.auth import get_user_model
from django.db import models, transaction
from django.db.models import DecimalField, Exists, F, OuterRef, Prefetch, Q, Subquery, Sum, Value
from django.db.models.functions import Cast, Coalesce, NullIf, Round
from django.utils import timezone

from clients.querysets import name_of
from orders.beside import AGAIN_FIELDS, OUT_FIELDS, rows_along
from orders.stages import BEFORE_CUTTING, Stage
from workshop.people import OWNER

#: Of an order and its client: what no list shows.
NOT_IN_A_ROW = (
    *("version", "changed_at", "changed_by", "why_called_off", "urgent_fee", "wish", "budget", "party", "paid_by"),
    *("copied_from", "note", "leftovers", "leftovers_on"),
    *("client__phone", "client__note", "client__consent_on", "client__to_let_down", "client__alterations"),
    *("client__since", "client__name_folded", "client__phone_digits"),
)


class OrderQuerySet(models.QuerySet):
    # Which

    def in_hand(self):
        return self.filter(is_open=True)

    def late(self, today: date):
        return self.in_hand().filter(collect_on__lt=today)

    def to_cut(self, by_day: date):
        """Orders whose cutting day is here or past, and that are not cut."""
        return self.in_hand().filter(stage__in=BEFORE_CUTTING[1:], cut_on__lte=by_day)

    def to_collect(self, by_day: date):
        """Orders that hang ready, and those promised by that day."""
        return self.in_hand().filter(Q(stage=Stage.READY) | Q(collect_on__lte=by_day))

    def set_for(self, day: date):
        """Orders to be cut, collected or fitted on that day."""
        fittings = self.model._meta.get_field("fittings").related_model.objects
        fitted = Exists(fittings.on(day).filter(order=OuterRef("pk")))
        return self.filter(Q(cut_on=day) | Q(collect_on=day) | fitted)

    # In what order

    def by_collection(self):
        """Soonest promised first; those without a date last."""
        return self.order_by(models.F("collect_on").asc(nulls_last=True), "serial")

    def latest_first(self):
        return self.order_by("-serial")

    # What is kept of others

    def add_up_paid(self) -> int:
        """Write on each what its payments come to; SQLite adds in binary fractions, so to the thousandths that are kept."""
        return self.update(paid=self.sum_of_payments())

    def paid_otherwise(self):
        """Those on which anything else is written than their payments come to: none, unless rows were written past the models."""
        return self.annotate(added_up=self.sum_of_payments()).exclude(paid=F("added_up"))

    def sum_of_payments(self):
        payments = self.model._meta.get_field("payments").related_model.objects
        each = payments.filter(order=OuterRef("pk")).order_by().values("order").annotate(sum=Sum("amount")).values("sum")
        return Round(Coalesce(Subquery(each), Value(Decimal(0)), output_field=DecimalField(max_digits=13, decimal_places=3)), precision=3)

    # With what

    def with_client(self):
        return self.select_related("client")

    def with_owner_name(self):
        """The name of the workshop's owner, whom those ask who may not see a client's number."""
        owners = get_user_model().objects.filter(role=OWNER, is_active=True).order_by("pk")
        name = Coalesce(NullIf("display_name", Value("")), "username")
        return self.annotate(owner_name=Coalesce(Subquery(owners.annotate(name=name).values("name")[:1]), Value("the owner")))

    def with_work(self):
        """Garments and fittings, without the drawings that their drafts hold."""
        garments = self.model._meta.get_field("garments").related_model
        fittings = self.model._meta.get_field("fittings").related_model
        return self.prefetch_related(
            Prefetch("garments", garments.objects.light(), to_attr="all_garments"),
            Prefetch("fittings", fittings.objects.light(), to_attr="all_fittings"),
        )

    def without_what_no_row_shows(self):
        """Leaves in the database what an order's own page shows and no list does."""
        return self.defer(*NOT_IN_A_ROW)

    def with_out(self):
        """The work given out that is not back, in the same query."""
        out = self.model._meta.get_field("out_work").related_model
        return self.annotate(out_rows=rows_along(out, *OUT_FIELDS, back_on=None))

    def with_spoiled(self):
        """The spoiled pieces that are not cut again yet, in the same query."""
        spoiled = self.model._meta.apps.get_model("orders", "SpoiledPiece").objects.to_cut_again()
        return self.annotate(again_rows=rows_along(spoiled, *AGAIN_FIELDS, by="garment__order"))

    def with_garments(self):
        garments = self.model._meta.get_field("garments").related_model
        return self.prefetch_related(Prefetch("garments", garments.objects.light(), to_attr="all_garments"))

    def with_cloths(self):
        return self.prefetch_related("cloths")


class GarmentManager(models.Manager):
    """Leaves out what was put away."""

    def get_queryset(self):
        return super().get_queryset().filter(put_away_on=None)


class ClothManager(models.Manager):
    """Leaves out the own cloths of a garment that was put away."""

    def get_queryset(self):
        return super().get_queryset().filter(garment__put_away_on=None)


class GarmentQuerySet(models.QuerySet):
    def light(self):
        """What a list needs: whether there are measures and a draft, not the drawing itself."""
        return self.only(
            "order_id", "kind", "title", "hours_planned", "measuring_id", "kept_past_id", "draft_id", "cut_draft_id", "draft_passed", "signed_off_by_id"
        )


class FittingQuerySet(models.QuerySet):
    def between(self, first: date, last: date):
        """Fittings from the first day's morning to the last day's night, in the workshop's own time."""
        return self.filter(at__gte=midnight(first), at__lt=midnight(last + timedelta(days=1)))

    def on(self, day: date):
        return self.between(day, day)

    def light(self):
        """With the name of who fits, and nothing else of theirs."""
        return self.select_related("by").only(
            "order_id", "at", "done_on", "missed_on", "ended", "is_toile", "note", "by__display_name", "by__username"
        )

    def with_fitter(self):
        """With who fits as the text `fitter`, nothing where that is open."""
        return self.annotate(fitter=name_of("by"))

    def with_told_at(self):
        """With its moment as the text `told_at`, as the database writes it, by UTC's clock."""
        return self.annotate(told_at=Cast("at", models.TextField()))


class PaymentQuerySet(models.QuerySet):
    def update(self, **kwargs):
        raise TypeError("A payment is never changed. Reverse it with orders.money.payments.reverse.")

    def bulk_create(self, payments, *args, **kwargs):
        with transaction.atomic():
            written = super().bulk_create(payments, *args, **kwargs)
            orders = self.model._meta.get_field("order").related_model.objects
            orders.filter(pk__in={payment.order_id for payment in written}).add_up_paid()
        return written

    def delete(self):
        raise TypeError("A payment is never deleted. Reverse it with orders.money.payments.reverse.")


def midnight(day: date) -> datetime:
    return timezone.make_aware(datetime.combine(day, time.min))
