"""What work and things cost in this workshop, and its terms: house rules, kept on the workshop's own row.

Every amount is in the workshop's currency. What is left blank is not reckoned in; the owner sees that on the price.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from functools import lru_cache

from django.db import transaction

from workshop.models import Workshop
from workshop.money import rounded

#: What is bought besides cloth: key -> what it is called, and by what it is sold. The engine's words are matched in `things.py`.
THINGS = {
    "zip": ("Zip", "each"),
    "thread": ("Thread", "a reel of 100 m"),
    "bone": ("Bone", "a length"),
    "tips": ("Bone tips", "each"),
    "casing": ("Bone casing", "a length"),
    "hook": ("Hook and eye or bar", "each"),
    "button": ("Button", "each"),
    "loop": ("Lacing loop or eyelet", "each"),
    "lacing": ("Lacing", "a length"),
    "tape": ("Stay tape and ribbon", "a length"),
    "elastic": ("Elastic", "a length"),
    "busk": ("Busk", "each"),
}
#: Sold by the yard or metre.
BY_LENGTH = frozenset(key for key, (_, by) in THINGS.items() if by == "a length")
#: Cloth that most workshops buy by the bolt: a price of its own on an order's cloth comes first.
CLOTHS = {"lining": "Lining", "stay": "Stay", "wadding": "Wadding"}

TERMS = (
    "Two fittings are included. Altering what was agreed is priced before it is done.",
    "Once the cloth is cut, nothing that was paid is given back.",
    "What is not collected by its day: after {first} days we send word, after {second} days keeping it costs {storage}, "
    "after {last} days it may be sold for what is owed.",
)
"""Common practice, no source. What may be agreed, kept or sold is a matter of local law: the page that sets them says so."""

STEPS = ("", "1", "5", "10", "50", "100", "500", "1000")


@dataclass(frozen=True)
class PriceRules:
    hourly: Decimal | None = None
    overhead_percent: Decimal = Decimal(0)
    margin_percent: Decimal = Decimal(0)
    round_to: str = ""  # the price goes up to the next multiple; "" is the currency's smallest part
    deposit_percent: Decimal = Decimal(50)  # larapeters.co.uk/pages/faq; kfcoutureboutique.com
    quote_days: int = 14  # common practice, no source
    fitting_hours: Decimal = Decimal(1)  # common practice, no source
    keeps_once_cut: bool = True
    uncollected: tuple[int, int, int] = (7, 30, 90)  # common practice, no source
    storage: Decimal | None = None
    terms: tuple[str, ...] = TERMS
    things: Mapping[str, Decimal] = field(default_factory=dict)
    cloths: Mapping[str, Decimal] = field(default_factory=dict)

    @classmethod
    def current(cls) -> "PriceRules":
        workshop = Workshop.current()
        return read(json.dumps(workshop.prices, sort_keys=True)) if workshop else cls()

    def as_kept(self) -> dict:
        """As the workshop's row keeps it: only what JSON holds."""
        return {
            "hourly": written(self.hourly), "overhead_percent": str(self.overhead_percent), "margin_percent": str(self.margin_percent),
            "round_to": self.round_to, "deposit_percent": str(self.deposit_percent), "quote_days": self.quote_days,
            "fitting_hours": str(self.fitting_hours), "keeps_once_cut": self.keeps_once_cut, "uncollected": list(self.uncollected),
            "storage": written(self.storage), "terms": list(self.terms),
            "things": {key: str(amount) for key, amount in self.things.items()},
            "cloths": {key: str(amount) for key, amount in self.cloths.items()},
        }  # fmt: skip


def written(amount: Decimal | None) -> str:
    return "" if amount is None else str(amount)


@lru_cache(maxsize=8)
def read(kept: str) -> PriceRules:
    """The rules as the workshop's row keeps them; what is not there is as usual."""
    found = json.loads(kept)
    given: dict = {name: Decimal(found[name]) for name in ("overhead_percent", "margin_percent", "deposit_percent", "fitting_hours") if name in found}
    given |= {name: Decimal(found[name]) for name in ("hourly", "storage") if found.get(name)}
    given |= {name: found[name] for name in ("round_to", "quote_days", "keeps_once_cut") if name in found}
    given |= {name: tuple(found[name]) for name in ("uncollected", "terms") if name in found}
    prices = {name: {key: Decimal(amount) for key, amount in found.get(name, {}).items()} for name in ("things", "cloths")}
    return PriceRules(**given, **prices)


@transaction.atomic
def change(**values) -> PriceRules:
    """Write some of the rules, under the row's lock, so that two writers don't undo each other's."""
    workshop = Workshop.objects.select_for_update().get()
    rules = replace(read(json.dumps(workshop.prices, sort_keys=True)), **values)
    workshop.prices = rules.as_kept()
    workshop.save(update_fields=["prices"])
    Workshop.current().prices = workshop.prices  # what was read at the beginning of the request must not go on as it was
    return rules


def usual_deposit(price: Decimal) -> Decimal:
    """What the house asks for before it cuts, to the smallest part that can be paid."""
    return rounded(price * PriceRules.current().deposit_percent / 100, Workshop.current().currency)


def terms_of(rules: PriceRules, money) -> list[str]:
    """The terms as they are printed; `money` prints an amount. A term that names a fee nobody set says what is known."""
    first, second, last = rules.uncollected
    storage = f"{money(rules.storage)} a week" if rules.storage else "extra"
    places = {"{first}": str(first), "{second}": str(second), "{last}": str(last), "{storage}": storage}
    found = []
    for term in rules.terms:
        for place, text in places.items():
            term = term.replace(place, text)
        found.append(term)
    return found


def deposit_help() -> str:
    """What is asked for where nothing is written."""
    return f"Blank: {PriceRules.current().deposit_percent.normalize():f}% of the price. 0: none."
