"""Old over new: two drafts of a garment."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_safe

from orders.booking import newest_measuring
from orders.garment.comparison_page import comparison_page
from orders.garment.making_draft import NotDrafted
from orders.models import Garment
from workshop.access import needs


@require_safe
@needs("see_work")
def compare_drafts(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    people = ("order__client", "measuring", "draft", "cut_draft")
    garment = get_object_or_404(Garment.objects.select_related(*people), pk=pk, order__number=number)
    if garment.sheet_draft is None:
        messages.error(request, f"{number} has no draft yet. There is nothing to compare.")
        return redirect(garment.order)
    newest = newest_measuring(garment.order.client)
    try:
        page = comparison_page(garment, newest, old=request.GET.get("old", ""), new=request.GET.get("new", ""))
    except NotDrafted as refused:
        return render(request, "orders/comparison.html", {"order": garment.order, "refused": refused.texts}, status=422)
    return render(request, "orders/comparison.html", {"order": garment.order, "page": page})
