"""Links to the calendar for phones: made, revoked, and what is read under them."""

import hashlib

from django import forms
from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.cache import get_conditional_response
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from orders.dates.feed import feed_of
from orders.models import CalendarLink
from workshop.access import needs, open_to_all
from workshop.forms import PlainForm


class LinkForm(PlainForm):
    name = forms.CharField(label="For which phone or program", max_length=40)
    only_own = forms.BooleanField(label="Only the fittings that are mine or nobody’s yet", required=False)


@require_http_methods(["GET", "HEAD", "POST"])
@needs("see_work")
@never_cache
def links(request: HttpRequest) -> HttpResponse:
    """One's own links; the owner sees everybody's. A new one's address is shown on the answer, and never again."""
    form, address = LinkForm(request.POST or None), ""
    if form.is_valid():
        _, secret = CalendarLink.make(person=request.user, **form.cleaned_data)
        address, form = request.build_absolute_uri(reverse("orders:feed", args=[secret])), LinkForm()
    shown = {"form": form, "address": address, "links": theirs(request.user)}
    return render(request, "orders/calendar_links.html", shown, status=422 if form.is_bound else 200)


@require_POST
@needs("see_work")
def revoke(request: HttpRequest, pk: int) -> HttpResponse:
    link = get_object_or_404(CalendarLink, pk=pk)
    if link.person_id != request.user.pk and not request.user.may("run_workshop"):
        raise PermissionDenied("somebody else's link")
    link.delete()
    messages.success(request, f"{link.name}: the link is revoked. Whoever reads it gets nothing more.")
    return redirect("orders:calendar-links")


def theirs(person):
    links = CalendarLink.objects.select_related("person")
    return links if person.may("run_workshop") else links.filter(person=person)


@require_safe
@open_to_all
def feed(request: HttpRequest, secret: str) -> HttpResponse:
    """What a phone reads. A link that was revoked, and one that never was, are the same: not found."""
    link = CalendarLink.behind(secret)
    if link is None:
        raise Http404("There is no such calendar.")
    today = timezone.localdate()
    link.note_read(today)
    body = feed_of(link, today)
    mark = f'"{hashlib.sha256(body).hexdigest()[:32]}"'
    answer = HttpResponse(body, content_type="text/calendar; charset=utf-8")
    for name, value in (("ETag", mark), ("Cache-Control", "private, no-cache"), ("X-Robots-Tag", "noindex")):
        answer.headers[name] = value
    return get_conditional_response(request, etag=mark, response=answer)
