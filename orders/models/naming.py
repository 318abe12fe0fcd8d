"""What an order is called, and where it is found."""

from collections.abc import Collection
from datetime import date
from functools import lru_cache

from django.urls import get_script_prefix, reverse


@lru_cache(maxsize=4)
def address_of_orders(prefix: str) -> str:
    """Looked up once for each place that the site is served from: a page of orders asks a hundred times."""
    return reverse("orders:list")


@lru_cache(maxsize=4)
def address_of_clients(prefix: str) -> str:
    return reverse("clients:list")


def address_to_measure(client: int) -> str:
    return f"{address_of_clients(get_script_prefix())}{client}/measure/"


def address_of_day(day: date) -> str:
    return f"{address_of_orders(get_script_prefix())}day/{day.isoformat()}/"


def address_of(number: str) -> str:
    return f"{address_of_orders(get_script_prefix())}{number}/"


def title_of(garments: list) -> str:
    """“Dress, coat and hat”."""
    if not garments:
        return "Order"
    first, *others = (garment.title for garment in garments)
    names = [first, *(name[0].lower() + name[1:] for name in others)]
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))


def told_of(text: str, some: Collection, every: Collection) -> str:
    """A sentence about some of an order's garments: “Dress and coat: not drafted yet”, unless it is about all of them."""
    return text if len(some) == len(every) else f"{title_of(list(some))}: {text[:1].lower()}{text[1:]}"
