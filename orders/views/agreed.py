"""Enquiries, held dates, photographs, and the look that was agreed."""

from datetime import timedelta

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from clients.models import Client
from orders import photos
from orders.agreed import agreeing
from orders.agreed.forms import EnquiryForm, HoldForm, LookChangeForm, LookForm
from orders.dates.bench import Bench
from orders.models import Look, Order, OrderPhoto
from orders.photos import PhotoForm
from orders.stages import NotNow
from orders.versions import MEANWHILE, ChangedMeanwhile
from orders.views.finding import order_of
from workshop.access import needs
from workshop.answering import answer, form_page
from workshop.templatetags.workshop_tags import day


@form_page
@needs("edit_orders")
def enquiry(request: HttpRequest) -> HttpResponse:
    today, named = timezone.localdate(), request.GET.get("client", "")
    client = get_object_or_404(Client, pk=int(named)) if named.isascii() and named.isdigit() and len(named) < 18 else None
    given = {"client": client, "today": today, "sees_money": request.user.may("see_money")}
    form = EnquiryForm(request.POST, request.FILES, **given) if request.method == "POST" else EnquiryForm(**given)
    if form.is_bound and form.is_valid():
        order = agreeing.write_enquiry(client=form.client_meant(), by=request.user, today=today, **form.values())
        held = f" The date is held until {day(order.held_until)}." if order.held_until else ""
        messages.success(request, f"{order.number} is in the book as an enquiry.{held}")
        return redirect(order)
    return answer(request, "orders/enquiry.html", {"form": form, "client": client})


@form_page
@needs("edit_orders")
def hold(request: HttpRequest, number: str) -> HttpResponse:
    order, today = order_of(number, "garments"), timezone.localdate()
    form = HoldForm(request.POST or None, today=today, initial={"until": today + timedelta(days=Bench.current().hold_days)})
    if form.is_valid():
        try:
            order.hold(by=request.user, until=form.cleaned_data["until"])
            messages.success(request, f"The date is held until {day(order.held_until)}.")
            return redirect(order)
        except (NotNow, ChangedMeanwhile) as refused:
            form.add_error(None, getattr(refused, "reason", MEANWHILE))
    return answer(request, "orders/hold.html", {"form": form, "order": order})


@form_page
@needs("edit_orders")
def agreed(request: HttpRequest, number: str) -> HttpResponse:
    """The look of one garment, with the client's yes; after it, changes and what they cost."""
    order, today = order_of(number, "garments"), timezone.localdate()
    look = look_of(request, order)
    initial = {name: getattr(look, name) for name in LookForm.base_fields}
    form = LookForm(request.POST or None, today=today, initial=initial)
    if form.is_valid():
        given = form.cleaned_data
        try:
            agreeing.agree(look=look, values=form.look(), agreed_on=given["agreed_on"], agreed_how=given["agreed_how"], by=request.user)
            messages.success(request, "The look is kept." if given["agreed_on"] else "The look is kept. It waits for the client's yes.")
            return redirect(order)
        except (NotNow, ChangedMeanwhile) as refused:
            form.add_error(None, getattr(refused, "reason", MEANWHILE))
    return look_page(request, order, look, form=form)


@require_POST
@needs("set_price")
def change_look(request: HttpRequest, number: str) -> HttpResponse:
    order, form = order_of(number, "garments"), LookChangeForm(request.POST)
    look = look_of(request, order)
    if form.is_valid():
        try:
            agreeing.change_look(order=order, garment=look.garment, by=request.user, today=timezone.localdate(), **form.cleaned_data)
            messages.success(request, "The change is written down.")
            return redirect(f"{reverse('orders:agreed', args=[order.number])}?garment={look.garment_id}")
        except (NotNow, ChangedMeanwhile) as refused:
            form.add_error(None, getattr(refused, "reason", MEANWHILE))
    return look_page(request, order, look, change_form=form)


def look_of(request: HttpRequest, order: Order) -> Look:
    """The look of the garment that is named in the address, else of the order's first; Http404 for an order without any."""
    asked = request.GET.get("garment", "")
    garment = next((each for each in order.all_garments if str(each.pk) == asked), None) or next(iter(order.all_garments), None)
    if garment is None:
        raise Http404(f"{order.number} has no garment that is made new.")
    garment.order = order
    return Look.objects.filter(garment=garment).first() or Look(order=order, garment=garment)


def look_page(request: HttpRequest, order: Order, look: Look, *, form=None, change_form=None) -> HttpResponse:
    shown = {
        "order": order,
        "look": look,
        "form": form,
        "change_form": change_form or LookChangeForm(),
        "changes": order.priced_changes.select_related("by"),
    }
    refused = form is not None and form.is_bound or change_form is not None
    return render(request, "orders/agreed.html", shown, status=422 if refused else 200)


@form_page
@needs("edit_orders")
def order_photos(request: HttpRequest, number: str) -> HttpResponse:
    order = order_of(number, "garments")
    form = PhotoForm(request.POST, request.FILES) if request.method == "POST" else PhotoForm()
    if form.is_bound and form.is_valid():
        given = form.cleaned_data
        try:
            photos.keep(order=order, jpeg=given["photo"], shows=given["shows"], caption=given["caption"], by=request.user, on=timezone.localdate())
            messages.success(request, "The photograph is kept.")
            return redirect("orders:photos", order.number)
        except NotNow as refused:
            form.add_error(None, refused.reason)
    kept = order.photos.select_related("by").defer("jpeg", "small")
    return answer(request, "orders/photos.html", {"form": form, "order": order, "photos": kept})


@require_safe
@needs("see_work")
def photo(request: HttpRequest, pk: int, size: str) -> HttpResponse:
    kept = get_object_or_404(OrderPhoto.objects.only(size), pk=pk)
    headers = {"X-Content-Type-Options": "nosniff", "Cache-Control": "private, max-age=86400"}
    return HttpResponse(bytes(getattr(kept, size)), content_type="image/jpeg", headers=headers)


@require_POST
@needs("edit_orders")
def remove_photo(request: HttpRequest, pk: int) -> HttpResponse:
    kept = get_object_or_404(OrderPhoto.objects.select_related("order").defer("jpeg", "small"), pk=pk)
    kept.delete()
    messages.success(request, "The photograph is taken out.")
    return redirect("orders:photos", kept.order.number)


@require_safe
@needs("see_work")
def history(request: HttpRequest, number: str) -> HttpResponse:
    """Who changed what, when; without money for whoever sees none."""
    order = order_of(number, "garments")
    sees_money = request.user.may("see_money")
    changes = [change for change in order.changes.select_related("by")[:500] if sees_money or not change.is_money]
    return render(request, "orders/history.html", {"order": order, "changes": changes})
