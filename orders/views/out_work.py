"""Work given out: written down, changed, back."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils import timezone
from django.views.decorators.http import require_POST

from orders import conflict
from orders.models import OutWork
from orders.out import giving_out
from orders.out.forms import OutWorkForm
from orders.stages import NotNow
from orders.versions import ChangedMeanwhile
from orders.views.finding import order_of
from workshop.access import needs
from workshop.answering import answer, form_page


@form_page
@needs("edit_orders")
def add(request: HttpRequest, number: str) -> HttpResponse:
    order = order_of(number, "work", "cloths")
    form = OutWorkForm(request.POST or None, today=timezone.localdate())
    if form.is_valid():
        try:
            out = giving_out.give_out(order=order, values=form.cleaned_data, by=request.user)
            messages.success(request, f"{out.what} is with {out.to_whom}.")
            return redirect(order)
        except NotNow as refused:
            form.add_error(None, refused.reason)
    return answer(request, "orders/out_work.html", {"form": form, "order": order})


@form_page
@needs("edit_orders")
def edit(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    order, today = order_of(number, "work", "cloths"), timezone.localdate()
    out = get_object_or_404(OutWork, pk=pk, order=order)
    form = OutWorkForm(request.POST or None, today=today, out=out)
    if form.is_valid():
        try:
            out.version = conflict.version_read(request)
            giving_out.change(out=out, values=form.cleaned_data, by=request.user)
            messages.success(request, "Saved.")
            return redirect(order)
        except ChangedMeanwhile:
            now = OutWork.objects.select_related("changed_by").get(pk=pk)
            return conflict.page(request, form, OutWorkForm(today=today, out=now), now, order)
    return answer(request, "orders/out_work.html", {"form": form, "order": order, "out": out})


@require_POST
@needs("edit_orders")
def back(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    out = get_object_or_404(OutWork.objects.select_related("order"), pk=pk, order__number=number)
    try:
        giving_out.note_back(out=out, by=request.user, today=timezone.localdate())
        messages.success(request, f"{out.what} is back from {out.to_whom}.")
    except NotNow as refused:
        messages.error(request, refused.reason)
    except ChangedMeanwhile:
        messages.error(request, "Somebody else changed this at the same moment. Look at it again.")
    return redirect(out.order)
