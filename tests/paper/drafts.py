"""Real drafts to put on paper: the order file's own example, and kept ones for the pages."""

from datetime import UTC, datetime
from functools import cache
from typing import Any

from drafting.brief import read_brief
from drafting.drawing import draw
from drafting.models import KeptDraft
from tests.drafting.orders import example

NOON = datetime(2026, 3, 9, 12, 0, tzinfo=UTC)


@cache
def _drawn(changes: tuple) -> tuple[dict[str, Any], dict[str, Any]]:
    order = example() | dict(changes)
    brief = read_brief(order)
    return brief.as_order_file(), draw(brief)


def gown(**changes: str) -> tuple[dict[str, Any], dict[str, Any]]:
    """Order file and result of the example's gown; not to be changed in place."""
    return _drawn(tuple(changes.items()))


def keep(made_by=None, *, at: datetime = NOON, **changes: str) -> KeptDraft:
    order_file, result = gown(**changes)
    return KeptDraft.keep(order_file=order_file, result=result, made_by=made_by, at=at)
