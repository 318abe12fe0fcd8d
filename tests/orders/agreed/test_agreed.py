"""Enquiries, dates that are held and lapse, photographs (also hostile ones), the agreed look and what changes cost."""

import struct
import zlib
from datetime import timedelta
from decimal import Decimal
from io import BytesIO

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from django.utils import timezone
from PIL import Image

from clients.models import Client
from orders.dates.bench import Bench
from orders.dates.promise import open_loads
from orders.models import Order, OrderPhoto
from orders.money import payments
from orders.stages import Stage
from tests.clients.book import make_client
from tests.orders.book import DAY, days, fresh, make_order, signed_order
from tests.orders.test_today import flags


def url(name: str, *args) -> str:
    return reverse(f"orders:{name}", args=args)


def text(answer) -> str:
    return answer.content.decode()


def in_days(number: int) -> str:
    return (timezone.localdate() + timedelta(days=number)).isoformat()


def picture(format="JPEG", size=(900, 600), **given) -> bytes:
    made = BytesIO()
    Image.new("RGB", size, "navy").save(made, format, **given)
    return made.getvalue()


def sent(content: bytes, name="wish.jpg") -> SimpleUploadedFile:
    return SimpleUploadedFile(name, content, "image/jpeg")


def test_a_message_becomes_an_enquiry_with_its_photograph(as_seamstress):
    form = {
        "name": "Maud Ferring", "phone": "07700 900150", "wish": "Something green for the harbour fair", "kind": "skirt",
        "collect_on": in_days(40), "occasion_on": in_days(42), "budget": "350", "photo": sent(picture()),
    }  # fmt: skip
    page = text(as_seamstress.post(url("enquiry"), form, follow=True))
    order = Order.objects.get()
    assert (order.stage, order.wish, order.budget) == (Stage.ASKED, "Something green for the harbour fair", 350)
    assert (order.client.name, order.client.phone) == ("Maud Ferring", "07700 900150")
    assert order.held_until == timezone.localdate() + timedelta(days=7)
    assert "S-001 is in the book as an enquiry. The date is held until" in page
    assert order.photos.get().shows == "wish"
    assert "Photographs, 1" in page


def test_a_namesake_is_asked_about_before_a_second_one_is_written(as_seamstress):
    known = make_client("Maud Ferring")
    form = {"name": "maud ferring", "wish": "green", "kind": "skirt"}
    answer = as_seamstress.post(url("enquiry"), form)
    assert answer.status_code == 422
    assert "That name is in the book" in text(answer) and "green" in text(answer)
    as_seamstress.post(url("enquiry"), form | {"who": str(known.pk)})
    assert Order.objects.get().client == known
    as_seamstress.post(url("enquiry"), form | {"who": "new"})
    assert Client.objects.count() == 2


def test_a_date_is_held_till_the_deposit_is_in_and_then_lapses(hester, dunya):
    order = make_order(hester, booked_on=DAY, cut_on=DAY + days(20), collect_on=DAY + days(40))
    bench = Bench.current()
    for later, counts, said in ((0, True, []), (5, True, ["date held"]), (7, True, ["date held"]), (8, False, ["date not held"])):
        assert bool(open_loads(bench, DAY + days(later))) == counts
        assert flags(order, today=DAY + days(later)) == said
    payments.take(order=order, kind="deposit", amount=Decimal(240), method="cash", by=dunya, taken_on=DAY)
    assert open_loads(bench, DAY + days(8))
    assert flags(order, today=DAY + days(8)) == []


def test_an_enquirys_date_is_held_too_and_can_be_held_longer(as_owner, hester):
    today = timezone.localdate()
    order = make_order(hester, booked_on=today - days(8), cut_on=None, price=None, deposit=None)
    assert order.stage == Stage.ASKED and order.is_lapsed(today)
    assert as_owner.post(url("hold", order.number), {"until": in_days(-1)}).status_code == 422
    as_owner.post(url("hold", order.number), {"until": in_days(3)})
    assert not fresh(order).is_lapsed(today)
    assert len(open_loads(Bench.current(), today)) == 1
    assert "held" in text(as_owner.get(url("week", order.collect_on.isoformat())))


def bomb() -> bytes:
    """A PNG whose header promises 30,000 by 30,000 points in a few bytes."""
    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    header = struct.pack(">IIBBBBB", 30_000, 30_000, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", zlib.compress(b"\0" * 1000)) + chunk(b"IEND", b"")


HOSTILE = {
    "bomb": bomb(),
    "text": b"<script>alert(1)</script>",
    "svg": b'<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>',
    "pdf": b"%PDF-1.7\n%%EOF",
    "gif": picture("GIF"),
    "tiff": picture("TIFF"),
    "cut off": picture()[:400],
    "empty": b"",
}


@pytest.mark.parametrize("content", HOSTILE.values(), ids=HOSTILE)
def test_what_is_no_photograph_is_refused_and_what_was_typed_stays(as_owner, hester, content):
    order = make_order(hester)
    answer = as_owner.post(url("photos", order.number), {"photo": sent(content), "shows": "work", "caption": "left side"})
    assert answer.status_code == 422
    assert 'value="left side"' in text(answer)
    assert not OrderPhoto.objects.exists()


def test_a_picture_with_a_page_and_a_place_hidden_in_it_is_written_anew(as_owner, as_apprentice, hester):
    order = make_order(hester)
    exif = Image.Exif()
    exif[0x0112] = 6  # turned a quarter
    exif[0x010E] = "Salt Lane 4"
    hidden = picture(exif=exif) + b"<html><script>alert(1)</script></html>"
    as_owner.post(url("photos", order.number), {"photo": sent(hidden), "shows": "arrived"})
    kept = OrderPhoto.objects.get()
    answer = as_apprentice.get(url("photo", kept.pk, "jpeg"))
    assert (answer["Content-Type"], answer["X-Content-Type-Options"]) == ("image/jpeg", "nosniff")
    assert b"script" not in answer.content and b"Salt Lane" not in answer.content
    with Image.open(BytesIO(answer.content)) as whole, Image.open(BytesIO(bytes(kept.small))) as small:
        assert whole.size == (600, 900) and not whole.getexif()
        assert max(small.size) == 240
    as_owner.post(url("remove-photo", kept.pk))
    assert not OrderPhoto.objects.exists()


LOOK = {"neck_depth": "3 below the hollow", "length": "41", "shoes": "own, 2 in heel", "swatches": "ivory satin, lining 12", "words": ""}


def test_the_look_is_fixed_by_the_clients_yes_and_later_changes_are_priced(as_owner, hester):
    order = signed_order(hester)
    address = url("agreed", order.number)
    as_owner.post(address, LOOK)
    assert "Agree the look" in text(as_owner.get(order.get_absolute_url()))
    as_owner.post(address, LOOK | {"length": "42", "agreed_on": in_days(0), "agreed_how": "in the room"})
    assert "Length 42 in own, 2 in heel" in text(as_owner.get(order.get_absolute_url()))
    refused = as_owner.post(address, LOOK | {"length": "30"})
    assert refused.status_code == 422 and order.looks.get().length == "42"
    as_owner.post(url("change-look", order.number), {"what": "covered buttons", "price": "45"})
    order = fresh(order)
    assert order.price == 625
    assert not order.is_signed_off  # the owner looks again
    assert order.changes.get(field="price").why == "covered buttons"
    assert "covered buttons" in text(as_owner.get(address))


def test_a_yes_to_nothing_and_one_of_tomorrow_are_refused(as_owner, hester):
    address = url("agreed", make_order(hester).number)
    nothing = as_owner.post(address, {"agreed_on": in_days(0)})
    assert "Nothing is written down yet to say yes to." in text(nothing)
    assert "That day has not come yet." in text(as_owner.post(address, LOOK | {"agreed_on": in_days(1)}))


def test_only_the_owner_prices_a_change_and_the_apprentice_sees_no_price_in_the_history(as_owner, as_seamstress, as_apprentice, hester):
    order = make_order(hester)
    assert as_seamstress.post(url("change-look", order.number), {"what": "x", "price": "1"}).status_code == 403
    as_owner.post(url("change-look", order.number), {"what": "a wider sash", "price": "30"})
    address = url("history", order.number)
    assert "a wider sash" in text(as_owner.get(address)).lower() and "610" in text(as_owner.get(address))
    assert "610" not in text(as_apprentice.get(address))
