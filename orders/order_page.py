"""What the order's page shows, made once from the whole order; templates only lay it out."""

from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal

from django.utils import timezone
from django.utils.safestring import SafeString

from orders.beside import Back, Out
from orders.cloth.laying import draft_keys
from orders.cloth.rows import DONE, ClothsShown, cloths_shown
from orders.garment.form import GarmentForm
from orders.garment.shown import GarmentShown, garment_shown
from orders.how_far import DayRow, StageShown, days_shown, stages_shown
from orders.in_hand import eyes_of
from orders.models import Garment
from orders.money.instalments import is_off, plan_of
from orders.next_act import NextAct, collection_words, in_words, next_act
from orders.stages import BEFORE_CUTTING, Stage
from orders.templatetags.tape import drawings
from orders.whole_order import WholeOrder
from orders.work.cutting_day import against_each, not_checked


@dataclass(frozen=True)
class MoneyShown:
    price: Decimal | None
    paid: Decimal
    balance: Decimal | None
    payments: list
    share_paid: str  # of the bar's width, as an SVG attribute
    instalments: list = field(default_factory=list)  # each with whether it is late
    instalments_off: bool = False
    kept: Decimal = Decimal(0)  # of an order called off: what of its payments stays, or is here until the owner says
    is_called_off: bool = False


@dataclass(frozen=True)
class OrderPage:
    order: object
    next: NextAct | None
    next_words: str
    collection: str
    tape: SafeString
    garments: list[GarmentShown]
    fittings: list
    cloths: ClothsShown
    money: MoneyShown | None
    stages: list[StageShown]
    days: list[DayRow]
    days_late: int
    put_away: list[Garment]
    out_work: list[tuple[Out, bool]]  # each with whether it is late
    came_back: list[Back]
    may_let_go: bool  # the owner may hand it over with a balance due

    @property
    def against(self) -> list[str]:
        """What of its cloths speaks against signing it off, said beside the button; it never holds it up. Of several garments, all of each."""
        if self.has_several:
            return [f"{shown.garment.title}: {', '.join(shown.against)}" for shown in self.garments if shown.may_be_signed_off and shown.against]
        amiss = [f"{row.cloth.name} {row.flag}" for row in self.cloths.rows if row.kind != DONE]
        return [*amiss, *not_checked(self.order.unchecked)]

    @property
    def may_change_jobs(self) -> bool:
        return self.order.stage in (Stage.BROUGHT_IN, Stage.IN_WORK)

    @property
    def has_several(self) -> bool:
        return len(self.garments) > 1

    @property
    def cuts_each(self) -> bool:
        """Whether each garment has a sign-off and a cut of its own."""
        return self.has_several and self.order.stage in BEFORE_CUTTING[1:]

    @property
    def has_draft(self) -> bool:
        return any(shown.draft for shown in self.garments)

    @property
    def is_stopped(self) -> bool:
        """True when a note on the page asks for a decision first: its button is then the page's one ink button."""
        return any(shown.may_change and (shown.newer or shown.behind) for shown in self.garments)

    @property
    def is_refused(self) -> bool:
        """True when a form was sent and not accepted, or no draft could be made."""
        return any(shown.refused or shown.form and shown.form.errors for shown in self.garments)


def order_page(whole: WholeOrder, today: date, person, *, form: GarmentForm | None = None, refused=()) -> OrderPage:
    """`form` is a garment's form that was sent and not accepted; `refused` says why its draft could not be made."""
    order = whole.order
    money = money_shown(whole) if person.may("see_money") else None
    act = next_act(
        order,
        measured=whole.newest is not None,
        paid_in_full=money is None or money.balance is not None and money.balance <= 0,
    )
    asks = len(whole.garments) > 1 and order.stage in BEFORE_CUTTING[1:] and person.may("sign_off")
    against = against_each(whole, today, eyes_of(person)) if asks else {}
    return OrderPage(
        order=order,
        next=act if act and person.may(act.needs) else None,
        next_words=in_words(order, today, sees_money=money is not None, rings="" if person.may("see_phone") else order.owner_name) if order.is_open else "",
        collection=collection_words(order, today),
        tape=drawings(order, today)[0],
        garments=[garment_shown(each, whole, person, form, refused, against.get(each.pk, [])) for each in whole.garments],
        fittings=whole.fittings,
        cloths=cloths_shown(order, whole.cloths, draft_keys(whole.garments)),
        money=money,
        stages=stages_shown(order),
        days=days_shown(order, today),
        days_late=order.days_late(today),
        put_away=whole.put_away,
        out_work=[(out, out.is_late(today)) for out in whole.out_work],
        came_back=whole.came_back,
        may_let_go=bool(order.stage == Stage.READY and money and money.balance > 0 and person.may("refund")),
    )


def money_shown(whole: WholeOrder) -> MoneyShown:
    order = whole.order
    share = min(order.paid / order.price, 1) if order.price else Decimal(0)
    today = timezone.localdate()
    parts = [(each, each.is_late(today)) for each in plan_of(order)]
    is_called_off = order.stage == Stage.CALLED_OFF
    return MoneyShown(
        order.price, order.paid, order.balance, whole.payments, f"{share * 100:.1f}%",
        instalments=[] if is_called_off else parts, instalments_off=is_off(order),
        kept=order.paid if order.kept is None else order.kept, is_called_off=is_called_off,
    )  # fmt: skip
