"""Receipts and quotes as PDF to print, and as a picture to send."""

from collections.abc import Callable

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from drafting.pdf import CannotPrint
from orders.money.papers import picture_of, receipt_paper
from orders.money.receipts import receipt_of, receipted
from workshop.access import needs

KINDS = {"pdf": "application/pdf", "png": "image/png"}


def paper_answer(request: HttpRequest, name: str, kind: str, press: Callable[[], bytes]) -> HttpResponse:
    """The paper by its number; where this machine can't print, the page that says what is missing."""
    if kind not in KINDS:
        raise Http404(f"There is no “{kind}” of this paper.")
    try:
        paper = press()
    except CannotPrint as missing:
        return render(request, "orders/not_printed.html", {"why": str(missing)}, status=503)
    made = paper if kind == "pdf" else picture_of(paper)
    return HttpResponse(made, content_type=KINDS[kind], headers={"Content-Disposition": f'inline; filename="{name}.{kind}"'})


@require_safe
@needs("take_payment")
def receipt_file(request: HttpRequest, number: str, pk: int, kind: str) -> HttpResponse:
    payment = receipted(number, pk)
    receipt = receipt_of(payment)
    return paper_answer(request, receipt.number, kind, lambda: receipt_paper(receipt, payment))
