"""The cloth shelf."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from orders.cloth import shelf
from orders.cloth.cloths import LOOK_AGAIN
from orders.cloth.laying import answer_now
from orders.cloth.shelf_forms import AddForm, CheckForm, LeftForm, PutForm, ReceiveForm, WhoseForm
from orders.models import Cloth, ShelfCloth
from orders.models.shelf import CLIENTS, OURS
from orders.stages import NotNow
from orders.versions import MEANWHILE, ChangedMeanwhile
from workshop.access import needs
from workshop.answering import form_page


@require_safe
@needs("see_work")
def show(request: HttpRequest) -> HttpResponse:
    words = request.GET.get("q", "").strip()[:80]
    return render(request, "orders/shelf.html", {"shelf": shelf.shelf_shown(words), "words": words})


@form_page
@needs("edit_orders")
def add(request: HttpRequest) -> HttpResponse:
    """Cloth for no order yet, of our own or a client's."""
    form = AddForm(request.POST or None)
    if form.is_valid():
        given, client, today = form.cleaned_data, form.owner(), timezone.localdate()
        of_it = {"name": given["cloth"], "dye_lot": given["dye_lot"], "place": given["place"], "client": client, "whose": CLIENTS if client else OURS}
        sizes = shelf.sizes(given["length"], given["width"])
        on_shelf = shelf.put_down(**of_it, **sizes, received_on=today, by=request.user, what=f"received, {given['length'].written}")
        messages.success(request, f"{on_shelf.name} lies on the shelf.")
        return redirect("orders:shelf-card", on_shelf.pk)
    return answer(request, form, heading="Cloth for the shelf", back="shelf", button="Put it on the shelf")


@form_page
@needs("edit_orders")
def receive(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """An order's cloth comes in; its check follows."""
    cloth = get_object_or_404(Cloth.objects.select_related("order__client", "order__party"), pk=pk, order__number=number)
    form = ReceiveForm(request.POST or None, cloth=cloth)
    if form.is_valid():
        try:
            on_shelf = shelf.receive(cloth=cloth, by=request.user, today=timezone.localdate(), **form.cleaned_data)
            answer_now(cloth.order, [Cloth.objects.get(pk=pk)])
            messages.success(request, f"{cloth.name} lies on the shelf for {number}. Check it before it is cut.")
            return redirect("orders:check-cloth", on_shelf.pk)
        except (NotNow, ChangedMeanwhile) as refused:
            form.add_error(None, getattr(refused, "reason", MEANWHILE))
    lying = shelf.lying_for(cloth.order.client)
    return answer(request, form, heading=f"{cloth.name} comes in", order=cloth.order, lying=lying, button="It is in")


def on_shelf_of(pk: int) -> ShelfCloth:
    return get_object_or_404(shelf.on_shelves(), pk=pk)


@require_safe
@needs("see_work")
def card(request: HttpRequest, pk: int) -> HttpResponse:
    return page(request, on_shelf_of(pk))


def page(request: HttpRequest, on_shelf: ShelfCloth, *, left_form=None, put_form=None) -> HttpResponse:
    """One length: what was found, what was done with it, and what can be done now."""
    edits = request.user.may("edit_orders") and on_shelf.is_here
    shown = {
        "on_shelf": on_shelf,
        "acts": on_shelf.acts.select_related("by"),
        "left_form": left_form or (LeftForm(initial={"place": on_shelf.place}) if edits else None),
        "put_form": put_form or (PutForm(wanted=shelf.cloths_to_put_to(on_shelf)) if edits and on_shelf.is_free else None),
    }
    refused = left_form or put_form
    return render(request, "orders/shelf_card.html", shown, status=422 if refused else 200)


@form_page
@needs("edit_orders")
def check(request: HttpRequest, pk: int) -> HttpResponse:
    on_shelf = on_shelf_of(pk)
    form = CheckForm(request.POST or None, on_shelf=on_shelf)
    if form.is_valid():
        try:
            look_again = shelf.check(on_shelf=on_shelf, values=form.values(), by=request.user, today=timezone.localdate())
        except (NotNow, ChangedMeanwhile) as refused:
            form.add_error(None, getattr(refused, "reason", MEANWHILE))
        else:
            lay_again(on_shelf)
            messages.success(request, f"The check is kept. {LOOK_AGAIN}" if look_again else "The check is kept.")
            return redirect("orders:shelf-card", pk)
    return answer(request, form, heading=f"Check {on_shelf.name}", on_shelf=on_shelf, button="Keep the check")


@require_POST
@needs("edit_orders")
def left(request: HttpRequest, pk: int) -> HttpResponse:
    on_shelf, form = on_shelf_of(pk), LeftForm(request.POST)
    if form.is_valid():
        try:
            shelf.note_left(on_shelf=on_shelf, by=request.user, **form.cleaned_data)
            messages.success(request, f"{on_shelf.name}: kept.")
            return redirect("orders:shelf-card", pk)
        except (NotNow, ChangedMeanwhile) as refused:
            form.add_error(None, getattr(refused, "reason", MEANWHILE))
    return page(request, on_shelf, left_form=form)


@require_POST
@needs("edit_orders")
def put(request: HttpRequest, pk: int) -> HttpResponse:
    on_shelf = on_shelf_of(pk)
    form = PutForm(request.POST, wanted=shelf.cloths_to_put_to(on_shelf))
    if form.is_valid():
        try:
            look_again = shelf.put_to(on_shelf=on_shelf, cloth=form.wanted[form.cleaned_data["cloth"]], by=request.user)
        except (NotNow, ChangedMeanwhile) as refused:
            form.add_error(None, getattr(refused, "reason", MEANWHILE))
        else:
            lay_again(on_shelf)
            messages.success(request, f"It is for {on_shelf.order.number} now. {LOOK_AGAIN if look_again else ''}".strip())
            return redirect("orders:shelf-card", pk)
    return page(request, on_shelf, put_form=form)


@form_page
@needs("edit_orders")
def whose(request: HttpRequest, pk: int) -> HttpResponse:
    """Whose it is, put right."""
    on_shelf = on_shelf_of(pk)
    form = WhoseForm(request.POST or None, initial={"name": on_shelf.client.name if on_shelf.client else ""})
    if form.is_valid():
        try:
            look_again = shelf.put_right(on_shelf=on_shelf, client=form.owner(), by=request.user)
        except (NotNow, ChangedMeanwhile) as refused:
            form.add_error(None, getattr(refused, "reason", MEANWHILE))
        else:
            messages.success(request, f"Whose it is, is put right. {LOOK_AGAIN if look_again else ''}".strip())
            return redirect("orders:shelf-card", pk)
    return answer(request, form, heading=f"Whose is {on_shelf.name}", on_shelf=on_shelf, button="Put it right")


@require_POST
@needs("edit_orders")
def settle(request: HttpRequest, pk: int, which: str) -> HttpResponse:
    """Where the order and the shelf differ: one of them follows."""
    if which not in ("order", "shelf"):
        raise Http404(f"“{which}” says nothing of cloth.")
    on_shelf, look_again = on_shelf_of(pk), False
    try:
        if which == "order":
            shelf.follow_order(on_shelf=on_shelf, by=request.user)
        else:
            look_again = shelf.tell_order(on_shelf, request.user)
            lay_again(on_shelf)
        messages.success(request, f"The order and the shelf say the same now. {LOOK_AGAIN if look_again else ''}".strip())
    except (NotNow, ChangedMeanwhile) as refused:
        messages.error(request, getattr(refused, "reason", MEANWHILE))
    return redirect("orders:shelf-card", pk)


@require_POST
@needs("edit_orders")
def end(request: HttpRequest, pk: int, how: str) -> HttpResponse:
    if how not in (ShelfCloth.State.BACK, ShelfCloth.State.GONE):
        raise Http404(f"“{how}” is no way for cloth to go.")
    on_shelf = on_shelf_of(pk)
    try:
        shelf.end(on_shelf=on_shelf, how=how, by=request.user)
        messages.success(request, f"{on_shelf.name}: {on_shelf.get_state_display()}.")
    except (NotNow, ChangedMeanwhile) as refused:
        messages.error(request, getattr(refused, "reason", MEANWHILE))
    return redirect("orders:shelf-card", pk)


def lay_again(on_shelf: ShelfCloth) -> None:
    """The order's cloth is another one now: what it needs is found anew."""
    if on_shelf.cloth_id and on_shelf.cloth.order.is_before_cutting:
        answer_now(on_shelf.cloth.order, [Cloth.objects.get(pk=on_shelf.cloth_id)])


def answer(request: HttpRequest, form, **shown) -> HttpResponse:
    return render(request, "orders/shelf_form.html", {"form": form} | shown, status=422 if form.is_bound else 200)
