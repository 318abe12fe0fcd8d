"""The days on which parts of a price are paid."""

from datetime import date, timedelta

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from orders.models import Order
from orders.money import instalments
from orders.money.price_forms import InstalmentsForm
from orders.stages import NotNow
from orders.versions import ORDER_MEANWHILE, ChangedMeanwhile
from orders.views.finding import order_of
from workshop.access import needs


@require_http_methods(["GET", "HEAD", "POST"])
@needs("take_payment")
def agree(request: HttpRequest, number: str) -> HttpResponse:
    order, today = order_of(number, "garments"), timezone.localdate()
    form = InstalmentsForm(request.POST or None, parts=proposed(request, order, today))
    if form.is_valid():
        try:
            instalments.agree(order=order, parts=form.parts(), by=request.user)
            order.refresh_from_db(fields=["instalments"])
            kept = f"The instalments are kept. {instalments.less_than_deposit(order)}".strip()
            messages.success(request, kept if form.parts() else "No instalments: the balance is due at collection.")
            return redirect(order)
        except (NotNow, ChangedMeanwhile) as refused:
            form.add_error(None, getattr(refused, "reason", ORDER_MEANWHILE))
    shown = {"form": form, "order": order, "is_off": instalments.is_off(order), "less": instalments.less_than_deposit(order)}
    return render(request, "orders/instalments.html", shown, status=422 if form.is_bound else 200)


def proposed(request: HttpRequest, order: Order, today: date) -> list:
    """What the form begins with: so many like parts where that was asked for, else the plan as it stands."""
    asked = request.GET.get("parts", "")
    if asked.isascii() and asked.isdigit() and 2 <= int(asked[:3]) <= instalments.MOST and order.price:
        last = max(order.collect_on or today, today + timedelta(days=int(asked) - 1))
        return instalments.evenly(order.price, int(asked), today, last)
    return [(each.on, each.amount) for each in instalments.plan_of(order)]
