"""A message to a client, and the workshop's own texts."""

from django import forms
from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST

from orders import texts
from orders.models import MessageText
from orders.views.finding import order_of
from workshop.access import needs
from workshop.answering import form_page
from workshop.forms import PlainForm
from workshop.models import Workshop

LONGEST = 1000


class TextForm(PlainForm):
    title = forms.CharField(label="Title", max_length=60)
    text = forms.CharField(label="Text", max_length=LONGEST, widget=forms.Textarea(attrs={"rows": 4}))

    def clean_text(self):
        text = self.cleaned_data["text"]
        if unknown := texts.unknown_in(text):
            raise ValidationError(f"There is nothing for {{{unknown[0]}}}. The places are listed below.", code="place")
        return text

    def clean_title(self):
        title = self.cleaned_data["title"]
        if MessageText.objects.filter(title=title).exists():
            raise ValidationError(f"“{title}” is there already. Give it another title.", code="taken")
        return title


@form_page
@needs("see_phone")
def message(request: HttpRequest, number: str) -> HttpResponse:
    """A text, filled in; what was typed is sent along so that the links hold it as it reads now."""
    order = order_of(number, "work")
    known, asked = texts.all_texts(), request.GET.get("text") or texts.likely(order)
    chosen = next((each for each in known if each.key == asked), known[0])
    written = request.POST.get("written", "")[:LONGEST] or texts.filled(chosen.text, texts.values_of(order, timezone.localdate()))
    shown = {
        "order": order,
        "texts": known,
        "chosen": chosen,
        "written": written,
        "sms": texts.sms_link(order.client.phone, written),
        "mail": texts.mail_link(f"{Workshop.current().name}, {order.number}", written),
    }
    return render(request, "orders/message.html", shown)


@form_page
@needs("edit_orders")
def own_texts(request: HttpRequest) -> HttpResponse:
    form = TextForm(request.POST or None)
    if form.is_valid():
        MessageText.objects.create(**form.cleaned_data)
        messages.success(request, "The text is kept.")
        return redirect("orders:texts")
    shown = {"form": form, "own": MessageText.objects.all(), "ready": texts.READY, "places": texts.PLACES.items()}
    return render(request, "orders/texts.html", shown, status=422 if form.is_bound else 200)


@require_POST
@needs("edit_orders")
def remove_text(request: HttpRequest, pk: int) -> HttpResponse:
    get_object_or_404(MessageText, pk=pk).delete()
    messages.success(request, "The text is taken out.")
    return redirect("orders:texts")
