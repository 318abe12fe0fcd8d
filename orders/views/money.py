"""Money taken, given back and put right."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils import timezone

from clients.models import Client
from orders.models import Order, Payment
from orders.money import payments, several
from orders.money.forms import PaymentForm, RefundForm, ReverseForm, StrikeSumForm, SumForm, left_to_type
from orders.money.receipts import payer_of
from orders.stages import NotNow
from orders.views.finding import order_of
from workshop.access import needs
from workshop.answering import answer, form_page


def likely(order: Order) -> dict:
    """What is most likely being paid: the rest of the deposit, else the balance."""
    if order.deposit_missing:
        return {"kind": Payment.Kind.DEPOSIT, "amount": left_to_type(order.deposit_missing)}
    return {"kind": Payment.Kind.BALANCE, "amount": left_to_type(order.balance)}


@form_page
@needs("take_payment")
def take(request: HttpRequest, number: str) -> HttpResponse:
    order, today = order_of(number, "work"), timezone.localdate()
    form = PaymentForm(request.POST or None, today=today, initial=likely(order))
    if form.is_valid():
        try:
            payments.take(order=order, by=request.user, **form.cleaned_data)
            messages.success(request, "The payment is in the book.")
            return redirect(order)
        except NotNow as refused:
            form.add_error("amount", refused.reason)
    payer = payer_of(order)
    shown = {"form": form, "order": order, "payer": payer, "others": several.unpaid_by(payer).exclude(pk=order.pk).count()}
    return answer(request, "orders/payment.html", shown)


@form_page
@needs("take_payment")
def take_for_several(request: HttpRequest, pk: int) -> HttpResponse:
    """One sum from whoever pays for several orders."""
    payer, today = get_object_or_404(Client, pk=pk), timezone.localdate()
    orders = several.unpaid_by(payer)
    form = SumForm(request.POST or None, today=today, orders=orders, party=request.GET.get("party", ""))
    if form.is_valid():
        try:
            first = several.take(payer=payer, by=request.user, **form.cleaned_data)
            messages.success(request, "The payment is in the book.")
            return redirect("orders:receipt", first.order.number, first.pk)
        except NotNow as refused:
            form.add_error("amount", refused.reason)
    return answer(request, "orders/payment_for_several.html", {"form": form, "payer": payer, "orders": form.orders})


@form_page
@needs("refund")
def give_back(request: HttpRequest, number: str) -> HttpResponse:
    order, today = order_of(number, "work"), timezone.localdate()
    form = RefundForm(request.POST or None, today=today)
    if form.is_valid():
        try:
            payments.give_back(order=order, by=request.user, **form.cleaned_data)
            messages.success(request, "What was given back is in the book.")
            return redirect(order)
        except NotNow as refused:
            form.add_error("amount", refused.reason)
    return answer(request, "orders/refund.html", {"form": form, "order": order, "payer": payer_of(order)})


@form_page
@needs("take_payment")
def reverse(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    order = order_of(number, "work")
    payment = get_object_or_404(Payment.objects.select_related("order", "taken_by"), pk=pk, order=order)
    parts = payment.in_one_sum()
    form = (StrikeSumForm if len(parts) > 1 else ReverseForm)(request.POST or None)
    if form.is_valid():
        try:
            strike = several.strike if form.cleaned_data.get("which") == "all" else payments.reverse
            strike(payment=payment, by=request.user, taken_on=timezone.localdate(), why=form.cleaned_data["why"])
            messages.success(request, "The entry is struck. Both stay in the book.")
            return redirect(order)
        except NotNow as refused:
            form.add_error(None, refused.reason)
    return answer(request, "orders/reverse.html", {"form": form, "order": order, "payment": payment, "parts": parts})
