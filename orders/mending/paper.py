"""The printed ticket: one part stays with the thing, the other goes with the client; the number stands on both."""

from django.template.loader import render_to_string

from drafting.pdf import PAPERS, press_sized
from orders.models import Order
from workshop.models import Workshop


def ticket(order: Order, *, with_prices: bool) -> bytes:
    """A PDF of one page. Raises CannotPrint."""
    workshop = Workshop.current()
    jobs = list(order.mendings.all())
    shown = {"order": order, "jobs": jobs, "workshop": workshop, "with_prices": with_prices}
    return press_sized(render_to_string("paper/ticket.html", shown), size=PAPERS[workshop.paper], style="ticket.css")
