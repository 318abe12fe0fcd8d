"""Alterations and repairs: the ticket, its jobs, its paper, and the price list."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from clients.models import Client
from orders import conflict
from orders.mending import paper, tickets
from orders.mending.forms import JobForm, LineForm, TakeInForm
from orders.models import Mending, Order, RepairPrice
from orders.stages import NotNow
from orders.versions import ChangedMeanwhile
from orders.views.sheets import printed
from workshop.access import needs
from workshop.answering import answer, form_page


def repair_of(number: str) -> Order:
    return get_object_or_404(Order.objects.with_client().exclude(brought_in=""), number=number)


@form_page
@needs("edit_orders")
def take_in(request: HttpRequest) -> HttpResponse:
    today, named = timezone.localdate(), request.GET.get("client", "")
    client = get_object_or_404(Client, pk=int(named)) if named.isascii() and named.isdigit() and len(named) < 18 else None
    given = {"client": client, "today": today}
    form = TakeInForm(request.POST, request.FILES, **given) if request.method == "POST" else TakeInForm(**given)
    if form.is_bound and form.is_valid():
        order = tickets.take_in(client=form.client_meant(), by=request.user, today=today, **form.values())
        messages.success(request, f"{order.number} is in the book. Write down what is to be done.")
        return redirect("orders:add-job", order.number)
    return answer(request, "orders/take_in.html", {"form": form, "client": client})


@form_page
@needs("edit_orders")
def add_job(request: HttpRequest, number: str) -> HttpResponse:
    order = repair_of(number)
    form = JobForm(request.POST or None, order=order, sets_price=request.user.may("set_price"))
    if form.is_valid():
        try:
            tickets.add_job(order=order, values=form.values(), by=request.user)
            messages.success(request, "The job is on the ticket.")
            return redirect("orders:add-job", number) if "another" in request.POST else redirect(order)
        except NotNow as refused:
            form.add_error(None, refused.reason)
    return answer(request, "orders/job.html", {"form": form, "order": order})


@form_page
@needs("edit_orders")
def edit_job(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    order = repair_of(number)
    job = get_object_or_404(Mending, pk=pk, order=order)
    about = {"order": order, "sets_price": request.user.may("set_price")}
    form = JobForm(request.POST or None, job=job, **about)
    if form.is_valid():
        try:
            job.version = conflict.version_read(request)
            tickets.change_job(job=job, values=form.values(), by=request.user)
            messages.success(request, "Saved.")
            return redirect(order)
        except ChangedMeanwhile:
            now = Mending.objects.select_related("changed_by").get(pk=pk)
            return conflict.page(request, form, JobForm(job=now, **about), now, order)
        except NotNow as refused:
            form.add_error(None, refused.reason)
    return answer(request, "orders/job.html", {"form": form, "order": order, "job": job})


@require_POST
@needs("edit_orders")
def remove_job(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    job = get_object_or_404(Mending.objects.select_related("order"), pk=pk, order__number=number)
    try:
        tickets.take_off_job(job=job, by=request.user)
        messages.success(request, f"{job} is off the ticket.")
    except NotNow as refused:
        messages.error(request, refused.reason)
    return redirect(job.order)


@require_POST
@needs("tick_work")
def tick_job(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    job = get_object_or_404(Mending.objects.select_related("order"), pk=pk, order__number=number)
    try:
        tickets.tick(job=job, done=request.POST.get("done") != "no", by=request.user)
    except NotNow as refused:
        messages.error(request, refused.reason)
    except ChangedMeanwhile:
        messages.error(request, "Somebody else changed this job at the same moment. Look at it, then tick.")
    return redirect(job.order)


@require_safe
@needs("print_sheets")
def ticket(request: HttpRequest, number: str) -> HttpResponse:
    order = repair_of(number)
    return printed(request, f"{order.number} ticket.pdf", lambda: paper.ticket(order, with_prices=request.user.may("see_money")))


@require_safe
@needs("edit_orders")
def price_list(request: HttpRequest) -> HttpResponse:
    """What the workshop asks for each alteration and repair."""
    return list_page(request, LineForm())


@require_POST
@needs("set_price")
def add_line(request: HttpRequest) -> HttpResponse:
    form = LineForm(request.POST)
    if not form.is_valid():
        return list_page(request, form)
    RepairPrice.objects.create(**form.cleaned_data)
    messages.success(request, "It stands on the list.")
    return redirect("orders:repair-prices")


def list_page(request: HttpRequest, form: LineForm) -> HttpResponse:
    return answer(request, "orders/repair_prices.html", {"form": form, "lines": RepairPrice.objects.all()})


@form_page
@needs("set_price")
def change_line(request: HttpRequest, pk: int) -> HttpResponse:
    line = get_object_or_404(RepairPrice, pk=pk)
    form = LineForm(request.POST or None, line=line)
    if form.is_valid():
        RepairPrice.objects.filter(pk=pk).update(**form.cleaned_data, changed_at=timezone.now())
        messages.success(request, "Saved. Tickets that are written keep the price they have.")
        return redirect("orders:repair-prices")
    return answer(request, "orders/repair_price.html", {"form": form, "line": line})


@require_POST
@needs("set_price")
def remove_line(request: HttpRequest, pk: int) -> HttpResponse:
    line = get_object_or_404(RepairPrice, pk=pk)
    line.delete()
    messages.success(request, f"“{line.what}” is off the list. Tickets keep what they have.")
    return redirect("orders:repair-prices")
