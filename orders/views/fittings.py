"""Fittings of an order: booked, moved, missed, ended."""

from datetime import date

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils import timezone

from orders import conflict
from orders.booking import book_fitting, end_fitting
from orders.dates.fitting_days import in_the_way, next_days
from orders.dates.fitting_forms import FittingDoneForm, FittingForm, MissedForm
from orders.dates.missing import miss_fitting
from orders.fields import is_within_reach
from orders.models import Fitting, Order
from orders.stages import NotNow
from orders.versions import ChangedMeanwhile
from orders.views.finding import order_of
from workshop.access import needs
from workshop.answering import answer, form_page
from workshop.templatetags.workshop_tags import clock, short_day

TOUCHED = "touched"
MEANWHILE = "Somebody else changed this fitting at the same moment. Look at the order."


def fitting_of(order: Order, pk: int) -> Fitting:
    return get_object_or_404(Fitting.objects.select_related("by"), pk=pk, order=order)


def day_chosen(request: HttpRequest) -> date | None:
    """The day that was touched in the strip of days, as its button or the page's address has it."""
    try:
        day = date.fromisoformat(request.POST.get(TOUCHED) or request.GET.get("day", ""))
    except ValueError:
        return None
    return day if is_within_reach(day) else None


def typed(request: HttpRequest) -> dict:
    """What the form takes: it is sent, or a day was touched while it is being written and what is typed stays."""
    return {"so_far": request.POST.dict()} if TOUCHED in request.POST else {"data": request.POST or None}


@form_page
@needs("edit_orders")
def add_fitting(request: HttpRequest, number: str) -> HttpResponse:
    order, chosen = order_of(number, "work", "cloths"), day_chosen(request)
    form = FittingForm(**typed(request), day=chosen)
    if form.is_valid():
        given = form.cleaned_data
        way = in_the_way(form.at, given["by"], collect_on=order.collect_on)
        try:
            book_fitting(order=order, at=form.at, by=given["by"], note=given["note"], is_toile=given["is_toile"], booked_by=request.user)
            return said(request, order, "The fitting is booked.", way)
        except NotNow as refused:
            form.add_error(None, refused.reason)
    return page(request, order, form, chosen)


@form_page
@needs("edit_orders")
def edit_fitting(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    order, chosen = order_of(number, "work", "cloths"), day_chosen(request)
    fitting = fitting_of(order, pk)
    form = FittingForm(**typed(request), fitting=fitting, day=chosen)
    if TOUCHED in request.POST:
        fitting.version = conflict.version_read(request)
    if not form.is_valid():
        return page(request, order, form, chosen, fitting)
    try:
        fitting.version = conflict.version_read(request)
        fitting.at, fitting.by, fitting.note = form.at, form.cleaned_data["by"], form.cleaned_data["note"]
        fitting.is_toile = form.cleaned_data["is_toile"]
        fitting.keep("at", "by", "note", "is_toile", by=request.user)
    except ChangedMeanwhile:
        now = Fitting.objects.select_related("changed_by", "by").get(pk=pk)
        return conflict.page(request, form, FittingForm(fitting=now), now, order)
    way = in_the_way(fitting.at, fitting.by, of=fitting, collect_on=order.collect_on)
    return said(request, order, f"The fitting is on {short_day(fitting.at)}, {clock(fitting.at)}.", way)


@form_page
@needs("edit_orders")
def missed(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """The client did not come: another time, and the promise moves along."""
    order = order_of(number, "work", "cloths")
    fitting = fitting_of(order, pk)
    form = MissedForm(request.POST or None)
    if form.is_valid():
        given = form.cleaned_data
        try:
            moved = miss_fitting(
                fitting=fitting, order=order, why=given["why"], next_at=form.next_at, moves=given["moves"],
                by=request.user, today=timezone.localdate(),
            )  # fmt: skip
            booked = moved.in_words() if form.next_at else "No other is booked yet."
            way = in_the_way(form.next_at, fitting.by, collect_on=order.collect_on) if form.next_at else ""
            return said(request, order, f"The fitting is noted as missed. {booked}", way)
        except NotNow as refused:
            form.add_error(None, refused.reason)
        except ChangedMeanwhile:
            form.add_error(None, MEANWHILE)
    return answer(request, "orders/fitting_missed.html", {"form": form, "order": order, "fitting": fitting})


def said(request: HttpRequest, order: Order, done: str, warned: str) -> HttpResponse:
    messages.success(request, " ".join(filter(None, (done, warned))))
    return redirect(order)


def page(request: HttpRequest, order: Order, form, chosen: date | None, fitting: Fitting | None = None) -> HttpResponse:
    shown = {"form": form, "order": order, "fitting": fitting, "days": next_days(timezone.localdate(), chosen)}
    return answer(request, "orders/fitting.html", shown)


@form_page
@needs("tick_work")
def fitting_done(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    order = order_of(number, "work", "cloths")
    fitting = fitting_of(order, pk)
    today, books = timezone.localdate(), request.user.may("edit_orders")
    form = FittingDoneForm(request.POST or None, today=today, books=books, initial={"note": fitting.note})
    if form.is_valid():
        given = form.cleaned_data
        fitting.order = order
        try:
            end_fitting(
                fitting=fitting, ended=given["ended"], note=given["note"], next_at=form.next_at, by=request.user, today=today
            )
            messages.success(request, how_it_ended(form))
            return redirect(order)
        except (NotNow, ChangedMeanwhile) as refused:
            form.add_error(None, getattr(refused, "reason", "Somebody else changed this fitting. Look at the order."))
    return answer(request, "orders/fitting_done.html", {"form": form, "order": order, "fitting": fitting})


def how_it_ended(form: FittingDoneForm) -> str:
    if form.next_at:
        return f"The fitting is done. The next is booked for {short_day(form.cleaned_data['day'])}, {clock(form.next_at)}."
    if form.cleaned_data["ended"] == Fitting.Ended.AGAIN:
        return "The fitting is done. The client comes again: ask for the next one to be booked."
    return "The fitting is done, and it fits."
