"""The forms of a party: what is shared, one more client, who pays."""

from django import forms
from django.core.exceptions import ValidationError
from django.db.models import Q

from clients.models import Client
from orders.agreed.forms import WhoForm
from orders.fields import DayField, DyeLotField, with_unit
from orders.garment.options import kind_choices
from orders.models import Party
from orders.money.rules import deposit_help, usual_deposit
from workshop.forms import LengthField, MoneyField, PlainForm
from workshop.models import Workshop


class PartyForm(PlainForm):
    name = forms.CharField(label="The occasion", max_length=80, help_text="Wedding Achterby, harbour choir.")
    occasion_on = DayField(label="Its day", required=False)
    collect_on = DayField(label="Collection", required=False)
    cut_on = DayField(label="Cutting day", required=False)
    cloth = forms.CharField(label="Cloth for all", max_length=60, required=False)
    width = LengthField(label="Its width", required=False)
    dye_lot = DyeLotField(help_text="Buy enough of one lot before the first cut, and keep some back.")
    payer = forms.ModelChoiceField(label="Who pays", queryset=Client.objects.none(), required=False, empty_label="each for herself or himself")
    payer_named = forms.CharField(
        label="Or somebody else pays", max_length=120, required=False,
        help_text="A parent, by name: as it stands in the book, or it is written into it.",
    )  # fmt: skip
    note = forms.CharField(label="Notes", max_length=1000, required=False, widget=forms.Textarea(attrs={"rows": 3}))

    def __init__(self, *args, party: Party | None = None, **kwargs):
        if party:
            kwargs["initial"] = {name: getattr(party, name) for name in self.base_fields if name not in ("width", "payer_named")} | {"width": party.width_written}
        super().__init__(*args, **kwargs)
        if party:
            known = Q(orders__party=party) | Q(orders_paid__party=party) | Q(parties_paid=party) | Q(pk__in=[each.pk for each in self.alike()])
            self.fields["payer"].queryset = Client.objects.filter(known).distinct()
        else:
            del self.fields["payer"], self.fields["payer_named"]

    def alike(self) -> list[Client]:
        """Those in the book whose name was typed as somebody else's who pays."""
        typed = self.data.get("payer_named", "")[:120].strip()
        return list(Client.objects.named_like(typed)[:5]) if typed else []

    def clean_payer_named(self) -> str:
        typed, alike = self.cleaned_data["payer_named"], self.alike()
        if len(alike) > 1 and self.cleaned_data.get("payer") not in alike:
            raise ValidationError(f"{typed} stands in the book more than once. Choose who it is from the list above.")
        return typed

    def clean(self):
        given = super().clean()
        cut_on, collect_on, occasion_on = (given.get(name) for name in ("cut_on", "collect_on", "occasion_on"))
        if cut_on and collect_on and cut_on > collect_on:
            self.add_error("cut_on", "The cutting day is after collection. Bring it forward.")
        if collect_on and occasion_on and collect_on > occasion_on:
            self.add_error("collect_on", "Collection is after the day of the occasion. Bring it forward.")
        return given

    def values(self) -> dict:
        given = dict(self.cleaned_data)
        width, named = given.pop("width"), given.pop("payer_named", "")
        if named and given["payer"] not in (alike := self.alike()):
            given["payer"] = alike[0] if alike else Client.objects.create(name=named)
        written = with_unit(width.written, Workshop.current().unit) if width else ""
        return given | {"width_written": written, "width_mm": width.mm if width else None}


class JoinForm(WhoForm):
    """One more client of the party."""

    kind = forms.ChoiceField(label="Garment", widget=forms.RadioSelect)
    price = MoneyField(label="Price", required=False)
    deposit = MoneyField(label="Deposit to ask for", required=False)
    pays_own = forms.BooleanField(label="Pays alone, whoever pays for the others", required=False)

    def __init__(self, *args, sets_price: bool, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["kind"].choices = kind_choices()
        self.fields["kind"].initial = kind_choices()[0][0]
        if not sets_price:
            del self.fields["price"], self.fields["deposit"]
        else:
            self.fields["deposit"].help_text = deposit_help()

    def clean(self):
        given = super().clean()
        if given.get("deposit") and given["deposit"] > (given.get("price") or 0):
            self.add_error("deposit", "The deposit is more than the price.")
        return given

    def values(self) -> dict:
        given = self.cleaned_data
        price, deposit = given.get("price"), given.get("deposit")
        if price and deposit is None:
            deposit = usual_deposit(price)
        return {"kind": given["kind"], "price": price, "deposit": deposit, "pays_own": given["pays_own"]}
