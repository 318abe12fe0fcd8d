"""The forms of an order. Each cleans what was typed; the acts decide what may happen."""

from decimal import Decimal

from django import forms
from django.core.exceptions import ValidationError

from drafting.order_keys import CLOTH_FOR
from orders.cloth.fields import PrintAndFlaws, initial_of, names_to_match
from orders.dates.asking import fee_on
from orders.dates.bench import Bench, month_in_words
from orders.fields import ClothLengthField, DayField, not_past, with_unit
from orders.garment.options import kind_choices
from orders.models import Cloth, Order, Payment
from orders.money.price_forms import MoneyOrPercentField, Percent
from orders.money.rules import deposit_help, usual_deposit
from orders.models.cloth import LAYOUTS, USES
from workshop.forms import LengthField, MoneyField, PlainForm, ReasonField
from workshop.models import Workshop
from workshop.money import as_typed, rounded
from workshop.templatetags.workshop_tags import plain_day

ONLY_SELVEDGES_MM = Decimal("25.4")  # half an inch each, as an order file takes them


class PromiseFields(PlainForm):
    """What is promised: the days and, for whoever sets prices, the money."""

    collect_on = DayField(label="Collection", required=False)
    cut_on = DayField(label="Cutting day", required=False)
    price = MoneyField(label="Price", required=False)
    deposit = MoneyField(label="Deposit to ask for", required=False)
    occasion_on = DayField(label="Day of the occasion", required=False)
    note = forms.CharField(
        label="Notes for the sheet",
        required=False,
        max_length=2000,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text="One a line. They are printed on the job sheet.",
    )

    def clean(self):
        given = super().clean()
        booked_on, collect_on = self.booked_on(), given.get("collect_on")
        if collect_on and collect_on < booked_on:
            self.add_error("collect_on", f"That is before the order was booked, {plain_day(booked_on)}.")
        cut_on = given.get("cut_on")
        if cut_on and collect_on and cut_on > collect_on:
            self.add_error("cut_on", "The cutting day is after collection. Bring it forward.")
        if cut_on and cut_on < booked_on:
            self.add_error("cut_on", f"That is before the order was booked, {plain_day(booked_on)}.")
        price, deposit = given.get("price"), given.get("deposit")
        if deposit and price is not None and deposit > price:
            self.add_error("deposit", "The deposit is more than the price.")
        return given

    def refuse_full_month(self, given) -> None:
        """A month that the owner closed takes a collection only if that is said twice."""
        day = given.get("collect_on")
        if day and Bench.current().is_full(day) and not self.data.get("all_the_same"):
            self.is_full = True
            month = month_in_words(day.year, day.month)
            self.add_error("collect_on", f"{month} is full. Choose another month, or tick below that it is promised all the same.")

    def booked_on(self):
        raise NotImplementedError


class AddOrderForm(PromiseFields):
    kind = forms.ChoiceField(label="Garment", widget=forms.RadioSelect)
    urgent = forms.BooleanField(label="Urgent", required=False)
    begin_from = forms.ChoiceField(label="Begin from", required=False)
    field_order = ["kind", "begin_from", "collect_on", "cut_on", "price", "deposit", "urgent", "occasion_on", "note"]

    def __init__(self, *args, today, sets_price: bool, begin_from=(), **kwargs):
        """`begin_from` are the garments that the new one may begin with."""
        super().__init__(*args, **kwargs)
        self.today = today
        self.beginnings = {str(each.garment.pk): each for each in begin_from}
        self.fields["begin_from"].choices = [("", "the house’s usual choices"), *((key, each.label) for key, each in self.beginnings.items())]
        self.fields["begin_from"].help_text = "Its kind, choices and house rules come along. Fit notes of hers that are on go into every draft of hers."
        if not self.beginnings:
            del self.fields["begin_from"]
        self.fields["kind"].choices = kind_choices()
        self.fields["kind"].initial = kind_choices()[0][0]
        percent = Bench.current().urgent_percent.normalize()
        self.fields["urgent"].label = f"Urgent: {percent:f}% more on the price above"
        self.fields["deposit"].help_text = deposit_help()
        if not sets_price:
            del self.fields["price"], self.fields["deposit"]
        if not sets_price or not percent:
            del self.fields["urgent"]

    def clean(self):
        given = super().clean()
        self.refuse_full_month(given)
        return given

    def booked_on(self):
        return self.today

    def values(self) -> dict:
        """The cleaned form as `take_order` wants it: an urgent fee is part of the price."""
        given = dict(self.cleaned_data)
        if begin := self.beginnings.get(given.pop("begin_from", "")):
            given["begin_from"] = begin.garment
        if given.pop("urgent", False) and given.get("price"):
            given["urgent_fee"] = fee_on(given["price"], Bench.current())
            given["price"] += given["urgent_fee"]
        if given.get("price") and given.get("deposit") is None:
            given["deposit"] = usual_deposit(given["price"])
        return given


class PromiseForm(PromiseFields):
    """The same promises, changed later."""

    urgent_fee = MoneyOrPercentField(label="Part of the price that is for urgent work", required=False, help_text="An amount, or a share of the price such as 20%.")
    toile_wanted = forms.BooleanField(label="A toile is fitted before the cloth is cut", required=False)
    field_order = ["collect_on", "cut_on", "toile_wanted", "price", "deposit", "urgent_fee", "occasion_on", "note"]

    def __init__(self, *args, order: Order, sets_price: bool, so_far: dict | None = None, **kwargs):
        """`so_far` is what was typed before the bench was asked, where no script asks it."""
        self.order = order
        super().__init__(*args, initial={name: getattr(order, name) for name in self.base_fields}, **kwargs)
        if order.is_repair:
            del self.fields["cut_on"], self.fields["toile_wanted"]
        for name in ("price", "deposit", "urgent_fee"):
            if not sets_price or order.is_repair:  # the price of a ticket is that of its jobs
                del self.fields[name]
            elif self.initial[name] is not None:
                self.initial[name] = f"{self.initial[name].normalize():f}"
        self.initial |= {name: text for name, text in (so_far or {}).items() if name in self.fields}

    def booked_on(self):
        return self.order.booked_on

    def clean(self):
        given = super().clean()
        fee, price = given.get("urgent_fee"), given.get("price")
        if fee and "price" not in self.errors and fee > (price or 0):
            self.add_error("urgent_fee", "That is more than the price. Write what part of the price it is.")
        if given.get("collect_on") != self.order.collect_on:
            self.refuse_full_month(given)
        return given

    def clean_price(self):
        price, paid = self.cleaned_data["price"], self.order.paid
        if paid > 0 and price is None:
            raise ValidationError("Money is taken for this order already. Leave a price.")
        if price is not None and price < paid:
            text = "More than that is paid already. Give back the difference first, then lower the price."
            raise ValidationError(text)
        return price

    def clean_urgent_fee(self):
        fee, price = self.cleaned_data["urgent_fee"], self.cleaned_data.get("price") or Decimal(0)
        return rounded(price * fee / 100, Workshop.current().currency) if isinstance(fee, Percent) else fee

    def clean_collect_on(self):
        day = self.cleaned_data["collect_on"]
        if day is None and self.order.stage != "asked":
            raise ValidationError("A booked order keeps a collection day. Write one.")
        return day


class CallOffForm(PlainForm):
    why = ReasonField(label="Why")
    kept = MoneyField(label="We keep", help_text="Of what is paid. The rest is given back, as a payment of its own.")
    method = forms.ChoiceField(label="Given back by", choices=Payment.Method.choices, widget=forms.RadioSelect, initial="cash")

    def __init__(self, *args, settles: bool, usual="", **kwargs):
        """`settles`: money is in, and this person decides what goes back."""
        super().__init__(*args, initial={"kept": usual}, **kwargs)
        if not settles:
            del self.fields["kept"], self.fields["method"]


class CopyForm(PlainForm):
    collect_on = DayField(label="Collection", required=False)
    occasion_on = DayField(label="Day of the occasion", required=False)

    def __init__(self, *args, today, **kwargs):
        self.today = today
        super().__init__(*args, **kwargs)

    def clean_urgent_fee(self):
        fee, price = self.cleaned_data["urgent_fee"], self.cleaned_data.get("price") or Decimal(0)
        return rounded(price * fee / 100, Workshop.current().currency) if isinstance(fee, Percent) else fee

    def clean_collect_on(self):
        return not_past(self.cleaned_data["collect_on"], self.today)


class ClothForm(PrintAndFlaws):
    name = forms.CharField(label="Cloth", max_length=60)
    used_for = forms.MultipleChoiceField(
        label="Cut from it", choices=[(use, USES[use]) for use in CLOTH_FOR], widget=forms.CheckboxSelectMultiple
    )
    width = LengthField(label="Width")
    on_hand = ClothLengthField(label="On hand", required=False, help_text="Blank while it is not in.")
    whose = forms.ChoiceField(label="Whose", choices=Cloth.Whose.choices, widget=forms.RadioSelect, initial="workshop")
    price = MoneyField(label="Its price a yard or metre", required=False)
    layout = forms.ChoiceField(
        label="How it is laid", choices=[("", "as usual: folded, or open where it is too narrow"), *LAYOUTS], required=False
    )
    one_way = forms.BooleanField(label="One way: nap, shine or pattern runs one way only", required=False)
    shrink_percent = forms.DecimalField(
        label="Shrinks, %", min_value=0, max_value=30, decimal_places=1, required=False
    )

    garment = forms.ChoiceField(label="For", required=False)

    field_order = ["name", "garment", "used_for", "width", "on_hand", "whose", "price", "layout", "one_way", "shrink_percent"]

    def __init__(self, *args, order: Order, cloth: Cloth | None = None, **kwargs):
        self.order, self.cloth = order, cloth
        if cloth:
            kwargs["initial"] = {
                "name": cloth.name,
                "used_for": cloth.used_for,
                "garment": cloth.garment_id or "",
                "width": cloth.width_written,
                "on_hand": cloth.on_hand_written,
                "whose": cloth.whose,
                "price": as_typed(cloth.price),
                "layout": cloth.layout,
                "one_way": cloth.one_way,
                "shrink_percent": cloth.shrink_percent or None,
                **initial_of(cloth),
            }
        super().__init__(*args, **kwargs)
        garments = order.all_garments
        self.fields["garment"].choices = [("", "all garments of the order"), *((str(each.pk), each.title) for each in garments)]
        if len(garments) < 2:
            del self.fields["garment"]
        self.fields["match"].choices = names_to_match(order, cloth)
        self.fields["motifs"].names = tuple(name for name, _ in self.fields["match"].choices)
        if not self.fields["match"].choices:
            del self.fields["match"]

    def clean(self):
        given = super().clean()
        others = Cloth.everything.select_related("garment").filter(order=self.order).exclude(pk=self.cloth.pk if self.cloth else None)
        for other in others:
            if given.get("name", "").strip() == other.name:
                text = f"“{other.name}” stands on this order already. Give each cloth its own name."
                self.add_error("name", text)
            if other.garment_id != self.of_garment(given) or other.garment and other.garment.put_away_on:
                continue
            for use in set(given.get("used_for", ())) & set(other.used_for):
                text = f"{USES[use].capitalize()}: already cut from {other.name}. Name one cloth for it."
                self.add_error("used_for", text)
        return given

    def of_garment(self, given: dict) -> int | None:
        """The key of the garment that it is for alone; where the order has one garment, what it was stays."""
        if "garment" not in self.fields:
            return self.cloth.garment_id if self.cloth else None
        return int(given["garment"]) if given.get("garment") else None

    def clean_width(self):
        width = self.cleaned_data["width"]
        if width.mm <= ONLY_SELVEDGES_MM:
            text = f"“{width.written}” leaves nothing between the selvedges. Write the width as it is sold."
            raise ValidationError(text)
        return width

    def values(self) -> dict:
        """The cleaned form as the cloth's fields."""
        given = self.cleaned_data
        on_hand = given["on_hand"]
        return {
            "name": given["name"],
            "garment_id": self.of_garment(given),
            "used_for": [use for use in CLOTH_FOR if use in given["used_for"]],
            "width_written": with_unit(given["width"].written, Workshop.current().unit),
            "width_mm": given["width"].mm,
            "on_hand_written": on_hand.written if on_hand else "",
            "on_hand_mm": on_hand.mm if on_hand else None,
            "whose": given["whose"],
            "price": given["price"],
            "layout": given["layout"],
            "one_way": given["one_way"],
            "shrink_percent": given["shrink_percent"] or Decimal(0),
            "prints": self.prints(),
        }
