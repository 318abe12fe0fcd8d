"""Marking the photograph of a fitting: by finger or mouse, or by the squares of a grid."""

from io import BytesIO

from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from clients import marks
from clients.fit_notes import FitPhoto
from workshop.access import needs
from workshop.models import Workshop
from workshop.templatetags.workshop_tags import day


@needs("measure")
@require_http_methods(["GET", "POST"])
def mark(request: HttpRequest, pk: int) -> HttpResponse:
    """The photograph with what is drawn on it. A POST adds marks, or takes out the last one."""
    photo = get_object_or_404(FitPhoto.objects.select_related("note__client"), note=pk)
    note, client = photo.note, photo.note.client
    about = {
        "said": " ".join(filter(None, (f"{note.sentence(Workshop.current().unit)}. Fitting {day(note.noted_on)}.", note.note))),
        "back": client.get_absolute_url(), "back_words": client.name, "image": reverse("clients:fit-photo", args=[pk]), "of": client.name,
    }  # fmt: skip
    return marking(request, photo, reverse("clients:fit-marks", args=[pk]), about)


def marking(request: HttpRequest, photo, here: str, about: dict) -> HttpResponse:
    """The page of any photograph that keeps `jpeg` and `marks`; `about` says whose it is and where its picture and its page are."""
    error = ""
    if request.method == "POST":
        try:
            _change(photo, request.POST)
            return redirect(here)
        except marks.UnreadableMarks as refused:
            error = str(refused)
    high = height_of(photo)
    context = about | {
        "high": high,
        "marks": [marks.drawn(each) for each in photo.marks], "words": [marks.said(each, high) for each in photo.marks],
        "count": len(photo.marks), "error": error, "drawn": request.POST.get("drawn", ""),
        "columns": grid(1000, marks.COLUMNS), "rows": grid(high, range(1, marks.SQUARES + 1)), "placed": marks.PLACED,
    }  # fmt: skip
    return render(request, "clients/marks.html", context, status=422 if error else 200)


@transaction.atomic
def _change(photo, sent) -> None:
    """Raises UnreadableMarks, and then nothing is changed."""
    held = type(photo).objects.select_for_update().defer("jpeg").get(pk=photo.pk)
    if sent.get("act") == "undo":
        if sent.get("count") == str(len(held.marks)):  # a second press of the button finds another number
            held.marks = held.marks[:-1]
    else:
        high = height_of(photo)
        more = marks.read(sent.get("drawn", ""), high)
        if sent.get("act") == "place":
            more.append(_placed(sent, high))
        held.marks = marks.joined(held.marks, more)
    held.save(update_fields=["marks"])


def _placed(sent, high: int) -> dict:
    try:
        return marks.placed(sent.get("what", ""), sent.get("column", ""), sent.get("row", ""), high)
    except (KeyError, ValueError):
        raise marks.UnreadableMarks("Choose what to put, and the square where it goes.") from None


def height_of(photo) -> int:
    """Its height in thousandths of its width."""
    from PIL import Image  # only here: pages that show no photograph do without

    with Image.open(BytesIO(bytes(photo.jpeg))) as picture:
        wide, high = picture.size
    return round(1000 * high / wide)


def grid(length: int, names) -> list[dict]:
    """Where each row or column of squares begins, and where its name stands."""
    step = length / marks.SQUARES
    return [{"name": name, "edge": round(n * step), "middle": round((n + 0.5) * step)} for n, name in enumerate(names)]
