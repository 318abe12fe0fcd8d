"""The owner's page of money, its year, and the bookkeeper's file."""

from django.http import Http404, HttpRequest, HttpResponse, StreamingHttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from orders.money.done import by_kind, done_lately
from orders.money.page import money_shown
from orders.money.year import year_shown
from orders.money.year_csv import lines
from workshop.access import needs
from workshop.models import Workshop

FIRST_YEAR, LAST_YEAR = 1990, 2200


@require_safe
@needs("run_workshop")
def money(request: HttpRequest) -> HttpResponse:
    today = timezone.localdate()
    return render(request, "orders/money.html", {"shown": money_shown(today), "today": today})


@require_safe
@needs("run_workshop")
def done(request: HttpRequest) -> HttpResponse:
    """What collected orders cost against their price."""
    found = done_lately()
    return render(request, "orders/money_done.html", {"done": found, "kinds": by_kind(found)})


@require_safe
@needs("run_workshop")
def year(request: HttpRequest, year: int) -> HttpResponse:
    refuse_unless_a_year(year)
    beside = {"before": year - 1, "after": year + 1 if year < timezone.localdate().year else None}
    return render(request, "orders/money_year.html", {"shown": year_shown(year), **beside})


@require_safe
@needs("run_workshop")
def bookkeeper(request: HttpRequest, year: int) -> StreamingHttpResponse:
    refuse_unless_a_year(year)
    headers = {"Content-Disposition": f'attachment; filename="payments-{year}.csv"'}
    return StreamingHttpResponse(lines(year, Workshop.current().currency), content_type="text/csv; charset=utf-8", headers=headers)


def refuse_unless_a_year(year: int) -> None:
    if not FIRST_YEAR <= year <= LAST_YEAR:
        raise Http404(f"“{year}” is no year of this workshop.")
