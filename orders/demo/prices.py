"""What the demo has of prices, a quote, instalments and the cloth shelf: all invented."""

from datetime import date, timedelta
from decimal import Decimal

from orders.cloth import shelf
from orders.models import Cloth, Order, Quote
from orders.money import instalments, quoting, rules

PRICES = {
    "hourly": Decimal("9.50"), "overhead_percent": Decimal(15), "margin_percent": Decimal(10), "round_to": "5", "storage": Decimal(3),
    "things": {
        "zip": Decimal("2.40"), "thread": Decimal("1.85"), "bone": Decimal("2.20"), "tips": Decimal("0.08"), "casing": Decimal("0.90"),
        "hook": Decimal("0.15"), "button": Decimal("0.35"), "loop": Decimal("0.12"), "lacing": Decimal("1.10"), "tape": Decimal("0.60"),
    },
    "cloths": {"lining": Decimal("4.20"), "stay": Decimal("3.10"), "wadding": Decimal("3.80")},
}  # fmt: skip
OUTSIDE_A_YARD = {"slate satin": "11.50", "ivory duchess satin": "24", "garnet brocade": "19.50", "marigold dupion": "16", "striped cotton": "7.25"}


def put_prices(people, today: date) -> None:
    hester, dunya = people["hester"], people["dunya"]
    rules.change(**PRICES)
    for name, price in OUTSIDE_A_YARD.items():
        Cloth.objects.filter(name=name).update(price=Decimal(price))
    quote_the_enquiry(Order.objects.get(garments__title="Midsummer gown"), hester, today)
    gown = Order.objects.get(garments__title="Red carpet gown")
    days = (gown.booked_on, today + timedelta(days=9), gown.collect_on)
    instalments.agree(order=gown, parts=list(zip(days, map(Decimal, ("220", "185", "185")), strict=True)), by=dunya)
    put_on_shelf(gown, Order.objects.get(garments__title="Strapless tea gown"), dunya, today)


def quote_the_enquiry(order: Order, by, today: date) -> None:
    quoting.add_own(order=order, label="Pale green linen, 4½ yd", amount=Decimal("49.50"), by=by, part="cloth")
    quoting.make_quote(order=order, last_day=today + timedelta(days=13), deposit=None, by=by, today=today)


def put_on_shelf(gown: Order, collected: Order, by, today: date) -> None:
    brocade, linen = gown.cloths.get(name="garnet brocade"), collected.cloths.get(name="green linen")
    at = {"by": by, "received_on": today - timedelta(days=6)}
    yard = Decimal("914.4")
    lies = shelf.put_down(
        name=brocade.name, order=gown, cloth=brocade, length_written="2 1/4 yd", length_mm=yard * 9 / 4, width_written=brocade.width_written,
        width_mm=brocade.width_mm, place="shelf 2", dye_lot="4417", what="received, 2 1/4 yd", **at,
    )  # fmt: skip
    lies.checked_on, lies.checked_by, lies.face, lies.bleed, lies.iron = today - timedelta(days=5), by, "the raised side", "well", "well"
    lies.keep("checked_on", "checked_by", "face", "bleed", "iron", by=by)
    shelf.note(lies, "checked: no faults", by)
    shelf.put_down(
        name=linen.name, order=collected, cloth=linen, whose="client", client=collected.client, length_written="3/4 yd", length_mm=yard * 3 / 4,
        width_written=linen.width_written, width_mm=linen.width_mm, place="blue box", what="3/4 yd left of 4 yd", **at,
    )  # fmt: skip
    shelf.put_down(
        name="white lawn", length_written="3 yd", length_mm=yard * 3, width_written="44 in", width_mm=Decimal("1117.6"), place="shelf 1",
        what="received, 3 yd", **at,
    )  # fmt: skip


def move_days(by: timedelta) -> None:
    """What of it lies ahead, as the demo moves its days."""
    for order in Order.objects.exclude(instalments=[]):
        moved = [each | {"on": (date.fromisoformat(each["on"]) + by).isoformat()} for each in order.instalments]
        Order.objects.filter(pk=order.pk).update(instalments=moved)
    for quote in Quote.objects.all():
        Quote.objects.filter(pk=quote.pk).update(last_day=quote.last_day + by)
