"""Needle and press test of a cloth, on a scrap, before the first stitch."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from orders import conflict
from orders.cloth.test_form import FIELDS, ClothTestForm
from orders.cloth.testing import write_down
from orders.models import Cloth
from orders.versions import ChangedMeanwhile
from orders.views.finding import order_of
from workshop.access import needs
from workshop.answering import answer


@require_http_methods(["GET", "HEAD", "POST"])
@needs("tick_work")
def test(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    order = order_of(number, "work", "cloths")
    cloth = get_object_or_404(Cloth.objects.select_related("test__by"), pk=pk, order=order)
    form = ClothTestForm(request.POST or None, cloth=cloth)
    kept = getattr(cloth, "test", None)
    if form.is_valid():
        try:
            if kept:
                kept.version = conflict.version_read(request)
            write_down(cloth=cloth, values={name: form.cleaned_data[name] for name in FIELDS}, by=request.user, today=timezone.localdate())
            messages.success(request, f"The test of {cloth.name} is kept. It is printed on the job sheet.")
            return redirect(order)
        except ChangedMeanwhile:
            now = Cloth.objects.select_related("test__changed_by").get(pk=pk)
            return conflict.page(request, form, ClothTestForm(cloth=now), now.test, order)
    return answer(request, "orders/cloth_test.html", {"form": form, "order": order, "cloth": cloth, "kept": kept})
