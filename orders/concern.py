"""What one thing that stands in an order's way is, who looks at it, and what is known of the order besides its own row."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from orders.models import Order


@dataclass(frozen=True)
class Step:
    """What to do next: its words, the page it leads to, and the capability that page takes."""

    label: str
    to: str
    needs: str


@dataclass(frozen=True)
class Concern:
    """`kind` is the flag's shape: late (solid), risk (dashed) or wait (plain dashed)."""

    order: Order
    kind: str
    flag: str
    text: str
    step: Step | None = None


@dataclass(frozen=True)
class Eyes:
    """Who is looking: what they may see, and how they read money."""

    sees_money: bool
    signs_off: bool
    money: Callable = str
    sees_phone: bool = True
    may: Callable[[str], bool] = lambda capability: True


@dataclass(frozen=True)
class Known:
    """What of an order does not stand on its own row; all of it may be unknown."""

    newer: date | None = None  # the day of a measuring that the draft does not know
    measured_on: date | None = None  # of the measures that it is, or would be, drafted from
    good_for_days: int = 90
    can: date | None = None  # the day that a full bench can keep, where that is later than the promise
    alone: Callable[[], str] = str  # the hours left to do of an order that even an empty bench can't do in time
    after_cut: Callable = lambda: None  # what was measured after the cut, and what it means (garment/after_cut.py)


def page_of(order: Order, name: str = "", *args) -> str:
    """An address of the order's, without a look-up: a list has many of them."""
    return "/".join([f"/orders/{order.number}", *filter(None, (name, *map(str, args))), ""])
