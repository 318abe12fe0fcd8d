"""What lies beside an order, brought along in the order's own query: work given out, and a complaint that is open."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from django.db.models import Aggregate, JSONField, OuterRef, Subquery
from django.db.models.functions import JSONObject

from workshop.templatetags.workshop_tags import cloth


class AllRows(Aggregate):
    """The rows of a group as one list."""

    function = "JSON_GROUP_ARRAY"
    output_field = JSONField()

    def as_postgresql(self, compiler, connection, **extra):
        return self.as_sql(compiler, connection, function="JSONB_AGG", **extra)


@dataclass(frozen=True)
class Out:
    """Work given out, as its order shows it."""

    pk: int
    what: str
    to_whom: str
    gone_on: date
    due_back: date
    back_on: date | None = None
    cost: Decimal | None = None
    paid_on: date | None = None

    def is_late(self, today: date) -> bool:
        return self.back_on is None and self.due_back < today


@dataclass(frozen=True)
class Again:
    """A spoiled piece that is not cut again yet."""

    pk: int
    piece: str
    cloth: str
    how: str


@dataclass(frozen=True)
class Back:
    """What came back after it was collected."""

    pk: int
    why: str
    words: str
    to_do: str
    told_on: date
    by_when: date
    settled_on: date | None = None

    @property
    def whose(self) -> str:
        return WHOSE[self.why]


@dataclass(frozen=True)
class Hers:
    """A length of the client's own cloth that lies on the shelf for an order."""

    pk: int
    name: str
    length_mm: Decimal
    place: str

    @property
    def said(self) -> str:
        """“rose crepe, ¾ yd, blue box”."""
        return ", ".join(filter(None, (self.name, cloth(self.length_mm), self.place)))


def rows_along(rows, *fields: str, order: str = "pk", by: str = "order", **which) -> Subquery:
    """All rows of a model, or of a query, that belong to an order, in one subquery.

    `order` is where the outer query has the order's key, `by` where the rows have it.
    """
    found = getattr(rows, "objects", rows).filter(**{by: OuterRef(order)}, **which).order_by().values(by)
    return Subquery(found.annotate(rows=AllRows(JSONObject(pk="pk", **{name: name for name in fields}))).values("rows"))


def read(kind: type, rows: list[dict] | None, sort: str) -> list:
    """The rows that such a subquery brought: days are days again, and amounts amounts."""
    return sorted((one(kind, row) for row in rows or ()), key=lambda each: (getattr(each, sort), each.pk))


def one(kind: type, row: dict):
    given = dict(row)
    for name, value in row.items():
        if value is not None and (name.endswith("_on") or name in ("due_back", "by_when")):
            given[name] = date.fromisoformat(value[:10])
        elif value is not None and name in AMOUNTS:
            given[name] = Decimal(str(value))
    return kind(**given)


WHOSE = {"ours": "our fault", "body": "the body changed", "cloth": "the cloth"}
OUT_FIELDS = ("what", "to_whom", "gone_on", "due_back")
OUT_IN_FULL = (*OUT_FIELDS, "back_on", "cost", "paid_on")
AMOUNTS = ("cost", "length_mm")
AGAIN_FIELDS = ("piece", "cloth", "how")
HERS_FIELDS = ("name", "length_mm", "place")
HERS_HERE = {"whose": "client", "state": "here"}
BACK_FIELDS = ("why", "words", "to_do", "told_on", "by_when", "settled_on")
