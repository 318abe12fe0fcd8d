"""Before the shears: which pieces are not ticked, and which cloths an apprentice asks about first. Asked, never refused."""

from dataclasses import dataclass
from datetime import date

from django.db import transaction

from orders.models import Change, Garment, Order
from orders.work import cutting
from orders.work.cutting_table import ClothShown, TableShown, shown, table_shown
from workshop.models import Person
from workshop.people import APPRENTICE

FIELD, LABEL = "asked_first", "asked before the cut"


@dataclass(frozen=True)
class Question:
    """What is asked before cutting goes on; false where there is nothing to ask."""

    not_ticked: int
    pieces: int
    cloths: list[ClothShown]  # those that were not asked about yet
    people: list[Person]

    def __bool__(self) -> bool:
        return bool(self.not_ticked or self.cloths)


def before_cutting(order: Order, by: Person, only: int | None = None) -> Question:
    """Before all, or the garment `only`, counts as cut. Where no piece was ticked at all, the room does not tick: none is missing."""
    tables = [table for table in table_shown(order) if table.garment.cut_draft_id is None and only in (None, table.garment.pk)]
    begun = [table for table in tables if table.left < table.count]
    return Question(sum(table.left for table in begun), sum(table.count for table in begun), to_ask(order, by, tables), who_is_asked(by))


def before_piece(garment: Garment, by: Person, key: str) -> Question:
    """Before this piece is ticked: its cloth, where an apprentice cuts it and did not ask yet."""
    if by.role != APPRENTICE:
        return Question(0, 0, [], [])
    cloths = {cloth.name.casefold(): cloth for cloth in garment.order.cloths.all()}
    found = to_ask(garment.order, by, [shown(garment, cloths)])
    return Question(0, 0, [cloth for cloth in found if any(piece.key == key for piece in cloth.pieces)], who_is_asked(by))


def to_ask(order: Order, by: Person, tables: list[TableShown]) -> list[ClothShown]:
    if by.role != APPRENTICE:
        return []
    known = set(Change.objects.filter(order=order, field=FIELD).values_list("thing", flat=True))
    return [cloth for table in tables for cloth in table.cloths if cloth.ask and thing_of(cloth) not in known]


def who_is_asked(by: Person) -> list[Person]:
    return list(Person.objects.filter(is_active=True).exclude(role=APPRENTICE).exclude(pk=by.pk).order_by("display_name"))


def note_asked(order: Order, cloths: list[ClothShown], *, by: Person, whom: str) -> None:
    """The order's history says whom the apprentice asked, or that nobody was; a cloth is asked about once."""
    person = next((each for each in who_is_asked(by) if str(each.pk) == whom), None)
    for cloth in cloths:
        Change.objects.create(order=order, by=by, thing=thing_of(cloth), field=FIELD, label=LABEL, after=str(person or "nobody"))


@transaction.atomic
def cut(*, order: Order, by: Person, today: date, whom: str, only: Garment | None = None) -> None:
    """All, or this garment, is cut; and whom the apprentice asked. Raises NotNow."""
    question = before_cutting(order, by, only.pk if only else None)
    cutting.cut(order=order, by=by, today=today, only=only)
    note_asked(order, question.cloths, by=by, whom=whom)


def thing_of(cloth: ClothShown) -> str:
    return f"cloth {cloth.name}"[:90]
