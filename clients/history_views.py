"""A client's measures over time: two dates beside each other, and one measure as a line."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from clients.differences import differences
from clients.measures import BY_KEY
from clients.models import Client
from clients.over_time import plot
from workshop.access import needs
from workshop.models import Workshop


@needs("see_clients")
@require_safe
def compare(request: HttpRequest, pk: int) -> HttpResponse:
    """The difference between two measurings: the two newest, unless others are chosen."""
    client = get_object_or_404(Client, pk=pk)
    measurings = list(client.measurings.newest_first().with_readings())
    by_name = {str(each.pk): each for each in measurings}
    newer = by_name.get(request.GET.get("new", ""), measurings[0] if measurings else None)
    older = by_name.get(request.GET.get("old", ""), measurings[1] if len(measurings) > 1 else newer)
    if newer and older and newer.taken_on < older.taken_on:
        newer, older = older, newer
    unit = Workshop.current().unit
    rows = differences(older, newer, unit) if newer else []
    context = {"client": client, "measurings": measurings, "newer": newer, "older": older, "rows": rows, "unit": unit}
    return render(request, "clients/compare.html", context)


@needs("see_clients")
@require_safe
def over_time(request: HttpRequest, pk: int, key: str) -> HttpResponse:
    """One measure: a line on a true time axis, and the same as a table."""
    client = get_object_or_404(Client, pk=pk)
    if key not in BY_KEY:
        raise Http404(f"no measure is called {key}")
    unit = Workshop.current().unit
    dates = [(each.taken_on, each.lengths()) for each in client.measurings.newest_first().with_readings()]
    drawn = plot(key, dates, unit)
    context = {"client": client, "measure": BY_KEY[key], "plot": drawn, "unit": unit}
    return render(request, "clients/over_time.html", context)
