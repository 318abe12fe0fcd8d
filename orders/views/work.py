"""Fittings and cloths of an order."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST

from orders import cloths, conflict
from orders.booking import book_fitting, end_fitting
from orders.forms import ClothForm, FittingDoneForm, FittingForm
from orders.laying import answer_now
from orders.models import Cloth, Fitting, Order
from orders.stages import NotNow
from orders.versions import ChangedMeanwhile
from workshop.access import needs
from workshop.templatetags.workshop_tags import clock, short_day

form_page = require_http_methods(["GET", "HEAD", "POST"])


def order_of(number: str) -> Order:
    return get_object_or_404(Order.objects.with_client().with_work().with_cloths(), number=number)


@form_page
@needs("edit_orders")
def add_fitting(request: HttpRequest, number: str) -> HttpResponse:
    order, form = order_of(number), FittingForm(request.POST or None)
    if form.is_valid():
        given = form.cleaned_data
        try:
            book_fitting(order=order, at=form.at, by=given["by"], note=given["note"], booked_by=request.user)
            messages.success(request, "The fitting is booked.")
            return redirect(order)
        except NotNow as refused:
            form.add_error(None, refused.reason)
    return answer(request, "orders/fitting.html", {"form": form, "order": order})


@form_page
@needs("edit_orders")
def edit_fitting(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    order = order_of(number)
    fitting = get_object_or_404(Fitting.objects.select_related("by"), pk=pk, order=order)
    form = FittingForm(request.POST or None, fitting=fitting)
    if not form.is_valid():
        return answer(request, "orders/fitting.html", {"form": form, "order": order, "fitting": fitting})
    try:
        fitting.version = conflict.version_read(request)
        fitting.at, fitting.by, fitting.note = form.at, form.cleaned_data["by"], form.cleaned_data["note"]
        fitting.keep("at", "by", "note", by=request.user)
    except ChangedMeanwhile:
        now = Fitting.objects.select_related("changed_by", "by").get(pk=pk)
        return conflict.page(request, form, FittingForm(fitting=now), now, order)
    messages.success(request, "The fitting is moved.")
    return redirect(order)


@form_page
@needs("tick_work")
def fitting_done(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    order = order_of(number)
    fitting = get_object_or_404(Fitting.objects.select_related("by"), pk=pk, order=order)
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


@form_page
@needs("edit_orders")
def add_cloth(request: HttpRequest, number: str) -> HttpResponse:
    order = order_of(number)
    form = ClothForm(request.POST or None, order=order)
    if form.is_valid():
        try:
            cloth, look_again = cloths.put_on(order=order, values=form.values(), by=request.user)
        except NotNow as refused:
            form.add_error(None, refused.reason)
        else:
            answer_now(order, [cloth])
            return say_and_show(request, order, "The cloth is on the order.", look_again)
    return answer(request, "orders/cloth.html", {"form": form, "order": order})


@form_page
@needs("edit_orders")
def edit_cloth(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    order = order_of(number)
    cloth = get_object_or_404(Cloth, pk=pk, order=order)
    form = ClothForm(request.POST or None, order=order, cloth=cloth)
    if not form.is_valid():
        return answer(request, "orders/cloth.html", {"form": form, "order": order, "cloth": cloth})
    try:
        cloth.version = conflict.version_read(request)
        look_again = cloths.change(cloth=cloth, values=form.values(), by=request.user)
    except ChangedMeanwhile:
        now = Cloth.objects.select_related("changed_by").get(pk=pk)
        return conflict.page(request, form, ClothForm(order=order, cloth=now), now, order)
    except NotNow as refused:
        form.add_error(None, refused.reason)
        return answer(request, "orders/cloth.html", {"form": form, "order": order, "cloth": cloth})
    answer_now(order, [cloth])
    return say_and_show(request, order, "Saved.", look_again)


@require_POST
@needs("edit_orders")
def remove_cloth(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    cloth = get_object_or_404(Cloth.objects.select_related("order"), pk=pk, order__number=number)
    try:
        look_again = cloths.take_off(cloth=cloth, by=request.user)
    except NotNow as refused:
        messages.error(request, refused.reason)
        return redirect(cloth.order)
    return say_and_show(request, cloth.order, f"{cloth.name} is off the order.", look_again)


def say_and_show(request: HttpRequest, order: Order, done: str, look_again: bool) -> HttpResponse:
    messages.success(request, f"{done} {cloths.LOOK_AGAIN}" if look_again else done)
    return redirect(order)


def answer(request: HttpRequest, template: str, shown: dict) -> HttpResponse:
    return render(request, template, shown, status=422 if shown["form"].is_bound else 200)
