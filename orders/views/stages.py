"""The buttons that move an order on. What may not happen now is said on the order's page; nothing is changed."""

from collections.abc import Callable

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST

from orders import calling_off
from orders.cloth import shelf
from orders.forms import CallOffForm, CopyForm
from orders.models import Order
from orders.models.shelf import CLIENTS
from orders.money.receipts import payer_of
from orders.stages import NotNow
from orders.versions import PRESS_AGAIN, ChangedMeanwhile
from orders.views.finding import order_of
from orders.work import asking_first, cutting
from workshop.access import needs
from workshop.models import Workshop
from workshop.money import print_money


def book(order: Order, request: HttpRequest) -> str:
    order.book(by=request.user)
    return f"{order.number} is booked."


def drafts_shown(request: HttpRequest) -> set[int]:
    """The drafts that the page showed whose form was sent."""
    return {int(each) for each in request.POST.getlist("draft") if each.isascii() and each.isdigit() and len(each) < 18}


def sign_off(order: Order, request: HttpRequest) -> str:
    cutting.sign_off(order=order, by=request.user, looked_at=drafts_shown(request))
    return f"{order.number} may be cut."


def cut(order: Order, request: HttpRequest) -> str:
    asking_first.cut(order=order, by=request.user, today=timezone.localdate(), whom=request.POST.get("asked", ""))
    return f"{order.number} is cut. Its draft is kept as it was cut."


def sewn(order: Order, request: HttpRequest) -> str:
    order.finish_sewing(by=request.user)
    return f"{order.number} is sewn."


def begin(order: Order, request: HttpRequest) -> str:
    order.begin_work(by=request.user)
    return f"{order.number} is in work."


def ready(order: Order, request: HttpRequest) -> str:
    order.hang_ready(by=request.user)
    return f"{order.number} hangs ready."


def collected(order: Order, request: HttpRequest) -> str:
    unpaid = request.POST.get("with_balance_due") == "yes"
    order.hand_over(by=request.user, today=timezone.localdate(), with_balance_due=unpaid)
    return f"{order.number} is collected.{to_give_back(order)}"


def to_give_back(order: Order) -> str:
    """What of the client's own still lies here, as she stands at the door or is told that it is off."""
    lies = "; ".join(hers.said for hers in order.hers_here)
    return f" {order.client.first_name}’s own cloth lies here, give it back: {lies}." if lies else ""


def to_measure(lengths) -> str:
    """What was cut from and lies there: nobody knows how much of it until it is measured."""
    ours = "; ".join(each.name for each in lengths if each.whose != CLIENTS)
    return f" Measure what is left of what was cut from, and write it on the shelf: {ours}." if ours else ""


def act(request: HttpRequest, number: str, verb: Callable[[Order, HttpRequest], str]) -> HttpResponse:
    order = order_of(number)
    try:
        messages.success(request, verb(order, request))
    except NotNow as refused:
        messages.error(request, refused.reason)
    except ChangedMeanwhile:
        messages.error(request, PRESS_AGAIN)
    return redirect(order)


EDIT = {"book": book, "begin": begin, "sewn": sewn, "ready": ready, "collected": collected}


@require_POST
@needs("edit_orders")
def move_on(request: HttpRequest, number: str, verb: str) -> HttpResponse:
    if verb not in EDIT:
        raise Http404(f"There is no such step: {verb}.")
    return act(request, number, EDIT[verb])


@require_POST
@needs("sign_off")
def sign_off_order(request: HttpRequest, number: str) -> HttpResponse:
    return act(request, number, sign_off)


@require_POST
@needs("tick_work")
def cut_order(request: HttpRequest, number: str) -> HttpResponse:
    return asked_first(request, order_of(number)) or act(request, number, cut)


def asked_first(request: HttpRequest, order: Order, only: int | None = None) -> HttpResponse | None:
    """The page that asks before all of it counts as cut; None where there is nothing to ask, or it was answered."""
    if request.POST.get("all_the_same") == "yes" or not cutting.may_be_cut(order, only):
        return None
    question = asking_first.before_cutting(order, request.user, only)
    return render(request, "orders/ask_first.html", {"order": order, "question": question}) if question else None


@require_http_methods(["GET", "HEAD", "POST"])
@needs("edit_orders")
def call_off(request: HttpRequest, number: str) -> HttpResponse:
    order = order_of(number, "work")
    settles = request.user.may("refund") and order.paid > 0
    form = CallOffForm(request.POST or None, settles=settles, usual=f"{calling_off.usually_kept(order).normalize():f}" if settles else "")
    if form.is_valid():
        try:
            cut_from = shelf.to_measure_again(order)
            back = calling_off.call_off(order=order, by=request.user, today=timezone.localdate(), **form.cleaned_data)
            given = f" {print_money(back, Workshop.current().currency)} is given back." if back else ""
            messages.success(request, f"{order.number} is called off.{given}{to_give_back(order)}{to_measure(cut_from)}")
            return redirect(order)
        except NotNow as refused:
            form.add_error(None, refused.reason)
        except ChangedMeanwhile:
            form.add_error(None, PRESS_AGAIN)
    shown = {"form": form, "order": order, "cut_from": shelf.to_measure_again(order), "payer": payer_of(order)}
    return render(request, "orders/call_off.html", shown, status=422 if form.is_bound else 200)


@require_http_methods(["GET", "HEAD", "POST"])
@needs("edit_orders")
def copy(request: HttpRequest, number: str) -> HttpResponse:
    """The same again, for another occasion."""
    order, today = order_of(number, "work", brought_in=""), timezone.localdate()
    form = CopyForm(request.POST if request.method == "POST" else None, today=today)
    if form.is_bound and form.is_valid():
        new = calling_off.copy(order=order, by=request.user, today=today, **form.cleaned_data)
        messages.success(request, f"{new.number} is in the book, as {order.number} was made. Agree day and price.")
        return redirect(new)
    return render(request, "orders/copy.html", {"form": form, "order": order}, status=422 if form.is_bound else 200)
