"""Questions that a page asks at each opening: Django's compiler puts them into SQL once, and SQLite hands out plain rows.

What the compiler does for one question costs as much as the answer: on a page of eight, half of its time.
"""

from collections.abc import Callable
from functools import cached_property

from django.db import connection
from django.db.models import QuerySet

NOBODY = 0


class AskedOften:
    """`about` makes the question, as values, for one primary key, which is the last value that its SQL takes.

    Rows come as the database has them: lengths as binary numbers, moments by UTC's clock and without a zone.
    """

    def __init__(self, about: Callable[[int], QuerySet]):
        self._about = about

    def __call__(self, pk: int) -> list[tuple]:
        sql, told = self._words
        with connection.cursor() as cursor:
            return cursor.execute(sql, (*told, pk)).fetchall()

    @cached_property
    def _words(self) -> tuple[str, tuple]:
        sql, (*told, asked) = self._about(NOBODY).query.sql_with_params()
        if asked != NOBODY:
            raise ValueError("the one that is asked about must be the last value of the question")
        return sql, tuple(told)
