"""Taking an order: it gets the next number, its garment and its dates in one act."""

from collections.abc import Collection
from datetime import date, datetime, timedelta
from decimal import Decimal

from django.db import IntegrityError, transaction
from django.db.models import Max

from drafting.engine.garments import KINDS
from orders.dates.bench import Bench
from orders.garment.options import defaults
from orders.models import Cloth, Fitting, Garment, Order
from orders.models.order import NUMBER_PREFIX
from orders.stages import NotNow, Stage
from workshop.models import Workshop

TRIES = 5
MM_PER_INCH = Decimal("25.4")
USUAL_CLOTHS = (
    ("outside cloth", "shell", 54),
    ("lining", "lining", 54),
    ("fusible stay", "stay", 36),
    ("wadding", "wadding", 60),
)
NOT_FOR = {"skirt": {"stay", "wadding"}, "fitted-dress": {"wadding"}, "bodice": {"wadding"}, "trousers": {"lining", "wadding"}}


def take_order(
    *,
    client,
    kind: str,
    by,
    booked_on: date,
    collect_on: date | None = None,
    cut_on: date | None = None,
    occasion_on: date | None = None,
    price: Decimal | None = None,
    deposit: Decimal | None = None,
    urgent_fee: Decimal | None = None,
    budget: Decimal | None = None,
    wish: str = "",
    note: str = "",
    options: dict | None = None,
    title: str = "",
    cloths: bool = True,
    begin_from: Garment | None = None,
) -> Order:
    """A new order with one garment: booked where price and collection are agreed, else asked about.

    `begin_from` is a garment whose kind, choices and house rules the new one begins with.
    """
    if begin_from is not None:
        kind, options = begin_from.kind, known_choices(begin_from)
    stage = Stage.BOOKED if price is not None and collect_on else Stage.ASKED
    values = {
        "client": client,
        "stage": stage,
        "booked_on": booked_on,
        "collect_on": collect_on,
        "cut_on": cut_on,
        "occasion_on": occasion_on,
        "price": price,
        "deposit": deposit,
        "urgent_fee": urgent_fee,
        "budget": budget,
        "wish": wish,
        "held_until": booked_on + timedelta(days=Bench.current().hold_days) if collect_on else None,
        "note": note,
        "changed_by": by,
    }
    with transaction.atomic():
        order = numbered(values)
        Garment.objects.create(
            order=order,
            kind=kind,
            title=title or KINDS[kind].title,
            options=options or defaults(KINDS[kind]),
            rules=dict(begin_from.rules) if begin_from else {},
            started_from=begin_from,
            measuring=newest_measuring(client),
            changed_by=by,
        )
        if cloths:
            put_usual_cloths(order, by, usual_uses(kind, options or {}))
    return order


def known_choices(garment: Garment) -> dict[str, str]:
    """A garment's choices, less any that its kind no longer has."""
    known = {option.key for option in KINDS[garment.kind].options}
    return {key: value for key, value in garment.options.items() if key in known}


def usual_uses(kind: str, options: dict[str, str]) -> list[str]:
    """What such a garment is usually cut from: a lining only where it is lined, and stay or wadding where the kind has them."""
    lined = (defaults(KINDS[kind]) | options).get("lined") == "yes"
    left_out = NOT_FOR.get(kind, set()) | (set() if lined else {"lining"})
    return [use for _, use, _ in USUAL_CLOTHS if use not in left_out]


def settle_lining(garment: Garment, by) -> None:
    """After the choices changed: a lined garment waits for its lining; one that is not lined, for none.

    Only the line that the book wrote by itself is taken off: not a lining with another name or width, nor one that is in.
    """
    order, is_lined = garment.order, "lining" in usual_uses(garment.kind, garment.options)
    linings = [cloth for cloth in order.cloths.all() if "lining" in cloth.used_for and cloth.garment_id in (None, garment.pk)]
    garments = list(order.garments.all())
    if is_lined and not linings:
        put_usual_cloths(order, by, ["lining"], garment=garment if len(garments) > 1 else None)
    elif not is_lined:
        others = any("lining" in usual_uses(each.kind, each.options) for each in garments if each.pk != garment.pk)
        spare = [cloth for cloth in linings if cloth.used_for == ["lining"] and (cloth.garment_id or not others)]
        order.cloths.filter(
            pk__in=[cloth.pk for cloth in spare if cloth.name in ("lining", name_of("lining", garment))],
            width_written="54 in", on_hand_mm=None, whose=Cloth.Whose.WORKSHOP, layout="", one_way=False, shrink_percent=0, price=None,
        ).delete()  # fmt: skip


def name_of(cloth: str, garment: Garment | None) -> str:
    """“lining”, or “lining, jacket” where it is that garment's own."""
    return f"{cloth}, {garment.title.lower()}"[:60] if garment else cloth


def put_usual_cloths(order: Order, by, uses: Collection[str], *, garment: Garment | None = None) -> None:
    """The cloths that a garment is cut from, at the widths they are commonly sold in, until the real ones are in.

    Widths: common practice, no source. They stand on the order as "not in yet", to be put right there. With `garment` they
    are for it alone.
    """
    taken = set(Cloth.everything.filter(order=order).values_list("name", flat=True)) if garment else ()
    Cloth.objects.bulk_create(
        Cloth(
            order=order,
            garment=garment,
            name=name_of(name, garment),
            used_for=[use],
            width_written=f"{inches} in",
            width_mm=inches * MM_PER_INCH,
            changed_by=by,
        )
        for name, use, inches in USUAL_CLOTHS
        if use in uses and name_of(name, garment) not in taken
    )


def numbered(values: dict) -> Order:
    """The order under the next number; numbers run on without gaps whoever else is booking at this moment.

    The workshop's row is the turnstile: its lock is held until the order is written, so that no one else counts
    meanwhile. The constraint on the number stands behind it for a database that has no such lock.
    """
    for turn in range(TRIES):
        try:
            with transaction.atomic():
                list(Workshop.objects.select_for_update().values_list("pk"))
                serial = (Order.objects.aggregate(last=Max("serial"))["last"] or 0) + 1
                return Order.objects.create(serial=serial, number=f"{NUMBER_PREFIX}-{serial:03d}", **values)
        except IntegrityError as taken:
            if "serial" not in str(taken) and "number" not in str(taken) or turn == TRIES - 1:
                raise


def newest_measuring(client):
    """The client's last measuring that has a reading in it; None before the first."""
    return client.measurings.newest_first().first()


@transaction.atomic
def end_fitting(*, fitting: Fitting, ended: str, note: str, next_at: datetime | None, by, today: date) -> Fitting | None:
    """Note a fitting as done, and book the next one where the client comes again: both or neither."""
    fitting.mark_done(by=by, today=today, note=note, ended=ended)
    if next_at is None:
        return None
    return book_fitting(order=fitting.order, at=next_at, by=fitting.by, booked_by=by)


def book_fitting(*, order: Order, at: datetime, by=None, note: str = "", is_toile: bool = False, booked_by) -> Fitting:
    if not order.is_open:
        raise NotNow(f"{order.number} is {order.get_stage_display()}. No fitting can be booked for it.")
    return Fitting.objects.create(order=order, at=at, by=by, note=note, is_toile=is_toile, changed_by=booked_by)
