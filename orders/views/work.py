"""Cloths of an order."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.views.decorators.http import require_POST

from orders import conflict
from orders.cloth import cloths, shelf
from orders.cloth.laying import answer_now
from orders.forms import ClothForm
from orders.models import Cloth, Order
from orders.stages import NotNow
from orders.versions import ChangedMeanwhile
from orders.views.finding import order_of
from workshop.access import needs
from workshop.answering import answer, form_page


@form_page
@needs("edit_orders")
def add_cloth(request: HttpRequest, number: str) -> HttpResponse:
    order = order_of(number, "work", "cloths")
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
    order = order_of(number, "work", "cloths")
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
    if other := shelf.other_on_shelf(cloth):
        messages.success(request, f"Saved, and the shelf says otherwise. {cloths.LOOK_AGAIN if look_again else ''}".strip())
        return redirect("orders:shelf-card", other.pk)
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
