"""Addresses and pages of orders, as tests ask for them."""

from html import unescape

from django.urls import reverse


def url(name: str, *args) -> str:
    return reverse(f"orders:{name}", args=args)


def text(answer) -> str:
    return unescape(answer.content.decode())
