"""Parties: one occasion, many clients."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_safe

from orders import conflict
from orders.models import Party
from orders.party import parties
from orders.party.forms import JoinForm, PartyForm
from orders.versions import ChangedMeanwhile
from workshop.access import needs
from workshop.answering import answer, form_page

SHOWN = 50


@require_safe
@needs("see_work")
def party_list(request: HttpRequest) -> HttpResponse:
    return render(request, "orders/parties.html", {"parties": Party.objects.all()[:SHOWN]})


@require_safe
@needs("see_work")
def show(request: HttpRequest, pk: int) -> HttpResponse:
    """The group's sheet: who is unmeasured, unpaid, uncut."""
    party = get_object_or_404(Party.objects.select_related("payer"), pk=pk)
    sheet = parties.sheet_of(party, with_money=request.user.may("see_money"))
    return render(request, "orders/party.html", {"party": party, "sheet": sheet})


@form_page
@needs("edit_orders")
def add(request: HttpRequest) -> HttpResponse:
    form = PartyForm(request.POST or None)
    if form.is_valid():
        return redirect(Party.objects.create(**form.values(), changed_by=request.user))
    return answer(request, "orders/party_form.html", {"form": form})


@form_page
@needs("edit_orders")
def change(request: HttpRequest, pk: int) -> HttpResponse:
    party = get_object_or_404(Party, pk=pk)
    form = PartyForm(request.POST or None, party=party)
    if not form.is_valid():
        return answer(request, "orders/party_form.html", {"form": form, "party": party})
    try:
        party.version = conflict.version_read(request)
        followed = parties.change(party=party, values=form.values(), by=request.user)
    except ChangedMeanwhile:
        now = Party.objects.select_related("changed_by").get(pk=pk)
        return conflict.page(request, form, PartyForm(party=now), now, now)
    told = f" {', '.join(order.number for order in followed)} follow." if followed else ""
    messages.success(request, f"Saved.{told}")
    return redirect(party)


@form_page
@needs("edit_orders")
def join(request: HttpRequest, pk: int) -> HttpResponse:
    party, today = get_object_or_404(Party.objects.select_related("payer"), pk=pk), timezone.localdate()
    form = JoinForm(request.POST or None, sets_price=request.user.may("set_price"))
    if form.is_valid():
        order = parties.join(party=party, client=form.client_meant(), by=request.user, today=today, **form.values())
        messages.success(request, f"{order.client.name} is with them: {order.number}.")
        return redirect(party)
    return answer(request, "orders/party_join.html", {"form": form, "party": party})
