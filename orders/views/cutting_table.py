"""The cutting table: pieces ticked on a phone."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_POST, require_safe

from orders.models import Garment
from orders.stages import NotNow
from orders.views.finding import order_of
from orders.work import asking_first, cutting_table
from workshop.access import needs


@require_safe
@needs("see_work")
def table(request: HttpRequest, number: str) -> HttpResponse:
    order = order_of(number, "garments", "cloths")
    shown = {"order": order, "tables": cutting_table.table_shown(order), "against": cutting_table.speaks_against(order)}
    return render(request, "orders/cutting_table.html", shown)


@require_POST
@needs("tick_work")
def tick_piece(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    garment = get_object_or_404(Garment.objects.select_related("order__client", "draft", "cut_draft"), pk=pk, order__number=number)
    key = request.POST.get("piece", "")[:80]
    try:
        if request.POST.get("done") == "no":
            cutting_table.untick(garment=garment, key=key)
            return redirect("orders:cutting-table", number)
        cutting_table.refuse_unless_on_table(garment, key)
        question = asking_first.before_piece(garment, request.user, key)
        if question and request.POST.get("all_the_same") != "yes":
            carried = [("piece", key), ("done", "yes")]
            return render(request, "orders/ask_first.html", {"order": garment.order, "question": question, "carried": carried})
        cutting_table.tick(garment=garment, key=key, by=request.user)
        asking_first.note_asked(garment.order, question.cloths, by=request.user, whom=request.POST.get("asked", ""))
    except NotNow as refused:
        messages.error(request, refused.reason)
    return redirect("orders:cutting-table", number)
