"""One order with all that belongs to it, in five queries."""

import json
from collections.abc import Collection
from dataclasses import dataclass
from decimal import Decimal
from typing import NamedTuple

from django.db.models import Case, Count, F, JSONField, OuterRef, Q, Subquery, Value, When
from django.db.models.functions import Coalesce, JSONObject
from django.shortcuts import get_object_or_404

from clients.held import exact
from clients.models import Measuring, Reading
from orders.beside import AGAIN_FIELDS, BACK_FIELDS, HERS_FIELDS, HERS_HERE, OUT_IN_FULL, AllRows, Again, Back, Hers, Out, read, rows_along
from orders.models import Cloth, Complaint, CutPiece, Fitting, Garment, Made, Order, OrderPhoto, OutWork, Party, Payment, ShelfCloth, SpoiledPiece
from workshop.asked_often import RowsAskedOften, together
from workshop.models import Person


@dataclass(frozen=True)
class WholeOrder:
    order: Order
    garments: list[Garment]
    fittings: list
    cloths: list
    payments: list
    put_away: list[Garment]
    out_work: list[Out]
    came_back: list[Back]
    newest: Measuring | None  # the client's newest measuring that has a reading


class Length(NamedTuple):
    """Of a reading what a draft is made from."""

    pk: int
    key: str
    mm: Decimal | None


def whole_order(number: str, *, with_money: bool, drawn: Collection[str] = ()) -> WholeOrder:
    """Raises Http404 where there is no such order. Drafts with a digest among `drawn` come without their result, a large thing to read."""
    everything = _garments_of(number, json.dumps(list(drawn)))
    garments = [garment for garment in everything if garment.put_away_on is None]
    if not garments:
        return whole_repair(number, with_money=with_money)
    order = garments[0].order
    for garment in garments:
        garment.order = order
        if garment.unseen is not None:
            garment.sheet_draft.result = garment.unseen
    order.all_garments = garments
    order.photo_count = garments[0].photo_count or 0
    order.all_fittings = rows_beside(order, _fittings_of)
    cloths = rows_beside(order, _cloths_of)
    if any(garment.draft_id for garment in garments):
        hold(order, "cloths", cloths)  # what a draft was made of is held against what stands now
    payments = rows_beside(order, _payments_of) if with_money else []
    newest = hold_measures(order, garments)
    put_away = [garment for garment in everything if garment.put_away_on]
    out, back = read(Out, garments[0].out_rows, "due_back"), read(Back, garments[0].back_rows, "told_on")
    order.not_back = [each for each in out if each.back_on is None]
    order.to_cut_again = read(Again, garments[0].again_rows, "pk")
    order.hers_here = read(Hers, garments[0].hers_rows, "name")
    order.unchecked = garments[0].unchecked_rows or []
    return WholeOrder(order, garments, order.all_fittings, cloths, payments, put_away, out, back, newest)


def whole_repair(number: str, *, with_money: bool) -> WholeOrder:
    """A ticket has no garments that are drafted, so neither cloths nor measures. Raises Http404 where there is no such order."""
    photos = OrderPhoto.objects.filter(order=OuterRef("pk")).order_by().values("order").annotate(number=Count("pk"))
    found = Order.objects.with_client().exclude(brought_in="").annotate(photo_count=Subquery(photos.values("number")))
    found = found.annotate(arrived_rows=rows_along(OrderPhoto, "caption", shows=OrderPhoto.Shows.ARRIVED))
    found = found.annotate(out_all=rows_along(OutWork, *OUT_IN_FULL), back_rows=rows_along(Complaint, *BACK_FIELDS))
    order = get_object_or_404(found if with_money else found.with_owner_name(), number=number)
    order.all_garments = []
    order.all_fittings = rows_beside(order, _fittings_of)
    order.arrived = sorted(order.arrived_rows or (), key=lambda photo: photo["pk"])
    order.all_jobs = list(order.mendings.select_related("done_by"))
    payments = rows_beside(order, _payments_of) if with_money else []
    out, back = read(Out, order.out_all, "due_back"), read(Back, order.back_rows, "told_on")
    order.not_back = [each for each in out if each.back_on is None]
    return WholeOrder(order, [], order.all_fittings, [], payments, [], out, back, None)


def number_of(model, **which) -> Subquery:
    """How many of them a garment has: acts that are done, pieces that are cut."""
    rows = model.objects.filter(garment=OuterRef("pk"), **which).order_by().values("garment")
    return Subquery(rows.annotate(number=Count("pk")).values("number"))


def all_but(model, path: str, *seen: str) -> list[str]:
    """The fields of what stands beside a garment, less its key and those that are seen."""
    return [f"{path}__{field.name}" for field in model._meta.concrete_fields if field.name not in ("id", *seen)]


#: What no page of an order shows of what stands beside its garments: half of all the columns.
UNSEEN = (
    *all_but(Party, "order__party", "name"),
    *all_but(Person, "signed_off_by", "display_name", "username"),
    *all_but(Measuring, "measuring", "client", "taken_on", "taken_by", "begun_at"),
    *all_but(Garment, "started_from", "order", "title"),
    *all_but(Order, "started_from__order", "number"),
)


def garments_asked(number, drawn):
    """All garments of an order, each with the order and all that is counted of it, and what its sheet is made of unless it is drawn already."""
    found = Garment.everything.filter(order__number=number).select_related(
        "order__client", "order__party", "signed_off_by", "measuring", "draft", "cut_draft", "started_from__order", "look"
    )
    found = found.defer("draft__result", "cut_draft__result", *UNSEEN).alias(sheet_digest=Coalesce("cut_draft__digest", "draft__digest"))
    is_drawn = When(sheet_digest__among_texts=drawn, then=Value(None, output_field=JSONField()))
    found = found.annotate(unseen=Case(is_drawn, When(cut_draft__isnull=False, then=F("cut_draft__result")), default=F("draft__result")))
    photos = OrderPhoto.objects.filter(order=OuterRef("order")).order_by().values("order").annotate(number=Count("pk"))
    found = found.annotate(photo_count=Subquery(photos.values("number")), made_count=number_of(Made), cut_count=number_of(CutPiece, draft=OuterRef("draft")))
    found = found.annotate(hers_rows=rows_along(ShelfCloth, *HERS_FIELDS, order="order", **HERS_HERE))
    found = found.annotate(unchecked_rows=rows_along(ShelfCloth, "name", "cloth", order="order", state=ShelfCloth.State.HERE, checked_on=None, cut_from=None))
    found = found.annotate(again_rows=rows_along(SpoiledPiece.objects.to_cut_again(), *AGAIN_FIELDS, order="order", by="garment__order"))
    return found.annotate(out_rows=rows_along(OutWork, *OUT_IN_FULL, order="order"), back_rows=rows_along(Complaint, *BACK_FIELDS, order="order"))


def measurings_asked(pinned, client):
    """Those that are pinned and the client's newest, each with what was read."""
    newest = Measuring.objects.filter(client=client).newest_first().values("pk")[:1]
    readings = Reading.objects.filter(measuring=OuterRef("pk")).order_by().values("measuring")
    readings = readings.annotate(rows=AllRows(JSONObject(pk="pk", key="key", mm="mm"))).values("rows")
    found = Measuring.objects.filter(Q(pk__among=pinned) | Q(pk=newest)).select_related("taken_by")
    return found.annotate(reading_rows=Subquery(readings))


_garments_of = RowsAskedOften(garments_asked)
_fittings_of = RowsAskedOften(lambda order: Fitting.objects.filter(order=order).select_related("by"))
_cloths_of = RowsAskedOften(lambda order: Cloth.objects.filter(order=order).select_related("test"))
_payments_of = RowsAskedOften(lambda order: Payment.objects.filter(order=order).select_related("taken_by", "reverses", "reversed_by"))
_measurings_of = RowsAskedOften(measurings_asked)


def rows_beside(order: Order, asked: RowsAskedOften) -> list:
    """The rows of an order, each with this very order."""
    found = asked(order.pk)
    for row in found:
        row.order = order
    return found


def hold_measures(order: Order, garments: list[Garment]) -> Measuring | None:
    """Bring the readings of the pinned measurings and of the client's newest one, in one query."""
    pinned = together(garment.measuring_id for garment in garments if garment.measuring_id)
    taken = {measuring.pk: measuring for measuring in _measurings_of(pinned, order.client_id) if measuring.reading_rows}
    for measuring in taken.values():
        lengths = (Length(row["pk"], row["key"], exact(row["mm"])) for row in measuring.reading_rows)
        measuring.held_readings = sorted(lengths, key=lambda each: each.pk)
    for garment in garments:
        garment.measuring = taken.get(garment.measuring_id, garment.measuring)
    return max(taken.values(), key=lambda each: (each.taken_on, each.begun_at, each.pk), default=None)


def hold(row, name: str, related: list) -> None:
    """Let `row.<name>.all()` answer with these rows, as a prefetch would; Django offers no other way to say so."""
    found = getattr(row, name).all()
    found._result_cache = related
    found._prefetch_done = True
    if not hasattr(row, "_prefetched_objects_cache"):
        row._prefetched_objects_cache = {}
    row._prefetched_objects_cache[name] = found
