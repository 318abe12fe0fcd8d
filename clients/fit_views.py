"""Fit notes: add one, switch one on or off, look at its photograph."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from clients.fit_forms import FitNoteForm
from clients.fit_notes import FitNote, FitPhoto
from clients.models import Client
from workshop.access import needs
from workshop.models import Workshop


@needs("measure")
@require_http_methods(["GET", "POST"])
def add(request: HttpRequest, pk: int) -> HttpResponse:
    client = get_object_or_404(Client, pk=pk)
    form = FitNoteForm(request.POST, request.FILES) if request.method == "POST" else FitNoteForm()
    if not form.is_bound or not form.is_valid():
        context = {"form": form, "client": client, "in_unit": Workshop.current().unit}
        return render(request, "clients/fit_note.html", context, status=422 if form.errors else 200)
    note = form.save(client=client, by=request.user)
    messages.success(request, f"{note.sentence(Workshop.current().unit)}: noted. It goes into the next draft.")
    if form.cleaned_data["photo"] and "another" not in request.POST:
        return redirect("clients:fit-marks", note.pk)
    return redirect("clients:fit-note" if "another" in request.POST else "clients:show", client.pk)


@needs("measure")
@require_POST
def switch(request: HttpRequest, pk: int) -> HttpResponse:
    """`on` says which way, so that a form sent twice does it once."""
    note = get_object_or_404(FitNote.objects.select_related("client"), pk=pk)
    note.switch(on=request.POST.get("on") == "yes", by=request.user)
    where = "goes into the next draft" if note.on else "goes into no draft; it stays to be read"
    messages.success(request, f"{note.sentence(Workshop.current().unit)}: {where}.")
    return redirect(note.client)


@needs("measure")
@require_safe
def photo(request: HttpRequest, pk: int) -> HttpResponse:
    kept = get_object_or_404(FitPhoto, note=pk)
    return HttpResponse(bytes(kept.jpeg), content_type="image/jpeg", headers={"X-Content-Type-Options": "nosniff"})
