"""What the parts above this one know about measuring: who comes today, and which measures their garments need.

This app may not import those that stand above it, so they bring what they know here, once, when they are loaded::

    class OrdersConfig(AppConfig):
        def ready(self):
            from clients import expected
            from orders.measuring import clients_of, wanted_by
            expected.register(clients_of=clients_of, wanted_by=wanted_by)
            expected.keep_at_hand("orders:at-hand", "Work at hand")
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date

from django.urls import reverse

from clients.models import Client


@dataclass(frozen=True, slots=True)
class Wanted:
    """The measures that one garment needs, in the order in which they are best taken."""

    title: str
    keys: tuple[str, ...]
    #: Those of them without which the garment can be drafted all the same.
    optional: tuple[str, ...] = ()


_clients_of: list[Callable[[date], Iterable[int]]] = []
_wanted_by: list[Callable[[Client], Iterable[Wanted]]] = []


def register(*, clients_of: Callable[[date], Iterable[int]], wanted_by: Callable[[Client], Iterable[Wanted]]) -> None:
    """Ask these from now on. Registering twice is as good as once."""
    for known, new in ((_clients_of, clients_of), (_wanted_by, wanted_by)):
        if new not in known:
            known.append(new)


_pages: dict[str, str] = {}


def keep_at_hand(name: str, title: str) -> None:
    """Have the phones keep the page of that name, to be read without a network."""
    _pages[name] = title


def pages_to_read() -> list[dict[str, str]]:
    return [{"title": title, "url": reverse(name)} for name, title in _pages.items()]


def clients_on(day: date) -> list[int]:
    """Who is expected that day, by primary key, the first to come first."""
    return list(dict.fromkeys(pk for ask in _clients_of for pk in ask(day)))


def wanted_by(client: Client) -> list[Wanted]:
    """What the client's garments in hand need, the next to be made first."""
    return [wanted for ask in _wanted_by for wanted in ask(client)]
