"""Several garments on one order: added, put away, taken up, signed off and cut one by one."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST

from orders.garment import several
from orders.garment.add_form import AddGarmentForm
from orders.garment.beginning import beginnings
from orders.models import Garment
from orders.stages import NotNow
from orders.views.finding import order_of
from orders.views.garments import act
from orders.views.stages import asked_first, drafts_shown
from orders.work import asking_first, cutting
from workshop.access import needs
from workshop.answering import answer


@require_http_methods(["GET", "HEAD", "POST"])
@needs("edit_orders")
def add(request: HttpRequest, number: str) -> HttpResponse:
    order = order_of(number, "work", "cloths")
    form = AddGarmentForm(request.POST or None, order=order, begin_from=beginnings(order.client))
    if form.is_valid():
        try:
            garment = several.add_garment(order=order, by=request.user, **form.values())
            messages.success(request, f"{garment.title} is on {order.number}. Look at the promise: it is more work.")
            return redirect(f"{order.get_absolute_url()}#garment-head-{garment.pk}")
        except NotNow as refused:
            form.add_error(None, refused.reason)
    return answer(request, "orders/garment_add.html", {"form": form, "order": order})


@require_POST
@needs("edit_orders")
def put_away(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    garment = any_garment(number, pk)
    return act(request, garment, lambda: several.put_away(garment=garment, by=request.user, today=timezone.localdate()), f"{garment.title} is put away.")


@require_POST
@needs("edit_orders")
def take_up(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    garment = any_garment(number, pk)
    return act(request, garment, lambda: several.take_up(garment=garment, by=request.user), f"{garment.title} is taken up again.")


@require_POST
@needs("sign_off")
def sign_off(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """The owner's word for this garment alone."""
    garment, shown = any_garment(number, pk), drafts_shown(request)
    return act(request, garment, lambda: cutting.sign_off(order=garment.order, only=garment, by=request.user, looked_at=shown), f"{garment.title} may be cut.")


@require_POST
@needs("tick_work")
def cut(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """This garment alone; the others of the order wait."""
    garment = any_garment(number, pk)

    def verb() -> None:
        asking_first.cut(order=garment.order, only=garment, by=request.user, today=timezone.localdate(), whom=request.POST.get("asked", ""))

    return asked_first(request, garment.order, pk) or act(request, garment, verb, f"{garment.title} is cut.")


def any_garment(number: str, pk: int) -> Garment:
    """Also one that was put away."""
    return get_object_or_404(Garment.everything.select_related("order"), pk=pk, order__number=number)
