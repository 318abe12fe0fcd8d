"""Job sheets to print."""

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from drafting.paper.address import site_of
from orders.paper.pack import to_cut
from orders.paper.printing import CannotPrint, NothingDrafted, day_pack, order_sheets
from orders.views.finding import order_of
from orders.views.today import day_written
from workshop.access import needs


@require_safe
@needs("print_sheets")
def sheet(request: HttpRequest, number: str) -> HttpResponse:
    order = order_of(number, "work")
    return printed(request, f"{order.number} job sheet.pdf", lambda: order_sheets(order, site=site_of(request)))


@require_safe
@needs("print_sheets")
def day(request: HttpRequest, written: str) -> HttpResponse:
    """The pack of all orders to be cut on that day; for today, with those past it. ?with=patterns adds them at full size."""
    asked = day_written(written)
    orders = to_cut(asked)
    full_size, site = request.GET.get("with") == "patterns", site_of(request)
    return printed(request, f"job sheets {asked.isoformat()}.pdf", lambda: day_pack(orders, asked, full_size=full_size, site=site))


def printed(request: HttpRequest, name: str, press: Callable[[], bytes]) -> HttpResponse:
    try:
        paper = press()
    except (NothingDrafted, CannotPrint) as refused:
        status = 409 if isinstance(refused, NothingDrafted) else 503
        return render(request, "orders/not_printed.html", {"why": str(refused)}, status=status)
    answer = HttpResponse(paper, content_type="application/pdf")
    answer.headers["Content-Disposition"] = f'inline; filename="{name}"'
    return answer
