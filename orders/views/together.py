"""Several orders on one cloth: choose them, lay them together, and see each client's share."""

from urllib.parse import urlencode

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from orders.cloth import together
from orders.views.background import progress, stop
from workshop.access import needs
from workshop.jobs import Job

ONE_WIDTH = "These cloths are not of one width. Choose orders that share one cloth."
TWO = "Choose two orders or more."


@require_http_methods(["GET", "HEAD", "POST"])
@needs("see_work")
def choose(request: HttpRequest) -> HttpResponse:
    """The cloths that orders share; with orders chosen, their lay."""
    keys = (request.POST if request.method == "POST" else request.GET).getlist("of")
    cloths = together.chosen(keys)
    refused = "" if not keys else TWO if len(cloths) < 2 else ONE_WIDTH if len({each.width_mm for each in cloths}) > 1 else ""
    if request.method == "POST" and cloths and not refused:
        together.ask(cloths, by=request.user)
        return redirect(address(cloths))
    shown = {"shared": together.shared_cloths(), "refused": refused, "keys": [cloth.pk for cloth in cloths]}
    if cloths and not refused:
        shown |= {"cloths": cloths, "shown": together.shown_together(cloths), "query": query_of(cloths)}
    return render(request, "orders/together.html", shown, status=422 if refused and request.method == "POST" else 200)


@require_safe
@needs("see_work")
def made(request: HttpRequest) -> HttpResponse:
    """How far the lay is: a part of its page."""
    cloths = together.chosen(request.GET.getlist("of"))
    if not (request.htmx and cloths):
        return redirect(address(cloths))
    return progress(request, together.shown_together(cloths), "orders/_together.html", {"query": query_of(cloths), "cloths": cloths})


@require_POST
@needs("see_work")
def stop_laying(request: HttpRequest) -> HttpResponse:
    cloths = together.chosen(request.POST.getlist("of"))
    stop(Job.newest(together.KIND, together.about(cloths)))
    return redirect(address(cloths))


def query_of(cloths) -> str:
    return urlencode([("of", cloth.pk) for cloth in cloths])


def address(cloths) -> str:
    return f"{reverse('orders:together')}?{query_of(cloths)}"
