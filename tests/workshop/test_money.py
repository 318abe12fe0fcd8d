"""Money, printed and read."""

from decimal import Decimal

import pytest

from workshop.money import CURRENCIES, UnreadableAmount, parse_money, print_money


@pytest.mark.parametrize(
    ("amount", "currency", "printed"),
    [
        ("340", "GBP", "£340"), ("42.5", "GBP", "£42.50"), ("-60", "GBP", "−£60"), ("410000", "NGN", "₦410,000"),
        ("0", "EUR", "€0"), ("1250", "JPY", "¥1,250"), ("1.5", "KWD", "KD\u00a01.500"), ("7.005", "USD", "$7.01"),
        ("12", "QQQ", "QQQ\u00a012"), ("5000", "XOF", "CFA\u00a05,000"),
    ],
)  # fmt: skip
def test_it_prints_an_amount_with_the_sign_and_decimals_only_where_there_are_any(amount, currency, printed):
    assert print_money(Decimal(amount), currency) == printed


@pytest.mark.parametrize(
    ("written", "currency", "amount"),
    [
        ("340", "GBP", "340"), ("£340", "GBP", "340"), (" 42.50 ", "GBP", "42.50"), ("42,5", "EUR", "42.5"),
        ("1,250", "GBP", "1250"), ("1,250.75", "GBP", "1250.75"), ("₦410 000", "NGN", "410000"),
        ("85 GBP", "GBP", "85"),
        ("0", "GBP", "0"), ("1.500", "KWD", "1.500"), ("1250", "JPY", "1250"),
    ],
)  # fmt: skip
def test_it_reads_what_people_write(written, currency, amount):
    assert parse_money(written, currency) == Decimal(amount)


def test_what_is_printed_is_read_back_in_every_currency():
    for code, currency in CURRENCIES.items():
        for amount in (Decimal(0), Decimal(85), Decimal(1234567), Decimal(5).scaleb(-currency.places)):
            assert parse_money(print_money(amount, code), code) == amount


@pytest.mark.parametrize(
    "written",
    [
        "",
        "about 40",
        "-5",
        "1e3",
        "NaN",
        "inf",
        "4..5",
        "4.567",
        "1,25,0",
        "12,3456",
        "£",
        "€40",
        "4\x00",
        "٤",
        "9" * 11,
        "9" * 4000,
    ],
)
def test_anything_else_is_refused_with_what_was_read(written):
    with pytest.raises(UnreadableAmount) as refusal:
        parse_money(written, "GBP")
    assert len(str(refusal.value)) < 140
    assert str(refusal.value).isprintable()


def test_the_refusal_shows_how_to_write_it():
    with pytest.raises(UnreadableAmount, match="I can't read “about 40”. Write it as £85 or 85."):
        parse_money("about 40", "GBP")
    with pytest.raises(UnreadableAmount, match="This currency has no smaller part."):
        parse_money("12.5", "JPY")
