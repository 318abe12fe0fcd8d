"""What an order should cost, from its own drafts: cloth by the lay, things by the materials, work by hours; no query here.

Every line is rounded to what can be paid before it is added, so that a total is always the sum of what is printed.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal

from orders.dates.bench import Bench
from orders.dates.promise import LEFT
from orders.models import Cloth, Garment, Order, PriceLine
from orders.money.rules import PriceRules
from orders.money.things import bought_units, priced, things_of
from orders.stages import Stage
from workshop.length import INCH, print_cloth
from workshop.money import print_money, rounded

CLOTH, THINGS, WORK, OWN, ON_TOP = "cloth", "things", "work", "own", "on top"
PARTS = {
    CLOTH: "Cloth",
    THINGS: "Zip, thread, bones and what else is bought",
    WORK: "Work",
    OWN: "Besides",
    ON_TOP: "On top",
}
#: What of a garment's hours goes into cutting, sewing and pressing: as the bench reckons what is left at each stage.
OPERATIONS = (
    ("cutting", "cutting", 1 - LEFT[Stage.CUT]),
    ("sewing", "sewing", LEFT[Stage.CUT] - LEFT[Stage.SEWN]),
    ("pressing", "pressing and finishing", LEFT[Stage.SEWN]),
)
NOTHING = Decimal(0)


@dataclass(frozen=True)
class Line:
    """One line: `worked_out` is None where something is missing to work it out, and `how` then says what."""

    key: str
    part: str
    label: str
    how: str
    worked_out: Decimal | None
    by_hand: PriceLine | None = None

    @property
    def amount(self) -> Decimal:
        return self.by_hand.set_to if self.by_hand else self.worked_out or NOTHING

    @property
    def is_missing(self) -> bool:
        return self.worked_out is None and self.by_hand is None

    @property
    def is_own(self) -> bool:
        """A line that the owner wrote: nothing stands behind it."""
        return self.key.startswith("own-")

    @property
    def was(self) -> Decimal | None:
        """What is worked out, where something else was set by hand."""
        return self.worked_out if self.by_hand and not self.is_own else None


@dataclass(frozen=True)
class Part:
    key: str
    name: str
    lines: list[Line]

    @property
    def total(self) -> Decimal:
        return sum((line.amount for line in self.lines), NOTHING)


@dataclass(frozen=True)
class Costing:
    parts: list[Part]
    hours: Decimal

    @property
    def lines(self) -> list[Line]:
        return [line for part in self.parts for line in part.lines]

    @property
    def price(self) -> Decimal:
        return sum((part.total for part in self.parts), NOTHING)

    @property
    def missing(self) -> list[Line]:
        return [line for line in self.lines if line.is_missing]

    def total_of(self, *parts: str) -> Decimal:
        return sum((part.total for part in self.parts if part.key in parts), NOTHING)

    @property
    def cloth_money(self) -> Decimal:
        return self.total_of(CLOTH)

    @property
    def making(self) -> Decimal:
        return self.price - self.cloth_money

    @property
    def cost(self) -> Decimal:
        """What the workshop itself pays: without margin and rounding."""
        return sum((line.amount for line in self.lines if line.key not in ("margin", "rounding", "urgent")), NOTHING)

    def line(self, key: str) -> Line | None:
        return next((line for line in self.lines if line.key == key), None)


@dataclass(frozen=True)
class Asked:
    """All that a price is worked out from."""

    order: Order
    garments: list[Garment]
    cloths: list[Cloth]
    fittings: int
    changes: Decimal = NOTHING  # what was added for changes after the client's yes
    by_hand: Mapping[str, PriceLine] | None = None


def costing(asked: Asked, rules: PriceRules, bench: Bench, *, unit: str, currency: str, with_taken: bool = False) -> Costing:
    """`with_taken`: hours as they were taken, where they were noted, in place of those planned."""
    by_hand = dict(asked.by_hand or {})

    def line(key: str, part: str, label: str, how: str, amount: Decimal | None) -> Line:
        known = None if amount is None else rounded(amount, currency)
        return Line(key, part, label, how, known, by_hand.pop(key, None))

    hours = [(garment, hours_of(garment, bench, with_taken)) for garment in asked.garments]
    several = len(asked.garments) > 1
    parts = [
        Part(CLOTH, PARTS[CLOTH], [line(*each) for each in cloth_lines(asked, rules, unit, currency)]),
        Part(THINGS, PARTS[THINGS], [line(*each) for each in thing_lines(asked.garments, rules, unit, currency)]),
        Part(WORK, PARTS[WORK], [line(*each) for each in work_lines(hours, asked.fittings, rules, currency, several)]),
    ]
    written = [Line(key, each.part, each.label, each.why, None, each) for key, each in by_hand.items() if key.startswith("own-")]
    parts[0].lines.extend(each for each in written if each.part == CLOTH)
    own = [each for each in written if each.part != CLOTH]
    if asked.changes:
        own.append(line("changes", OWN, "Changes after the look was agreed", "as they were priced", asked.changes))
    parts.append(Part(OWN, PARTS[OWN], own))
    parts.append(on_top(parts, asked.order, rules, currency, line))
    return Costing(parts, sum((number for _, number in hours), NOTHING))


def hours_of(garment: Garment, bench: Bench, with_taken: bool) -> Decimal:
    if with_taken and garment.hours_taken is not None:
        return garment.hours_taken
    return bench.hours_of(garment.kind, garment.hours_planned)


def cloth_lines(asked: Asked, rules: PriceRules, unit: str, currency: str):
    drafts = [key for garment in asked.garments if (key := garment.cut_draft_id or garment.draft_id)]
    for cloth in asked.cloths:
        key, label = f"cloth-{cloth.pk}", cloth.name[:1].upper() + cloth.name[1:]
        if cloth.whose == Cloth.Whose.CLIENT:
            yield key, CLOTH, label, "the client’s own", NOTHING
            continue
        each = price_of(cloth, rules)
        amount, by = (cloth.needs_mm, "by the lay") if cloth.needs_mm and cloth.is_laid_for(drafts) else (cloth.on_hand_mm, "as on hand")
        if amount is None:
            yield key, CLOTH, label, "no lay yet, and nothing on hand: write what it costs", None
        elif each is None:
            yield key, CLOTH, label, f"{print_cloth(amount, unit)} {by}; no price a {unit_word(unit)} yet", None
        else:
            how = f"{print_cloth(amount, unit)} {by}, at {print_money(each, currency)} a {unit_word(unit)}"
            yield key, CLOTH, label, how, each * bought_units(amount, unit)


def price_of(cloth: Cloth, rules: PriceRules) -> Decimal | None:
    """A yard's or metre's price: its own, else that of the lining, stay or wadding that the workshop always buys."""
    if cloth.price is not None:
        return cloth.price
    return rules.cloths.get(cloth.used_for[0]) if len(cloth.used_for) == 1 else None


def unit_word(unit: str) -> str:
    return "yard" if unit == INCH else "metre"


def thing_lines(garments: list[Garment], rules: PriceRules, unit: str, currency: str):
    for garment in garments:
        end = f", {garment.title.lower()}" if len(garments) > 1 else ""
        for number, thing in enumerate(things_of(garment.materials)):
            amount = priced(thing, rules.things, unit)
            how = thing.shown(unit) + ("" if amount is not None else "; not in the price list yet")
            label = thing.item[:1].upper() + thing.item[1:] + end
            yield f"thing-{garment.pk}-{number}-{thing.key}", THINGS, label[:80], how, amount


def work_lines(hours, fittings: int, rules: PriceRules, currency: str, several: bool):
    at = f" at {print_money(rules.hourly, currency)}" if rules.hourly is not None else "; no price an hour yet"
    for garment, number in hours:
        for key, name, share in OPERATIONS:
            part = (number * share).quantize(Decimal("0.01"))
            label = f"{garment.title}: {name}" if several else name.capitalize()
            amount = None if rules.hourly is None else number * share * rules.hourly
            yield f"work-{garment.pk}-{key}", WORK, label[:80], f"{part.normalize():f} h{at}", amount
    if fittings:
        number = fittings * rules.fitting_hours
        label = f"{fittings} fitting{'' if fittings == 1 else 's'}"
        yield "fittings", WORK, label, f"{number.normalize():f} h{at}", None if rules.hourly is None else number * rules.hourly


def on_top(parts: list[Part], order: Order, rules: PriceRules, currency: str, line) -> Part:
    """Overhead on the work, margin on all of it, the urgent fee, and what brings the price to a round figure."""
    work = sum((part.total for part in parts if part.key == WORK), NOTHING)
    lines = []
    if rules.overhead_percent:
        how = f"{rules.overhead_percent.normalize():f}% of the work"
        lines.append(line("overhead", ON_TOP, "Overhead", how, work * rules.overhead_percent / 100))
    before = sum((part.total for part in parts), NOTHING) + sum((each.amount for each in lines), NOTHING)
    if rules.margin_percent:
        how = f"{rules.margin_percent.normalize():f}% of all above"
        lines.append(line("margin", ON_TOP, "Margin", how, before * rules.margin_percent / 100))
    if order.urgent_fee:
        lines.append(line("urgent", ON_TOP, "Urgent work", "as agreed", order.urgent_fee))
    if rules.round_to:
        so_far = before + sum((each.amount for each in lines if each.key != "overhead"), NOTHING)
        lines.append(line("rounding", ON_TOP, "To a round price", f"up to a multiple of {print_money(Decimal(rules.round_to), currency)}", up_to(so_far, rules.round_to) - so_far))
    return Part(ON_TOP, PARTS[ON_TOP], lines)


def up_to(amount: Decimal, step: str) -> Decimal:
    return (amount / Decimal(step)).to_integral_value(ROUND_CEILING) * Decimal(step)


def shares(amount: Decimal, number: int, currency: str) -> list[Decimal]:
    """So many parts of an amount, as alike as can be paid: their sum is the amount, the first ones bear what is left over."""
    smallest = Decimal(1).scaleb(rounded(amount, currency).as_tuple().exponent)
    whole, more = divmod(int(amount / smallest), number)
    return [(whole + (1 if place < more else 0)) * smallest for place in range(number)]
