"""Amounts of money: Decimal always, printed with the workshop's sign, read back as people write them."""

import re
from decimal import ROUND_HALF_UP, Decimal
from functools import lru_cache
from typing import NamedTuple


class Currency(NamedTuple):
    """A currency of ISO 4217: its code, its name, the sign printed before an amount, its decimals."""

    code: str
    name: str
    sign: str
    places: int = 2


# Codes and decimals: ISO 4217, compared with CLDR by tests/outside/test_currencies.py; signs as shops there write them.
_LIST = (
    Currency("AED", "UAE dirham", "AED "),
    Currency("ARS", "Argentine peso", "$"),
    Currency("AUD", "Australian dollar", "$"),
    Currency("BDT", "Bangladeshi taka", "Tk "),
    Currency("BRL", "Brazilian real", "R$ "),
    Currency("BWP", "Botswana pula", "P"),
    Currency("CAD", "Canadian dollar", "$"),
    Currency("CHF", "Swiss franc", "CHF "),
    Currency("CLP", "Chilean peso", "$", 0),
    Currency("CNY", "Chinese yuan", "¥"),
    Currency("COP", "Colombian peso", "$"),
    Currency("CZK", "Czech koruna", "Kč "),
    Currency("DKK", "Danish krone", "kr "),
    Currency("EGP", "Egyptian pound", "E£"),
    Currency("ETB", "Ethiopian birr", "Br "),
    Currency("EUR", "euro", "€"),
    Currency("GBP", "pound sterling", "£"),
    Currency("GHS", "Ghanaian cedi", "GH₵"),
    Currency("HKD", "Hong Kong dollar", "$"),
    Currency("HUF", "Hungarian forint", "Ft "),
    Currency("IDR", "Indonesian rupiah", "Rp "),
    Currency("ILS", "Israeli shekel", "₪"),
    Currency("INR", "Indian rupee", "₹"),
    Currency("JMD", "Jamaican dollar", "$"),
    Currency("JPY", "Japanese yen", "¥", 0),
    Currency("KES", "Kenyan shilling", "KSh "),
    Currency("KRW", "South Korean won", "₩", 0),
    Currency("KWD", "Kuwaiti dinar", "KD ", 3),
    Currency("LKR", "Sri Lankan rupee", "Rs "),
    Currency("MAD", "Moroccan dirham", "MAD "),
    Currency("MXN", "Mexican peso", "$"),
    Currency("MYR", "Malaysian ringgit", "RM "),
    Currency("NGN", "Nigerian naira", "₦"),
    Currency("NOK", "Norwegian krone", "kr "),
    Currency("NZD", "New Zealand dollar", "$"),
    Currency("PEN", "Peruvian sol", "S/ "),
    Currency("PHP", "Philippine peso", "₱"),
    Currency("PKR", "Pakistani rupee", "Rs "),
    Currency("PLN", "Polish zloty", "zł "),
    Currency("RON", "Romanian leu", "lei "),
    Currency("RWF", "Rwandan franc", "FRw ", 0),
    Currency("SAR", "Saudi riyal", "SAR "),
    Currency("SEK", "Swedish krona", "kr "),
    Currency("SGD", "Singapore dollar", "$"),
    Currency("THB", "Thai baht", "THB "),
    Currency("TRY", "Turkish lira", "₺"),
    Currency("TTD", "Trinidad and Tobago dollar", "$"),
    Currency("TZS", "Tanzanian shilling", "TSh "),
    Currency("UAH", "Ukrainian hryvnia", "₴"),
    Currency("UGX", "Ugandan shilling", "USh ", 0),
    Currency("USD", "US dollar", "$"),
    Currency("VND", "Vietnamese dong", "₫", 0),
    Currency("XAF", "Central African CFA franc", "FCFA ", 0),
    Currency("XCD", "East Caribbean dollar", "$"),
    Currency("XOF", "West African CFA franc", "CFA ", 0),
    Currency("ZAR", "South African rand", "R"),
    Currency("ZMW", "Zambian kwacha", "K"),
)
CURRENCIES = {currency.code: currency for currency in _LIST}

#: More than any garment costs in any currency above; beyond it a key was held down.
MOST = Decimal("9999999999")

_AMOUNT = re.compile(r"(?P<whole>[0-9]{1,3}(?:[, ][0-9]{3})+|[0-9]{1,10})(?:[.,](?P<part>[0-9]{1,3}))?")


class UnreadableAmount(ValueError):
    """An amount that can't be read: `read` is what was read, `advice` is what to do."""

    def __init__(self, read: str, advice: str):
        self.read = read
        self.advice = advice
        super().__init__(f"I can't read “{read}”. {advice}" if read else f"Nothing is written here. {advice}")


def rounded(amount: Decimal, currency: str) -> Decimal:
    """To the currency's smallest part: what can be paid."""
    known = CURRENCIES.get(currency) or Currency(currency, currency, f"{currency} ")
    return Decimal(amount).quantize(Decimal(1).scaleb(-known.places), ROUND_HALF_UP)


def as_typed(amount: Decimal | None) -> str:
    """``42.5``: an amount as it is typed into a field, without its currency; nothing for none."""
    return "" if amount is None else f"{amount.normalize():f}"


@lru_cache(maxsize=4096)
def print_money(amount: Decimal | int, currency: str) -> str:
    """``£340``, ``£42.50``, ``−£60``, ``₦410,000``: decimals only where there are any."""
    known = CURRENCIES.get(currency) or Currency(currency, currency, f"{currency} ")
    exact = rounded(amount, currency)
    whole = exact == exact.to_integral_value()
    minus = "−" if exact < 0 else ""
    sign = known.sign.replace(" ", "\u00a0")
    return f"{minus}{sign}{abs(exact):,.{0 if whole else known.places}f}"


def parse_money(written: str, currency: str) -> Decimal:
    """The amount written, without its sign or code. Raises UnreadableAmount for anything else.

    ``1,250`` is a thousand and more; ``1250,5`` and ``1250.50`` have a part.
    """
    known = CURRENCIES.get(currency) or Currency(currency, currency, f"{currency} ")
    read = "".join(c if c.isprintable() else "�" for c in written.strip())
    read = read if len(read) <= 40 else read[:39] + "…"
    text = written.replace("\u00a0", " ").replace("\u202f", " ").strip(" ")
    for lead in (known.code, known.sign.strip()):
        text = text.removeprefix(lead).removesuffix(lead).strip(" ")
    example = f"Write it as {print_money(Decimal(85), currency)} or 85."
    form = _AMOUNT.fullmatch(text)
    if form is None:
        raise UnreadableAmount(read, example)
    part = form["part"] or ""
    if len(part) > known.places:
        places = {0: "This currency has no smaller part", 2: "Two figures after the point at most"}
        raise UnreadableAmount(read, f"{places.get(known.places, 'Three figures after the point at most')}.")
    amount = Decimal(re.sub("[, ]", "", form["whole"]) + (f".{part}" if part else ""))
    if amount > MOST:
        raise UnreadableAmount(read, example)
    return amount
