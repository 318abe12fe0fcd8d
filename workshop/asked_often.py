"""Questions that a page asks at each opening: Django's compiler puts them into SQL once, and SQLite hands out plain rows.

What the compiler does for one question costs as much as the answer: on a page of eight, half of its time.
"""

from collections.abc import Callable, Iterable
from datetime import UTC, date, datetime
from decimal import Decimal
from functools import cached_property, lru_cache

from django.db import DEFAULT_DB_ALIAS, connection
from django.db.models import CharField, DateTimeField, DecimalField, ForeignObject, IntegerField, JSONField, Lookup, Model, QuerySet
from django.db.models.expressions import Col
from django.db.models.query import ModelIterable, get_related_populators

NOBODY = 0
PROBE = 2_000_000_000  # a value that no question has of itself


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


@IntegerField.register_lookup
@ForeignObject.register_lookup
class Among(Lookup):
    """`order__among=together(keys)`: any of these whole numbers, handed over as one text, so that the SQL is the same for any number of them."""

    lookup_name, prepare_rhs = "among", False

    def as_sql(self, compiler, connection):
        asked, told = self.process_lhs(compiler, connection)
        return f"{asked} IN (SELECT value FROM json_each(%s))", [*told, self.rhs]

    def as_postgresql(self, compiler, connection):
        asked, told = self.process_lhs(compiler, connection)
        return f"{asked} = ANY(ARRAY(SELECT jsonb_array_elements_text(%s::jsonb)::bigint))", [*told, str(self.rhs)]


def together(keys: Iterable[int]) -> str:
    return str(list(keys))


@CharField.register_lookup
class AmongTexts(Among):
    """`digest__among_texts=json.dumps(digests)`: the same of texts."""

    lookup_name = "among_texts"

    def as_postgresql(self, compiler, connection):
        asked, told = self.process_lhs(compiler, connection)
        return f"{asked} = ANY(ARRAY(SELECT jsonb_array_elements_text(%s::jsonb)))", [*told, str(self.rhs)]


class BesideMoment(Lookup):
    """A moment beside one that is handed over as the database's driver takes it (`moment_told`), so that it can stand in ready SQL."""

    prepare_rhs, sign = False, ""

    def as_sql(self, compiler, connection):
        asked, told = self.process_lhs(compiler, connection)
        return f"{asked} {self.sign} %s", [*told, self.rhs]


@DateTimeField.register_lookup
class NotBefore(BesideMoment):
    lookup_name, sign = "not_before", ">="


@DateTimeField.register_lookup
class Before(BesideMoment):
    lookup_name, sign = "before", "<"


def moment_told(moment: datetime) -> str | datetime:
    return connection.ops.adapt_datetimefield_value(moment)


def is_read_by_the_driver(converter: Callable, expression) -> bool:
    """Whether there is nothing left to convert: from a column declared as one, SQLite's driver reads a day or a yes-or-no itself."""
    name = getattr(converter, "__name__", "")
    return connection.vendor == "sqlite" and isinstance(expression, Col) and name in ("convert_datefield_value", "convert_booleanfield_value")


def quickened(converter: Callable, expression) -> Callable:
    """The same converter with less to do: an amount is read once, because many rows have it, and an empty list is not parsed."""
    if isinstance(expression.output_field, DecimalField):
        once = lru_cache(maxsize=4096)(lambda value: converter(value, expression, connection))
        return lambda value, *_: once(value)
    if isinstance(expression.output_field, JSONField):
        return lambda value, *told: [] if value == "[]" else converter(value, *told)
    return converter


class RowsAskedOften:
    """As AskedOften, with each value as Django has it: models with what select_related and annotations bring, or tuples.

    `about` makes the question of as many values as it is asked with, whole numbers or texts, each of which its SQL must take as it is.
    """

    def __init__(self, about: Callable[..., QuerySet]):
        self._about = about
        self._kept: dict[str, Compiled] = {}

    def __call__(self, *values) -> list:
        kept = self._kept.get(connection.vendor)
        if kept is None:
            kept = self._kept[connection.vendor] = Compiled(self._about, len(values))
        return kept.rows(values)


class Compiled:
    """A question's SQL, where in it the values stand, and how a row of the answer is read."""

    def __init__(self, about: Callable[..., QuerySet], number: int):
        probes = [PROBE + place for place in range(number)]
        asked = about(*probes)
        compiler = asked.query.get_compiler(DEFAULT_DB_ALIAS)
        self._sql, told = compiler.as_sql()
        self._told, names = list(told), {str(probe): place for place, probe in enumerate(probes)}
        self._places = [(at, names[str(each)]) for at, each in enumerate(told) if str(each) in names]
        if len({place for _, place in self._places}) < number:
            raise ValueError("each value that is asked with must stand in the question")
        found = compiler.get_converters([expression for expression, *_ in compiler.select])
        self._converters = [
            (at, quickened(converter, expression), expression)
            for at, (all_of_it, expression) in found.items()
            for converter in all_of_it
            if not is_read_by_the_driver(converter, expression)
        ]
        self._read = self._model_reader(compiler) if asked._iterable_class is ModelIterable else tuple

    def rows(self, values: tuple) -> list:
        told = self._told.copy()
        for at, place in self._places:
            told[at] = values[place]
        with connection.cursor() as cursor:
            cursor.execute(self._sql, told)
            answer = cursor.fetchall()
        rows = self._converted(answer) if answer else ()
        return list(map(self._read, rows))

    def _converted(self, answer: list[tuple]) -> Iterable[tuple]:
        """Column by column, and nothing stays nothing: half of what a list's rows could hold is not there."""
        if not self._converters:
            return answer
        columns = list(zip(*answer, strict=True))
        for at, converter, expression in self._converters:
            columns[at] = [None if each is None else converter(each, expression, connection) for each in columns[at]]
        return zip(*columns, strict=True)

    @staticmethod
    def _model_reader(compiler) -> Callable[[tuple], Model]:
        about, select = compiler.klass_info, compiler.select
        model, first, end = about["model"], about["select_fields"][0], about["select_fields"][-1] + 1
        names = [column.target.attname for column, *_ in select[first:end]]
        beside = get_related_populators(about, select, DEFAULT_DB_ALIAS)
        brought = list(compiler.annotation_col_map.items())

        def read(row: tuple) -> Model:
            made = model.from_db(DEFAULT_DB_ALIAS, names, row[first:end])
            for each in beside:
                each.populate(row, made)
            for name, at in brought:
                setattr(made, name, row[at])
            return made

        return read
