"""The page of a cutting day."""

from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST

from orders.in_hand import eyes_of
from orders.models import Garment, Order
from orders.stages import NotNow
from orders.versions import PRESS_AGAIN, ChangedMeanwhile
from orders.views.stages import drafts_shown
from orders.views.today import day_written
from orders.work import cutting, cutting_day
from workshop.access import needs
from workshop.templatetags.workshop_tags import weekday


@require_http_methods(["GET", "HEAD", "POST"])
@needs("see_work")
def show(request: HttpRequest, written: str) -> HttpResponse:
    """What is cut that day and what speaks against it; sent with orders, these are to be cut then."""
    day = day_written(written)
    if request.method == "POST":
        if not request.user.may("edit_orders"):
            raise PermissionDenied("edit_orders")
        try:
            chosen = cutting_day.choose(request.POST.getlist("order"), day, by=request.user)
            said = f"To be cut on {weekday(day)}: {', '.join(order.number for order in chosen)}." if chosen else "No order is ticked."
            (messages.success if chosen else messages.error)(request, said)
        except ChangedMeanwhile:
            messages.error(request, "Somebody else changed one of these orders at the same moment. Nothing was moved: choose once more.")
        return redirect("orders:cutting-day", written)
    shown = cutting_day.cutting_day(day, timezone.localdate(), eyes_of(request.user))
    return render(request, "orders/cutting_day.html", {"cutting": shown, "today": timezone.localdate()})


@require_POST
@needs("sign_off")
def all_the_same(request: HttpRequest, written: str, number: str) -> HttpResponse:
    """The owner's word for an order, or one garment of it, against which something speaks, with her reason; both are printed."""
    day, why = day_written(written), " ".join(request.POST.get("why", "").split())
    order = Order.objects.with_client().filter(number=number).first()
    try:
        if order is None:
            raise NotNow(f"There is no order {number}.")
        only = garment_named(order, request.POST.get("garment", ""))
        cutting.sign_off(order=order, by=request.user, only=only, looked_at=drafts_shown(request), why=why, needs_reason=True)
        messages.success(request, f"{number} {only.title if only else ''}".rstrip() + " may be cut.")
    except NotNow as refused:
        messages.error(request, refused.reason)
    except ChangedMeanwhile:
        messages.error(request, PRESS_AGAIN)
    return redirect("orders:cutting-day", day.isoformat())


def garment_named(order: Order, key: str) -> Garment | None:
    """None where the form was for all of them. Raises NotNow for one that the order does not have."""
    if not key:
        return None
    found = next((garment for garment in order.all_garments if str(garment.pk) == key), None)
    if found is None:
        raise NotNow(f"{order.number} has no such garment any more. Look at the day again.")
    return found
