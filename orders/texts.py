"""Ready texts for clients, filled in from the order. Nothing is sent by us: a link opens the phone's own messages."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from urllib.parse import quote

from orders.models import MessageText, Order
from orders.money.instalments import plan_of
from orders.money.rules import PriceRules
from orders.stages import Stage
from workshop.models import Workshop
from workshop.money import print_money
from workshop.templatetags.workshop_tags import clock, weekday

#: What a text may name, and what stands there.
PLACES = {
    "name": "the client’s first name",
    "garment": "the garment",
    "number": "the order’s number",
    "collection": "the day of collection",
    "fitting": "day and time of the next fitting",
    "deposit": "what is missing of the deposit",
    "balance": "what is to pay",
    "instalment": "the instalment that is due next",
    "due": "its day",
    "storage": "what keeping it costs a week",
    "held": "until when the date is held",
    "workshop": "the workshop’s name",
}
PLACE = re.compile(r"\{([^{}]*)\}")


@dataclass(frozen=True)
class Text:
    key: str
    title: str
    text: str


READY = (
    Text("deposit", "Deposit reminder", "Hello {name}, the deposit for your {garment} ({number}) is {deposit}. We hold the date until {held}. {workshop}"),
    Text("fitting", "Fitting tomorrow", "Hello {name}, your fitting is on {fitting}. Bring the shoes and what you will wear beneath. {workshop}"),
    Text("ready", "Ready to collect", "Hello {name}, your {garment} is ready. Collection is on {collection}; {balance} is to pay. {workshop}"),
    Text("uncollected-first", "Not collected yet", "Hello {name}, your {garment} ({number}) has been ready since {collection}; {balance} is to pay. When can you come? {workshop}"),
    Text("uncollected-second", "Not collected: keeping it costs", "Hello {name}, your {garment} ({number}) has been ready since {collection}. By our terms keeping it costs {storage} from now on; {balance} is to pay. When can you come? {workshop}"),
    Text("uncollected-last", "Not collected: last word", "Hello {name}, your {garment} ({number}) has been ready since {collection}; {balance} is to pay. By our terms it may be sold for what is owed. Ring us by return, and it stays yours. {workshop}"),
    Text("instalment", "Instalment due", "Hello {name}, {instalment} of the price of your {garment} ({number}) is to be paid by {due}. {workshop}"),
    Text("balance", "Balance due", "Hello {name}, {balance} is still to pay for your {garment} ({number}). {workshop}"),
)


def all_texts() -> list[Text]:
    own = [Text(f"own-{each.pk}", each.title, each.text) for each in MessageText.objects.all()]
    return [*READY, *own]


def likely(order: Order) -> str:
    """Which ready text is wanted most likely, as the order stands."""
    if order.deposit_missing:
        return "deposit"
    if order.stage == Stage.READY:
        return "ready"
    return "fitting" if any(each.is_to_come for each in order.all_fittings) else "balance"


def unknown_in(text: str) -> list[str]:
    """What a text names in braces that there is nothing for."""
    return [found for found in PLACE.findall(text) if found not in PLACES]


def values_of(order: Order, today: date) -> dict[str, str]:
    """What stands in each place; a plain word where the order does not have it yet, so that nothing is sent half-empty."""
    workshop = Workshop.current()
    coming = next((each for each in order.all_fittings if each.is_to_come and each.day >= today), None)

    part = next((each for each in plan_of(order) if each.left), None)

    def money(amount) -> str:
        return print_money(amount, workshop.currency) if amount is not None else "[write the amount here]"

    return {
        "name": order.client.first_name,
        "garment": order.title.lower(),
        "number": order.number,
        "collection": weekday(order.collect_on) if order.collect_on else "[no day yet]",
        "fitting": f"{weekday(coming.at)}, {clock(coming.at)}" if coming else "[no fitting booked]",
        "deposit": money(order.deposit_missing),
        "balance": money(order.balance),
        "held": weekday(order.held_until) if order.held_until else "[no day]",
        "instalment": money(part.left) if part else "[no instalment]",
        "due": weekday(part.on) if part else "[no day]",
        "storage": f"{money(storage)} a week" if (storage := PriceRules.current().storage) else "extra",
        "workshop": workshop.name,
    }


def filled(text: str, values: Mapping[str, str]) -> str:
    return PLACE.sub(lambda place: values.get(place[1], place[0]), text).replace("\u00a0", " ")


def sms_link(phone: str, text: str) -> str:
    """An address of RFC 5724, which the phone's own messages open."""
    digits = "".join(c for c in phone if c.isdigit() and c.isascii())
    number = f"+{digits}" if phone.strip().startswith("+") else digits
    return f"sms:{number}?body={quote(text, safe='')}"


def mail_link(subject: str, text: str) -> str:
    """An address of RFC 6068; the line ends that it asks for."""
    body = quote(text.replace("\r\n", "\n").replace("\n", "\r\n"), safe="")
    return f"mailto:?subject={quote(subject, safe='')}&body={body}"
