"""The list of orders, a new order, an order's page, and the promises that it makes."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_safe

from clients.models import Client
from orders import conflict
from orders.booking import take_order
from orders.dates.bench import Bench
from orders.forms import AddOrderForm, PromiseForm
from orders.garment.beginning import beginnings
from orders.garment.shown import drawn_already
from orders.in_hand import concerns_shown, eyes_of, rows_for, rows_on_page
from orders.models import Order
from orders.order_page import order_page
from orders.searching import orders_found
from orders.templatetags.rows import flag
from orders.versions import ChangedMeanwhile
from orders.views.asking import asked_of, asked_of_new
from orders.views.finding import order_of
from orders.whole_order import whole_order
from workshop.access import needs

ON_A_PAGE = 50


@require_safe
@needs("see_work")
def list_orders(request: HttpRequest) -> HttpResponse:
    words, which = request.GET.get("q", "").strip()[:80], request.GET.get("which", "")
    page, today, eyes = page_number(request), timezone.localdate(), eyes_of(request.user)
    start = (page - 1) * ON_A_PAGE
    stop = start + ON_A_PAGE + 1
    if words:
        rows = rows_for(orders_found(words, start, stop, with_owner=not eyes.sees_phone), today, eyes)
    else:
        rows = rows_on_page(today, eyes, start, stop, of_all=which == "all")
    shown = {"rows": rows[:ON_A_PAGE], "has_more": len(rows) > ON_A_PAGE, "words": words, "which": which}
    pages = {"page": page, "before": page - 1, "after": page + 1}
    return render(request, "orders/list.html", shown | pages | {"today": today})


def page_number(request: HttpRequest) -> int:
    """Pages are not counted: that would cost more than the page itself once the book is thick."""
    written = request.GET.get("page", "")
    return max(int(written), 1) if written.isascii() and written.isdigit() and len(written) < 6 else 1


@require_http_methods(["GET", "HEAD", "POST"])
@needs("edit_orders")
def add(request: HttpRequest, client_pk: int) -> HttpResponse:
    client, today = get_object_or_404(Client, pk=client_pk), timezone.localdate()
    asks = "ask" in request.POST
    about = {"today": today, "sets_price": request.user.may("set_price"), "begin_from": beginnings(client)}
    form = AddOrderForm(initial=request.POST.dict(), **about) if asks else AddOrderForm(request.POST or None, **about)
    if form.is_valid():
        order = take_order(client=client, by=request.user, booked_on=today, **form.values())
        messages.success(request, f"{order.number} is in the book.")
        return redirect(order)
    status = 422 if form.is_bound else 200
    shown = {"form": form, "client": client, "answer": asked_of_new(request, request.POST) if asks else None}
    return render(request, "orders/add.html", shown, status=status)


@require_safe
@needs("see_work")
def show(request: HttpRequest, number: str) -> HttpResponse:
    return page_of(request, number)


def page_of(request: HttpRequest, number: str, *, form=None, refused=(), status: int = 200) -> HttpResponse:
    """The order's page; with a garment's form that was not accepted, or with why no draft could be made."""
    today = timezone.localdate()
    whole = whole_order(number, with_money=request.user.may("see_money"), drawn=drawn_already())
    page = order_page(whole, today, request.user, form=form, refused=refused)
    shown = {"page": page, "order": page.order, "today": today, "hours": hours_shown(whole.garments)}
    shown["concerns"] = [(concern, flag(concern)) for concern in concerns_shown(whole, today, eyes_of(request.user))]
    return render(request, "orders/repair.html" if page.order.is_repair else "orders/show.html", shown, status=status)


def hours_shown(garments) -> list[tuple]:
    """Each garment with the hours that its kind takes where none are planned for it."""
    bench = Bench.current()
    return [(garment, bench.hours_of(garment.kind)) for garment in garments]


@require_http_methods(["GET", "HEAD", "POST"])
@needs("edit_orders")
def promise(request: HttpRequest, number: str) -> HttpResponse:
    """Change the days, the price and the notes."""
    order = order_of(number, "work")
    sets_price = request.user.may("set_price")
    if "ask" in request.POST:
        form = PromiseForm(order=order, sets_price=sets_price, so_far=request.POST.dict())
        return render(request, "orders/promise.html", {"form": form, "order": order, "answer": asked_of(request, order, request.POST)})
    form = PromiseForm(request.POST or None, order=order, sets_price=sets_price)
    if not form.is_valid():
        shown = {"form": form, "order": order}
        return render(request, "orders/promise.html", shown, status=422 if form.is_bound else 200)
    try:
        order.version = conflict.version_read(request)
        for name, value in form.cleaned_data.items():
            setattr(order, name, value)
        order.keep(*form.cleaned_data, by=request.user)
    except ChangedMeanwhile:
        now = Order.objects.with_client().with_work().select_related("changed_by").get(pk=order.pk)
        return conflict.page(request, form, PromiseForm(order=now, sets_price=sets_price), now, now)
    messages.success(request, "Saved.")
    return redirect(order)
