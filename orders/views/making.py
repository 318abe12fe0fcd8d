"""The order of making, ticked on a phone."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from orders.models import Garment
from orders.stages import NotNow
from orders.views.finding import order_of
from orders.work.ticking import making_shown, tick, untick
from workshop.access import needs
from workshop.models import Workshop


@require_safe
@needs("see_work")
def making(request: HttpRequest, number: str) -> HttpResponse:
    order = order_of(number)
    garments = order.garments.select_related("draft", "cut_draft")
    shown = [made for each in garments if (made := making_shown(each, order, request.user, Workshop.current().unit))]
    return render(request, "orders/making.html", {"order": order, "garments": shown})


@require_POST
@needs("tick_work")
def tick_step(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """Done, or not done after all; with scripts only the step itself is answered."""
    garment = get_object_or_404(Garment.objects.select_related("order", "draft", "cut_draft"), pk=pk, order__number=number)
    key = request.POST.get("step", "")
    try:
        if request.POST.get("done") == "no":
            untick(garment=garment, key=key)
        else:
            tick(garment=garment, key=key, by=request.user)
    except NotNow as refused:
        messages.error(request, refused.reason)
        return redirect("orders:making", number)
    shown = making_shown(garment, garment.order, request.user, Workshop.current().unit)
    if request.htmx:
        return render(request, "orders/_making.html", {"order": garment.order, "shown": shown})
    return redirect(f"{reverse('orders:making', args=[number])}#step-{garment.pk}-{shown.step(key).number}")
