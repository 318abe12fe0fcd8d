"""The market list on a phone."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from orders.cloth import market
from orders.stages import NotNow
from workshop.access import needs
from workshop.models import Workshop


@require_safe
@needs("see_work")
def show(request: HttpRequest) -> HttpResponse:
    return render(request, "orders/market.html", {"market": market.market_list(Workshop.current().unit)})


@require_POST
@needs("tick_work")
def tick(request: HttpRequest) -> HttpResponse:
    """One line bought, or not after all; with scripts only its group is answered."""
    try:
        given = {"name": request.POST.get("line", ""), "orders": request.POST.get("orders", ""), "is_bought": request.POST.get("bought") != "no"}
        market.tick(**given, by=request.user, unit=Workshop.current().unit)
    except NotNow as refused:
        messages.error(request, refused.reason)
        return redirect("orders:market")
    if not request.htmx:
        return redirect(f"{reverse('orders:market')}#group-{request.POST.get('group', '')[:20]}")
    shown = market.market_list(Workshop.current().unit)
    group = next((each for each in shown.groups if each.key == request.POST.get("group", "")), None)
    return render(request, "orders/_market_group.html", {"group": group, "market": shown}) if group else HttpResponse("")
