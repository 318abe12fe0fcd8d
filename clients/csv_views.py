"""Measures in and out as CSV, and the card on paper."""

from datetime import date
from uuid import UUID, uuid4

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, StreamingHttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_safe

from clients import csv_in
from clients.csv_out import lines, to_write
from clients.measures import KINDS, LEFT, of_kind
from clients.models import Client, Reading
from workshop.access import needs
from workshop.length import CM, INCH
from workshop.models import Workshop


USES = (("measure", "The measure"), ("written", "What the tape said"), ("day", "The day"))


@needs("edit_clients")
@require_safe
def out(request: HttpRequest, pk: int) -> HttpResponse:
    """One client's readings."""
    client = get_object_or_404(Client, pk=pk)
    return _file(Reading.objects.filter(measuring__client=client), f"measures-{client.pk}.csv")


@needs("run_workshop")
@require_safe
def all_out(request: HttpRequest) -> HttpResponse:
    """All clients' readings as one file."""
    return _file(Reading.objects.all(), "measures.csv")


def _file(readings, name: str) -> StreamingHttpResponse:
    headers = {"Content-Disposition": f'attachment; filename="{name}"'}
    return StreamingHttpResponse(lines(to_write(readings)), content_type="text/csv; charset=utf-8", headers=headers)


@needs("measure")
@require_http_methods(["GET", "POST"])
def bring_in(request: HttpRequest, pk: int) -> HttpResponse:
    """A file, then its columns and what would change, then the book: nothing is written before it was looked at."""
    client = get_object_or_404(Client, pk=pk)
    context = {"client": client, "token": request.POST.get("token") or uuid4(), "unit": request.POST.get("unit", Workshop.current().unit)}
    if request.method == "GET":
        return render(request, "clients/csv.html", context)
    try:
        upload = request.FILES.get("file")
        text = csv_in.decoded(upload.read(csv_in.LONGEST + 1)) if upload else request.POST.get("text", "")[: csv_in.LONGEST]
        table = csv_in.read_table(text)
    except csv_in.NoTable as refused:
        return render(request, "clients/csv.html", context | {"refused": str(refused)}, status=422)
    columns = _columns(request, table)
    unit = context["unit"] if context["unit"] in (INCH, CM) else Workshop.current().unit
    entries = csv_in.look(table, columns, unit=unit, day=_day(request), client=client, house_unit=Workshop.current().unit)
    trouble = [entry for entry in entries if entry.trouble]
    if "write" in request.POST and (not trouble or request.POST.get("leave_out")):
        return _written(request, client, entries, unit)
    context |= {"text": text, "table": table, "entries": entries, "trouble": trouble, "unit": unit, "day": _day(request)}
    context["selects"] = [(use, title, [(n, name, n == columns[use]) for n, name in enumerate(table.head)]) for use, title in USES]
    context["changes"] = sum(entry.changes for entry in entries)
    return render(request, "clients/csv.html", context, status=422 if "write" in request.POST else 200)


def _written(request: HttpRequest, client: Client, entries, unit: str) -> HttpResponse:
    try:
        token = UUID(request.POST.get("token", ""))
    except ValueError:
        token = uuid4()
    count = csv_in.write(entries, client=client, unit=unit, token=token, by=request.user)
    messages.success(request, f"{count} {'measure' if count == 1 else 'measures'} from the file are in the book." if count else "The file holds nothing that is not in the book already.")
    return redirect(client)


def _columns(request: HttpRequest, table: csv_in.Table) -> dict[str, int]:
    """As chosen on the screen, or as they probably are."""
    likely = csv_in.likely_columns(table)
    chosen = {use: request.POST.get(f"column_{use}", "") for use in likely}
    return {use: int(chosen[use]) if chosen[use].lstrip("-").isdecimal() and len(chosen[use]) < 4 else likely[use] for use in likely}


def _day(request: HttpRequest) -> date:
    try:
        return date.fromisoformat(request.POST.get("day", ""))
    except ValueError:
        return timezone.localdate()


@needs("see_clients")
@require_safe
def paper_card(request: HttpRequest, pk: int) -> HttpResponse:
    """The measure card for a day without a phone, A5: blank, or with the newest measures."""
    client = get_object_or_404(Client, pk=pk)
    newest = None if "blank" in request.GET else client.measurings.newest_first().with_readings().first()
    current = newest.current() if newest else {}
    groups = [(title, [(measure, current.get(measure.key)) for measure in of_kind(kind)]) for kind, title in KINDS]
    if left := [(measure, current[measure.key]) for measure in LEFT if measure.key in current]:
        groups.append(("The left arm", left))
    context = {"client": client, "newest": newest, "groups": groups, "unit": Workshop.current().unit}
    return render(request, "clients/paper_card.html", context)
