"""Work in the background, as its pages start it, show it and stop it: looking for a shorter lay, and a day's pack."""

from datetime import date

from django.http import FileResponse, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe
from django_htmx.http import HttpResponseClientRefresh

from drafting.paper.address import site_of
from orders.cloth import looking
from orders.models import Cloth
from orders.paper import pack
from orders.views.today import day_written
from workshop.access import needs
from workshop.jobs import Job


@require_POST
@needs("draft")
def look(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """Begin to look for a shorter lay of one cloth."""
    cloth = get_object_or_404(Cloth, pk=pk, order__number=number)
    seconds = looking.LONG if request.POST.get("for") == "long" else looking.SHORT
    looking.ask(cloth, seconds=seconds, by=request.user)
    return to_cloth(cloth, number)


@require_safe
@needs("see_work")
def looked(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """How far the look is: a part of the lays' page, for whoever has that open."""
    cloth = get_object_or_404(Cloth, pk=pk, order__number=number)
    if not request.htmx:
        return to_cloth(cloth, number)
    return progress(request, looking.looking_for(cloth), "orders/_looking.html", {"cloth": cloth, "number": number})


@require_POST
@needs("draft")
def stop_looking(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    cloth = get_object_or_404(Cloth, pk=pk, order__number=number)
    stop(Job.newest(looking.KIND, looking.about(cloth)))
    return to_cloth(cloth, number)


@require_http_methods(["GET", "HEAD", "POST"])
@needs("print_sheets")
def day_pack(request: HttpRequest, written: str) -> HttpResponse:
    """The packs of a day: the sheets, and the sheets with their patterns; each is made when it is asked for."""
    day = day_written(written)
    if request.method == "POST":
        pack.ask(day, full_size=with_patterns(request.POST), site=site_of(request), by=request.user)
        return redirect("orders:pack", written)
    packs = [pack.pack_of(day, full_size=full_size) for full_size in (False, True)]
    shown = {"day": day, "packs": packs, "count": pack.to_cut(day).count()}
    return render(request, "orders/pack.html", shown | {"is_running": any(each.job and each.job.is_open for each in packs)})


@require_safe
@needs("print_sheets")
def day_pack_made(request: HttpRequest, written: str) -> HttpResponse:
    """How far a pack is: a part of its page."""
    day, full_size = day_written(written), with_patterns(request.GET)
    if not request.htmx:
        return redirect("orders:pack", written)
    return progress(request, pack.pack_of(day, full_size=full_size), "orders/_pack.html", {"day": day})


@require_POST
@needs("print_sheets")
def stop_pack(request: HttpRequest, written: str) -> HttpResponse:
    day = day_written(written)
    stop(Job.newest(pack.KIND, pack.name_of(day, with_patterns(request.POST))))
    return redirect("orders:pack", written)


@require_safe
@needs("print_sheets")
def pack_file(request: HttpRequest, written: str) -> HttpResponse:
    day, full_size = day_written(written), with_patterns(request.GET)
    if not pack.pack_of(day, full_size=full_size).is_there:
        return redirect("orders:pack", written)
    return answer_with_file(day, full_size)


def answer_with_file(day: date, full_size: bool) -> FileResponse:
    name = f"pack {pack.name_of(day, full_size)}.pdf"
    return FileResponse(pack.file_of(day, full_size).open("rb"), content_type="application/pdf", filename=name)


def progress(request: HttpRequest, shown, template: str, more: dict) -> HttpResponse:
    """The part that is asked for again and again; once the job has ended, the whole page."""
    if shown is None or shown.job is None or not shown.job.is_open:
        return HttpResponseClientRefresh()
    return render(request, template, {"shown": shown} | more)


def stop(job: Job | None) -> None:
    if job is not None:
        job.ask_to_stop()


def with_patterns(given) -> bool:
    return given.get("with") == "patterns"


def to_cloth(cloth: Cloth, number: str) -> HttpResponse:
    return redirect(f"{reverse('orders:lays', args=[number])}#cloth-{cloth.pk}")
