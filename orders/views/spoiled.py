"""A spoiled piece that is cut again: kept, taken back, its place printed."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.views.decorators.http import require_POST, require_safe

from orders.cloth.spoiled import keep_spoiled, place_paper, undo_spoiled
from orders.models import Garment, SpoiledPiece
from orders.stages import NotNow
from orders.views.sheets import printed
from workshop.access import needs


@require_POST
@needs("tick_work")
def keep(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    garment = get_object_or_404(Garment.objects.select_related("order", "draft", "cut_draft"), pk=pk, order__number=number)
    try:
        spoiled = keep_spoiled(garment=garment, found=request.POST.get("found", ""), by=request.user)
    except NotNow as refused:
        messages.error(request, refused.reason)
        return redirect("orders:lays", number)
    messages.success(request, f"Kept: {spoiled.piece}, to cut again. It stands on the table below, with its cloth.")
    return redirect("orders:cutting-table", number)


@require_POST
@needs("tick_work")
def undo(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    spoiled = get_object_or_404(noted_on(number).filter(undoes=None), pk=pk)
    try:
        undo_spoiled(spoiled=spoiled, by=request.user)
    except NotNow as refused:
        messages.error(request, refused.reason)
    return redirect("orders:cutting-table", number)


@require_safe
@needs("print_sheets")
def place(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    spoiled = get_object_or_404(noted_on(number).filter(lay__isnull=False), pk=pk)
    return printed(request, f"{number} {spoiled.piece} again.pdf", lambda: place_paper(spoiled))


def noted_on(number: str):
    return SpoiledPiece.objects.select_related("garment__order__client", "draft", "by").filter(garment__order__number=number)
