"""After collection: what came back, what is given back, and the card that goes along."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.utils import timezone
from django.views.decorators.http import require_safe

from orders.after import complaints
from orders.after.care_card import care_card as card
from orders.after.forms import ComplaintForm, LeftoversForm
from orders.stages import NotNow
from orders.versions import ORDER_MEANWHILE, ChangedMeanwhile
from orders.views.finding import order_of
from orders.views.sheets import printed
from workshop.access import needs
from workshop.answering import answer, form_page


@form_page
@needs("edit_orders")
def came_back(request: HttpRequest, number: str) -> HttpResponse:
    """A complaint: the order is in work again."""
    order, today = order_of(number, "work", "cloths"), timezone.localdate()
    form = ComplaintForm(request.POST or None, today=today, sets_price=request.user.may("set_price"))
    if form.is_valid():
        try:
            complaints.take_back(order=order, by=request.user, today=today, **form.values())
            messages.success(request, f"{order.number} is in work again.")
            return redirect(order)
        except (NotNow, ChangedMeanwhile) as refused:
            form.add_error(None, getattr(refused, "reason", ORDER_MEANWHILE))
    return answer(request, "orders/came_back.html", {"form": form, "order": order})


@form_page
@needs("edit_orders")
def leftovers(request: HttpRequest, number: str) -> HttpResponse:
    order, today = order_of(number, "work", "cloths"), timezone.localdate()
    form = LeftoversForm(request.POST or None, today=today, initial={"leftovers": order.leftovers, "leftovers_on": order.leftovers_on})
    if form.is_valid():
        try:
            complaints.give_back(order=order, by=request.user, **form.cleaned_data)
            messages.success(request, "It is written down.")
            return redirect(order)
        except ChangedMeanwhile:
            form.add_error(None, ORDER_MEANWHILE)
    return answer(request, "orders/leftovers.html", {"form": form, "order": order})


@require_safe
@needs("print_sheets")
def care_card(request: HttpRequest, number: str) -> HttpResponse:
    order = order_of(number, "garments", brought_in="")
    return printed(request, f"{order.number} care card.pdf", lambda: card(order))
