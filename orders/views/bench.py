"""The workshop's days and hours: the owner's page, and the hours of one garment."""

from dataclasses import replace

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST

from orders.dates import keeping_days
from orders.dates.bench import Bench, month_in_words
from orders.dates.bench_forms import BenchForm, ClosedForm, HoursForm
from orders.models import Garment
from orders.versions import ChangedMeanwhile
from workshop.access import needs
from workshop.answering import form_page


@form_page
@needs("run_workshop")
def days_and_hours(request: HttpRequest) -> HttpResponse:
    bench = Bench.current()
    form = BenchForm(request.POST or None, bench=bench)
    if form.is_valid():
        values = form.values()
        keeping_days.change(lambda now: replace(now, **values))
        messages.success(request, "Days and hours are kept. New promises follow them.")
        return redirect("orders:days-and-hours")
    return page(request, bench, form=form)


@require_POST
@needs("run_workshop")
def close(request: HttpRequest) -> HttpResponse:
    form = ClosedForm(request.POST)
    if not form.is_valid():
        return page(request, Bench.current(), closed_form=form)
    closed = form.closed()
    keeping_days.close(closed)
    messages.success(request, f"{closed.name}: closed.")
    return redirect("orders:days-and-hours")


@require_POST
@needs("run_workshop")
def open_again(request: HttpRequest) -> HttpResponse:
    """`closed` names the holiday by what it is, so that a list that changed meanwhile does no harm."""
    wanted = request.POST.get("closed", "")
    found = next((each for each in Bench.current().closed if mark_of(each) == wanted), None)
    if found:
        keeping_days.open_again(found)
        messages.success(request, f"{found.name}: open again.")
    return redirect("orders:days-and-hours")


@require_POST
@needs("run_workshop")
def month(request: HttpRequest, year: int, number: int) -> HttpResponse:
    """Close a month for new collections, or open it again."""
    if not (1 <= number <= 12 and abs(year - timezone.localdate().year) <= 10):
        raise Http404("There is no such month here.")
    if request.POST.get("full") == "yes":
        keeping_days.close_month(year, number)
        messages.success(request, f"{month_in_words(year, number)} is closed for new collections.")
    else:
        keeping_days.open_month(year, number)
        messages.success(request, f"{month_in_words(year, number)} is open for collections again.")
    return redirect("orders:month", f"{year:04d}-{number:02d}")


@require_POST
@needs("tick_work")
def hours(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    garment = get_object_or_404(Garment.objects.select_related("order"), pk=pk, order__number=number)
    form = HoursForm(request.POST)
    if not form.is_valid():
        messages.error(request, " ".join(f"{form.fields[name].label}: {error}" for name, found in form.errors.items() for error in found))
        return redirect(garment.order)
    try:
        keeping_days.note_hours(garment=garment, by=request.user, **form.cleaned_data)
        messages.success(request, f"Hours of the {garment.title.lower()} are kept.")
    except ChangedMeanwhile:
        messages.error(request, "Somebody else changed this garment at the same moment. Look at it, then write the hours again.")
    return redirect(garment.order)


def mark_of(closed) -> str:
    return f"{closed.first.isoformat()} {closed.last.isoformat()} {closed.name}"


def page(request: HttpRequest, bench: Bench, *, form=None, closed_form=None) -> HttpResponse:
    today = timezone.localdate()
    shown = {
        "form": form or BenchForm(bench=bench),
        "closed_form": closed_form or ClosedForm(),
        "closed": [(each, mark_of(each)) for each in bench.closed if not each.is_over(today)],
        "full_months": [month_in_words(*each) for each in sorted(bench.full_months) if each >= (today.year, today.month)],
    }
    refused = form and form.is_bound or closed_form
    return render(request, "orders/days_and_hours.html", shown, status=422 if refused else 200)
