"""The people in the book: find one, add one, see one."""

from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_safe

from clients import panels
from clients.again import again, is_growing
from clients.forms import ClientForm
from clients.growth import LENGTHS, grown
from clients.history import History
from clients.models import Client
from clients.querysets import held_of
from workshop.access import needs
from workshop.models import Workshop
from workshop.templatetags.workshop_tags import day

A_PAGE = 50


def said(notes, unit: str):
    """Each fit note with its sentence, in the workshop's unit."""
    for note in notes:
        note.said = note.sentence(unit)
        yield note


@needs("see_clients")
@require_safe
def list_clients(request: HttpRequest) -> HttpResponse:
    """Everybody, or those who fit what is sought; on the way to take measures, or not."""
    sought = request.GET.get("q", "").replace("\x00", "").strip()[:120]
    may_see_phone = request.user.may("see_phone")
    found = Client.objects.matching(sought, with_phone=may_see_phone).with_last_measured()
    page = Paginator(found, A_PAGE).get_page(request.GET.get("page"))
    to_measure = bool(request.GET.get("measure")) and request.user.may("measure")
    context = {"page": page, "sought": sought, "to_measure": to_measure, "show_phone": may_see_phone}
    return render(request, "clients/_found.html" if request.htmx else "clients/list.html", context)


@needs("edit_clients")
@require_http_methods(["GET", "POST"])
def add(request: HttpRequest) -> HttpResponse:
    if request.method == "GET":
        form = ClientForm(initial={"name": request.GET.get("name", "")[:120]})
        return render(request, "clients/add.html", {"form": form})
    form = ClientForm(request.POST)
    if not form.is_valid():
        return render(request, "clients/add.html", {"form": form}, status=422)
    namesake = form.namesake()
    if namesake:
        return render(request, "clients/add.html", {"form": form, "namesake": namesake}, status=422)
    return redirect(form.save())


@needs("edit_clients")
@require_http_methods(["GET", "POST"])
def edit(request: HttpRequest, pk: int) -> HttpResponse:
    client = get_object_or_404(Client, pk=pk)
    form = ClientForm(request.POST if request.method == "POST" else None, instance=client)
    if request.method == "POST" and form.is_valid():
        return redirect(form.save())
    name = Client.objects.values_list("name", flat=True).get(pk=pk) if form.errors else client.name
    context = {"form": form, "client": client, "name": name}
    return render(request, "clients/edit.html", context, status=422 if form.errors else 200)


@needs("see_clients")
@require_safe
def show(request: HttpRequest, pk: int) -> HttpResponse:
    """One client: how to reach them, the measures over time, and what other parts of the app add."""
    client = get_object_or_404(Client, pk=pk)
    house, today = Workshop.current(), timezone.localdate()
    unit, grows = house.unit, is_growing(client, today)
    history = History(held_of(client.pk), unit)
    context = {
        "client": client,
        "phone": client.phone if request.user.may("see_phone") else "",
        "history": history,
        "again": again(client, history.measurings[0], today, house.good_for_days) if history.measurings else None,
        "grown": grown(history.dates, unit) if grows else [],
        "trends": history.trends(*LENGTHS) if grows else history.trends(),
        "over_time": f"{client.get_absolute_url()}over-time/",
        "to_correct": reverse("clients:list") + "readings/" if request.user.may("measure") else "",
        "doubts": history.doubts(day) if request.user.may("measure") else [],
        "put_right": history.put_right(),
        "fit_notes": [*said(client.fit_notes.to_show().newest_first(), unit)],
        "panels": panels.drawn_for(client, request),
    }
    return render(request, "clients/show.html", context)
