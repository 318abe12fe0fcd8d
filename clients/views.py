"""The people in the book: find one, add one, see one."""

from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_safe

from clients import panels
from clients.fit_notes import notes_shown, sentence
from clients.forms import ClientForm
from clients.measures_shown import Seen, measures_shown
from clients.models import Client, rows_to_hold
from workshop.access import needs
from workshop.models import Workshop

A_PAGE = 50


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
    house, may = Workshop.current(), request.user.may
    seen = Seen(
        client.pk, client.born_on, client.to_let_down, house.unit, house.days_in, house.good_for_days, timezone.localdate(),
        may_measure=may("measure"), may_edit=may("edit_clients"),
    )  # fmt: skip
    context = {
        "client": client,
        "phone": client.phone if may("see_phone") else "",
        "book": measures_shown(rows_to_hold(client), seen),
        "fit_notes": [(note, sentence(note.place, note.side, note.mm, house.unit)) for note in notes_shown(client)],
        "panels": panels.drawn_for(client, request),
    }
    return render(request, "clients/show.html", context)
