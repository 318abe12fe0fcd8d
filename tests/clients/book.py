"""Clients and measures that tests write into the book. Numbers are from those kept for fiction."""

from datetime import date
from decimal import Decimal
from io import BytesIO

from clients.fit_notes import FitNote, FitPhoto, tell_client
from clients.models import Client, Measuring

#: A body whose measures agree with each other, as it is read off the tape.
AGREEING = {
    "bust": "36 1/4", "high_bust": "34 1/2", "under_bust": "31", "waist": "28", "hip": "39",
    "shoulder": "15", "across_front": "13 3/4", "across_back": "14 1/4", "bust_span": "7 1/4",
    "shoulder_to_bust": "10", "shoulder_to_under_bust": "13", "shoulder_to_waist": "16 1/2",
    "nape_to_waist": "14 3/4", "armhole_depth": "6 1/2", "waist_to_hip": "8",
}  # fmt: skip


def inch(value: str | float | int) -> Decimal:
    return Decimal(str(value)) * Decimal("25.4")


def make_client(name: str = "Ines Varga", **changes) -> Client:
    return Client.objects.create(**{"name": name, "phone": "07700 900418", **changes})


def measured(client: Client, by, on: date | None = None, *, unit: str = "in", about=(), **written: str) -> Measuring:
    """A measuring with these readings; with those of AGREEING where none are given."""
    days = {"taken_on": on} if on else {}
    measuring = Measuring.objects.create(client=client, taken_by=by, **days, **dict(about))
    measuring.write_down(written or AGREEING, unit, by=by)
    return Measuring.objects.with_readings().get(pk=measuring.pk)


def fit_note(client: Client, by, *, photo: bytes = b"", **changes) -> FitNote:
    """“Take in ¼ at the side waist”, unless told otherwise."""
    given = {"place": "side waist", "written": "1/4", "mm": Decimal("-6.35"), "noted_on": date(2026, 3, 2)}
    note = FitNote.objects.create(client=client, by=by, **{**given, **changes})
    if photo:
        FitPhoto.objects.create(note=note, jpeg=photo)
    tell_client(client)
    return note


def jpeg(wide: int = 300, high: int = 400) -> bytes:
    """A plain grey picture, as a camera would send it."""
    from PIL import Image

    kept = BytesIO()
    Image.new("RGB", (wide, high), "grey").save(kept, "JPEG")
    return kept.getvalue()
