"""Many rows of one table that differ in a few columns: written as plain values, because a million models take minutes to make."""

from collections.abc import Callable, Iterable
from datetime import date
from decimal import Decimal
from functools import cache
from itertools import islice

from django.core.management.color import no_style
from django.db import DEFAULT_DB_ALIAS, connection, connections, models

AT_ONCE = 5000


class PlainRows:
    """Rows of `model`: `differing` are the columns that each row gives, in that order; `alike` is what all of them share.

    What neither names is the model's own default, once for all rows. Nothing of the model's `save` happens.
    """

    def __init__(self, model: type[models.Model], *differing: str, **alike):
        self._model, fields = model, {field.attname: field for field in model._meta.local_concrete_fields}
        pattern = model(**alike)
        shared = {name: field for name, field in fields.items() if name not in differing and not field.primary_key}
        self._shared = tuple(field.get_db_prep_save(field.pre_save(pattern, True), connection) for field in shared.values())
        self._kept = [as_kept(fields[name]) for name in differing]
        self._columns = [fields[name].column for name in (*differing, *shared)]

    def write(self, rows: Iterable[tuple]) -> int:
        """How many there were."""
        quoted = connection.ops.quote_name
        columns, places = ", ".join(map(quoted, self._columns)), ", ".join(["%s"] * len(self._columns))
        sql, left, written = f"INSERT INTO {quoted(self._model._meta.db_table)} ({columns}) VALUES ({places})", iter(rows), 0
        with connection.cursor() as cursor:
            while batch := [self._row(row) for row in islice(left, AT_ONCE)]:
                cursor.executemany(sql, batch)
                written += len(batch)
        return written

    def _row(self, row: tuple) -> tuple:
        return tuple([keep(value) for keep, value in zip(self._kept, row, strict=True)]) + self._shared


def as_kept(field: models.Field) -> Callable:
    """What the database is handed for a value of that field; days and amounts come again and again, and are looked up."""
    here = connections[DEFAULT_DB_ALIAS]

    def keep(value):
        return field.get_db_prep_save(value, here)

    known = cache(keep)
    return lambda value: value if type(value) in (int, str) else known(value) if type(value) in (date, Decimal) else keep(value)


def go_on_counting(*written: type[models.Model]) -> None:
    """The next keys follow those that were written out, where the database counts in a place of its own."""
    with connection.cursor() as cursor:
        for sql in connection.ops.sequence_reset_sql(no_style(), written):
            cursor.execute(sql)
