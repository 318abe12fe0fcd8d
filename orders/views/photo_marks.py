"""Marks on a photograph of an order: a ring round the damage that was there when it came in."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from clients.mark_views import marking
from orders.models import OrderPhoto
from workshop.access import needs


@needs("edit_orders")
@require_http_methods(["GET", "POST"])
def mark(request: HttpRequest, pk: int) -> HttpResponse:
    """The photograph with what is drawn on it. A POST adds marks, or takes out the last one."""
    photo = get_object_or_404(OrderPhoto.objects.select_related("order__client"), pk=pk)
    order = photo.order
    about = {
        "said": f"{photo}, {photo.get_shows_display()}" if photo.caption else photo.get_shows_display().capitalize(),
        "back": reverse("orders:photos", args=[order.number]), "back_words": f"{order.number} {order.client.name}",
        "image": reverse("orders:photo", args=[pk, "jpeg"]), "of": order.client.name,
    }  # fmt: skip
    return marking(request, photo, reverse("orders:photo-marks", args=[pk]), about)
