"""What a draft asks for besides cloth, read from its materials: what it is, how much, and how it is bought."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal
from functools import lru_cache

from orders.money.rules import BY_LENGTH, THINGS
from workshop.length import CLOTH_SLACK_MM, INCH, MM_PER, print_cloth, print_length

#: The engine's words, most telling first: "hook and eye above the zip" is a hook, "lacing loops" are loops.
WORDS = ("casing", "tips", "hook", "busk", "button", "loop", "lacing", "zip", "thread", "ribbon", "tape", "elastic", "bone")
SAME_AS = {"ribbon": "tape"}
#: Widths of a strip, not something to buy: a strip is bought by its length.
NOT_BOUGHT = ("cut width", "folded width")


@dataclass(frozen=True)
class Thing:
    """One thing to buy: `amount` is a count, or mm where `unit` is "mm"; `item` is the draft's own word."""

    key: str  # of THINGS, or "" for what has no price of its own
    item: str
    amount: Decimal
    unit: str

    @property
    def is_by_length(self) -> bool:
        return self.unit == "mm"

    def shown(self, unit: str) -> str:
        """“22 in”, “3 yd”, “2 reels”, “12”."""
        if self.is_by_length:
            long = self.amount >= MM_PER["yd" if unit == INCH else "m"]
            return print_cloth(self.amount, unit) if long else print_length(self.amount, unit, with_unit=True)
        one = self.unit.removesuffix("s")
        said = "" if one == "piece" else f" {one if self.amount == 1 else self.unit}"
        return f"{self.amount.normalize():f}{said}"


def things_of(materials: Iterable[Mapping]) -> list[Thing]:
    """The draft's materials that are bought. Those of several pieces alike are counted together."""
    found = []
    for material in materials:
        item = material["item"]
        if any(words in item for words in NOT_BOUGHT):
            continue
        amount, unit, count = Decimal(repr(float(material["amount"]))), material.get("unit") or "pieces", material.get("count") or 1
        key = key_of(item)
        whole = amount if unit == "mm" and key == "bone" else amount * count  # bones: `amount` is the sum of all of them
        found.append(Thing(key, item, whole, unit))
    return found


@lru_cache(maxsize=256)
def key_of(item: str) -> str:
    words = item.lower()
    found = next((word for word in WORDS if word in words), "")
    return SAME_AS.get(found, found)


def priced(thing: Thing, prices: Mapping[str, Decimal], unit: str) -> Decimal | None:
    """What it costs, not yet rounded; None where the price list has nothing for it.

    What is sold by length is bought by whole eighths of a yard or tenths of a metre; a zip is one zip, whatever its length.
    """
    if thing.key not in prices or thing.key not in THINGS:
        return None
    each = prices[thing.key]
    if thing.key in BY_LENGTH and thing.is_by_length:
        return each * bought_units(thing.amount, unit)
    return each if thing.is_by_length else each * thing.amount


def bought_units(mm: Decimal, unit: str) -> Decimal:
    """Yards or metres to ask for: up to the next eighth of a yard, or tenth of a metre, as `print_cloth` writes it."""
    parts, whole = (8, MM_PER["yd"]) if unit == INCH else (10, MM_PER["m"])
    steps = (max(Decimal(mm) - CLOTH_SLACK_MM, Decimal(0)) * parts / whole).to_integral_value(ROUND_CEILING)
    return steps / parts
