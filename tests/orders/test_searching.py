"""Orders found by words: the same ones whether few or many of the book have a word, held against a search in plain Python."""

from itertools import product

import pytest
from django.utils import timezone

from clients.folding import fold
from orders import searching
from orders.light import garments_told
from orders.models import Garment, Order
from orders.searching import orders_found
from tests.clients.book import make_client

pytestmark = pytest.mark.django_db

NAMES = ("Ines Tollard", "Inès Marrow", "Skirtley Oyelaran", "Bram 12 Vane", "Zoë Łukasz", "100% Wool & Sons")
TITLES = ("Skirt", "Fitted dress", "Blouse", "Dress_coat", "Bustier gown")
WORDS = (
    "ines", "INES skirt", "skirt", "dress", "fitted dress", "gown zoe", "lukasz", "S-01", "s-012", "12", "1 skirt", "skirt blouse",
    "zzz", "ines zzz", "%", "_", "100%", "dress_", "blue", "Blue coat", "coat ines", "\\", "e", "s k",
)  # fmt: skip


@pytest.fixture
def book(salt_lane) -> list[Order]:
    """Each client with each garment; every seventh order has a second, every ninth was brought in, every fifth garment is put away."""
    clients, today = [make_client(name) for name in NAMES], timezone.localdate()
    orders = []
    for serial, (client, title) in enumerate(product(clients, TITLES), start=1):
        brought_in = "Blue coat" if serial % 9 == 0 else ""
        stage = "brought_in" if brought_in else "booked"
        orders.append(Order(serial=serial, number=f"S-{serial:03d}", client=client, stage=stage, booked_on=today, brought_in=brought_in))
    orders = Order.objects.bulk_create(orders)
    garments = []
    for order, (_, title) in zip(orders, product(clients, TITLES), strict=True):
        more = ["Skirt"] if order.serial % 7 == 0 else []
        for each in [] if order.brought_in else [title, *more]:
            garments.append(Garment(order=order, kind="skirt", title=each, put_away_on=today if order.serial % 5 == 0 else None))
    Garment.objects.bulk_create(garments)
    return orders


def in_plain_python(words: str) -> list[int]:
    """The serials of the orders that have every word, the newest first."""

    def has(order: Order, word: str) -> bool:
        titles = [garment.title.lower() for garment in order.garments.all()]
        told = [order.brought_in.lower(), *titles, order.number.lower() if any(letter.isdigit() for letter in word) else ""]
        return fold(word) in fold(order.client.name) or any(word.lower() in each for each in told)

    orders = Order.objects.select_related("client").order_by("-serial")
    return [order.serial for order in orders if all(has(order, word) for word in words.split())]


@pytest.mark.parametrize(("few", "rare"), [(0, 0), (1, 2000), (300, 0), (300, 2000)])
def test_the_same_are_found_whether_a_word_is_taken_for_rare_or_for_common(book, monkeypatch, few, rare):
    for name in ("CLIENTS_AND_TITLES", "NUMBERS"):
        monkeypatch.setattr(searching, name, getattr(searching, name).replace(f"LIMIT {searching.FEW + 1}", f"LIMIT {few + 1}"))
    monkeypatch.setattr(searching, "FEW", few)
    monkeypatch.setattr(searching, "FEW_GARMENTS", 5 * few)
    monkeypatch.setattr(searching, "RARE", rare)
    for words in WORDS:
        assert [order.serial for order in orders_found(words, 0, 50, with_owner=False)] == in_plain_python(words), words


def test_a_word_of_nothing_but_what_stands_for_others_finds_only_itself(book):
    assert {order.client.name for order in orders_found("%", 0, 50, with_owner=False)} == {"100% Wool & Sons"}
    assert {garments_told(order)[0].title for order in orders_found("dress_coat", 0, 50, with_owner=False)} == {"Dress_coat"}


def test_the_next_page_goes_on_where_the_first_ended(book):
    whole = [order.serial for order in orders_found("s", 0, 50, with_owner=False)]
    assert [order.serial for page in (0, 8, 16) for order in orders_found("s", page, page + 8, with_owner=False)] == whole[:24]


def test_an_order_that_gets_another_title_is_found_by_it_at_once(book):
    assert not orders_found("cape", 0, 50, with_owner=False)
    Garment.objects.filter(order=book[0]).update(title="Cape")
    assert orders_found("cape", 0, 50, with_owner=False) == [book[0]]
    assert book[0] not in orders_found("skirt", 0, 50, with_owner=False)
