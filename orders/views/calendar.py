"""The calendar's pages."""

from datetime import date

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from orders.dates.calendar import month_of, week_of
from orders.fields import is_within_reach
from orders.views.today import day_written
from workshop.access import needs


@require_safe
@needs("see_work")
def this_week(request: HttpRequest) -> HttpResponse:
    return week_page(request, timezone.localdate())


@require_safe
@needs("see_work")
def week(request: HttpRequest, written: str) -> HttpResponse:
    return week_page(request, day_written(written))


@require_safe
@needs("see_work")
def month(request: HttpRequest, written: str) -> HttpResponse:
    asked = month_written(written)
    shown = {"calendar": month_of(asked, timezone.localdate()), "today": timezone.localdate()}
    return render(request, "orders/calendar_month.html", shown)


def week_page(request: HttpRequest, day: date) -> HttpResponse:
    today = timezone.localdate()
    return render(request, "orders/calendar_week.html", {"calendar": week_of(day, today), "today": today})


def month_written(written: str) -> date:
    """The first day of a month that an address names as 2026-03."""
    try:
        day = date.fromisoformat(f"{written}-01")
    except ValueError as wrong:
        raise Http404(f"“{written}” is no month.") from wrong
    if f"{day:%Y-%m}" != written or not is_within_reach(day):
        raise Http404(f"“{written}” is no month of this workshop.")
    return day
