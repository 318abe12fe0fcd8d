"""What an order should cost, its quotes, and the workshop's own prices and terms."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from orders.models import Order, Quote
from orders.money import quoting, rules
from orders.money.costing import Line, unit_word
from orders.money.papers import quote_paper
from orders.money.price_forms import LINE, OwnLineForm, QuoteForm, RulesForm, TakeBackForm, read_amounts
from orders.stages import NotNow
from orders.versions import MEANWHILE, ChangedMeanwhile
from orders.views.money_papers import paper_answer
from workshop.access import needs
from workshop.answering import form_page
from workshop.asked_often import RowsAskedOften
from workshop.models import Workshop
from workshop.money import as_typed


_order = RowsAskedOften(lambda number: quoting.priced_orders().with_client().filter(number=number))
_quotes = RowsAskedOften(lambda order: Quote.objects.filter(order=order).select_related("made_by").order_by("-serial"))


def order_of(number: str) -> Order:
    for order in _order(number):
        return order
    raise Http404(f"There is no order {number}.")


@require_safe
@needs("see_money")
def price(request: HttpRequest, number: str) -> HttpResponse:
    """The quotes; and for whoever sets prices, what the order costs, line by line."""
    return page(request, order_of(number))


def page(request: HttpRequest, order: Order, *, quote_form=None, own_form=None, refused=(), typed=None) -> HttpResponse:
    """`typed` is what was written on the lines, where it could not be kept."""
    today, sets = timezone.localdate(), request.user.may("set_price")
    costing = quoting.costing_of(order) if sets else None
    shown = {
        "order": order,
        "today": today,
        "quotes": [(quote, quote.is_open(today)) for quote in _quotes(order.pk)],
        "costing": costing,
        "beside_agreed": quoting.beside_agreed(order, costing.price) if costing else "",
        "parts": [(part, [(line, value_of(line, typed)) for line in part.lines]) for part in costing.parts if part.lines] if costing else [],
        "quote_form": quote_form or QuoteForm(today=today, initial={"last_day": quoting.usual_last_day(today)}),
        "own_form": own_form or OwnLineForm(),
        "take_back_form": TakeBackForm(),
        "refused": refused,
    }
    failed = quote_form or own_form or refused
    return render(request, "orders/price.html", shown, status=422 if failed else 200)


@require_POST
@needs("set_price")
def set_lines(request: HttpRequest, number: str) -> HttpResponse:
    """All lines by hand at once; those left empty are worked out."""
    order = order_of(number)
    typed = {key.removeprefix(LINE): text for key, text in request.POST.items() if key.startswith(LINE)}
    amounts, refused = read_amounts(typed)
    if not refused:
        try:
            quoting.set_lines(order=order, amounts=amounts, by=request.user)
            return redirect("orders:price", number)
        except (NotNow, ChangedMeanwhile) as not_now:
            refused = [getattr(not_now, "reason", MEANWHILE)]
    return page(request, order, refused=refused, typed=typed)


def value_of(line: Line, typed: dict | None) -> str:
    """What stands in a line's box: what was typed, else what was set by hand."""
    if typed is not None and line.key in typed:
        return typed[line.key]
    return as_typed(line.by_hand.set_to) if line.by_hand else ""


@require_POST
@needs("set_price")
def add_line(request: HttpRequest, number: str) -> HttpResponse:
    order, form = order_of(number), OwnLineForm(request.POST)
    if form.is_valid():
        try:
            quoting.add_own(order=order, by=request.user, **form.cleaned_data)
            return redirect("orders:price", number)
        except NotNow as refused:
            form.add_error(None, refused.reason)
    return page(request, order, own_form=form)


@require_POST
@needs("set_price")
def make_quote(request: HttpRequest, number: str) -> HttpResponse:
    order, today = order_of(number), timezone.localdate()
    form = QuoteForm(request.POST, today=today)
    if form.is_valid():
        try:
            quote = quoting.make_quote(order=order, by=request.user, today=today, **form.cleaned_data)
            messages.success(request, f"{quote.number} is made.")
            return redirect("orders:price", number)
        except (NotNow, ChangedMeanwhile) as refused:
            form.add_error(None, getattr(refused, "reason", MEANWHILE))
    return page(request, order, quote_form=form)


@require_POST
@needs("set_price")
def agree_quote(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    quote = quote_of(number, pk)
    try:
        quoting.agree(quote=quote, by=request.user, today=timezone.localdate())
        messages.success(request, f"{quote.number} is agreed: its price stands on the order.")
    except (NotNow, ChangedMeanwhile) as refused:
        messages.error(request, getattr(refused, "reason", MEANWHILE))
    return redirect("orders:price", number)


@require_POST
@needs("set_price")
def take_back_quote(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    quote, form = quote_of(number, pk), TakeBackForm(request.POST)
    try:
        if not form.is_valid():
            raise NotNow("Say in a few words why it is taken back.")
        quoting.take_back(quote=quote, by=request.user, today=timezone.localdate(), why=form.cleaned_data["why"])
        messages.success(request, f"{quote.number} is taken back. It keeps its number.")
    except (NotNow, ChangedMeanwhile) as refused:
        messages.error(request, getattr(refused, "reason", MEANWHILE))
    return redirect("orders:price", number)


@require_safe
@needs("see_money")
def quote_file(request: HttpRequest, number: str, pk: int, kind: str) -> HttpResponse:
    """The quote to print or to send."""
    quote = quote_of(number, pk)
    return paper_answer(request, quote.number, kind, lambda: quote_paper(quote))


def quote_of(number: str, pk: int) -> Quote:
    return get_object_or_404(Quote.objects.select_related("order__client", "made_by"), pk=pk, order__number=number)


@form_page
@needs("run_workshop")
def prices_and_terms(request: HttpRequest) -> HttpResponse:
    workshop = Workshop.current()
    form = RulesForm(request.POST or None, rules=rules.PriceRules.current(), currency=workshop.currency, by_what=unit_word(workshop.unit))
    if form.is_valid():
        rules.change(**form.values())
        messages.success(request, "Prices and terms are kept. New prices and papers follow them.")
        return redirect("money:rules")
    return render(request, "orders/prices_and_terms.html", {"form": form}, status=422 if form.is_bound else 200)
