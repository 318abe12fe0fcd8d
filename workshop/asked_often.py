"""Questions that a page asks at each opening: Django's compiler puts them into SQL once, and SQLite hands out plain rows.

What the compiler does for one question costs as much as the answer: on a page of eight, half of its time.
"""

from collections.abc import Callable
from datetime import UTC, date, datetime
from decimal import Decimal
from functools import cached_property

from django.db import connection
from django.db.models import QuerySet

NOBODY = 0


class AskedOften:
    """`about` makes the question, as values, for one primary key, which is the last value that its SQL takes.

    Rows come as SQLite has them, whatever database is asked: lengths as binary numbers, moments by UTC's clock and without a zone.
    """

    def __init__(self, about: Callable[[int], QuerySet]):
        self._about = about

    def __call__(self, pk: int) -> list[tuple]:
        sql, told = self._words
        with connection.cursor() as cursor:
            cursor.execute(sql, (*told, pk))
            rows = cursor.fetchall()
        return rows if connection.vendor == "sqlite" else [tuple(map(as_sqlite_has_it, row)) for row in rows]

    @cached_property
    def _words(self) -> tuple[str, tuple]:
        sql, (*told, asked) = self._about(NOBODY).query.sql_with_params()
        if asked != NOBODY:
            raise ValueError("the one that is asked about must be the last value of the question")
        return sql, tuple(told)


def as_sqlite_has_it(value):
    """Numbers binary, days and moments as texts, a moment by UTC's clock and without its zone."""
    if isinstance(value, Decimal):
        return float(value)
    if isinstance(value, datetime):
        return value.astimezone(UTC).replace(tzinfo=None).isoformat(" ")
    return value.isoformat() if isinstance(value, date) else value
