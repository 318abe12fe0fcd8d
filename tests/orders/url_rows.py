"""Who may open the addresses of orders."""

from datetime import timedelta
from decimal import Decimal
from io import BytesIO

from django.utils import timezone
from PIL import Image

from orders.booking import book_fitting
from orders.cloth.laying import answer_now
from orders.cloth.shelf import put_down
from orders.mending.tickets import add_job, take_in
from orders.models import CalendarLink, Garment, KeptLay, MessageText, OrderPhoto, Party, Payment, Quote, RepairPrice, SpoiledPiece
from orders.money.payments import take
from orders.money.quoting import costing_of, make_quote, priced_orders, set_lines
from orders.out.giving_out import give_out
from tests.clients.book import make_client
from tests.orders.book import drafted_order, garment_of, make_order
from tests.workshop.url_table import row


def _order(cast):
    return cast.once("order", lambda: make_order(cast.people["owner"]))


def _number(cast) -> list:
    return [_order(cast).number]


def _client(cast) -> list:
    return [cast.once("client", make_client).pk]


def _day(cast) -> list:
    return [timezone.localdate().isoformat()]


def _garment(cast) -> list:
    return [*_number(cast), garment_of(_order(cast)).pk]


def _cloth(cast) -> list:
    return [*_number(cast), _order(cast).cloths.first().pk]


def _kept_lay(cast) -> list:
    def made() -> list:
        order = drafted_order(cast.people["owner"])
        answer_now(order, order.cloths.all())
        return [order.number, KeptLay.objects.first().pk]

    return cast.once("kept lay", made)


def _spoiled(cast) -> list:
    def made() -> list:
        number, lay = _kept_lay(cast)
        kept = KeptLay.objects.get(pk=lay)
        garment = Garment.objects.get(draft=kept.draft)
        given = {"cloth": kept.lay["cloth"], "piece": kept.lay["placed"][0]["piece"], "lay": kept.lay, "by": cast.people["owner"]}
        return [number, SpoiledPiece.objects.create(garment=garment, draft=kept.draft, **given).pk]

    return cast.once("spoiled", made)


def _fitting(cast) -> list:
    owner, at = cast.people["owner"], timezone.now() + timedelta(days=1)
    return [*_number(cast), cast.once("fitting", lambda: book_fitting(order=_order(cast), at=at, booked_by=owner)).pk]


def _payment(cast) -> list:
    def made() -> Payment:
        paid = {"kind": "deposit", "amount": 100, "method": "cash", "taken_on": timezone.localdate()}
        return take(order=_order(cast), by=cast.people["owner"], **paid)

    return [*_number(cast), cast.once("payment", made).pk]


def _on_shelf(cast) -> list:
    size = {"length_written": "3 yd", "length_mm": Decimal("2743.2"), "width_written": "45 in", "width_mm": 1143}
    given = {"name": "lawn", "received_on": timezone.localdate(), "by": cast.people["owner"], "what": "received"}
    return [cast.once("on shelf", lambda: put_down(**given, **size)).pk]


def _quote(cast) -> list:
    def made() -> Quote:
        order = make_order(cast.people["owner"])
        missing = costing_of(priced_orders().get(pk=order.pk)).missing
        set_lines(order=order, amounts={line.key: Decimal(10) for line in missing}, by=cast.people["owner"])
        return make_quote(order=order, last_day=timezone.localdate(), deposit=None, by=cast.people["owner"], today=timezone.localdate())

    quote = cast.once("quote", made)
    return [quote.order.number, quote.pk]


def _link(cast) -> list:
    return [CalendarLink.make(person=cast.people["owner"], name="phone", only_own=False)[0].pk]


def _secret(cast) -> list:
    return [CalendarLink.make(person=cast.people["owner"], name="phone", only_own=False)[1]]


def _photo(cast) -> int:
    given = {"jpeg": b"j", "small": b"s", "added_on": timezone.localdate(), "by": cast.people["owner"]}
    return OrderPhoto.objects.create(order=_order(cast), **given).pk


def _real_photo(cast) -> int:
    made = BytesIO()
    Image.new("RGB", (8, 6)).save(made, "JPEG")
    given = {"jpeg": made.getvalue(), "small": made.getvalue(), "added_on": timezone.localdate(), "by": cast.people["owner"]}
    return OrderPhoto.objects.create(order=_order(cast), **given).pk


def _party(cast) -> list:
    return [cast.once("party", lambda: Party.objects.create(name="Wedding")).pk]


def _job(cast) -> list:
    def made() -> list:
        owner, today = cast.people["owner"], timezone.localdate()
        order = take_in(client=make_client(), brought_in="Coat", collect_on=None, note="", photo=None, by=owner, today=today)
        return [order.number, add_job(order=order, values={"on_what": "coat", "what": "hem"}, by=owner).pk]

    return cast.once("job", made)


def _out(cast) -> list:
    def made() -> int:
        today = timezone.localdate()
        values = {"what": "beading", "to_whom": "Quay Street", "gone_on": today, "due_back": today}
        return give_out(order=_order(cast), values=values, by=cast.people["owner"]).pk

    return [*_number(cast), cast.once("out", made)]


def _line(cast) -> list:
    return [RepairPrice.objects.get_or_create(what="hem a skirt", defaults={"price": 18, "minutes": 45})[0].pk]


TABLE = {
    "orders:payment-for-several": row("o s", "o s", _client),
    "orders:give-out": row("o s", "o s", _number),
    "orders:out-work": row("o s", "o s", _out),
    "orders:out-back": row("", "o s", _out),
    "orders:came-back": row("o s", "o s", _number),
    "orders:leftovers": row("o s", "o s", _number),
    "orders:care-card": row("o s a", "", _number),
    "orders:cloth-test": row("o s a", "o s a", _cloth),
    "orders:take-in": row("o s", "o s"),
    "orders:repair-prices": row("o s", ""),
    "orders:add-repair-price": row("", "o"),
    "orders:repair-price": row("o", "o", _line),
    "orders:remove-repair-price": row("", "o", _line),
    "orders:photo-marks": row("o s", "o s", lambda cast: [_real_photo(cast)]),
    "orders:add-job": row("o s", "o s", lambda cast: _job(cast)[:1]),
    "orders:job": row("o s", "o s", _job),
    "orders:remove-job": row("", "o s", _job),
    "orders:tick-job": row("", "o s a", _job),
    "orders:ticket": row("o s a", "", lambda cast: _job(cast)[:1]),
    "orders:at-hand": row("o s a", ""),
    "orders:cash": row("", "o s", _number),
    "orders:receipt": row("o s", "", _payment),
    "today": row("o s a", ""),
    "orders:list": row("o s a", ""),
    "orders:add": row("o s", "o s", _client),
    "orders:day": row("o s a", "", _day),
    "orders:day-sheets": row("o s a", "", _day),
    "orders:show": row("o s a", "", _number),
    "orders:making": row("o s a", "", _number),
    "orders:compare": row("o s a", "", _garment),
    "orders:fits-well": row("", "o s", _garment),
    "orders:tick": row("", "o s a", _garment),
    "orders:promise": row("o s", "o s", _number),
    "orders:sheet": row("o s a", "", _number),
    "orders:sign-off": row("", "o", _number),
    "orders:cut": row("", "o s a", _number),
    "orders:call-off": row("o s", "o s", _number),
    "orders:step": row("", "o s", lambda cast: [*_number(cast), "book"]),
    "orders:garment": row("", "o s", _garment),
    "orders:add-garment": row("o s", "o s", _number),
    "orders:put-away": row("", "o s", _garment),
    "orders:take-up": row("", "o s", _garment),
    "orders:sign-off-garment": row("", "o", _garment),
    "orders:cut-garment": row("", "o s a", _garment),
    "orders:look-at": row("", "o s", _garment),
    "orders:redraft": row("", "o s", _garment),
    "orders:keep-measures": row("", "o s", _garment),
    "orders:settle-cut": row("", "o", _garment),
    "orders:payment": row("o s", "o s", _number),
    "orders:reverse": row("o s", "o s", _payment),
    "orders:refund": row("o", "o", _number),
    "orders:add-fitting": row("o s", "o s", _number),
    "orders:fitting": row("o s", "o s", _fitting),
    "orders:fitting-done": row("o s a", "o s a", _fitting),
    "orders:add-cloth": row("o s", "o s", _number),
    "orders:cloth": row("o s", "o s", _cloth),
    "orders:try-cloth": row("o s", "", _cloth),
    "orders:look": row("", "o s", _cloth),
    "orders:looked": row("o s a", "", _cloth),
    "orders:stop-looking": row("", "o s", _cloth),
    "orders:miscut": row("o s a", "", _kept_lay),
    "orders:keep-spoiled": row("", "o s a", _garment),
    "orders:undo-spoiled": row("", "o s a", _spoiled),
    "orders:spoiled-place": row("o s a", "", _spoiled),
    "orders:together": row("o s a", "o s a"),
    "orders:together-made": row("o s a", ""),
    "orders:stop-together": row("", "o s a"),
    "orders:pack": row("o s a", "o s a", _day),
    "orders:pack-made": row("o s a", "", _day),
    "orders:stop-pack": row("", "o s a", _day),
    "orders:pack-file": row("o s a", "", _day),
    "orders:lays": row("o s a", "", _number),
    "orders:needs": row("o s a", "", _number),
    "orders:remove-cloth": row("", "o s", _cloth),
    "orders:calendar": row("o s a", ""),
    "orders:week": row("o s a", "", _day),
    "orders:month": row("o s a", "", lambda cast: [f"{timezone.localdate():%Y-%m}"]),
    "orders:enquiry": row("o s", "o s"),
    "orders:hold": row("o s", "o s", _number),
    "orders:agreed": row("o s", "o s", _number),
    "orders:change-look": row("", "o", _number),
    "orders:photos": row("o s", "o s", _number),
    "orders:photo": row("o s a", "", lambda cast: [_photo(cast), "small"]),
    "orders:remove-photo": row("", "o s", lambda cast: [_photo(cast)]),
    "orders:history": row("o s a", "", _number),
    "orders:parties": row("o s a", ""),
    "orders:add-party": row("o s", "o s"),
    "orders:party": row("o s a", "", _party),
    "orders:change-party": row("o s", "o s", _party),
    "orders:join": row("o s", "o s", _party),
    "orders:texts": row("o s", "o s"),
    "orders:remove-text": row("", "o s", lambda cast: [MessageText.objects.get_or_create(title="t", text="x")[0].pk]),
    "orders:message": row("o s", "o s", _number),
    "orders:cutting-day": row("o s a", "o s", _day),
    "orders:all-the-same": row("", "o", lambda cast: [*_day(cast), *_number(cast)]),
    "orders:cutting-table": row("o s a", "", _number),
    "orders:cut-piece": row("", "o s a", _garment),
    "orders:copy": row("o s", "o s", _number),
    "orders:calendar-links": row("o s a", "o s a"),
    "orders:revoke-link": row("", "o", _link),
    "orders:feed": row("all", "", _secret),
    "orders:full-month": row("", "o", lambda cast: [timezone.localdate().year, timezone.localdate().month]),
    "orders:days-and-hours": row("o", "o"),
    "orders:close": row("", "o"),
    "orders:open-again": row("", "o"),
    "orders:earliest": row("o s", ""),
    "orders:moves": row("o s", "", _number),
    "orders:fitting-missed": row("o s", "o s", _fitting),
    "orders:hours": row("", "o s a", _garment),
    "orders:price": row("o s", "", _number),
    "orders:price-lines": row("", "o", _number),
    "orders:price-own": row("", "o", _number),
    "orders:make-quote": row("", "o", _number),
    "orders:agree-quote": row("", "o", _quote),
    "orders:take-back-quote": row("", "o", _quote),
    "orders:quote-file": row("o s", "", lambda cast: [*_quote(cast), "pdf"]),
    "orders:receipt-file": row("o s", "", lambda cast: [*_payment(cast), "pdf"]),
    "orders:instalments": row("o s", "o s", _number),
    "orders:market": row("o s a", ""),
    "orders:market-tick": row("", "o s a"),
    "orders:shelf": row("o s a", ""),
    "orders:add-to-shelf": row("o s", "o s"),
    "orders:shelf-card": row("o s a", "", _on_shelf),
    "orders:check-cloth": row("o s", "o s", _on_shelf),
    "orders:cloth-left": row("", "o s", _on_shelf),
    "orders:put-cloth": row("", "o s", _on_shelf),
    "orders:whose-cloth": row("o s", "o s", _on_shelf),
    "orders:settle-cloth": row("", "o s", lambda cast: [*_on_shelf(cast), "order"]),
    "orders:end-cloth": row("", "o s", lambda cast: [*_on_shelf(cast), "gone"]),
    "orders:receive-cloth": row("o s", "o s", _cloth),
    "money:rules": row("o", "o"),
    "money:done": row("o", ""),
    "money:books": row("o", ""),
    "money:year": row("o", "", lambda cast: [2026]),
    "money:bookkeeper": row("o", "", lambda cast: [2026]),
}
