"""Fit notes: said in words, kept with their sign, switched on and off, passed to the next draft; photographs made harmless."""

import importlib
import struct
import zlib
from io import BytesIO

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from django.utils import timezone
from PIL import Image

from clients.fit_notes import LARGEST_PIXELS, LONGEST_SIDE, FitNote, FitPhoto
from clients.fit_places import PLACES, SIGNS
from clients.models import Client
from drafting.brief import read_brief
from orders.garment.order_file import order_file
from tests.clients.book import fit_note, inch, make_client


@pytest.fixture
def ines(salt_lane):
    return make_client()


@pytest.fixture
def url(ines):
    return reverse("clients:fit-note", args=[ines.pk])


def noted(**changes) -> dict:
    valid = {"act": "take in", "amount": "1/4", "place": "side waist", "side": "left", "note": "", "noted_on": timezone.localdate().isoformat()}
    return valid | changes


def picture(size=(800, 600), kind="JPEG", *, turned: bool = False, place: bool = False) -> bytes:
    image = Image.new("RGB", size, "white")
    image.paste((200, 30, 30), (0, 0, size[0] // 2, size[1] // 2))
    exif = Image.Exif()
    if turned:
        exif[0x0112] = 6
    if place:
        exif[0x010E] = "Skerrow Harbour, 12 Salt Lane"
        exif.get_ifd(0x8825)[1] = "N"
    out = BytesIO()
    image.save(out, kind, exif=exif)
    return out.getvalue()


def upload(content: bytes, name="fitting.jpg", kind="image/jpeg") -> SimpleUploadedFile:
    return SimpleUploadedFile(name, content, kind)


@pytest.mark.parametrize(
    ("given", "sentence", "mm"),
    [
        ({}, "Take in ¼ at the side waist, left", "-0.25"),
        ({"act": "let out", "amount": "1/2", "place": "bust", "side": "both"}, "Let out ½ at the bust", "0.5"),
        ({"act": "lower", "amount": "3/8", "place": "shoulder", "side": "right"}, "Lower ⅜ at the shoulder, right", "-0.375"),
        ({"act": "take in", "amount": "¼", "place": "top edge", "side": "both"}, "Take in ¼ at the top edge", "-0.25"),
        ({"act": "lengthen", "amount": "1", "place": "hem", "side": "left"}, "Lengthen 1 at the hem", "1"),
    ],
)
def test_a_note_is_kept_and_said_in_words(as_seamstress, ines, dunya, url, given, sentence, mm):
    answer = as_seamstress.post(url, noted(**given))
    assert answer.status_code == 302
    note = FitNote.objects.get()
    assert (note.mm, note.sentence("in"), note.by, note.on) == (inch(mm), sentence, dunya, True)
    assert sentence in as_seamstress.get(ines.get_absolute_url()).content.decode()


@pytest.mark.parametrize(
    ("spoiled", "text"),
    [
        ({"amount": ""}, "How much is empty."), ({"amount": "1/5"}, "“1/5”"), ({"amount": "0"}, "“0” is not what a fitting alters."),
        ({"amount": "12"}, "“12” is not what a fitting alters."), ({"act": "raise"}, "At the side waist: take in or let out."),
        ({"place": "nose"}, "Where: choose one of those shown."), ({"noted_on": "2999-01-01"}, "still to come"), ({"note": "x" * 301}, "300"),
    ],
)  # fmt: skip
def test_a_spoiled_note_is_refused_with_its_words_kept(as_seamstress, url, spoiled, text):
    answer = as_seamstress.post(url, noted(note="gapes when seated") | spoiled)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert text in page
    assert "gapes when seated" in page or "note" in spoiled
    assert FitNote.objects.count() == 0


def test_each_place_has_one_act_that_takes_and_one_that_gives():
    assert all([SIGNS[act] for act in place.acts] == [-1, 1] for place in PLACES)


def test_a_note_is_left_out_of_the_next_draft_and_put_in_again(as_seamstress, dunya, ines):
    note = fit_note(ines, dunya)
    url = reverse("clients:fit-switch", args=[note.pk])
    for on in ("no", "no", "yes"):
        as_seamstress.post(url, {"on": on})
        note.refresh_from_db()
        assert note.on == (on == "yes")
        assert [each["place"] for each in Client.objects.get().alterations] == (["side waist"] if note.on else [])
    assert note.switched_by == dunya


def test_the_next_draft_gets_the_notes_that_are_on_and_names_what_it_cannot_draw(hester, dunya):
    from drafting.drawing import draw
    from orders.models import Garment
    from tests.orders.book import measured_order

    order = measured_order(hester)
    fit_note(order.client, dunya)
    fit_note(order.client, dunya, place="bust", mm=inch("0.5"), side="left", on=False)
    garment = Garment.objects.select_related("order__client", "measuring").get(order=order)
    file = order_file(garment)
    assert file["fit_notes"] == [{"place": "side waist", "side": "both", "amount": "-6.35mm"}]
    fit_note(order.client, dunya, place="sleeve", mm=inch("0.5"), side="left")  # and this garment has none
    garment.order.client.refresh_from_db()
    made = draw(read_brief(order_file(garment)))
    assert {note["place"]: note["drawn"] for note in made["fit_notes"]} == {"side waist": True, "sleeve": False}
    said = [each["text"] for each in made["warnings"] if each["code"].startswith("fit-note")]
    assert len(said) == 1
    assert "sleeve, left" in said[0]


# Photographs ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_photograph_is_written_anew_upright_small_and_with_nothing_beside_it(as_seamstress, url, kind):
    sent = picture((4000, 3000), kind, turned=True, place=True)
    assert b"Skerrow Harbour" in sent
    assert as_seamstress.post(url, noted(photo=upload(sent))).status_code == 302
    kept = bytes(FitPhoto.objects.get().jpeg)
    image = Image.open(BytesIO(kept))
    assert (image.format, image.size) == ("JPEG", (LONGEST_SIDE * 3 // 4, LONGEST_SIDE))
    assert len(image.getexif()) == 0 and "exif" not in image.info
    assert b"Skerrow" not in kept and b"Exif" not in kept
    # Turned by a quarter: what was red at the top left is red at the top right.
    assert image.getpixel((image.width - 20, 20))[1] < 90 < image.getpixel((20, 20))[1]


def bomb(width: int, height: int) -> bytes:
    """A PNG whose header promises that many points, and that is a few bytes long."""

    def part(name: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))

    return b"\x89PNG\r\n\x1a\n" + part(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)) + part(b"IDAT", zlib.compress(b"")) + part(b"IEND", b"")


@pytest.mark.parametrize(
    ("content", "text"),
    [
        (bomb(8000, 5001), "8000 by 5001 points"), (bomb(60_000, 60_000), "more points than a camera takes"), (b"GIF89a" + b"\0" * 40, "I can&#x27;t read this as a photograph."),
        (b"", "empty"), (b"<svg onload=alert(1)>", "I can&#x27;t read this as a photograph."), (picture()[:3000], "I can&#x27;t read this as a photograph."),
    ],
    ids=["over 40 Mpx", "bomb", "gif", "empty", "svg", "cut off"],
)  # fmt: skip
def test_what_is_no_photograph_or_too_large_is_refused_before_it_is_decoded(as_seamstress, url, content, text):
    assert 8000 * 5000 == LARGEST_PIXELS
    importlib.import_module("weasyprint")  # which lets pictures that are cut off pass, everywhere
    answer = as_seamstress.post(url, noted(photo=upload(content)))
    assert answer.status_code == 422
    assert text in answer.content.decode()
    assert FitNote.objects.count() == FitPhoto.objects.count() == 0


def test_a_photograph_is_shown_to_those_who_measure_and_to_nobody_else(as_seamstress, as_apprentice, dunya, ines):
    note = fit_note(ines, dunya, photo=picture())
    url = reverse("clients:fit-photo", args=[note.pk])
    assert as_seamstress.get(url).headers["Content-Type"] == "image/jpeg"
    assert as_apprentice.get(url).status_code == 403
    marks = reverse("clients:fit-marks", args=[note.pk])
    assert marks in as_seamstress.get(ines.get_absolute_url()).content.decode()
    assert url in as_seamstress.get(marks).content.decode()
    page = as_apprentice.get(ines.get_absolute_url()).content.decode()
    assert "Take in ¼ at the side waist" in page
    assert url not in page
