"""Today, and what any other day holds."""

from datetime import date

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from orders.day import one_day, todays
from orders.fields import is_within_reach
from orders.in_hand import eyes_of
from workshop.access import needs


@require_safe
@needs("see_work")
def show(request: HttpRequest) -> HttpResponse:
    today = timezone.localdate()
    day = todays(today, eyes_of(request.user), show_all="all" in request.GET)
    return render(request, "orders/today.html", {"day": day, "today": today})


@require_safe
@needs("see_work")
def day(request: HttpRequest, written: str) -> HttpResponse:
    today, asked = timezone.localdate(), day_written(written)
    return render(request, "orders/day.html", {"day": one_day(asked, today, eyes_of(request.user)), "today": today})


def day_written(written: str) -> date:
    """The day of an address, which is written in one way only: 2026-03-28."""
    try:
        day = date.fromisoformat(written)
    except ValueError as wrong:
        raise Http404(f"“{written}” is no day.") from wrong
    if day.isoformat() != written or not is_within_reach(day):
        raise Http404(f"“{written}” is no day of this workshop.")
    return day
