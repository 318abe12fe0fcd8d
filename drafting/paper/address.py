"""The address of an order's page, for a code on its papers: from the name by which the workshop's pages were opened."""

from __future__ import annotations

from urllib.parse import urlsplit

from django.http import HttpRequest
from django.urls import NoReverseMatch, reverse

from drafting.models import KeptDraft

LOOPBACK = ("localhost", "127.0.0.1", "[::1]", "testserver")
"""A code with one of these names would open nothing on a phone."""


def site_of(request: HttpRequest) -> str:
    """Return “https://workshop.example” as the request knows it; nothing where only this machine could open it.

    What is printed in the background knows no request, so it is given this when it is asked for.
    """
    if urlsplit(f"//{request.get_host()}").hostname in (host.strip("[]") for host in LOOPBACK):
        return ""
    return request.build_absolute_uri("/").removesuffix("/")


def order_address(site: str, draft: KeptDraft) -> str:
    """Return the address of the page of the draft's order; nothing where no site is known."""
    return f"{site}{order_path(draft) or draft.get_absolute_url()}" if site else ""


def order_path(draft: KeptDraft) -> str:
    """Return where the page of the draft's order lies in this workshop; nothing where its name can be no order's."""
    try:
        return reverse("orders:show", args=[draft.order_ref])
    except NoReverseMatch:
        return ""
