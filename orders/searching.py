"""Orders found by the words that were typed: in the client's name, the garment, what was brought in, or the order's number.

A thick book is asked twice. First, which clients, titles of garments and numbers have each word, and whether these are few. Where they
are, the orders of those few are looked through; where each word stands for many, the orders are, from the newest on.
"""

import json
import re
from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from django.db import connection
from django.db.models import CharField, Exists, F, Lookup, OuterRef, Q, QuerySet

from clients.folding import fold
from clients.models import Client
from orders.in_hand import brought
from orders.light import telling_garments
from orders.models import Garment, Order
from workshop.asked_often import RowsAskedOften, together

#: So many keys are handed over; so many garments of a title make it a common one.
FEW, FEW_GARMENTS = 1000, 1500
#: A word that no more orders have is begun with. A client has about so many orders.
RARE, ORDERS_OF_A_CLIENT = 2000, 5

#: Of one word, with its place: up to so many clients and one more; then each title that is like it and up to so many garments of that
#: title. From each title to the next by the index, because a thick book has few different ones.
CLIENTS_AND_TITLES = f"""
SELECT {{place}}, id, 0, '', 0 FROM (SELECT id FROM clients_client WHERE name_folded LIKE %s ESCAPE '\\' LIMIT {FEW + 1}) AS named
UNION ALL SELECT {{place}}, 0, 0, title,
 (SELECT COUNT(*) FROM (SELECT 1 FROM orders_garment WHERE title = titled.title AND put_away_on IS NULL LIMIT {FEW_GARMENTS}) AS few)
FROM (WITH RECURSIVE each_title(title) AS (SELECT MIN(title) FROM orders_garment UNION ALL
 SELECT (SELECT MIN(title) FROM orders_garment WHERE title > each_title.title) FROM each_title WHERE each_title.title IS NOT NULL)
 SELECT title FROM each_title WHERE LOWER(title) LIKE %s ESCAPE '\\') AS titled"""
#: The same of numbers, which only a word with a digit can have.
NUMBERS = f"""
UNION ALL SELECT {{place}}, 0, id, '', 0 FROM (SELECT id FROM orders_order WHERE number {{like}} %s ESCAPE '\\' LIMIT {FEW + 1}) AS numbered"""


@CharField.register_lookup
class Like(Lookup):
    """`number__like="%s-01%"`: as the database's own LIKE, whether letters are small or capital; the text is taken as it is."""

    lookup_name, prepare_rhs = "like", False

    def as_sql(self, compiler, connection):
        asked, told = self.process_lhs(compiler, connection)
        return f"{asked} {like_of(connection)} %s ESCAPE '\\'", [*told, self.rhs]


def like_of(connection) -> str:
    """SQLite's LIKE takes small letters for capitals."""
    return "ILIKE" if connection.vendor == "postgresql" else "LIKE"


class Kind(NamedTuple):
    """What of a word decides how it is asked for."""

    few_clients: bool
    few_garments: bool
    few_numbers: bool
    has_titles: bool
    has_numbers: bool


class Word(NamedTuple):
    kind: Kind
    typed: str  # as LIKE takes it
    clients: str  # their keys where they are few, else their name as LIKE takes it
    titles: str
    numbers: str  # the keys of the orders where they are few, else their number as LIKE takes it
    weight: int  # about so many orders have it

    @property
    def is_rare(self) -> bool:
        return self.kind.few_clients and self.kind.few_garments and self.kind.few_numbers and self.weight <= RARE

    @property
    def told(self) -> list[str]:
        return [self.typed, self.clients, *([self.titles] if self.kind.has_titles else ()), *([self.numbers] if self.kind.has_numbers else ())]


def orders_found(typed: str, start: int, stop: int, *, with_owner: bool) -> list[Order]:
    """Those that have every word typed, the newest first, with what a row of a list shows."""
    words = words_of(typed.split())
    rare = [word for word in words if word.is_rare]
    first = words.index(min(rare, key=lambda word: word.weight)) if rare else None
    found = _found(tuple(word.kind for word in words), first, start, stop, with_owner=with_owner)
    return found(*(value for word in words for value in word.told))


def words_of(typed: list[str]) -> list[Word]:
    likes = [Likes(f"%{for_like(fold(word))}%", f"%{for_like(word.lower())}%", f"%{for_like(word)}%") for word in typed]
    asked, told, found = [], [], [Found([], {}, []) for _ in typed]
    for place, like in enumerate(likes):
        asked.append(CLIENTS_AND_TITLES.format(place=place))
        told += like.name, like.title
        if has_digit(like.typed):
            asked[-1] += NUMBERS.format(place=place, like=like_of(connection))
            told.append(like.typed)
    with connection.cursor() as cursor:
        cursor.execute("\nUNION ALL ".join(asked), told)
        for place, client, order, title, garments in cursor.fetchall():
            found[place].note(client, order, title, garments)
    return [word_of(*each) for each in zip(likes, found, strict=True)]


class Likes(NamedTuple):
    """A word as LIKE takes it: of a folded name, of a title in small letters, and as it was typed."""

    name: str
    title: str
    typed: str


class Found(NamedTuple):
    """What has a word: the keys of clients, garments by title, the keys of orders."""

    clients: list[int]
    titles: dict[str, int]
    orders: list[int]

    def note(self, client: int, order: int, title: str, garments: int) -> None:
        if client:
            self.clients.append(client)
        elif order:
            self.orders.append(order)
        else:
            self.titles[title] = garments


def word_of(like: Likes, found: Found) -> Word:
    garments = sum(found.titles.values())
    few_clients, few_numbers = len(found.clients) <= FEW, len(found.orders) <= FEW
    return Word(
        Kind(few_clients, garments < FEW_GARMENTS, few_numbers, bool(found.titles), has_digit(like.typed)),
        typed=like.typed,
        clients=together(found.clients) if few_clients else like.name,
        titles=json.dumps(list(found.titles)),
        numbers=together(found.orders) if few_numbers else like.typed,
        weight=ORDERS_OF_A_CLIENT * len(found.clients) + garments + len(found.orders),
    )


def has_digit(word: str) -> bool:
    return any(letter.isdigit() for letter in word)


def for_like(word: str) -> str:
    r"""The word as LIKE takes it: \%, \_ and \\ stand for themselves."""
    return re.sub(r"([\\%_])", r"\\\1", word)


@lru_cache(maxsize=256)
def _found(kinds: tuple[Kind, ...], first: int | None, start: int, stop: int, *, with_owner: bool) -> RowsAskedOften:
    """`first` is the place of a word that few orders have: the database begins with these, else with the newest."""

    def about(*values) -> QuerySet:
        told = iter(values)
        # A key plus nothing is not looked up in an index, so that the database does not begin with it.
        found = Order.objects.alias(own=F("pk") + 0, hers=F("client_id") + 0)
        one_by_one = first is not None or sum(not kind.few_garments for kind in kinds) == 1
        for place, kind in enumerate(kinds):
            found = found.filter(begun_with(kind, told) if place == first else looked_through(kind, told, one_by_one=one_by_one))
        found = found.order_by("-serial" if first is None else (F("serial") + 0).desc())[start:stop].values("pk")
        found = brought(Order.objects.filter(pk__in=found).latest_first(), with_owner=with_owner).without_what_no_row_shows()
        return telling_garments(found)  # the page has no question left to ask for them

    return RowsAskedOften(about)


def begun_with(kind: Kind, told: Iterator) -> Q:
    """The orders of the few clients and garments that have the word, each found by its index."""
    has_it = Q(pk__in=brought_in(next(told))) | Q(client__among=next(told))
    if kind.has_titles:
        has_it |= Q(pk__in=Garment.objects.filter(title__among_texts=next(told)).order_by().values("order"))
    return has_it | Q(pk__among=next(told)) if kind.has_numbers else has_it


def looked_through(kind: Kind, told: Iterator, *, one_by_one: bool) -> Q:
    """Whether an order has the word; of its garments it is asked one by one, or once which orders have such."""
    has_it, clients = Q(own__in=brought_in(next(told))), next(told)
    has_it |= Q(hers__among=clients) if kind.few_clients else Q(hers__in=Client.objects.filter(name_folded__like=clients).values("pk"))
    if kind.has_titles:
        garments = Garment.objects.filter(title__among_texts=next(told)).order_by()
        asks_each = one_by_one and not kind.few_garments
        has_it |= Q(Exists(garments.filter(order=OuterRef("pk")))) if asks_each else Q(own__in=garments.values("order"))
    if kind.has_numbers:
        has_it |= Q(own__among=next(told)) if kind.few_numbers else Q(number__like=next(told))
    return has_it


def brought_in(typed: str) -> QuerySet:
    return Order.objects.exclude(brought_in="").filter(brought_in__like=typed).order_by().values("pk")
