"""What other parts of the workshop show on a client's page.

This app may not import those that stand above it, so they bring their panels here, once, when they
are loaded::

    class OrdersConfig(AppConfig):
        def ready(self):
            from clients import panels
            from orders.of_client import of_client  # (client, user) -> ("orders/_of_client.html", {"orders": …})
            panels.register(of_client)

A panel answers the template and the context to draw, or None when it has nothing to show. It counts
its own queries: the page with all its panels stays within eight, however much it shows.
"""

from __future__ import annotations

from collections.abc import Callable

from django.http import HttpRequest
from django.template.loader import render_to_string

from clients.models import Client

Panel = Callable[[Client, object], tuple[str, dict] | None]

_panels: list[Panel] = []


def register(panel: Panel) -> Panel:
    """Show this panel on every client's page, after those registered before. Once is enough."""
    if panel not in _panels:
        _panels.append(panel)
    return panel


def drawn_for(client: Client, request: HttpRequest) -> list[str]:
    """The panels of one client as this person may see them, ready to stand in the page."""
    found = (panel(client, request.user) for panel in _panels)
    return [render_to_string(name, {"client": client, **context}, request) for name, context in filter(None, found)]
