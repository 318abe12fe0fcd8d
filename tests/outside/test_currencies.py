"""Currencies against Babel, whose figures are Unicode CLDR's and follow ISO 4217's minor units."""

import random
from decimal import Decimal

import pytest
from babel.numbers import get_currency_precision, list_currencies

from workshop.money import CURRENCIES, parse_money, print_money, rounded

AMOUNTS = 10_000


@pytest.mark.parametrize("code", sorted(CURRENCIES))
def test_a_currency_is_known_outside_and_has_as_many_decimals_there(code):
    assert code in list_currencies()
    assert CURRENCIES[code].places == get_currency_precision(code)


@pytest.mark.parametrize(("code", "places"), [("JPY", 0), ("KWD", 3), ("EUR", 2), ("NGN", 2)])
def test_no_smallest_part_is_lost_in_writing_and_reading_10000_amounts(code, places):
    assert get_currency_precision(code) == places
    smallest, chance = Decimal(1).scaleb(-places), random.Random(code)
    for _ in range(AMOUNTS):
        amount = smallest * chance.randrange(1, 10 ** chance.randrange(1, 10))
        assert rounded(amount, code) == amount
        assert parse_money(print_money(amount, code), code) == amount
