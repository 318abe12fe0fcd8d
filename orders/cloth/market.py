"""The market list: what all open orders still want, one line a thing, ticked off on a phone. Five queries, no drawing read."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from decimal import Decimal
from typing import NamedTuple

from django.db import transaction
from django.db.models import F, OuterRef, Q, Subquery

from orders.booking import USUAL_CLOTHS
from orders.cloth.laying import HAIR_MM, draft_keys
from orders.models import Bought, Cloth, Garment, Order, ShelfCloth, SpoiledPiece
from orders.models.naming import address_of
from orders.models.shelf import OURS
from orders.money.things import Thing, things_of
from orders.stages import BEFORE_CUTTING, NotNow, Stage
from workshop.asked_often import RowsAskedOften
from workshop.length import print_cloth

#: Until it is sewn an order may want a zip; cloth only until it is cut.
WANTS_THINGS = (Stage.BOOKED, Stage.MEASURED, Stage.CUT)
WANTS_CLOTH = BEFORE_CUTTING[1:]
#: A spoiled piece may want new cloth until it is pressed.
WANTS_AGAIN = (*WANTS_THINGS, Stage.SEWN)
#: What is bought to match the cloth: beside these its name stands.
MATCHED = {"zip", "thread", "button", "loop", "lacing", "tape"}
CLOTH = "cloth"
NO_LAY = "no lay yet"
GROUPS = {
    CLOTH: "Cloth", "zip": "Zips", "thread": "Thread", "bone": "Bones", "tips": "Bone tips", "casing": "Bone casing", "hook": "Hooks, eyes and bars",
    "button": "Buttons", "loop": "Loops and eyelets", "lacing": "Lacing", "tape": "Tape and ribbon", "elastic": "Elastic", "busk": "Busks", "": "Besides",
}  # fmt: skip


class Buyer(NamedTuple):
    """Of an order no more than the list shows."""

    pk: int
    number: str
    stage: str
    client: str

    @property
    def address(self) -> str:
        return address_of(self.number)


class Drafted(NamedTuple):
    """Of a garment no more than what its draft asks for. Named as the model's fields are."""

    pk: int
    materials: list
    draft_id: int | None
    cut_draft_id: int | None
    outside: str | None  # the name of its outside cloth


class Want(NamedTuple):
    """One thing that one order wants. `key` holds its amount, so that a tick holds only while the order wants the same."""

    key: str
    order: Buyer
    what: str
    amount: Decimal
    said: str
    is_bought: bool
    note: str = ""  # the cloth that it is to match, or the piece that is cut again

    @property
    def told(self) -> str:
        """“S-014 rose crepe”: for which order, and what to match."""
        return f"{self.order.number} {self.note}".rstrip()

    @property
    def is_cloth(self) -> bool:
        return self.key.startswith("cloth ")


@dataclass
class Line:
    """One line of the list: the same thing for one order or several."""

    name: str
    wants: list[Want] = field(default_factory=list)
    total: str = ""
    lying: str = ""  # what lies free on the shelf under a cloth's name

    @property
    def open(self) -> list[Want]:
        return [want for want in self.wants if not want.is_bought]

    @property
    def is_bought(self) -> bool:
        return not self.open

    @property
    def ticks(self) -> str:
        """The orders that a tick of this line is for, as it was shown: one that came later is not ticked unseen.

        None for those whose amount no lay has said yet: their cloth is received on the order, when it is bought all the same.
        """
        ticked = self.wants if self.is_bought else [want for want in self.open if want.said != NO_LAY]
        return " ".join(str(pk) for pk in dict.fromkeys(want.order.pk for want in ticked))

    @property
    def numbers(self) -> list[str]:
        """The orders that it is still wanted for, or that have it."""
        return sorted({want.told for want in (self.open or self.wants)})


@dataclass(frozen=True)
class Group:
    key: str
    name: str
    lines: list[Line]

    @property
    def left(self) -> int:
        return sum(not line.is_bought for line in self.lines)


@dataclass(frozen=True)
class MarketList:
    groups: list[Group]
    undrafted: list[Buyer]

    @property
    def left(self) -> int:
        return sum(group.left for group in self.groups)


def in_hand(stages):
    """As a question within another, so that the few open orders are found by their index first."""
    return Order.objects.in_hand().filter(stage__in=stages)


OF_ORDER = ("order_id", "order__number", "order__stage", "order__client__name")


def garments_wanting():
    """By collection, each with its order."""
    held = Garment.objects.filter(order__in=in_hand(WANTS_THINGS)).order_by("order__collect_on", "order__serial", "pk")
    cloths = Cloth.objects.filter(Q(garment=OuterRef("pk")) | Q(garment=None), order=OuterRef("order"), used_for__icontains="shell")
    outside = Subquery(cloths.order_by(F("garment").asc(nulls_last=True)).values("name")[:1])
    return held.annotate(outside=outside).values_list("pk", "materials", "draft_id", "cut_draft_id", "outside", *OF_ORDER)


def cloths_missing():
    """What is not in at all or less than the lay needs; a client brings her own."""
    missing = Q(on_hand_mm__isnull=True) | Q(on_hand_mm=0) | Q(needs_mm__gt=F("on_hand_mm"))
    cloths = Cloth.objects.filter(missing, order__in=in_hand(WANTS_CLOTH), whose=Cloth.Whose.WORKSHOP)
    return cloths.defer("changed_at", "changed_by", "price").order_by("pk")


def pieces_wanting():
    """Spoiled pieces that new cloth of ours is bought for."""
    cloths = Cloth.objects.filter(order=OuterRef("garment__order"), name=OuterRef("cloth"), whose=Cloth.Whose.WORKSHOP)
    held = SpoiledPiece.objects.to_cut_again().filter(how=SpoiledPiece.How.NEW, garment__order__in=in_hand(WANTS_AGAIN))
    held = held.annotate(width=Subquery(cloths.values("width_written")[:1])).filter(width__isnull=False).order_by("pk")
    return held.values_list("pk", "piece", "cloth", "width", "to_buy_mm", *(f"garment__{name}" for name in OF_ORDER))


def lying_free():
    """Our own lengths on the shelf that are free for any order."""
    return ShelfCloth.objects.free().filter(whose=OURS).values_list("name", "length_mm", "width_written").order_by("pk")


_free = RowsAskedOften(lying_free)
_garments = RowsAskedOften(garments_wanting)
_cloths = RowsAskedOften(cloths_missing)
_pieces = RowsAskedOften(pieces_wanting)
_bought = RowsAskedOften(lambda: Bought.objects.filter(order__in=in_hand(WANTS_AGAIN)).values_list("order", "key"))


def market_list(unit: str) -> MarketList:
    of_order: dict[Buyer, list[Drafted]] = defaultdict(list)
    for row in _garments():
        of_order[Buyer._make(row[5:])].append(Drafted._make(row[:5]))
    bought = set(_bought())
    found: dict[str, dict[str, Line]] = defaultdict(dict)
    for order, all_of in of_order.items():
        for garment in all_of:
            put(found, things_wanted(order, garment, bought), unit)
    put(found, cloths_wanted(of_order, bought, unit), unit)
    put(found, cloth_for_pieces(bought, unit), unit)
    tell_what_lies_free(found[CLOTH].values() if CLOTH in found else (), unit)
    groups = [Group(key, name, in_order(found[key].values(), unit)) for key, name in GROUPS.items() if key in found]
    return MarketList(groups, [order for order, all_of in of_order.items() if not all(each.draft_id for each in all_of)])


def things_wanted(order: Buyer, garment: Drafted, bought: set) -> Iterable[tuple[str, str, Want, Thing]]:
    for thing in things_of(garment.materials):
        size = f"{thing.amount / 10:.0f} cm" if thing.is_by_length else f"{thing.amount:.0f} {thing.unit}"
        key = f"{garment.pk} {thing.item} {size}"[:120]
        name = thing.item[:1].upper() + thing.item[1:]
        note = garment.outside if thing.key in MATCHED and garment.outside and not is_usual(garment.outside) else ""
        yield thing.key, name, Want(key, order, name, thing.amount, thing.unit, (order.pk, key) in bought, note), thing


def is_usual(cloth: str) -> bool:
    """Whether it has the name that the book gave it, so that nobody knows its colour yet."""
    return any(cloth == name or cloth.startswith(f"{name}, ") for name, *_ in USUAL_CLOTHS)


def cloths_wanted(of_order: dict[Buyer, list[Drafted]], bought: set, unit: str):
    """What the lay says is short, and what is not in at all."""
    orders = {order.pk: (order, draft_keys(garments)) for order, garments in of_order.items()}
    for cloth in _cloths():
        if cloth.order_id not in orders:
            continue
        order, drafts = orders[cloth.order_id]
        wants, amount = to_buy(cloth, drafts)
        if wants:
            said = print_cloth(amount, unit) if amount else NO_LAY
            key = f"cloth {cloth.pk} {said}"
            name = line_of(cloth.name, cloth.width_written)
            yield CLOTH, name, Want(key, order, name, amount, said, (order.pk, key) in bought), Thing(CLOTH, name, amount, "mm")


def cloth_for_pieces(bought: set, unit: str):
    """New cloth for spoiled pieces that what is left does not hold."""
    for pk, piece, cloth, width, to_buy, *of_order in _pieces():
        order, said = Buyer._make(of_order), print_cloth(to_buy, unit) if to_buy else NO_LAY
        key, name, amount = f"cloth again {pk} {said}", line_of(cloth, width), to_buy or Decimal(0)
        yield CLOTH, name, Want(key, order, name, amount, said, (order.pk, key) in bought, f"{piece} again"), Thing(CLOTH, name, amount, "mm")


def line_of(cloth: str, width: str) -> str:
    return f"{cloth[:1].upper()}{cloth[1:]}, {width} wide"


def tell_what_lies_free(lines: Iterable[Line], unit: str) -> None:
    """Free lengths stand with the line of a cloth of their name: looked at before more is bought."""
    lying = list(_free())
    for line in lines:
        alike = [f"{print_cloth(length, unit)}, {width} wide" for name, length, width in lying if line.name.casefold().startswith(f"{name.casefold()}, ")]
        line.lying = f"Lies free on the shelf: {'; '.join(alike)}" if alike else ""


def to_buy(cloth: Cloth, drafts: list[int]) -> tuple[bool, Decimal]:
    """Whether any is to be bought, and how much, mm: 0 where no lay says it yet."""
    there = cloth.on_hand_mm or Decimal(0)
    if cloth.needs_mm is not None and cloth.is_laid_for(drafts):
        short = cloth.needs_mm - there
        return short > HAIR_MM, max(short, Decimal(0))
    return not cloth.is_in, Decimal(0)


def put(found: dict[str, dict[str, Line]], wanted: Iterable, unit: str) -> None:
    """Things alike on one line: a zip by its length, all else by its name."""
    for group, name, want, thing in wanted:
        name = f"{name}, {thing.shown(unit)}" if group == "zip" else name
        found[group].setdefault(name, Line(name)).wants.append(want)


def in_order(lines: Iterable[Line], unit: str) -> list[Line]:
    """What is still to buy first, by name; each with its total."""
    for line in lines:
        line.total = total_of(line, unit)
    return sorted(lines, key=lambda line: (line.is_bought, line.name))


def total_of(line: Line, unit: str) -> str:
    counted = line.open or line.wants
    if line.name.startswith("Zip"):
        return f"{len(counted)}"
    whole = sum(want.amount for want in counted)
    if not counted[0].is_cloth:
        return Thing("", line.name, whole, counted[0].said).shown(unit)
    unknown = sorted(want.order.number for want in counted if want.said == NO_LAY)
    if len(unknown) == len(counted):
        return NO_LAY
    without = f", without {', '.join(unknown)}: {NO_LAY}" if unknown else ""
    return print_cloth(whole, unit) + without


@transaction.atomic
def tick(*, name: str, orders: str, is_bought: bool, by, unit: str) -> None:
    """Note a line as bought for the orders (their keys) that it was shown for, or as not bought after all. Raises NotNow."""
    shown = set(orders.split())
    line = next((line for group in market_list(unit).groups for line in group.lines if line.name == name), None)
    if line is None:
        raise NotNow("That is not on the list any more: an order was drafted again, or is sewn. Look at the list.")
    for want in line.wants:
        if str(want.order.pk) not in shown or want.is_bought == is_bought or is_bought and want.said == NO_LAY:
            continue
        if is_bought:
            Bought.objects.get_or_create(order_id=want.order.pk, key=want.key, defaults={"by": by})
        else:
            Bought.objects.filter(order=want.order.pk, key=want.key).delete()
