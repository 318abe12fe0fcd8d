"""The forms of money that changes hands: taken, given back, and an entry that was wrong."""

import uuid
from decimal import Decimal

from django import forms
from django.core.exceptions import ValidationError

from orders.dates.bench_forms import NumberField
from orders.fields import DayField
from orders.models import Payment
from orders.money.payments import Other, printed
from workshop.forms import MoneyField, PlainForm, ReasonField
from workshop.models import Workshop
from workshop.money import CURRENCIES, as_typed

SHARE = "share_"


def left_to_type(amount: Decimal | int) -> str:
    """What is left to pay, as it is typed; nothing where nothing is."""
    return as_typed(amount) if amount and amount > 0 else ""


class PaymentForm(PlainForm):
    kind = forms.ChoiceField(
        label="What for",
        choices=[(k.value, k.label) for k in Payment.Kind if k != Payment.Kind.REFUND],
        widget=forms.RadioSelect,
    )
    amount = MoneyField(label="Amount")
    currency = forms.ChoiceField(label="In", required=False)
    rate = NumberField(
        label="What 1 of it is worth", low="0.00000001", high=999999999, places=8, required=False, max_length=20,
        help_text="Only where it is another currency than the workshop's: today's rate, kept with the payment.",
    )  # fmt: skip
    method = forms.ChoiceField(label="How", choices=Payment.Method.choices, widget=forms.RadioSelect, initial="cash")
    taken_on = DayField(label="Day")
    key = forms.UUIDField(widget=forms.HiddenInput)
    field_order = ["kind", "amount", "currency", "rate", "method", "taken_on", "why", "key"]

    def __init__(self, *args, today, **kwargs):
        super().__init__(*args, **kwargs)
        own = Workshop.current().currency
        self.fields["currency"].choices = [("", f"{CURRENCIES[own].name}, {own}"), *((c.code, f"{c.name}, {c.code}") for c in CURRENCIES.values() if c.code != own)]
        if self.data.get("currency") in CURRENCIES:
            self.fields["amount"].currency = self.data["currency"]
        self.today = today
        self.initial.setdefault("taken_on", today)
        self.initial.setdefault("key", uuid.uuid4())

    def clean_taken_on(self):
        if (day := self.cleaned_data["taken_on"]) > self.today:
            raise ValidationError("That day has not come yet. Write the day on which the money changes hands.")
        return day

    def clean(self):
        """`amount` is what it is worth here; `other`, what changed hands where that was another currency."""
        given = super().clean()
        currency, rate = given.pop("currency", ""), given.pop("rate", None)
        given["other"] = None
        if currency and rate is None and "rate" not in self.errors:
            self.add_error("rate", f"Write what 1 {currency} is worth in {Workshop.current().currency} today.")
        elif currency and rate and given.get("amount") is not None:
            given["other"] = Other(currency, given["amount"], rate)
            given["amount"] = given["other"].worth()
        return given


class SumForm(PaymentForm):
    """One sum for all that somebody pays for: how it is shared may be left open."""

    kind = None
    field_order = ["amount", "currency", "rate", "method", "taken_on", "key"]

    def __init__(self, *args, orders, party: str = "", **kwargs):
        """With a party's key it is for the party's orders, and the others are offered below."""
        super().__init__(*args, **kwargs)
        orders = list(orders)
        self.meant = [order for order in orders if str(order.party_id) == party] or orders
        self.others = [order for order in orders if order not in self.meant]
        self.orders = [*self.meant, *self.others]
        self.initial["amount"] = left_to_type(sum(order.balance for order in self.meant))
        for order in self.orders:
            label = f"{order.client.name}, {order.title.lower()}, {order.number}: {printed(order.balance)} to pay"
            self.fields[SHARE + str(order.pk)] = MoneyField(label=label, required=False)

    def shares(self):
        return [self[SHARE + str(order.pk)] for order in self.meant]

    def shares_of_others(self):
        return [self[SHARE + str(order.pk)] for order in self.others]

    def plain(self):
        return [field for field in self if not field.name.startswith(SHARE)]

    def clean(self):
        """`shares` by the orders' keys: those written, which then come to the whole; with none it is spread over those `among`."""
        given = super().clean()
        named = {order.pk: given.pop(SHARE + str(order.pk), None) for order in self.orders}
        given["shares"] = {pk: amount for pk, amount in named.items() if amount}
        given["among"] = [order.pk for order in self.meant]
        come_to, whole = sum(given["shares"].values(), Decimal(0)), given.get("amount")
        if given["shares"] and whole is not None and come_to != whole and not self.errors:
            rest, way = abs(whole - come_to), "more" if come_to < whole else "less"
            self.add_error(None, f"The parts come to {printed(come_to)}, and {printed(whole)} is handed over: {printed(rest)} {way} makes it even.")
        return given


class RefundForm(PaymentForm):
    kind = None
    why = forms.CharField(label="What for", max_length=200, required=False)


class ReverseForm(PlainForm):
    why = ReasonField(label="What was wrong")


class StrikeSumForm(ReverseForm):
    """Of a sum for several orders, as a whole or this order's part alone."""

    which = forms.ChoiceField(label="Take back", choices=[("all", "the whole sum"), ("part", "only this order’s part")], widget=forms.RadioSelect, initial="all")
    field_order = ["which", "why"]
